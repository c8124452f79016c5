#include "plan/goals.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/number_text.hpp"
#include "cuts/grammar.hpp"
#include "cuts/words.hpp"
#include "plan/plan.hpp"
#include "study/figures.hpp"

namespace portwright::plan {
namespace {

using base::ErrorCode;
using geometry::PortKind;

constexpr double degree = std::numbers::pi / 180.0;
// Beyond these a wish to open is likelier a duration, and the other way round: the bounds at which the saw file asks.
constexpr double latest_crown = 140.0 * degree, latest_skirt = 110.0 * degree, shortest_exhaust = 110.0 * degree;

std::string spoken(std::string name) {
  std::replace(name.begin(), name.end(), '_', ' ');
  return name;
}

const char* figure_tail(Aspect aspect) {
  return aspect == Aspect::opens || aspect == Aspect::closes || aspect == Aspect::duration ? aspect_word(aspect)
                                                                                           : "width_of_bore";
}

const char* whole_figure(Aspect aspect, bool of_intake) {
  switch (aspect) {
    case Aspect::blowdown:
      return "timing.blowdown";
    case Aspect::squish:
      return "squish.clearance";
    case Aspect::chamber:
      return "chamber.volume";
    case Aspect::trapped_ratio:
      return "chamber.trapped_ratio";
    case Aspect::full_ratio:
      return "chamber.full_ratio";
    default:
      return of_intake ? "skirt.cover_intake" : "skirt.cover_exhaust";
  }
}

class Binder {
 public:
  Binder(const geometry::Survey& survey, const geometry::Engine& stock)
      : survey_(survey), frame_(stock), levels_(levels_of(stock)) {}

  void add(const Wish& wish, std::size_t index) {
    wish_ = &wish;
    path_ = "wishes." + std::to_string(index + 1);
    Goal goal;
    goal.wish = index;
    goal.aspect = wish.aspect;
    goal.relation = wish.relation;
    if (wish.aspect == Aspect::skirt_cover) return add_skirt(goal);
    if (!is_of_port(wish.aspect)) return settle(goal, whole_name(wish));
    const std::vector<int> entries = find_ports();
    for (const int entry : entries) add_port(goal, entry);
  }

  base::Errors errors;
  std::vector<Goal> goals;

 private:
  void fail(ErrorCode code, const std::string& why, std::string hint = {}, std::vector<std::string> readings = {}) {
    errors.push_back({code, cuts::shown(wish_->text) + " " + why, path_, std::move(hint), std::move(readings)});
  }

  static std::string whole_name(const Wish& wish) { return aspect_word(wish.aspect); }

  void add_skirt(Goal goal) {
    const bool times_intake = std::any_of(survey_.ports.begin(), survey_.ports.end(),
                                          [](const auto& p) { return p.kind == PortKind::intake; });
    if (wish_->subject.empty() && times_intake)
      return fail(ErrorCode::unreadable, "may be of the exhaust's skirt or of the intake's", "Say which.",
                  {replaced("skirt cover", "skirt cover exhaust"), replaced("skirt cover", "skirt cover intake")});
    goal.of_intake = wish_->subject == "intake";
    if (goal.of_intake && !times_intake)
      return fail(ErrorCode::not_found, "speaks of an intake window, and this saw has none");
    settle(goal, goal.of_intake ? "skirt lap under the intake" : "skirt over the exhaust floor");
  }

  [[nodiscard]] std::string replaced(const std::string& from, const std::string& to) const {
    std::string text = cuts::lower(wish_->text);
    if (const std::size_t at = text.find(from); at != std::string::npos) text.replace(at, from.size(), to);
    return text;
  }

  std::vector<int> of_kind(PortKind kind) const {
    std::vector<int> out;
    for (std::size_t i = 0; i < survey_.ports.size(); ++i)
      if (survey_.ports[i].kind == kind && survey_.ports[i].twin_of < 0) out.push_back(static_cast<int>(i));
    return out;
  }

  /// A port by name; else all of a kind, which more than one of asks to be said in the plural.
  std::vector<int> find_ports() {
    const std::string& subject = wish_->subject;
    if (const int entry = survey_.find_port(subject); entry >= 0) return {entry};
    for (const PortKind kind :
         {PortKind::exhaust, PortKind::transfer, PortKind::boost, PortKind::intake, PortKind::air}) {
      const std::string name = study::kind_name(kind);
      const bool plural = subject == name + "s";
      if (!plural && subject != name) continue;
      const std::vector<int> found = of_kind(kind);
      if (found.empty()) break;
      if (found.size() > 1 && !plural) return ask_which(found, name);
      return found;
    }
    tell_unknown();
    return {};
  }

  std::vector<int> ask_which(const std::vector<int>& found, const std::string& kind) {
    std::vector<std::string> readings = {replaced(kind, kind + "s")};
    for (const int entry : found)
      readings.push_back(replaced(kind, survey_.ports[static_cast<std::size_t>(entry)].name));
    fail(ErrorCode::unreadable, "may be of one of several ports", "Say which.", readings);
    return {};
  }

  void tell_unknown() {
    std::vector<std::string_view> names;
    std::string list;
    for (const geometry::PortSlots& port : survey_.ports) {
      if (port.twin_of >= 0) continue;
      names.push_back(port.name);
      list += (list.empty() ? "" : ", ") + port.name;
    }
    const std::string_view near = cuts::nearest_word(wish_->subject, names);
    fail(ErrorCode::not_found, "names a port that this saw does not have: " + cuts::shown(wish_->subject),
         names.empty()  ? "this saw has no ports yet"
         : near.empty() ? "its ports are " + list
                        : "the nearest is " + std::string(near));
  }

  void add_port(Goal goal, int entry) {
    const geometry::PortSlots& port = survey_.ports[static_cast<std::size_t>(entry)];
    goal.entry = is_timing(goal.aspect) ? earlier_side(entry) : entry;
    const bool twin = goal.entry != entry;
    if (!wish_->as_stock && may_be_the_other(port)) return;
    goal.figure = "port." + port.name + (twin ? ".twin." : ".") + figure_tail(goal.aspect);
    settle(goal, spoken(port.name) + (twin ? " (mirrored side) " : " ") + aspect_word(goal.aspect));
  }

  static bool is_timing(Aspect aspect) {
    return aspect == Aspect::opens || aspect == Aspect::closes || aspect == Aspect::duration;
  }

  /// One cut moves both sides of a mirrored port: of two that differ the one that opens first is the one that counts.
  [[nodiscard]] int earlier_side(int entry) const {
    const auto kind = survey_.ports[static_cast<std::size_t>(entry)].kind;
    const bool crown = geometry::opened_by(kind) == geometry::OpenedBy::crown;
    int out = entry;
    for (std::size_t i = 0; i < survey_.ports.size(); ++i) {
      const Known &here = levels_[level::passed + i], &there = levels_[level::passed + static_cast<std::size_t>(out)];
      if (survey_.ports[i].twin_of != entry || !here || !there) continue;
      if (crown ? *here < *there : *here > *there) out = static_cast<int>(i);
    }
    return out;
  }

  /// "exhaust at 164 deg" is likelier its duration, "exhaust duration 98 deg" where it opens.
  bool may_be_the_other(const geometry::PortSlots& port) {
    const bool crown = geometry::opened_by(port.kind) == geometry::OpenedBy::crown;
    const bool late = wish_->aspect == Aspect::opens && wish_->value > (crown ? latest_crown : latest_skirt);
    const bool brief =
        wish_->aspect == Aspect::duration && port.kind == PortKind::exhaust && wish_->value < shortest_exhaust;
    if (!late && !brief) return false;
    const std::string amount = cuts::amount_text(wish_->value, base::Dimension::angle);
    fail(ErrorCode::unreadable,
         late ? "is late for an opening and may be a duration" : "is short for a duration and may be an opening",
         "Say which, within what a saw can have.",
         {late ? wish_->subject + " duration " + amount : wish_->subject + " opens " + amount});
    return true;
  }

  /// Kinds of window that a figure of the whole saw is made of, and that this saw does not have yet.
  [[nodiscard]] const char* lacking(const Goal& goal) const {
    const auto has = [&](PortKind kind) { return !of_kind(kind).empty(); };
    const bool exhaust = goal.aspect == Aspect::blowdown || goal.aspect == Aspect::trapped_ratio ||
                         (goal.aspect == Aspect::skirt_cover && !goal.of_intake);
    if (exhaust && !has(PortKind::exhaust)) return "exhaust";
    const bool transfer = goal.aspect == Aspect::blowdown && !has(PortKind::transfer) && !has(PortKind::boost);
    return transfer ? "transfer" : nullptr;
  }

  void settle(Goal goal, std::string label) {
    goal.label = std::move(label);
    if (const char* kind = lacking(goal))
      return fail(ErrorCode::impossible, "cannot be planned yet: this saw has no " + std::string(kind) + " port",
                  "Read the port first: a [[port]] of kind " + std::string(kind) + " in the saw file.");
    if (goal.figure.empty()) goal.figure = whole_figure(goal.aspect, goal.of_intake);
    const Known now = value_of(frame_, levels_, goal.aspect, goal.entry, goal.of_intake);
    if (!now) return tell_waiting(now.needs(), goal.label);
    if (!std::isfinite(*now)) return fail(ErrorCode::impossible, "speaks of an edge that the piston never passes");
    goal.stock = *now;
    goal.target = wish_->as_stock ? goal.stock : wish_->value;
    goal.within = wish_->within * goal.scale();
    if (!lies_in_turn(goal) || !lies_in_bore(goal)) return;
    add_once(std::move(goal));
  }

  /// A chord is shorter than the bore is wide.
  bool lies_in_bore(const Goal& goal) {
    const bool chord = goal.aspect == Aspect::width, share = goal.aspect == Aspect::width_of_bore;
    if (!frame_.bore || (!chord && !share) || goal.target < (share ? 1.0 : *frame_.bore)) return true;
    fail(ErrorCode::out_of_range,
         "is wider than the bore, " + base::value_text({1e3 * *frame_.bore, {}, {}}, "mm", base::UnitStyle::shop),
         "A width is the chord of a window, or its share of the bore.");
    return false;
  }

  bool lies_in_turn(Goal& goal) {
    if (goal.entry < 0 || goal.aspect == Aspect::width || goal.aspect == Aspect::width_of_bore) return true;
    const bool crown =
        geometry::opened_by(frame_.kinds[static_cast<std::size_t>(goal.entry)]) == geometry::OpenedBy::crown;
    const double turn = 2.0 * std::numbers::pi;
    // Degrees of closing before TDC count from there, as in a saw file.
    if (goal.aspect == Aspect::closes && crown && goal.target < std::numbers::pi) goal.target = turn - goal.target;
    const double most =
        goal.aspect == Aspect::opens || (goal.aspect == Aspect::closes && !crown) ? std::numbers::pi : turn;
    if (goal.target > 0.0 && goal.target < most) return true;
    fail(ErrorCode::out_of_range, "lies where no edge is passed",
         "An opening lies between 0 and 180 deg, a closing or a duration under 360 deg.");
    return false;
  }

  void tell_waiting(const base::Needs& needs, const std::string& label) {
    std::vector<std::string> waits;
    for (std::size_t i = 0; i < survey_.needs.size(); ++i)
      if (needs.has(static_cast<int>(i))) waits.push_back(survey_.needs[i]);
    std::string list;
    for (const std::string& need : waits) list += (list.empty() ? "" : ", ") + need;
    fail(ErrorCode::impossible, "cannot be planned yet: " + label + " waits for a reading", "Read first: " + list,
         waits);
  }

  void add_once(Goal goal) {
    const bool is = goal.relation == Relation::is;
    for (const Goal& other : goals) {
      if (other.aspect != goal.aspect || other.entry != goal.entry || other.of_intake != goal.of_intake) continue;
      if (!is || other.relation != Relation::is) continue;
      if (std::abs(other.target - goal.target) * goal.scale() < 1e-9) return;
      const auto text = [&](double value) {
        return base::value_text({value, {}, {}}, goal.unit(), base::UnitStyle::shop);
      };
      return fail(ErrorCode::contradiction, "contradicts another wish: " + goal.label + " is wished at " +
                                                text(other.shown_target()) + " and at " + text(goal.shown_target()) +
                                                ", " + text(std::abs(other.target - goal.target) * goal.scale()) +
                                                " apart");
    }
    goals.push_back(std::move(goal));
  }

  const geometry::Survey& survey_;
  Frame frame_;
  Levels levels_;
  const Wish* wish_ = nullptr;
  std::string path_;
};

}  // namespace

double Goal::scale() const {
  switch (aspect) {
    case Aspect::opens:
    case Aspect::closes:
    case Aspect::duration:
    case Aspect::blowdown:
      return 1.0 / degree;
    case Aspect::chamber:
      return 1e6;
    case Aspect::trapped_ratio:
    case Aspect::full_ratio:
      return 1.0;
    case Aspect::width_of_bore:
      return 100.0;
    default:
      return 1e3;
  }
}

const char* Goal::unit() const {
  switch (aspect) {
    case Aspect::opens:
    case Aspect::closes:
    case Aspect::duration:
    case Aspect::blowdown:
      return "deg";
    case Aspect::chamber:
      return "cm3";
    case Aspect::trapped_ratio:
    case Aspect::full_ratio:
      return "-";
    case Aspect::width_of_bore:
      return "%";
    default:
      return "mm";
  }
}

double Goal::shown(const Frame& frame, const Levels& levels) const {
  return scale() * *value_of(frame, levels, aspect, entry, of_intake);
}

double Goal::missed(double shown) const {
  const double off = shown - shown_target();
  if (relation == Relation::at_least) return std::min(off, 0.0);
  if (relation == Relation::at_most) return std::max(off, 0.0);
  return off;
}

double half_band(const Goal& goal, const Frame& frame, const Levels& levels, const Bands& bands) {
  const auto squish_volume = [&] { return 0.25 * std::numbers::pi * *frame.bore * *frame.bore * bands.squish; };
  switch (goal.aspect) {
    case Aspect::opens:
    case Aspect::closes:
    case Aspect::blowdown:
      return bands.edge;
    case Aspect::duration:
      return 2.0 * bands.edge;
    case Aspect::width:
      return bands.width;
    case Aspect::width_of_bore:
      return bands.width / *frame.bore;
    case Aspect::squish:
      return bands.squish;
    case Aspect::chamber:
      return frame.bore ? squish_volume() : 0.0;
    case Aspect::trapped_ratio:
    case Aspect::full_ratio:
      return (goal.target - 1.0) * squish_volume() / *levels[level::chamber];
    case Aspect::skirt_cover:
      return 0.0;
  }
  return 0.0;
}

base::ResultAll<std::vector<Goal>> goals_of(const Wishes& wishes, const geometry::Survey& survey,
                                            const geometry::Engine& stock) {
  Binder binder(survey, stock);
  for (std::size_t i = 0; i < wishes.size(); ++i)
    if (!wishes[i].free) binder.add(wishes[i], i);
  if (!binder.errors.empty()) return tl::unexpected(std::move(binder.errors));
  return std::move(binder.goals);
}

}  // namespace portwright::plan
