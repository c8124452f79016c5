#include "plan/rest.hpp"

#include <algorithm>
#include <cmath>

#include "base/number_text.hpp"
#include "cuts/grammar.hpp"
#include "cuts/words.hpp"
#include "plan/levels.hpp"
#include "plan/work.hpp"

namespace portwright::plan {
namespace {

using cuts::Act;
using geometry::Engine;

/// Amounts that add up from cut to cut; the others bring something to a size, once.
bool adds_up(Act act) {
  switch (act) {
    case Act::base:
    case Act::band:
    case Act::crown_edge:
    case Act::dome:
    case Act::roof:
    case Act::floor:
    case Act::widen:
    case Act::skirt:
    case Act::case_volume:
    case Act::stuff:
    case Act::advance:
      return true;
    default:
      return false;
  }
}

double sum_of(const cuts::CutList& list, const cuts::Cut& place) {
  double out = 0.0;
  for (const cuts::Cut& cut : list)
    if (same_place(cut, place)) out += cut.amount;
  return out;
}

bool has_place(const cuts::CutList& list, const cuts::Cut& place) {
  return std::any_of(list.begin(), list.end(), [&](const cuts::Cut& cut) { return same_place(cut, place); });
}

class Leaver {
 public:
  Leaver(const cuts::CutList& list, const geometry::Survey& survey, const Settings& settings)
      : list_(list), survey_(survey), settings_(settings), stock_(geometry::resolve(survey)) {}

  Rest leave() {
    if (settings_.done.empty()) return {list_, {}};
    for (const cuts::Cut& cut : list_) {
      if (!has_place(settings_.done, cut)) {
        rest_.cuts.push_back(cut);
      } else if (adds_up(cut.act) && !has_place(seen_, cut)) {
        take_off(cut);
      }
      seen_.push_back(cut);
    }
    by_edge();
    return std::move(rest_);
  }

 private:
  [[nodiscard]] int timed_entry(const cuts::Cut& cut) const { return timed_by(cut, survey_); }

  [[nodiscard]] Engine after(const cuts::CutList& list) const {
    Engine out = stock_;
    if (const auto ready = cuts::prepare(list, survey_, settings_.folder)) cuts::apply(**ready, out);
    return out;
  }

  /// Half a band of an amount [m]; an edge's is an angle and looked at elsewhere.
  [[nodiscard]] double band_of(const cuts::Cut& cut) const {
    if (!settings_.bands) return no_band;
    switch (cut.act) {
      case Act::base:
      case Act::band:
      case Act::crown_edge:
        return settings_.bands->squish;
      case Act::dome:
        return 2.0 * settings_.bands->squish;
      case Act::widen:
        return cut.side.empty() ? 0.5 * settings_.bands->width : settings_.bands->width;
      case Act::roof:
      case Act::floor:
      case Act::skirt:
        return settings_.bands->width;
      default:
        return no_band;
    }
  }

  /// What is left of an amount that is partly done; an edge that times is brought to its place afterwards.
  void take_off(const cuts::Cut& cut) {
    const double whole = sum_of(list_, cut);
    const double left = whole - sum_of(settings_.done, cut);
    const bool timed = timed_entry(cut) >= 0;
    if (!timed && std::abs(left) <= band_of(cut)) {
      if (std::abs(left) > no_band) tell(cut, left, whole, true);
      return;
    }
    if (!timed && left * whole < 0.0) return tell(cut, left, whole, false);
    rest_.cuts.push_back(with_amount(cut, left));
  }

  void tell(const cuts::Cut& cut, double left, double whole, bool near) {
    std::string text = cuts::shown(cuts::cut_text(with_amount(cut, whole))) + " came to " +
                       base::number_text(1e3 * std::abs(left), 2) + " mm " + (left * whole < 0.0 ? "more" : "less");
    rest_.told.push_back(text + (near ? ": within the band, leave it" : ": past it, and no metal is put on"));
  }

  static cuts::Cut with_amount(const cuts::Cut& cut, double amount) {
    cuts::Cut out = cut;
    const bool angle = cut.act == Act::advance, volume = cut.act == Act::case_volume || cut.act == Act::stuff;
    out.amount = cuts::canonical_amount(amount, angle    ? base::Dimension::angle
                                                : volume ? base::Dimension::volume
                                                         : base::Dimension::length);
    out.text = cuts::cut_text(out);
    return out;
  }

  /// Brings each timed edge that is still to be cut where the whole list would have it.
  void by_edge() {
    const Engine planned = after(list_);
    const Levels wanted = levels_of(planned);
    for (std::size_t k = 0; k < rest_.cuts.size();) {
      const int entry = timed_entry(rest_.cuts[k]);
      const std::size_t at = level::passed + static_cast<std::size_t>(std::max(entry, 0));
      const bool first = std::none_of(rest_.cuts.begin(), rest_.cuts.begin() + static_cast<std::ptrdiff_t>(k),
                                      [&](const cuts::Cut& other) { return same_place(other, rest_.cuts[k]); });
      if (entry < 0 || !wanted[at] || !first || !bring(k, at, *wanted[at], planned, entry)) ++k;
    }
  }

  /// @return whether the cut was taken out of the list
  bool bring(std::size_t k, std::size_t at, double wanted, const Engine& planned, int entry) {
    const cuts::Cut listed = rest_.cuts[k];
    const double sign = listed.act == Act::roof ? 1.0 : -1.0;
    const auto with = [&](double amount) {
      cuts::CutList out = settings_.done;
      for (std::size_t i = 0; i < rest_.cuts.size(); ++i)
        out.push_back(i == k ? with_amount(listed, sign * amount) : rest_.cuts[i]);
      return after(out);
    };
    const double none = levels_of(with(0.0))[at].value_or(wanted);
    const double some = levels_of(with(trial))[at].value_or(wanted);
    if (none == some) return false;
    const double amount = trial * (wanted - none) / (some - none);
    const double whole = sum_of(list_, listed);
    const auto opens = [&](const Engine& engine) {
      return geometry::timing(engine, engine.ports[static_cast<std::size_t>(entry)]).opens.value_or(0.0);
    };
    const bool begun = has_place(settings_.done, listed);
    const bool near =
        begun && settings_.bands && std::abs(opens(with(0.0)) - opens(planned)) <= settings_.bands->edge + 1e-12;
    if (near || amount < no_band) {
      const bool moved = std::abs(amount) > no_band;
      if (begun && moved) tell(listed, sign * amount, whole, near);
      if (!begun) rest_.told.push_back(cuts::shown(listed.text) + " is not needed any more: its edge stands there");
      rest_.cuts.erase(rest_.cuts.begin() + static_cast<std::ptrdiff_t>(k));
      return true;
    }
    // An edge that nothing else moved keeps its cut as typed.
    if (std::abs(sign * amount - listed.amount) > no_band) rest_.cuts[k] = with_amount(listed, sign * amount);
    return false;
  }

  static constexpr double no_band = 1e-7;  // [m]: below this nothing is left
  static constexpr double trial = 0.1e-3;  // [m]

  const cuts::CutList& list_;
  const geometry::Survey& survey_;
  const Settings& settings_;
  Engine stock_;
  cuts::CutList seen_;
  Rest rest_;
};

}  // namespace

bool same_place(const cuts::Cut& a, const cuts::Cut& b) {
  const auto act = [](const cuts::Cut& cut) { return cut.act == Act::gasket_out ? Act::gasket_to : cut.act; };
  return act(a) == act(b) && a.port == b.port && a.side == b.side && a.part == b.part;
}

bool is_done(const cuts::CutList& list, std::size_t k, const cuts::CutList& done) {
  const auto until = list.begin() + static_cast<std::ptrdiff_t>(k) + 1;
  return std::count(list.begin(), until, list[k]) <= std::count(done.begin(), done.end(), list[k]);
}

int timed_by(const cuts::Cut& cut, const geometry::Survey& survey) {
  const bool skirt = cut.act == Act::skirt && cut.side == "intake";
  for (std::size_t i = 0; skirt && i < survey.ports.size(); ++i)
    if (survey.ports[i].kind == geometry::PortKind::intake) return static_cast<int>(i);
  if (cut.act != Act::roof && cut.act != Act::floor) return -1;
  const int entry = survey.find_port(cut.port);
  if (entry < 0) return -1;
  const auto opened = geometry::opened_by(survey.ports[static_cast<std::size_t>(entry)].kind);
  return (cut.act == Act::roof) == (opened == geometry::OpenedBy::crown) ? entry : -1;
}

Rest rest_of(const cuts::CutList& list, const geometry::Survey& survey, const Settings& settings) {
  return Leaver(list, survey, settings).leave();
}

}  // namespace portwright::plan
