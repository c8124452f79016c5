#include "seek/search.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "seek/climb.hpp"
#include "seek/guess.hpp"
#include "seek/picks.hpp"
#include "seek/spread.hpp"

namespace portwright::seek {
namespace {

constexpr double first_radius = 0.4, radius_again = 0.15, most_radius = 0.5;
constexpr double growth = 1.6, shrink = 0.5;
constexpr double worth = 0.2;        // of what was promised: a gain of less draws the radius in
constexpr double most_margin = 0.2;  // of what a hold differs by among what was tried
constexpr double most_doubt = 0.5, first_doubt = 0.1, calm_doubt = 0.05;
constexpr double front_step = 0.02;  // of the front's width: growing by less is not worth a round
constexpr double least_apart = 1e-6;
constexpr int quiet_rounds = 2;
constexpr std::size_t vain_starts = 4;

bool holds_all(const Judged& judged) {
  return judged.possible &&
         std::all_of(judged.holds.begin(), judged.holds.end(), [](double hold) { return hold >= 0.0; });
}

class Search {
 public:
  Search(const Space& space, const Judge& judge, const SearchPlan& plan, std::vector<Tried> before,
         const TellSearch& tell)
      : space_(space), judge_(judge), plan_(plan), tell_(tell), walk_(space.free, plan.seed) {
    for (Tried& one : before) add(std::move(one));
    known_ = tried_.size();
    together_ = std::max<std::size_t>(plan.together, 1);
    apart_ = std::max(0.5 * plan.least_step, least_apart);
  }

  Found run() {
    if (const auto end = start()) return {std::move(tried_), *end};
    look_.margin.assign(holds_, plan_.noise);
    turning_.emplace(gains_, plan_.seed + 1);
    // Going on, the weights turn from where they were.
    look_.picked = known_;
    look_.balanced = known_ / 3;
    for (std::size_t i = 0; i < look_.balanced; ++i) turning_->next();
    while (true) {
      if (const auto end = round()) {
        const bool none = *end == End::no_more_to_gain && best_of(tried_) == tried_.size();
        return {std::move(tried_), none ? End::nothing_possible : *end};
      }
    }
  }

 private:
  const Space& space_;
  const Judge& judge_;
  const SearchPlan& plan_;
  const TellSearch& tell_;
  Walk walk_;
  std::optional<Walk> turning_;
  std::vector<Tried> tried_;
  std::size_t known_ = 0, gains_ = 0, holds_ = 0, together_ = 1;
  double apart_ = 0.0;
  Look look_;
  int quiet_ = 0, quiet_front_ = 0;  // rounds on end that promised nothing

  /// The first sound one says how many figures there are; what is not sound counts as impossible.
  void add(Tried one) {
    if (gains_ == 0 && is_sound(one.judged, one.judged.gains.size(), one.judged.holds.size())) {
      gains_ = one.judged.gains.size();
      holds_ = one.judged.holds.size();
    }
    if (!is_sound(one.judged, gains_, holds_)) one.judged = {};
    tried_.push_back(std::move(one));
  }

  /// Judges; the reason to end, if there is one.
  std::optional<End> judge(std::span<const Design> designs) {
    designs = designs.first(std::min(designs.size(), plan_.most - std::min(plan_.most, tried_.size())));
    if (designs.empty()) return End::as_many_as_asked;
    std::vector<Judged> judged = judge_(designs);
    judged.resize(std::min(judged.size(), designs.size()));
    for (std::size_t i = 0; i < judged.size(); ++i) add({designs[i], std::move(judged[i])});
    const bool stop = tell_ && tell_(tried_);
    if (stop || judged.size() < designs.size()) return End::stopped;
    return tried_.size() >= plan_.most ? std::optional(End::as_many_as_asked) : std::nullopt;
  }

  /// Judges what there is to start with, and goes on until something is possible.
  std::optional<End> start() {
    // Whole rounds, so that none is half empty.
    const std::size_t enough = (2 * space_.free + 3 + together_ - 1) / together_ * together_;
    look_.radius = tried_.size() < enough ? first_radius : radius_again;
    if (tried_.size() >= plan_.most) return End::as_many_as_asked;
    for (std::size_t again = 0; again < vain_starts; ++again) {
      const std::vector<Design> designs = fresh(enough);
      for (std::size_t from = 0; from < designs.size(); from += together_) {
        const auto end = judge(std::span(designs).subspan(from, std::min(together_, designs.size() - from)));
        if (end) return end;
      }
      if (gains_ > 0) return std::nullopt;
      if (designs.empty()) break;
    }
    return End::nothing_possible;
  }

  /// Start designs that are not known, as many as are missing; all anew where nothing was possible yet.
  std::vector<Design> fresh(std::size_t enough) {
    std::vector<Design> known, out;
    for (const Tried& one : tried_) known.push_back(one.design);
    if (gains_ > 0 && tried_.size() >= enough) return out;
    const std::size_t missing = gains_ > 0 ? enough - tried_.size() : enough;
    for (Design& one : start_designs(space_, enough - 1, apart_, walk_))
      if (out.size() < missing && nearest(known, one) >= apart_) out.push_back(std::move(one));
    return out;
  }

  std::optional<End> round() {
    const Guess guess(tried_, plan_.noise);
    const Picks picks = pick(space_, tried_, guess, look_, together_, apart_, walk_, *turning_);
    if (picks.designs.empty()) return End::no_more_to_gain;
    std::vector<Design> designs;
    for (const Pick& one : picks.designs) designs.push_back(one.design);
    const std::size_t first = tried_.size();
    const Standing before = standing();
    const auto end = judge(designs);
    look_.picked += designs.size();
    look_.balanced += picks.balanced;
    learn_margins(guess, picks, first);
    learn_doubt(picks, first);
    learn_radius(picks, before);
    learn_front(picks);
    if (end) return end;
    const bool more = look_.aim || (gains_ > 1 && quiet_front_ < quiet_rounds);
    return more ? std::nullopt : std::optional(End::no_more_to_gain);
  }

  /// A guess that took for held what was not widens its margin, a round in which none did draws it in.
  void learn_margins(const Guess& guess, const Picks& picks, std::size_t first) {
    for (std::size_t k = 0; k < holds_; ++k) {
      double wrong = 0.0, low = 0.0, high = 0.0;
      for (std::size_t i = first; i < tried_.size(); ++i) {
        const Judged& judged = tried_[i].judged;
        if (!judged.possible || picks.designs[i - first].why == For::exploring || judged.holds[k] >= 0.0) continue;
        const double guessed = guess.at(tried_[i].design)[gains_ + k];
        if (guessed >= 0.0) wrong = std::max(wrong, guessed - judged.holds[k]);
      }
      for (const Tried& one : tried_) {
        if (!one.judged.possible) continue;
        low = std::min(low, one.judged.holds[k]);
        high = std::max(high, one.judged.holds[k]);
      }
      double& margin = look_.margin[k];
      const double most = most_margin * (high - low);
      margin = wrong > 0.0 ? std::max(margin, 0.5 * wrong) : 0.25 * margin;
      margin = std::clamp(margin, std::min(plan_.noise, most), most);
    }
  }

  /// The same for what was taken for possible and was not.
  void learn_doubt(const Picks& picks, std::size_t first) {
    bool wrong = false;
    for (std::size_t i = first; i < tried_.size(); ++i)
      wrong = wrong || (!tried_[i].judged.possible && picks.designs[i - first].why != For::exploring);
    look_.doubt = wrong ? std::min(most_doubt, std::max(growth * look_.doubt, first_doubt)) : shrink * look_.doubt;
  }

  /// How far the search has come: by the aim of the best, or where nothing holds yet by what misses least.
  struct Standing {
    bool holds = false;
    double height = 0.0;
    Design at;
  };
  [[nodiscard]] Standing standing() const {
    const Tried& centre = tried_[centre_of(tried_)];
    if (holds_all(centre.judged)) return {true, centre.judged.gains[0], centre.design};
    return {false, *std::min_element(centre.judged.holds.begin(), centre.judged.holds.end()), centre.design};
  }

  void learn_radius(const Picks& picks, const Standing& before) {
    const Standing now = standing();
    if (now.holds && !before.holds) {
      look_.radius = std::max(look_.radius, radius_again);
      quiet_ = 0;
      return;
    }
    const double gain = now.height - before.height;
    if (!look_.aim) {
      if (gain > plan_.noise) reopen();
      return;
    }
    const bool gained = gain > std::max(plan_.noise, worth * picks.promise);
    if (!gained) look_.radius *= shrink;
    if (gained && distance(now.at, before.at) > 0.8 * look_.radius)
      look_.radius = std::min(most_radius, growth * look_.radius);
    // While a margin is wide, little is promised for its sake.
    const bool wide =
        look_.doubt > calm_doubt || std::any_of(look_.margin.begin(), look_.margin.end(),
                                                [&](double margin) { return margin > 4.0 * plan_.noise; });
    quiet_ = picks.promise < plan_.noise && !wide ? quiet_ + 1 : 0;
    look_.aim = look_.radius >= plan_.least_step && quiet_ < quiet_rounds;
  }

  /// What was found beside the way to the aim leads higher.
  void reopen() {
    look_.aim = true;
    look_.radius = radius_again;
    quiet_ = 0;
  }

  void learn_front(const Picks& picks) {
    const bool looked = std::any_of(picks.designs.begin(), picks.designs.end(),
                                    [](const Pick& one) { return one.why == For::balance; });
    if (looked) quiet_front_ = picks.widening < front_step ? quiet_front_ + 1 : 0;
  }
};

}  // namespace

double Space::worst(const Design& x) const {
  double worst = 1.0;
  const auto see = [&](double one) { worst = std::isfinite(one) ? std::min(worst, one) : -1.0; };
  for (const double one : x) see(std::min(one, 1.0 - one));
  for (const Side& side : sides) {
    double value = side.offset;
    for (std::size_t j = 0; j < side.slope.size(); ++j) value += side.slope[j] * x[j];
    see(value);
  }
  if (!curved) return worst;
  std::vector<double> values(no_less + equal);
  curved(x, values);
  for (std::size_t c = 0; c < values.size(); ++c) see(c < no_less ? values[c] : -std::abs(values[c]));
  return worst;
}

Found search(const Space& space, const Judge& judge, const SearchPlan& plan, std::vector<Tried> before,
             const TellSearch& tell) {
  return Search(space, judge, plan, std::move(before), tell).run();
}

std::size_t best_of(std::span<const Tried> tried) {
  std::size_t best = tried.size();
  for (std::size_t i = 0; i < tried.size(); ++i) {
    if (!holds_all(tried[i].judged)) continue;
    if (best == tried.size() || tried[i].judged.gains[0] > tried[best].judged.gains[0]) best = i;
  }
  return best;
}

std::vector<std::size_t> front_of(std::span<const Tried> tried) {
  const auto beats = [](const std::vector<double>& a, const std::vector<double>& b) {
    bool more = false;
    for (std::size_t k = 0; k < a.size(); ++k) {
      if (a[k] < b[k]) return false;
      more = more || a[k] > b[k];
    }
    return more;
  };
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i < tried.size(); ++i) {
    if (!holds_all(tried[i].judged)) continue;
    const bool beaten = std::any_of(tried.begin(), tried.end(), [&](const Tried& other) {
      return holds_all(other.judged) && beats(other.judged.gains, tried[i].judged.gains);
    });
    if (!beaten) out.push_back(i);
  }
  std::stable_sort(out.begin(), out.end(),
                   [&](std::size_t a, std::size_t b) { return tried[a].judged.gains[0] > tried[b].judged.gains[0]; });
  return out;
}

}  // namespace portwright::seek
