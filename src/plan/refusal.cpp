#include "plan/refusal.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>

#include "base/number_text.hpp"
#include "cuts/words.hpp"

namespace portwright::plan {
namespace {

using base::ErrorCode;

constexpr const char* how_surely = " How surely a limit must hold is the chance that is given.";

std::string text(double value, const std::string& unit, const Settings& settings) {
  return base::value_text({value, {}, {}}, unit, settings.study.style);
}

/// With digits enough to show a gap this small.
std::string text(double value, const std::string& unit, const Settings& settings, double gap) {
  if (unit == "%") return base::number_text(value, std::abs(gap) >= 1.0 ? 0 : std::abs(gap) >= 0.1 ? 1 : 2) + " %";
  const double usual = unit == "mm" ? 0.02 : 0.2;
  const double half = std::max(std::abs(gap), 1e-6);
  if (half > usual) return text(value, unit, settings);
  return base::value_text({value, value - half, value + half}, unit, settings.study.style);
}

std::string percent(double chance) {
  const bool whole = std::abs(100.0 * chance - std::round(100.0 * chance)) < 0.05;
  return base::number_text(100.0 * chance, whole ? 0 : 1) + " %";
}

/// What a goal comes to at nearest over the ways that meet the rest.
struct Nearest {
  bool reachable = false;
  double value = 0.0, gap = std::numeric_limits<double>::infinity();
};

/// Goals of some wishes alone.
Task with_wishes(const Task& task, const std::function<bool(std::size_t)>& takes, bool within_bounds) {
  Task out{task.frame, task.stock, task.moves, {}, {}};
  for (const Goal& goal : task.goals)
    if (takes(goal.wish)) out.goals.push_back(goal);
  if (within_bounds) out.bounds = task.bounds;
  loosen_redundant(out);
  return out;
}

Nearest nearest(const std::vector<Start>& starts, const Goal& goal, const std::function<bool(std::size_t)>& takes,
                bool within_bounds) {
  Nearest out;
  for (const Start& start : starts) {
    const auto ways = find_ways(with_wishes(start.task, takes, within_bounds));
    if (!ways) continue;
    for (const Amounts& way : *ways) {
      const double value = goal.shown(start.task.frame, moved(start.task.stock, start.task.moves, way));
      const double gap = std::abs(goal.missed(value));
      if (std::isfinite(gap) && gap < out.gap) out = {true, value, gap};
    }
  }
  return out;
}

bool is_reachable(const std::vector<Start>& starts, const std::function<bool(std::size_t)>& takes) {
  return std::any_of(starts.begin(), starts.end(), [&](const Start& start) {
    const auto ways = find_ways(with_wishes(start.task, takes, false));
    return ways && !ways->empty();
  });
}

std::string texts_of(const Wishes& wishes, const std::function<bool(std::size_t)>& takes) {
  std::string out;
  for (std::size_t i = 0; i < wishes.size(); ++i)
    if (takes(i) && !wishes[i].free) out += (out.empty() ? "" : "; ") + wishes[i].text;
  return out;
}

std::string listed(const std::vector<std::string>& words) {
  std::string out;
  for (const std::string& word : words) out += (out.empty() ? "" : ", ") + word;
  return out;
}

const char* relation_word(Relation relation) {
  return relation == Relation::is ? "" : relation == Relation::at_least ? "at least " : "at most ";
}

std::string words_of(const Wish& wish) {
  const auto port = [&](const char* what) { return wish.subject + what; };
  switch (wish.aspect) {
    case Aspect::opens:
      return port(" opens");
    case Aspect::closes:
      return port(" closes");
    case Aspect::duration:
      return port(" duration");
    case Aspect::width:
    case Aspect::width_of_bore:
      return port(" width");
    case Aspect::blowdown:
      return "blowdown";
    case Aspect::squish:
      return "squish";
    case Aspect::chamber:
      return "chamber";
    case Aspect::trapped_ratio:
      return "trapped ratio";
    case Aspect::full_ratio:
      return "full ratio";
    case Aspect::skirt_cover:
      return "skirt cover" + (wish.subject.empty() ? "" : " " + wish.subject);
  }
  return wish.text;
}

enum class Digit { beyond, nearest };

/// The wish again with a number that can be had: the last digit the nearest, or the next beyond it as seen from what
/// was asked. Nothing for a wish of several ports, whose numbers are not one.
std::vector<std::string> whole_wish(const std::vector<Goal>& goals, const Wishes& wishes, const Goal& goal,
                                    double value, Digit digit) {
  const auto same = [&](const Goal& other) { return other.wish == goal.wish; };
  if (std::count_if(goals.begin(), goals.end(), same) != 1 || !std::isfinite(value)) return {};
  const std::string unit = goal.unit();
  const int digits = unit == "deg" || unit == "%" ? 1 : 2;
  const double steps = value * std::pow(10.0, digits);
  const double whole = digit == Digit::nearest       ? std::round(steps)
                       : value > goal.shown_target() ? std::ceil(steps - 1e-6)
                                                     : std::floor(steps + 1e-6);
  const std::string number = base::number_text(whole / std::pow(10.0, digits), digits);
  return {words_of(wishes[goal.wish]) + " " + relation_word(goal.relation) + number +
          (unit == "-"     ? ""
           : unit == "cm3" ? " cc"
                           : " " + unit)};
}

base::Error of_one(const std::vector<Goal>& goals, const Wishes& wishes, const Goal& goal, const Nearest& found,
                   const std::string& rest, const Settings& settings) {
  base::Error error;
  error.code = rest.empty() ? ErrorCode::impossible : ErrorCode::contradiction;
  error.path = "wishes." + std::to_string(goal.wish + 1);
  const std::string asked = relation_word(goal.relation) + text(goal.shown_target(), goal.unit(), settings, found.gap);
  error.message = cuts::shown(wishes[goal.wish].text) + " cannot be met" +
                  (rest.empty() ? std::string() : " together with " + cuts::shown(rest)) + ": " + goal.label +
                  " comes to " + text(found.value, goal.unit(), settings, found.gap) + " at nearest, " + asked +
                  " is asked, " + text(found.gap, goal.unit(), settings, found.gap) + " apart";
  error.hint = "No plan puts metal on. Wish for what can be had, name gaskets at hand, or leave a wish out.";
  error.readings = whole_wish(goals, wishes, goal, found.value, rest.empty() ? Digit::beyond : Digit::nearest);
  return error;
}

/// Each wish held against all others.
base::Errors by_themselves(const std::vector<Start>& starts, const Wishes& wishes, const Settings& settings) {
  base::Errors out;
  for (const Goal& goal : starts.front().task.goals) {
    const auto others = [&](std::size_t wish) { return wish != goal.wish; };
    const Nearest found = nearest(starts, goal, others, false);
    if (!found.reachable || found.gap <= 1e-6) continue;
    // What cannot be had by itself is no quarrel with the rest.
    const bool alone = is_reachable(starts, [&](std::size_t wish) { return wish == goal.wish; });
    out.push_back(
        of_one(starts.front().task.goals, wishes, goal, found, alone ? texts_of(wishes, others) : "", settings));
  }
  return out;
}

/// Where leaving out one does not do: the wishes are taken one by one, and each that cannot be added is held against
/// those before it.
base::Errors one_by_one(const std::vector<Start>& starts, const Wishes& wishes, const Settings& settings) {
  std::vector<bool> taken(wishes.size(), false);
  const auto takes = [&](std::size_t wish) { return static_cast<bool>(taken[wish]); };
  base::Errors out;
  for (std::size_t i = 0; i < wishes.size(); ++i) {
    taken[i] = true;
    if (is_reachable(starts, takes)) continue;
    taken[i] = false;
    for (const Goal& goal : starts.front().task.goals) {
      if (goal.wish != i) continue;
      const Nearest found = nearest(starts, goal, takes, false);
      if (found.reachable && found.gap > 1e-6)
        out.push_back(of_one(starts.front().task.goals, wishes, goal, found, texts_of(wishes, takes), settings));
    }
  }
  return out;
}

/// The nearest to each wish that holds the limits while the others are met: as a sentence, and as a whole wish where it
/// is one.
base::Errors nearest_within(const std::vector<Start>& starts, const Wishes& wishes, const Settings& settings) {
  base::Errors out;
  for (const Goal& goal : starts.front().task.goals) {
    const auto others = [&](std::size_t wish) { return wish != goal.wish; };
    const Nearest found = nearest(starts, goal, others, true);
    if (!found.reachable || found.gap < 1e-6) continue;
    base::Error error{ErrorCode::impossible, {}, "wishes." + std::to_string(goal.wish + 1), {}, {}};
    error.message = "nearest that holds: " + goal.label + " " + text(found.value, goal.unit(), settings, found.gap) +
                    ", " + text(found.gap, goal.unit(), settings, found.gap) + " from " +
                    cuts::shown(wishes[goal.wish].text);
    error.readings = whole_wish(starts.front().task.goals, wishes, goal, found.value, Digit::beyond);
    out.push_back(std::move(error));
  }
  return out;
}

/// What of a bound the way that comes nearest to holding it leaves [m]; negative: passed.
double room(const Task& task, const Bound& bound) {
  double most = -std::numeric_limits<double>::infinity();
  const auto ways = find_ways({task.frame, task.stock, task.moves, task.goals, {}});
  if (!ways) return most;
  for (const Amounts& way : *ways) {
    const double off = *moved(task.stock, task.moves, way)[bound.level] - bound.value;
    most = std::max(most, bound.at_most ? -off : off);
  }
  return most;
}

/// Says the nearest with what stands in the way; of several wishes each of the others has its own.
base::Errors with_nearest(base::Error error, base::Errors nearest) {
  if (nearest.empty()) return {std::move(error)};
  error.message += "; " + nearest.front().message;
  error.path = nearest.front().path;
  error.readings = nearest.front().readings;
  for (std::size_t i = 1; i < nearest.size(); ++i) {
    nearest[i].message = "With the other wishes as they are, the " + nearest[i].message;
    nearest[i].hint = error.hint;
  }
  nearest.front() = std::move(error);
  return nearest;
}

/// The limit that stands in the way, as one sentence with numbers.
base::Errors of_limit(const std::vector<Start>& starts, const Bound& bound, double room,
                      const std::vector<study::HardLimit>& limits, const Wishes& wishes, const geometry::Survey& survey,
                      const Settings& settings) {
  base::Error error{ErrorCode::impossible, {}, "wishes", {}, {}};
  const auto limit =
      std::find_if(limits.begin(), limits.end(), [&](const study::HardLimit& l) { return l.rule == bound.rule; });
  if (limit == limits.end()) {
    error.message = "Met in full, these wishes bring metal to metal: " + bound.rule + " would be " +
                    text(1e3 * room, "mm", settings);
    error.hint = "Shorten the spigot by what the cylinder comes down, then read it anew.";
  } else {
    const double per_level = limit->unit == "%" ? 100.0 / *starts.front().task.frame.bore : 1e3;
    study::HardLimit there = *limit;
    there.value = there.stop + (there.at_least ? 1.0 : -1.0) * (there.doubt + per_level * room);
    error.message = "Met in full, these wishes pass a limit: " + passed_text(there, settings, true);
    error.hint = limit->fix + how_surely;
    if (there.margin() >= 0.0)
      error.hint = "It would hold by its value; the readings are too poor to say so. Read first, or more often: " +
                   listed(readings_first(survey, nullptr, there.figure, settings)) + ".";
  }
  return with_nearest(std::move(error), nearest_within(starts, wishes, settings));
}

}  // namespace

std::string passed_text(const study::HardLimit& limit, const Settings& settings, bool by_doubt) {
  const std::string value = by_doubt ? text(limit.value, limit.unit, settings, limit.margin() - limit.doubt)
                                     : text(limit.value, limit.unit, settings);
  const std::string out = limit.label + " would be " + value + ", " + (limit.at_least ? "at least " : "at most ") +
                          text(limit.stop, limit.unit, settings) + " is asked";
  if (by_doubt)
    return out + ", and " + text(limit.doubt, limit.unit, settings, limit.doubt) +
           " more for what the readings leave open at a chance of " + percent(settings.chance);
  if (limit.margin() < 0.0) return out;
  return out + ": it holds, but passes with a chance of " + percent(limit.chance) + ", and " +
         percent(settings.chance) + " is allowed";
}

std::vector<std::string> readings_first(const geometry::Survey& survey, const cuts::Prepared* cuts,
                                        const std::string& figure, const Settings& settings) {
  constexpr double says_much = 0.1;
  std::vector<std::string> out;
  const auto why = study::why(survey, cuts, figure, settings.study);
  if (!why) return out;
  for (const study::Share& share : why->inputs)
    if (share.share >= says_much && out.size() < 3)
      out.push_back(share.path + " (" + percent(share.share) + " of the doubt)");
  return out;
}

base::Errors why_no_way(const std::vector<Start>& starts, const Wishes& wishes, const geometry::Survey& survey,
                        const Settings& settings) {
  if (!is_reachable(starts, [](std::size_t) { return true; })) {
    base::Errors out = by_themselves(starts, wishes, settings);
    if (out.empty()) out = one_by_one(starts, wishes, settings);
    if (out.empty())
      out.push_back({ErrorCode::contradiction,
                     "These wishes cannot be met together.",
                     "wishes",
                     "Leave out several and add them again one by one.",
                     {}});
    return out;
  }
  // Of every limit, the start that comes nearest to holding it.
  base::Errors out;
  for (std::size_t b = 0; b < starts.front().task.bounds.size(); ++b) {
    std::size_t best = 0;
    std::vector<double> rooms;
    for (const Start& start : starts) rooms.push_back(room(start.task, start.task.bounds[b]));
    for (std::size_t i = 1; i < rooms.size(); ++i)
      if (rooms[i] > rooms[best]) best = i;
    if (rooms[best] >= -1e-12) continue;
    for (base::Error& one :
         of_limit(starts, starts[best].task.bounds[b], rooms[best], starts[best].limits, wishes, survey, settings)) {
      // Two limits may have the same nearest.
      if (std::find(out.begin(), out.end(), one) == out.end()) out.push_back(std::move(one));
    }
  }
  if (!out.empty()) return out;
  return with_nearest({ErrorCode::impossible,
                       "Every way to these wishes passes one limit or another",
                       "wishes",
                       std::string("Wish for less.") + how_surely,
                       {}},
                      nearest_within(starts, wishes, settings));
}

}  // namespace portwright::plan
