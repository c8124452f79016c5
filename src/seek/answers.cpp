#include "seek/answers.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <map>

#include "base/number_text.hpp"
#include "numerics/student.hpp"

namespace portwright::seek {
namespace {

constexpr std::size_t most_answers = 5;
/// Two answers are one where no gain differs by more.
constexpr double same_gain = 0.005;
/// Of the whole time, by what usually takes it.
constexpr double share_begun = 0.04, share_searched = 0.70;

Space space_of(const plan::Ground& ground) {
  Space out;
  out.free = ground.knobs().size();
  for (const plan::Ground::Side& side : ground.sides()) out.sides.push_back({side.slope, side.offset});
  out.no_less = ground.no_less();
  out.equal = ground.equal();
  if (out.no_less + out.equal > 0)
    out.curved = [&ground](const Design& x, std::span<double> values) { ground.curved(x, values); };
  return out;
}

/// Mean of some values, and where one more of them would lie 19 times of 20: two dozen sets are too few to read
/// quantiles from.
cycle::Band predicted(const std::vector<double>& values, const std::vector<double>& weight) {
  double whole = 0.0, squares = 0.0, mean = 0.0, spread = 0.0;
  for (std::size_t i = 0; i < values.size(); ++i) {
    whole += weight[i];
    squares += weight[i] * weight[i];
    mean += weight[i] * values[i];
  }
  mean /= whole;
  const double n = std::max(2.0, whole * whole / squares);  // as many as would count alike
  for (std::size_t i = 0; i < values.size(); ++i) spread += weight[i] * std::pow(values[i] - mean, 2) / whole;
  const double sigma = std::sqrt(spread * n / (n - 1.0) * (1.0 + 1.0 / n));
  const double half = numerics::student_quantile(0.975, n - 1.0) * sigma;
  return {mean, mean - half, mean + half};
}

class Seeker {
 public:
  Seeker(const plan::Ground& ground, const EngineWish& wish, const geometry::Survey& survey, const SeekPlan& plan,
         std::vector<Tried> before, const TellSeek& tell)
      : ground_(ground),
        wish_(wish),
        survey_(survey),
        plan_(plan),
        before_(std::move(before)),
        tell_(tell),
        space_(space_of(ground)),
        begun_(std::chrono::steady_clock::now()) {}

  base::ResultAll<Sought> go() {
    base::Errors errors;
    const auto stock =
        cycle::build(ground_.stock(), cycle::middle_assumptions(), survey_.needs, plan_.fineness, &errors);
    if (!stock) return tl::unexpected(std::move(errors));
    say(0.0, "stock");
    cycle::StopCall stop{[](void* self) { return static_cast<Seeker*>(self)->asked_to_stop(); }, this};
    const auto look = look_at_stock(*stock, plan_.threads, stop);
    if (!look) return tl::unexpected(base::Errors{look.error()});
    out_.asked = asked_of(wish_, look->rated);
    CycleJudge judge(ground_, out_.asked, survey_.needs, plan_.fineness, plan_.threads,
                     [this] { return asked_to_stop(); });
    const auto begun = stopped_ ? base::Result<bool>(false) : judge.begin(*look);
    if (!begun) return tl::unexpected(base::Errors{begun.error()});
    if (*begun) {
      out_.stock = judge.stock();
      search_with(judge);
      pick(judge);
      give_ranges();
    }
    out_.points_turned = judge.points_turned();
    out_.stopped = stopped_;
    return std::move(out_);
  }

 private:
  bool asked_to_stop() {
    if (!stopped_ && tell_ && tell_({share_, doing_, out_.tried, best_of(out_.tried)})) stopped_ = true;
    return stopped_;
  }
  bool say(double share, const char* doing) {
    share_ = share;
    doing_ = doing;
    return asked_to_stop();
  }
  [[nodiscard]] double seconds() const {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - begun_).count();
  }

  /// As far along a design as the space goes.
  [[nodiscard]] Design as_far_as_it_goes(const Design& along) const {
    Design out = along;
    if (space_.worst(out) >= 0.0) return out;
    double in = 0.0, beyond = 1.0;
    for (int round = 0; round < 20; ++round) {
      const double middle = 0.5 * (in + beyond);
      for (std::size_t k = 0; k < out.size(); ++k) out[k] = middle * along[k];
      (space_.worst(out) >= 0.0 ? in : beyond) = middle;
    }
    for (std::size_t k = 0; k < out.size(); ++k) out[k] = in * along[k];
    return out;
  }

  /// Each cut alone and all of them, as far as they go: gains grow along most cuts, so the best lies at ends, and a
  /// builder wants to know what each brings by itself. Only where the saw as it is meets the wishes.
  void begin_with_ends(CycleJudge& judge) {
    const std::size_t n = space_.free;
    if (space_.equal > 0 || space_.worst(Design(n, 0.0)) < 0.0) return;
    std::vector<Design> ends{Design(n, 0.0)};
    for (std::size_t k = 0; k < n; ++k) {
      Design one(n, 0.0);
      one[k] = 1.0;
      ends.push_back(as_far_as_it_goes(one));
    }
    ends.push_back(as_far_as_it_goes(Design(n, 1.0)));
    std::vector<Design> fresh = ends;
    const auto known = [&](const Design& one) {
      return std::find_if(before_.begin(), before_.end(), [&](const Tried& tried) { return tried.design == one; });
    };
    std::erase_if(fresh, [&](const Design& one) { return known(one) != before_.end(); });
    // All of them together first: it is often near the best.
    if (fresh.size() > 1) std::rotate(fresh.begin(), fresh.end() - 1, fresh.end());
    const std::size_t together = plan_.search.together;
    for (std::size_t from = 0; from < fresh.size() && !stopped_; from += together) {
      const std::span<const Design> some(fresh.data() + from, std::min(together, fresh.size() - from));
      const std::vector<Judged> judged = judge(some);
      for (std::size_t i = 0; i < judged.size(); ++i) before_.push_back({some[i], judged[i]});
      out_.tried = before_;
      say(share_begun, "each cut alone");
    }
    for (std::size_t k = 0; k < n; ++k) {
      const auto one = known(ends[k + 1]);
      if (one == before_.end() || !one->judged.possible) continue;
      Alone alone{k, ends[k + 1][k], {}};
      std::copy_n(one->judged.gains.begin(), alone.gains.size(), alone.gains.begin());
      out_.alone.push_back(alone);
    }
  }

  void search_with(CycleJudge& judge) {
    const auto told = [&](std::span<const Tried> tried) {
      out_.tried.assign(tried.begin(), tried.end());
      const double by_count = static_cast<double>(tried.size()) / static_cast<double>(plan_.search.most);
      const double by_time = plan_.seconds > 0.0 ? seconds() / plan_.seconds : 0.0;
      const double done = std::min(1.0, std::max(by_count, by_time));
      if (say(share_begun + (share_searched - share_begun) * done, "searching")) return true;
      out_.out_of_time = plan_.seconds > 0.0 && seconds() > plan_.seconds;
      return out_.out_of_time;
    };
    const Judge call = [&](std::span<const Design> designs) { return judge(designs); };
    say(share_begun, "each cut alone");
    begin_with_ends(judge);
    say(share_begun, "searching");
    Found found = search(space_, call, plan_.search, std::move(before_), told);
    out_.tried = std::move(found.tried);
    out_.end = found.end;
    std::map<std::string, int> against;
    for (const Tried& one : out_.tried)
      if (!one.judged.possible) ++against[judge.why_not(one.design)];
    std::vector<std::pair<int, std::string>> rows;
    for (const auto& [why, count] : against)
      if (!why.empty()) rows.emplace_back(-count, why);
    std::sort(rows.begin(), rows.end());
    for (const auto& [count, why] : rows) out_.against.push_back(why);
  }

  /// A design worth telling, and what it stands for.
  struct Pick {
    std::size_t of;
    std::string why;
    std::size_t gain;  ///< that it stands for
  };

  [[nodiscard]] std::vector<Pick> picks() const {
    const auto& tried = out_.tried;
    const std::size_t best = best_of(tried);
    if (best == tried.size()) return {};
    std::vector<Pick> out{{best, aim_text(wish_.aim), gain_aim}};
    const double most = tried[best].judged.gains[gain_aim];
    const std::vector<std::size_t> front = front_of(tried);
    const auto add = [&](const char* why, std::size_t gain, const auto& worth) {
      std::size_t at = tried.size();
      double greatest = -1e300;
      for (const std::size_t i : front) {
        const auto& gains = tried[i].judged.gains;
        const double value = worth(gains);
        if (value > greatest) greatest = value, at = i;
      }
      if (at < tried.size()) out.push_back({at, why, gain});
    };
    const auto half_as_good = [&](const std::vector<double>& gains, double value) {
      return gains[gain_aim] >= 0.5 * most ? value : -1e300;
    };
    add("most pull", gain_pull, [](const auto& g) { return g[gain_pull]; });
    add("most power", gain_peak, [](const auto& g) { return g[gain_peak]; });
    add("less heat, for half of the gain", gain_heat, [&](const auto& g) { return half_as_good(g, g[gain_heat]); });
    std::array<double, 4> low{}, high{};
    low.fill(1e300);
    high.fill(-1e300);
    for (const std::size_t i : front)
      for (std::size_t k = 0; k < 4; ++k) {
        low[k] = std::min(low[k], tried[i].judged.gains[k]);
        high[k] = std::max(high[k], tried[i].judged.gains[k]);
      }
    add("between them", gain_aim, [&](const auto& g) {
      double least = 1e300;
      for (std::size_t k = gain_pull; k < 4; ++k)
        least = std::min(least, (g[k] - low[k]) / std::max(high[k] - low[k], 1e-9));
      return least;
    });
    return out;
  }

  /// Takes out, one after the other, the cuts that bring nothing: what is left gives the same within `idle_gain` of
  /// what the answer stands for, and of the aim.
  Design without_idle(CycleJudge& judge, Design design, std::size_t stands_for) {
    const auto value = [&](const Judged& of, std::size_t gain) { return of.gains[gain]; };
    std::vector<Judged> whole = judge(std::span(&design, 1));
    if (whole.empty()) return design;
    const Judged best = whole.front();
    while (!stopped_) {
      std::vector<Design> fewer;
      for (std::size_t k = 0; k < design.size(); ++k) {
        if (!(design[k] > 0.0)) continue;
        Design one = design;
        one[k] = 0.0;
        if (space_.worst(one) >= -1e-9) fewer.push_back(std::move(one));
      }
      const std::vector<Judged> judged = judge(fewer);
      double least = 1e300;
      const Design* next = nullptr;
      for (std::size_t i = 0; i < judged.size(); ++i) {
        const Judged& one = judged[i];
        if (!one.possible || std::any_of(one.holds.begin(), one.holds.end(), [](double h) { return h < 0.0; }))
          continue;
        const double lost =
            std::max(value(best, stands_for) - value(one, stands_for), value(best, gain_aim) - value(one, gain_aim));
        if (lost < idle_gain && lost < least) least = lost, next = &fewer[i];
      }
      if (next == nullptr) break;
      design = *next;
    }
    return design;
  }

  void pick(CycleJudge& judge) {
    say(share_searched, "leaving out what brings nothing");
    for (const Pick& pick : picks()) {
      // Whoever stopped it waits: the best alone.
      if (out_.answers.size() >= (stopped_ ? std::size_t{1} : most_answers)) break;
      Answer answer;
      answer.why = pick.why;
      answer.shares = ground_.rounded(without_idle(judge, out_.tried[pick.of].design, pick.gain), plan_.step);
      const std::vector<Judged> judged = judge(std::span(&answer.shares, 1));
      const bool holds = !judged.empty() && judged.front().possible &&
                         std::all_of(judged[0].holds.begin(), judged[0].holds.end(), [](double h) { return h >= 0.0; });
      if (!holds) {
        // Stopped, or rounding came too near to a limit: as it was found.
        answer.shares = out_.tried[pick.of].design;
      }
      const Outcome* outcome = judge.outcome(answer.shares);
      // While searching limits were held against fewer samples.
      if (outcome == nullptr || !ground_.refused(std::span(&answer.shares, 1), false).front().empty()) continue;
      answer.outcome = *outcome;
      answer.cuts = ground_.cuts(answer.shares);
      take_gains(answer);
      const bool is_new = std::none_of(out_.answers.begin(), out_.answers.end(), [&](const Answer& other) {
        for (std::size_t k = 0; k < 4; ++k)
          if (std::abs(other.gains[k].value - answer.gains[k].value) > same_gain) return false;
        return true;
      });
      if (is_new && !answer.cuts.empty()) out_.answers.push_back(std::move(answer));
    }
  }

  void take_gains(Answer& answer) const {
    const auto gains = out_.asked.gains(answer.outcome, out_.stock);
    for (std::size_t k = 0; k < 4; ++k) answer.gains[k].value = gains[k];
  }

  /// Stock and answers under the same sets of assumptions.
  void give_ranges() {
    if (stopped_ || plan_.members < 2 || out_.answers.empty()) return;
    say(share_searched, "ranges");
    std::vector<geometry::Engine> cut;
    for (const Answer& answer : out_.answers) cut.push_back(ground_.engine(answer.shares).value_or(ground_.stock()));
    std::vector<const geometry::Engine*> engines{&ground_.stock()};
    for (const geometry::Engine& engine : cut) engines.push_back(&engine);
    cycle::EnsemblePlan sets;
    sets.members = plan_.members;
    sets.speeds = out_.asked.speeds;
    sets.run.search = {3e-4, 40, 4, 1};
    sets.threads = plan_.threads;
    sets.fineness = plan_.fineness;
    const auto ensembles = cycle::run_ensembles(engines, survey_.needs, sets, [&](double share) {
      return say(share_searched + (1.0 - share_searched) * share, "ranges");
    });
    if (stopped_) return;
    const cycle::Ensemble& stock = ensembles.front();
    if (stock.points[0].size() == sets.speeds.size()) out_.stock = out_.asked.outcome(stock.points[0]);
    std::vector<Answer> kept;
    std::vector<const cycle::Ensemble*> of;
    for (std::size_t a = 0; a < out_.answers.size(); ++a) {
      const cycle::Ensemble& mine = ensembles[a + 1];
      give_range(stock, mine, out_.answers[a]);
      // Two that cannot be told from each other are one.
      const bool is_told = std::all_of(of.begin(), of.end(), [&](const cycle::Ensemble* other) {
        const auto apart = ranges(*other, mine);
        return std::any_of(apart.begin(), apart.end(), [](const Gain& gain) { return gain.told_apart(); });
      });
      if (!is_told) continue;
      kept.push_back(std::move(out_.answers[a]));
      of.push_back(&mine);
    }
    out_.answers = std::move(kept);
  }

  /// Changes from one engine to another, set by set.
  [[nodiscard]] std::array<Gain, 4> ranges(const cycle::Ensemble& from, const cycle::Ensemble& to) const {
    const std::size_t n = out_.asked.speeds.size();
    std::array<std::vector<double>, 4> values;
    std::vector<double> weight;
    for (std::size_t m = 0; m < from.points.size(); ++m) {
      if (from.points[m].size() != n || to.points[m].size() != n) continue;
      const auto gains = out_.asked.gains(out_.asked.outcome(to.points[m]), out_.asked.outcome(from.points[m]));
      for (std::size_t k = 0; k < 4; ++k) values[k].push_back(gains[k]);
      weight.push_back(from.weight[m]);
    }
    std::array<Gain, 4> out{};
    for (std::size_t k = 0; k < 4 && weight.size() > 1; ++k) {
      out[k].range = predicted(values[k], weight);
      out[k].value = out[k].range->mean;
    }
    return out;
  }

  void give_range(const cycle::Ensemble& stock, const cycle::Ensemble& cut, Answer& answer) const {
    const auto gains = ranges(stock, cut);
    if (!gains[gain_aim].range) return;
    answer.gains = gains;
    if (cut.points[0].size() == out_.asked.speeds.size()) answer.outcome = out_.asked.outcome(cut.points[0]);
  }

  const plan::Ground& ground_;
  const EngineWish& wish_;
  const geometry::Survey& survey_;
  const SeekPlan& plan_;
  std::vector<Tried> before_;
  const TellSeek& tell_;
  Space space_;
  std::chrono::steady_clock::time_point begun_;
  std::atomic<bool> stopped_{false};
  double share_ = 0.0;
  const char* doing_ = "";
  Sought out_;
};

std::string percent(double share) {
  return (share < 0.0 ? "\u2212" : "+") + base::number_text(100.0 * std::abs(share), 1) + " %";
}

/// Why there is no answer.
std::string why_none(const Sought& sought) {
  if (sought.tried.empty())
    return sought.stopped
               ? "It was stopped before anything was tried."
               : "No list of the free cuts meets the wishes about edges within the limits. Ask plan for those "
                 "wishes alone: it says which stands against which, and by how much.";
  const auto& tried = sought.tried;
  const std::string count = std::to_string(tried.size());
  if (best_of(tried) < tried.size()) return "Of " + count + " lists of cuts none gives more than the saw as it is.";
  // The nearest that any list came to each condition.
  std::vector<double> nearest(sought.asked.holds.size() + 2, -1e300);
  bool possible = false;
  for (const Tried& one : tried) {
    if (!one.judged.possible) continue;
    possible = true;
    for (std::size_t h = 0; h < std::min(nearest.size(), one.judged.holds.size()); ++h)
      nearest[h] = std::max(nearest[h], one.judged.holds[h]);
  }
  if (!possible) return "None of " + count + " lists of cuts can be cut and turned.";
  std::string out = "None of " + count + " lists of cuts holds all that must hold";
  bool alone = false;
  for (std::size_t h = 0; h < sought.asked.holds.size(); ++h) {
    if (nearest[h] >= 0.0) continue;
    const Hold& hold = sought.asked.holds[h];
    const double came_to = hold.change + (hold.at_least ? nearest[h] : -nearest[h]);
    out += (alone ? "; " : ": ") + ("\u201C" + hold.text + "\u201D comes to ") + percent(came_to) + " at nearest";
    alone = true;
  }
  if (nearest[sought.asked.holds.size()] < 0.0)
    out += (alone ? "; " : ": ") + std::string("torque at half speed falls by more than 2 % with each"), alone = true;
  if (nearest.back() < 0.0)
    out += (alone ? "; " : ": ") + std::string("each knocks more than the saw as it is"), alone = true;
  return out + (alone ? "." : ": one or the other, but not all of it at once.");
}

}  // namespace

base::ResultAll<Sought> seek(const plan::Ground& ground, const EngineWish& wish, const geometry::Survey& survey,
                             const SeekPlan& plan, std::vector<Tried> before, const TellSeek& tell) {
  return Seeker(ground, wish, survey, plan, std::move(before), tell).go();
}

std::string sentence(const Sought& sought) {
  if (sought.answers.empty()) return why_none(sought);
  const Answer& best = sought.answers.front();
  const Gain& gain = best.gains[gain_aim];
  const std::string what = aim_text(sought.asked.aim);
  if (!gain.range)
    return "The best found gives " + percent(gain.value) + " (" + what +
           ") under one set of assumptions; how far that "
           "can be told was not run.";
  const std::string range = percent(gain.range->low) + " to " + percent(gain.range->high);
  if (!gain.told_apart())
    return "Nothing found can be told from stock: the best, " + percent(gain.value) + " (" + what +
           "), is less than its range, " + range + ".";
  return "The best found gives " + percent(gain.value) + " (" + what + "), " + range + ".";
}

}  // namespace portwright::seek
