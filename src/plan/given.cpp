#include "plan/given.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "cuts/grammar.hpp"
#include "plan/limits.hpp"
#include "plan/order.hpp"
#include "plan/refusal.hpp"
#include "plan/rest.hpp"

namespace portwright::plan {
namespace {

using cuts::Act;
using geometry::Engine;
using geometry::Survey;

/// Place in the order of the work; cuts of one place keep their order. A list with parts of another file, welds or
/// sleeves has none: there the order says what is cut from what.
int rank_of(const cuts::Cut& cut, const Survey& survey) {
  const int entry = survey.find_port(cut.port);
  const auto kind = entry < 0 ? geometry::PortKind::exhaust : survey.ports[static_cast<std::size_t>(entry)].kind;
  const bool transfer = kind == geometry::PortKind::transfer || kind == geometry::PortKind::boost;
  switch (cut.act) {
    case Act::gasket_out:
    case Act::gasket_to:
      return -3;
    case Act::base:
      return -2;
    case Act::band:
      return -1;
    case Act::crown_edge:
      return 0;
    case Act::dome:
      return 1;
    case Act::widen:
      return 2;
    case Act::roof:
    case Act::floor:
    case Act::corner:
      return transfer ? 5 : kind == geometry::PortKind::exhaust ? 3 : 4;
    case Act::skirt:
      return 4;
    default:
      return 6;
  }
}

bool has_an_order(const cuts::CutList& list) {
  return std::none_of(list.begin(), list.end(), [](const cuts::Cut& cut) {
    return cut.act == Act::swap || cut.act == Act::weld || cut.act == Act::sleeve || cut.act == Act::outline;
  });
}

bool by_length(Act act) {
  return act == Act::base || act == Act::band || act == Act::crown_edge || act == Act::dome || act == Act::roof ||
         act == Act::floor || act == Act::widen || act == Act::skirt;
}

class Given {
 public:
  Given(const cuts::CutList& list, const Survey& survey, const Settings& settings)
      : list_(list), survey_(survey), settings_(settings), stock_(geometry::resolve(survey)) {}

  base::ResultAll<Way> make() {
    if (list_.empty())
      return tl::unexpected(base::Errors{{base::ErrorCode::unreadable, "No cut is listed.", "cuts", "", {}}});
    for (const cuts::CutList* list : {&list_, &settings_.done})
      if (const auto ready = cuts::prepare(*list, survey_, settings_.folder); !ready)
        return tl::unexpected(ready.error());
    base::Errors wrong = against_their_kind(settings_.done);
    for (base::Error& one : against_their_kind(list_, "cuts", "is listed as a cut")) wrong.push_back(std::move(one));
    if (!wrong.empty()) return tl::unexpected(std::move(wrong));
    Rest rest = rest_of(list_, survey_, settings_);
    way_.left_alone = std::move(rest.told);
    way_.exact = settings_.done;
    way_.exact.insert(way_.exact.end(), rest.cuts.begin(), rest.cuts.end());
    stock_limits_ = limits_after({});
    way_.exact = in_order(way_.exact);
    const auto exact = prepared(way_.exact);
    if (!exact) return tl::unexpected(exact.error());
    if (base::Errors passed = refusals(**exact); !passed.empty()) return tl::unexpected(std::move(passed));
    if (base::Errors broken = newly_impossible(**exact, survey_, stock_); !broken.empty())
      return tl::unexpected(std::move(broken));
    way_.metal_exact = cuts::account(way_.exact, survey_, stock_, settings_.folder).metal;
    round();
    return std::move(way_);
  }

 private:
  [[nodiscard]] base::ResultAll<std::shared_ptr<const cuts::Prepared>> prepared(const cuts::CutList& list) const {
    return cuts::prepare(list, survey_, settings_.folder);
  }

  [[nodiscard]] std::vector<study::HardLimit> limits_after(const cuts::CutList& list, double share = 1.0) const {
    const auto ready = prepared(list);
    const std::array<const cuts::Prepared*, 1> one{list.empty() || !ready ? nullptr : ready->get()};
    return study::hard_limits(survey_, one, settings_.study, share * settings_.chance).front();
  }

  [[nodiscard]] Levels reached(const cuts::CutList& list) const {
    Engine engine = stock_;
    if (const auto ready = prepared(list)) cuts::apply(**ready, engine);
    return levels_of(engine);
  }

  /// The order of the work, and such that no squish between steps passes its limit.
  [[nodiscard]] cuts::CutList in_order(cuts::CutList list) const {
    if (!has_an_order(list)) return list;
    const auto rest = list.begin() + static_cast<std::ptrdiff_t>(settings_.done.size());
    std::stable_sort(rest, list.end(),
                     [&](const cuts::Cut& a, const cuts::Cut& b) { return rank_of(a, survey_) < rank_of(b, survey_); });
    // As for a plan, the limit with the gasket that is chosen: one that comes out leaves its reading's error.
    cuts::CutList start;
    for (const cuts::Cut& cut : list)
      if (cut.act == Act::gasket_out || cut.act == Act::gasket_to) start.push_back(cut);
    if (start.empty()) start = settings_.done;
    const auto limits = limits_after(start, aimed_share_of_chance);
    for (const Bound& bound : bounds_of(limits, survey_, Frame(stock_), reached(start)))
      if (bound.level == level::squish_least)
        return in_safe_order(list, settings_.done, bound.value,
                             [&](const cuts::CutList& so_far) { return reached(so_far)[level::squish_least]; });
    return list;
  }

  /// Every limit that the list passes, once.
  [[nodiscard]] base::Errors refusals(const cuts::Prepared& exact) {
    way_.limits = limits_after(way_.exact);
    base::Errors out;
    for (const study::HardLimit& limit : way_.limits) {
      if (worst_passed({limit}, settings_.chance) == nullptr) continue;
      const bool already = std::any_of(stock_limits_.begin(), stock_limits_.end(), [&](const study::HardLimit& stock) {
        return stock.figure == limit.figure && stock.rule == limit.rule &&
               worst_passed({stock}, settings_.chance) != nullptr;
      });
      base::Error error{base::ErrorCode::impossible, {}, limit.figure, limit.fix, {}};
      error.message = "These cuts are not offered. " + passed_text(limit, settings_) +
                      (already ? "; the saw as it is passes this limit already" : "");
      if (limit.margin() >= 0.0) {
        error.readings = readings_first(survey_, &exact, limit.figure, settings_);
        error.hint = "The readings are too poor to tell. Read first, or more often: what is named below.";
      }
      out.push_back(std::move(error));
    }
    return out;
  }

  /// Lengths of what is not done to the nearest whole step, where that holds every limit.
  void round() {
    way_.cuts = way_.exact;
    if (settings_.step > 0.0) {
      for (std::size_t k = settings_.done.size(); k < way_.cuts.size(); ++k) round(way_.cuts[k]);
      std::vector<study::HardLimit> limits = limits_after(way_.cuts);
      const auto ready = prepared(way_.cuts);
      if (worst_passed(limits, settings_.chance) != nullptr || !ready ||
          !newly_impossible(**ready, survey_, stock_).empty()) {
        way_.cuts = way_.exact;
        way_.warnings.emplace_back("no rounding of it holds every limit: it stands as listed");
      } else {
        way_.limits = std::move(limits);
      }
    }
    fill_cost(way_, survey_, stock_, settings_);
  }

  void round(cuts::Cut& cut) const {
    const double steps = std::round(std::abs(cut.amount) / settings_.step);
    if (!by_length(cut.act) || steps < 1.0) return;
    cut.amount = cuts::canonical_amount(std::copysign(steps * settings_.step, cut.amount), base::Dimension::length);
    cut.text = cuts::cut_text(cut);
  }

  const cuts::CutList& list_;
  const Survey& survey_;
  const Settings& settings_;
  Engine stock_;
  std::vector<study::HardLimit> stock_limits_;
  Way way_;
};

}  // namespace

void fill_cost(Way& way, const Survey& survey, const Engine& stock, const Settings& settings) {
  cuts::Account account = cuts::account(way.cuts, survey, stock, settings.folder);
  way.metal = account.metal;
  way.warnings.insert(way.warnings.begin(), account.warnings.begin(), account.warnings.end());
  const auto has = [&](Act act) {
    return std::any_of(way.cuts.begin(), way.cuts.end(), [&](const cuts::Cut& cut) { return cut.act == act; });
  };
  if (has(Act::gasket_out))
    way.warnings.emplace_back(
        "sealant in the gasket's place takes some of the drop back, about 0.03 mm (memory): solder again before any "
        "port is cut");
  if ((has(Act::gasket_out) || has(Act::base)) && !stock.spigot_clearance)
    way.warnings.emplace_back(
        "the cylinder comes down, and the spigot's clearance was not read: look before it is cut");
  way.reversible = std::all_of(way.cuts.begin(), way.cuts.end(), [](const cuts::Cut& cut) {
    return cut.act == Act::gasket_out || cut.act == Act::gasket_to;
  });
}

const study::HardLimit* worst_passed(const std::vector<study::HardLimit>& limits, double chance) {
  const study::HardLimit* out = nullptr;
  for (const study::HardLimit& limit : limits) {
    const bool passes = limit.margin() < -1e-9 || limit.chance > chance + 1e-12;
    if (passes && (out == nullptr || limit.chance > out->chance)) out = &limit;
  }
  return out;
}

base::Errors newly_impossible(const cuts::Prepared& list, const Survey& survey, const Engine& stock) {
  const base::Errors before = geometry::impossibilities(survey, stock);
  Engine engine = stock;
  cuts::apply(list, engine);
  base::Errors out = geometry::impossibilities(survey, engine);
  std::erase_if(out, [&](const base::Error& e) { return std::find(before.begin(), before.end(), e) != before.end(); });
  return out;
}

base::ResultAll<Way> way_of(const cuts::CutList& list, const Survey& survey, const Settings& settings) {
  return Given(list, survey, settings).make();
}

}  // namespace portwright::plan
