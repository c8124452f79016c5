#include "plan/plan.hpp"

#include <algorithm>
#include <cmath>
#include <deque>
#include <limits>
#include <optional>

#include "base/number_text.hpp"
#include "plan/given.hpp"
#include "plan/limits.hpp"
#include "plan/order.hpp"
#include "plan/ranges.hpp"
#include "plan/refusal.hpp"
#include "plan/rounding.hpp"
#include "plan/ways.hpp"
#include "plan/work.hpp"

namespace portwright::plan {
namespace {

using geometry::Engine;
using geometry::Survey;

constexpr std::size_t most_ways = 8;

std::shared_ptr<const cuts::Prepared> prepared(const cuts::CutList& list, const Survey& survey,
                                               const std::string& folder) {
  auto out = cuts::prepare(list, survey, folder);
  return out ? *std::move(out) : nullptr;
}

bool speaks_of_squish(const Wish& wish) {
  return wish.aspect == Aspect::squish || wish.aspect == Aspect::chamber || wish.aspect == Aspect::trapped_ratio ||
         wish.aspect == Aspect::full_ratio;
}

class Planner {
 public:
  Planner(Wishes wishes, const Survey& survey, const Settings& settings)
      : wishes_(std::move(wishes)),
        survey_(survey),
        settings_(settings),
        stock_(geometry::resolve(survey)),
        frame_(stock_),
        moves_(moves_of(survey, stock_)) {}

  base::ResultAll<Plan> make() {
    if (const auto done = cuts::prepare(settings_.done, survey_, settings_.folder); !done)
      return tl::unexpected(done.error());
    if (base::Errors wrong = against_their_kind(settings_.done); !wrong.empty())
      return tl::unexpected(std::move(wrong));
    keep_squish();
    auto goals = goals_of(wishes_, survey_, stock_);
    if (!goals) return tl::unexpected(goals.error());
    if (goals->empty())
      return tl::unexpected(base::Errors{{base::ErrorCode::unreadable, "Nothing is wished.", "wishes", "", {}}});
    for (const Goal& goal : *goals)
      if (goal.wish < asked_) wanted_.push_back(goal), plan_.wanted.push_back(wanted(goal));
    choose_gaskets();
    const Levels now = reached(settings_.done);
    if (settings_.bands && settings_.inside) go_inside(*goals, now);
    std::vector<Goal> left = settings_.bands ? take_near(*goals, now) : std::vector<Goal>();
    if (settings_.bands) let_past_be(*goals, now, true);
    for (bool gave_up = !settings_.bands;;) {
      if (const auto tried = attempt(*goals, left); !tried) return tl::unexpected(base::Errors{tried.error()});
      if (!candidates_.empty()) break;
      if (!left.empty()) {
        // What the rest of the work moves out of its band is planned like any other wish.
        goals->insert(goals->end(), left.begin(), left.end());
        left.clear();
      } else if (!gave_up && let_past_be(*goals, now, false)) {
        gave_up = true;
        left = take_near(*goals, now);
      } else {
        break;
      }
    }
    if (candidates_.empty()) return tl::unexpected(why_no_way(starts_, wishes_, survey_, settings_));
    for (const Goal& goal : left) plan_.kept.push_back(left_text(goal, now));
    leave_out_idle();
    hold_limits();
    if (plan_.ways.empty()) return tl::unexpected(refusals());
    return std::move(plan_);
  }

 private:
  /// A way with the moves it is made of.
  struct Candidate {
    std::size_t start = 0;
    Amounts amounts;
    Way way;
    std::vector<std::size_t> moves;  ///< and the gasket's choice as one of its own
  };

  /// Ways to some goals that leave others within their bands.
  base::Result<void> attempt(const std::vector<Goal>& goals, const std::vector<Goal>& left) {
    starts_.clear();
    levels_.clear();
    candidates_.clear();
    set_out(goals);
    for (std::size_t s = 0; s < starts_.size(); ++s) {
      const auto found = find_ways(starts_[s].task);
      if (!found) return tl::unexpected(found.error());
      for (const Amounts& amounts : *found) add(s, amounts);
    }
    std::erase_if(candidates_, [&](const Candidate& one) {
      const Levels there = reached(one.way.exact);
      return std::any_of(left.begin(), left.end(), [&](const Goal& goal) { return !is_near(goal, there); });
    });
    return {};
  }

  [[nodiscard]] bool is_near(const Goal& goal, const Levels& there) const {
    const double miss = std::abs(goal.missed(goal.shown(frame_, there)));
    return miss <= goal.scale() * half_band(goal, frame_, there, *settings_.bands) + 1e-9;
  }

  /// Takes out the goals that the done cuts brought within their bands.
  [[nodiscard]] std::vector<Goal> take_near(std::vector<Goal>& goals, const Levels& now) const {
    std::vector<Goal> out, rest;
    for (const Goal& goal : goals) {
      const bool moved = std::abs(goal.shown(frame_, now) - goal.shown_stock()) > 1e-9;
      const bool left = moved && goal.relation == Relation::is && goal.wish < asked_ && is_near(goal, now);
      (left ? out : rest).push_back(goal);
    }
    goals = std::move(rest);
    return out;
  }

  /// A hand stops up to half a band short: where the cut comes from outside a one-sided wish, it aims so far inside.
  void go_inside(std::vector<Goal>& goals, const Levels& now) const {
    for (Goal& goal : goals) {
      if (goal.wish >= asked_ || goal.relation == Relation::is || goal.missed(goal.shown(frame_, now)) == 0.0) continue;
      const double by = 0.5 * half_band(goal, frame_, now, *settings_.bands);
      goal.target += goal.relation == Relation::at_least ? by : -by;
    }
  }

  /// What done cuts took past its number: the rest is planned all the same, and may take it no further.
  /// @param lost only what no cut brings back by itself  @return whether there is any
  bool let_past_be(std::vector<Goal>& goals, const Levels& now, bool lost) {
    bool any = false;
    for (Goal& goal : goals) {
      const double value = goal.shown(frame_, now), off = value - goal.shown_target();
      const bool by_done = std::abs(value - goal.shown_stock()) > 1e-9 && std::abs(off) > 1e-9;
      const bool past = off * (goal.shown_target() - goal.shown_stock()) > 0.0;
      if (goal.wish >= asked_ || goal.relation != Relation::is || !by_done || !past) continue;
      if (lost) {
        const Task alone{frame_, now, moves_, {goal}, {}};
        if (const auto ways = find_ways(alone); !ways || !ways->empty()) continue;
      }
      plan_.kept.push_back(stands_text(goal, now) + ": no metal is put on");
      goal.relation = off > 0.0 ? Relation::at_most : Relation::at_least;
      goal.target = value / goal.scale();
      any = true;
    }
    return any;
  }

  [[nodiscard]] std::string left_text(const Goal& goal, const Levels& now) const {
    return stands_text(goal, now) + ": within the band, leave it";
  }

  [[nodiscard]] std::string stands_text(const Goal& goal, const Levels& now) const {
    const auto text = [&](double value) {
      const double half = goal.unit() == std::string("mm") ? 0.02 : 0.1;
      if (goal.unit() == std::string("%")) return base::number_text(value, 1) + " %";
      return base::value_text({value, value - half, value + half}, goal.unit(), settings_.study.style);
    };
    const double value = goal.shown(frame_, now), off = value - goal.shown_target();
    const bool past = off * (goal.shown_target() - goal.shown_stock()) > 0.0;
    return goal.label + " stands at " + text(value) + ", " + text(std::abs(off)) + (past ? " past " : " short of ") +
           text(goal.shown_target());
  }

  /// A gasket that is cut or swapped for nobody's wish is the commonest free lunch: it opens the squish.
  void keep_squish() {
    asked_ = wishes_.size();
    if (std::any_of(wishes_.begin(), wishes_.end(), speaks_of_squish) || !stock_.squish) return;
    wishes_.push_back({Aspect::squish, {}, Relation::at_most, true, false, 0.0, 0.0, "squish at most as stock"});
    plan_.kept.push_back(
        "No wish speaks of squish, chamber or a ratio, so the squish grows no wider than it is; \u201Csquish "
        "free\u201D "
        "lets it");
  }

  /// As it is, out, and those at hand, each once.
  void choose_gaskets() {
    gaskets_.push_back(settings_.done);
    const bool settled = std::any_of(settings_.done.begin(), settings_.done.end(), [](const cuts::Cut& cut) {
      return cut.act != cuts::Act::widen && cut.act != cuts::Act::corner;
    });
    if (!settled && !stock_.base_gasket) {
      std::string text =
          "\u201Cgasket out\u201D is left out: the base gasket's thickness was not read "
          "(cylinder.base_gasket)";
      if (!settings_.gaskets.empty()) text += "; the gaskets at hand are left out with it";
      plan_.untried.push_back(std::move(text));
    } else if (settled && !settings_.gaskets.empty()) {
      plan_.kept.push_back("The gaskets at hand are left out: what is done has settled how high the cylinder stands");
    }
    if (!stock_.base_gasket || settled) return;
    const auto add = [&](double thickness) {
      cuts::Cut cut;
      cut.act = thickness > 0.0 ? cuts::Act::gasket_to : cuts::Act::gasket_out;
      cut.amount = thickness;
      cut.text = cuts::cut_text(cut);
      const bool fitted = std::abs(thickness - *stock_.base_gasket) < no_cut;
      const bool there = std::any_of(gaskets_.begin(), gaskets_.end(),
                                     [&](const cuts::CutList& list) { return !list.empty() && list.front() == cut; });
      if (fitted || there) return;
      gaskets_.push_back({cut});
      gaskets_.back().insert(gaskets_.back().end(), settings_.done.begin(), settings_.done.end());
    };
    add(0.0);
    for (const double thickness : settings_.gaskets) add(thickness);
  }

  /// One task from every gasket, each with limits of its own: a gasket that comes out leaves its reading's error.
  void set_out(const std::vector<Goal>& goals) {
    std::vector<std::shared_ptr<const cuts::Prepared>> ready;
    std::vector<const cuts::Prepared*> lists;
    for (const cuts::CutList& gasket : gaskets_) {
      ready.push_back(gasket.empty() ? nullptr : prepared(gasket, survey_, settings_.folder));
      lists.push_back(ready.back().get());
      levels_.push_back(reached(gasket));
    }
    auto limits = study::hard_limits(survey_, lists, settings_.study, aimed_share_of_chance * settings_.chance);
    for (std::size_t g = 0; g < gaskets_.size(); ++g) {
      const std::vector<Bound> bounds = bounds_of(limits[g], survey_, frame_, levels_[g]);
      starts_.push_back({Task{frame_, levels_[g], moves_, goals, bounds}, std::move(limits[g])});
      loosen_redundant(starts_.back().task);
    }
  }

  [[nodiscard]] Wanted wanted(const Goal& goal) const {
    return {wishes_[goal.wish].text, goal.figure,        goal.label,         goal.unit(),
            goal.relation,           goal.shown_stock(), goal.shown_target()};
  }

  [[nodiscard]] Levels reached(const cuts::CutList& list) const {
    Engine engine = stock_;
    if (const auto ready = prepared(list, survey_, settings_.folder)) cuts::apply(*ready, engine);
    return levels_of(engine);
  }

  [[nodiscard]] cuts::CutList list_of(std::size_t start, const Amounts& amounts) const {
    cuts::CutList out = gaskets_[start];
    for (cuts::Cut& cut : cuts_of(moves_, amounts)) out.push_back(std::move(cut));
    return out;
  }

  /// The order in which no squish between steps passes its limit.
  [[nodiscard]] cuts::CutList in_order(std::size_t start, const cuts::CutList& list) const {
    for (const Bound& bound : starts_[start].task.bounds)
      if (bound.level == level::squish_least)
        return in_safe_order(list, settings_.done, bound.value,
                             [&](const cuts::CutList& so_far) { return reached(so_far)[level::squish_least]; });
    return list;
  }

  void add(std::size_t start, Amounts amounts) {
    const Task& task = starts_[start].task;
    if (!polish(task, amounts, [&](const Amounts& x) { return reached(list_of(start, x)); })) return;
    Candidate candidate;
    candidate.start = start;
    candidate.way.exact = in_order(start, list_of(start, amounts));
    const Levels there = reached(candidate.way.exact);
    for (const Goal& goal : wanted_) candidate.way.reached_exact.push_back(goal.shown(frame_, there));
    candidate.way.metal_exact = cuts::account(candidate.way.exact, survey_, stock_, settings_.folder).metal;
    for (std::size_t m = 0; m < moves_.size(); ++m)
      if (amounts[m] > no_cut) candidate.moves.push_back(m);
    if (start > 0) candidate.moves.push_back(moves_.size() + start);
    candidate.amounts = std::move(amounts);
    candidates_.push_back(std::move(candidate));
  }

  /// Less first: metal, then the number of cuts; what is not known last.
  static bool is_less(const Candidate& a, const Candidate& b) {
    const double ma = a.way.metal_exact.value_or(std::numeric_limits<double>::max()),
                 mb = b.way.metal_exact.value_or(std::numeric_limits<double>::max());
    if (std::abs(ma - mb) > 1e-15) return ma < mb;
    return a.moves.size() < b.moves.size();
  }

  /// A way that does all that another does, and more, and costs no less, is none of its own.
  void leave_out_idle() {
    std::stable_sort(candidates_.begin(), candidates_.end(), is_less);
    std::vector<Candidate> kept;
    for (Candidate& one : candidates_) {
      const bool idle = std::any_of(kept.begin(), kept.end(), [&](const Candidate& other) {
        return std::includes(one.moves.begin(), one.moves.end(), other.moves.begin(), other.moves.end());
      });
      if (!idle && kept.size() < most_ways) kept.push_back(std::move(one));
    }
    candidates_ = std::move(kept);
  }

  /// Rounds each way, and keeps those whose rounded and exact cuts hold every hard limit.
  void hold_limits() {
    std::vector<std::shared_ptr<const cuts::Prepared>> ready;
    std::vector<const cuts::Prepared*> lists;
    for (Candidate& one : candidates_) {
      round(one);
      for (const cuts::CutList* list : {&one.way.exact, &one.way.cuts}) {
        ready.push_back(prepared(*list, survey_, settings_.folder));
        lists.push_back(ready.back().get());
      }
    }
    auto limits = study::hard_limits(survey_, lists, settings_.study, settings_.chance);
    const std::vector<Engine> samples = sampled_engines(survey_, settings_.study.samples);
    for (std::size_t i = 0; i < candidates_.size(); ++i) {
      Way& way = candidates_[i].way;
      const study::HardLimit* passed = worst_passed(limits[2 * i], settings_.chance);
      if (passed == nullptr) passed = worst_passed(limits[2 * i + 1], settings_.chance);
      if (passed != nullptr) {
        plan_.refused.push_back({way.exact, passed_text(*passed, settings_)});
        refused_.push_back({*passed, ready[2 * i]});
      } else if (const base::Errors broken = newly_impossible(*ready[2 * i + 1], survey_, stock_); !broken.empty()) {
        plan_.refused.push_back({way.exact, broken.front().message});
      } else {
        way.limits = std::move(limits[2 * i + 1]);
        range(candidates_[i], ready[2 * i], samples);
        plan_.ways.push_back(std::move(way));
      }
    }
  }

  /// What the readings leave open of each amount.
  void range(Candidate& one, std::shared_ptr<const cuts::Prepared> list, const std::vector<Engine>& samples) const {
    const Task& task = starts_[one.start].task;
    Asked asked{task, one.amounts, std::move(list), {}};
    for (const Goal& goal : task.goals) asked.as_stock.push_back(wishes_[goal.wish].as_stock);
    const auto widths = half_widths(asked, stock_, samples);
    Way& way = one.way;
    for (std::size_t k = 0; k < way.exact.size(); ++k) {
      way.within.emplace_back();
      for (std::size_t m = 0; m < moves_.size() && !is_done(way.exact, k, settings_.done); ++m)
        if (one.amounts[m] > no_cut && moves_[m].cut(one.amounts[m]) == way.exact[k]) way.within.back() = widths[m];
    }
  }

  void round(Candidate& one) const {
    const Task& task = starts_[one.start].task;
    Way& way = one.way;
    const auto whole = settings_.step > 0.0 ? rounded(task, one.amounts, settings_.step) : std::optional(one.amounts);
    way.cuts = whole ? in_order(one.start, list_of(one.start, *whole)) : way.exact;
    const Levels there = reached(way.cuts);
    for (const Goal& goal : wanted_) {
      way.reached.push_back(goal.shown(frame_, there));
      way.left.push_back(goal.missed(way.reached.back()));
    }
    if (!whole) way.warnings.push_back("no rounding of it holds every limit: it stands as worked out");
    fill_cost(way, survey_, stock_, settings_);
  }

  /// Ways there are, but none may be offered.
  [[nodiscard]] base::Errors refusals() {
    base::Errors out;
    for (const Passed& one : refused_) {
      const study::HardLimit& limit = one.limit;
      if (std::any_of(out.begin(), out.end(), [&](const base::Error& e) { return e.path == limit.figure; })) continue;
      const auto& as_it_is = starts_.front().limits;
      const bool already = std::any_of(as_it_is.begin(), as_it_is.end(), [&](const study::HardLimit& stock) {
        return stock.figure == limit.figure && (stock.margin() < 0.0 || stock.chance > settings_.chance);
      });
      base::Error error{base::ErrorCode::impossible, {}, limit.figure, limit.fix, {}};
      error.message = "No way to these wishes is offered. " + passed_text(limit, settings_) +
                      (already ? "; the saw as it is passes this limit already" : "");
      if (limit.margin() >= 0.0) {
        error.readings = readings_first(survey_, one.cuts.get(), limit.figure, settings_);
        error.hint = "The readings are too poor to tell. Read first, or more often: what is named below.";
      }
      out.push_back(std::move(error));
    }
    if (!out.empty()) return out;
    std::string why = plan_.refused.empty() ? "" : plan_.refused.front().why;
    if (!why.empty() && why.front() >= 'a' && why.front() <= 'z') why.front() = static_cast<char>(why.front() - 32);
    base::Error error{base::ErrorCode::impossible, "No way to these wishes can be cut. " + why, "wishes", "", {}};
    error.readings = nearest_that_can_be_cut();
    if (!error.readings.empty()) error.hint = "With the other wishes as they are:";
    return {error};
  }

  /// Of each wish, how far toward it an engine stays possible while the others are met; to a part in 128.
  [[nodiscard]] std::vector<std::string> nearest_that_can_be_cut() {
    const std::vector<Goal> asked = starts_.front().task.goals;
    std::vector<std::string> out;
    for (std::size_t g = 0; g < asked.size(); ++g) {
      if (asked[g].wish >= asked_ || std::abs(asked[g].target - asked[g].stock) < 1e-12) continue;
      const auto target = [&](double share) { return asked[g].stock + share * (asked[g].target - asked[g].stock); };
      const auto possible = [&](double share) {
        std::vector<Goal> goals = asked;
        goals[g].target = target(share);
        if (!attempt(goals, {})) return false;
        return std::any_of(candidates_.begin(), candidates_.end(), [&](const Candidate& one) {
          const auto ready = prepared(one.way.exact, survey_, settings_.folder);
          return ready && newly_impossible(*ready, survey_, stock_).empty();
        });
      };
      double can = 0.0, cannot = 1.0;
      if (!possible(can)) continue;
      for (int round = 0; round < 7; ++round) {
        const double middle = 0.5 * (can + cannot);
        (possible(middle) ? can : cannot) = middle;
      }
      const double value = asked[g].scale() * target(can);
      const std::string unit = asked[g].unit();
      const std::string text = unit == "%"
                                   ? base::number_text(value, 1) + " %"
                                   : base::value_text({value, value - 0.1, value + 0.1}, unit, settings_.study.style);
      out.push_back("nearest that can be cut: " + asked[g].label + " " + text);
    }
    return out;
  }

  struct Passed {
    study::HardLimit limit;
    std::shared_ptr<const cuts::Prepared> cuts;
  };

  Wishes wishes_;
  std::size_t asked_ = 0;  ///< wishes of the person; those after them are kept without one
  const Survey& survey_;
  const Settings& settings_;
  Engine stock_;
  Frame frame_;
  std::vector<Move> moves_;
  std::vector<Goal> wanted_;            ///< of the person's wishes, as asked
  std::vector<cuts::CutList> gaskets_;  ///< an empty list: as it is
  std::deque<Levels> levels_;           ///< with each gasket
  std::vector<Start> starts_;
  std::vector<Candidate> candidates_;
  std::vector<Passed> refused_;
  Plan plan_;
};

}  // namespace

base::ResultAll<Plan> make_plan(const Wishes& wishes, const Survey& survey, const Settings& settings) {
  return Planner(wishes, survey, settings).make();
}

}  // namespace portwright::plan
