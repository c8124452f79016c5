#include "plan/ground.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "base/number_text.hpp"
#include "plan/goals.hpp"
#include "plan/levels.hpp"
#include "plan/limits.hpp"
#include "plan/moves.hpp"
#include "plan/refusal.hpp"
#include "plan/rounding.hpp"

namespace portwright::plan {

using geometry::Engine;

struct Ground::Inside {
  Inside(const geometry::Survey& s, const Settings& with, std::vector<Knob> free)
      : survey(s),
        settings(with),
        stock(geometry::resolve(s)),
        frame(stock),
        knobs(std::move(free)),
        start(levels_of(stock)),
        broken(geometry::impossibilities(s, stock)) {}

  const geometry::Survey& survey;
  Settings settings;
  Engine stock;
  Frame frame;
  std::vector<Knob> knobs;
  Levels start;
  base::Errors broken;         ///< what the saw as read cannot be already
  std::vector<Levels> effect;  ///< of each knob, for all of its greatest amount
  std::vector<Goal> goals;     ///< one-sided first
  std::size_t no_less = 0;
  std::vector<Side> sides;
  std::vector<std::string> kept;

  [[nodiscard]] std::shared_ptr<const cuts::Prepared> prepared(const cuts::CutList& list) const {
    auto out = cuts::prepare(list, survey, settings.folder);
    return out ? *std::move(out) : nullptr;
  }

  [[nodiscard]] cuts::CutList cuts(std::span<const double> shares) const {
    std::vector<double> amounts(knobs.size());
    for (std::size_t k = 0; k < knobs.size(); ++k) amounts[k] = shares[k] * knobs[k].most;
    return cuts_of(knobs, amounts);
  }

  [[nodiscard]] Levels levels(std::span<const double> shares) const {
    Levels out = start;
    for (std::size_t k = 0; k < knobs.size(); ++k)
      if (shares[k] != 0.0)
        for (std::size_t i = 0; i < level::count; ++i) out[i] += effect[k][i] * Known(shares[k]);
    return out;
  }

  /// What each knob does to the levels, read from one trial of it: nothing here knows how a cut couples.
  void read_effects() {
    constexpr double trial = 0.05;  // share of its greatest
    for (std::size_t k = 0; k < knobs.size(); ++k) {
      effect.emplace_back();
      const auto ready = prepared(knobs[k].cuts(trial * knobs[k].most));
      if (!ready) continue;
      Engine engine = stock;
      cuts::apply(*ready, engine);
      const Levels after = levels_of(engine);
      for (std::size_t i = 0; i < level::count; ++i) {
        const double by = start[i] && after[i] ? (*after[i] - *start[i]) / trial : 0.0;
        effect[k][i] = std::abs(by) < 1e-12 ? 0.0 : by;
      }
    }
  }

  /// A level's bound as a side. @param usual  what is far of it [m]
  void add_side(std::size_t at, bool at_most, double value, double usual, const std::string& rule) {
    if (!start[at]) return;
    const double sign = at_most ? -1.0 : 1.0;
    Side side{std::vector<double>(knobs.size(), 0.0), sign * (*start[at] - value) / usual, rule};
    bool moves = false;
    for (std::size_t k = 0; k < knobs.size(); ++k) {
      side.slope[k] = sign * effect[k][at].value_or(0.0) / usual;
      moves = moves || side.slope[k] < 0.0;
    }
    // A limit that the saw passes as it is may not be passed by more.
    if (side.offset < 0.0) side.offset = 0.0;
    if (moves) sides.push_back(std::move(side));
  }

  void add_sides() {
    constexpr double usual = 1e-3;
    const auto limits = study::hard_limits(survey, std::array<const cuts::Prepared*, 1>{nullptr}, settings.study,
                                           aimed_share_of_chance * settings.chance);
    for (const Bound& bound : bounds_of(limits.front(), survey, frame, start))
      add_side(bound.level, bound.at_most, bound.value, usual, bound.rule);
    const auto wished = [&](bool of_intake) {
      return std::any_of(goals.begin(), goals.end(), [&](const Goal& goal) {
        return goal.aspect == Aspect::skirt_cover && goal.of_intake == of_intake;
      });
    };
    // What the skirt covers at TDC is the first thing that a cylinder brought down takes away.
    constexpr double least_cover = 1e-3;  // the row skirt_cover of data/limits
    if (start[level::skirt_exhaust] && !wished(false)) {
      add_side(level::skirt_exhaust, false, least_cover, usual, "skirt_cover");
      kept.emplace_back("The skirt goes on covering the exhaust floor at TDC by 1 mm, or by what it does now");
    }
    if (start[level::skirt_intake] && !wished(true))
      add_side(level::skirt_intake, false, 0.0, usual, "skirt_lap_intake");
    // A window's roof stays under the crown's place at TDC, and a transfer opens after the exhaust.
    for (std::size_t p = 0; p < frame.ports; ++p)
      if (geometry::opened_by(frame.kinds[p]) == geometry::OpenedBy::crown)
        add_side(level::passed + p, false, 2e-3, usual, "roof");
    for (std::size_t e = 0; e < frame.ports; ++e)
      for (std::size_t t = 0; t < frame.ports; ++t) add_order(e, t);
  }

  /// A transfer window opens no earlier than an exhaust window.
  void add_order(std::size_t exhaust, std::size_t transfer) {
    using geometry::PortKind;
    const bool is_pair = frame.kinds[exhaust] == PortKind::exhaust &&
                         (frame.kinds[transfer] == PortKind::transfer || frame.kinds[transfer] == PortKind::boost);
    const Known first = start[level::passed + exhaust], then = start[level::passed + transfer];
    if (!is_pair || !first || !then) return;
    Side side{std::vector<double>(knobs.size(), 0.0), std::max(0.0, 1e3 * (*then - *first)), "blowdown"};
    for (std::size_t k = 0; k < knobs.size(); ++k)
      side.slope[k] =
          1e3 * (effect[k][level::passed + transfer].value_or(0.0) - effect[k][level::passed + exhaust].value_or(0.0));
    if (std::any_of(side.slope.begin(), side.slope.end(), [](double s) { return s < 0.0; }))
      sides.push_back(std::move(side));
  }

  base::Errors take(const Wishes& wishes) {
    if (wishes.empty()) return {};
    auto found = goals_of(wishes, survey, stock);
    if (!found) return found.error();
    std::stable_partition(found->begin(), found->end(), [](const Goal& goal) { return goal.relation != Relation::is; });
    goals = *std::move(found);
    for (const Goal& goal : goals) no_less += goal.relation != Relation::is ? 1 : 0;
    return {};
  }

  [[nodiscard]] bool inside(std::span<const double> shares, double slack) const {
    for (const Side& side : sides) {
      double sum = side.offset;
      for (std::size_t k = 0; k < knobs.size(); ++k) sum += side.slope[k] * shares[k];
      if (sum < -slack) return false;
    }
    const Levels there = levels(shares);
    return std::none_of(goals.begin(), goals.begin() + static_cast<std::ptrdiff_t>(no_less), [&](const Goal& goal) {
      return !(std::abs(goal.missed(goal.shown(frame, there))) <= slack + goal.within);
    });
  }
};

Ground::Ground(std::unique_ptr<Inside> inside) : inside_(std::move(inside)) {}
Ground::Ground(Ground&&) noexcept = default;
Ground::~Ground() = default;

base::ResultAll<Ground> Ground::make(const Wishes& wishes, std::vector<Knob> knobs, const geometry::Survey& survey,
                                     const Settings& settings) {
  auto inside = std::make_unique<Inside>(survey, settings, std::move(knobs));
  inside->read_effects();
  if (base::Errors wrong = inside->take(wishes); !wrong.empty()) return tl::unexpected(std::move(wrong));
  inside->add_sides();
  return Ground(std::move(inside));
}

const std::vector<Knob>& Ground::knobs() const { return inside_->knobs; }
const Engine& Ground::stock() const { return inside_->stock; }
const std::vector<Ground::Side>& Ground::sides() const { return inside_->sides; }
std::size_t Ground::no_less() const { return inside_->no_less; }
std::size_t Ground::equal() const { return inside_->goals.size() - inside_->no_less; }
const std::vector<std::string>& Ground::kept() const { return inside_->kept; }
cuts::CutList Ground::cuts(std::span<const double> shares) const { return inside_->cuts(shares); }

void Ground::curved(std::span<const double> shares, std::span<double> out) const {
  const Levels there = inside_->levels(shares);
  for (std::size_t g = 0; g < inside_->goals.size(); ++g) {
    const Goal& goal = inside_->goals[g];
    const double off = goal.shown(inside_->frame, there) - goal.shown_target();
    const double by = off / (10.0 * usual_miss(goal));
    out[g] = !std::isfinite(by) ? -10.0 : goal.relation == Relation::at_most ? -by : by;
  }
}

std::optional<Engine> Ground::engine(std::span<const double> shares) const {
  const auto ready = inside_->prepared(inside_->cuts(shares));
  if (!ready) return std::nullopt;
  Engine out = inside_->stock;
  cuts::apply(*ready, out);
  base::Errors wrong = geometry::impossibilities(inside_->survey, out);
  std::erase_if(wrong, [&](const base::Error& e) {
    return std::find(inside_->broken.begin(), inside_->broken.end(), e) != inside_->broken.end();
  });
  if (!wrong.empty()) return std::nullopt;
  return out;
}

std::vector<double> Ground::rounded(std::span<const double> shares, double step) const {
  std::vector<double> best(shares.begin(), shares.end());
  if (!(step > 0.0)) return best;
  std::vector<std::size_t> lengths;
  std::vector<double> low(best.size());
  for (std::size_t k = 0; k < best.size(); ++k) {
    if (!inside_->knobs[k].is_length()) continue;
    lengths.push_back(k);
    low[k] = std::floor(best[k] * inside_->knobs[k].most / step + 1e-9);
  }
  // Each up or down: of those that hold, the nearest.
  double nearest = 1e300;
  std::vector<double> out = best;
  for (unsigned bits = 0; bits < (1U << std::min<std::size_t>(lengths.size(), 12)); ++bits) {
    std::vector<double> trial(shares.begin(), shares.end());
    double off = 0.0;
    for (std::size_t i = 0; i < lengths.size(); ++i) {
      const std::size_t k = lengths[i];
      trial[k] = (low[k] + ((bits >> i) & 1U)) * step / inside_->knobs[k].most;
      off += std::pow((trial[k] - shares[k]) * inside_->knobs[k].most / step, 2);
    }
    if (off < nearest && inside_->inside(trial, 1e-9)) {
      nearest = off;
      out = trial;
    }
  }
  return out;
}

std::vector<std::string> Ground::refused(std::span<const std::vector<double>> lists, bool roughly) const {
  std::vector<std::shared_ptr<const cuts::Prepared>> ready;
  std::vector<const cuts::Prepared*> each{nullptr};
  for (const auto& shares : lists) {
    ready.push_back(inside_->prepared(inside_->cuts(shares)));
    each.push_back(ready.back().get());
  }
  study::Options options = inside_->settings.study;
  double chance = inside_->settings.chance;
  if (roughly) options.samples /= 4, chance *= 1.5;  // what a quarter of the samples leaves open of a chance
  const auto limits = study::hard_limits(inside_->survey, each, options, chance);
  std::vector<std::string> out(lists.size());
  for (std::size_t i = 0; i < lists.size(); ++i) {
    if (ready[i] == nullptr) {
      out[i] = "these cuts do not fit this saw";
      continue;
    }
    for (const study::HardLimit& limit : limits[i + 1]) {
      const auto stock = std::find_if(limits[0].begin(), limits[0].end(), [&](const study::HardLimit& one) {
        return one.rule == limit.rule && one.figure == limit.figure;
      });
      const double before = stock == limits[0].end() ? 0.0 : stock->chance;
      const bool passes = limit.margin() < -1e-9 || limit.chance > chance + 1e-12;
      // What the saw as it is passes already may not get worse.
      if (passes && limit.chance > before + 1e-12 && out[i].empty()) out[i] = passed_text(limit, inside_->settings);
    }
  }
  return out;
}

}  // namespace portwright::plan
