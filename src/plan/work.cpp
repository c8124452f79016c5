#include "plan/work.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/number_text.hpp"
#include "plan/levels.hpp"
#include "plan/rest.hpp"

namespace portwright::plan {
namespace {

using cuts::Act;
using geometry::Engine;

constexpr double per_degree = 180.0 / std::numbers::pi;
constexpr double last_touch = 0.3;  // of the hand's scatter
/// What steps before may have left standing otherwise, as a length [mm]: the squish's band.
constexpr double left_by_others = 0.05;

bool is_gasket(const cuts::Cut& cut) { return cut.act == Act::gasket_out || cut.act == Act::gasket_to; }
bool is_turned(const cuts::Cut& cut) {
  return cut.act == Act::base || cut.act == Act::band || cut.act == Act::crown_edge || cut.act == Act::dome;
}

bool is_ground(const cuts::Cut& cut) {
  return cut.act == Act::widen || cut.act == Act::roof || cut.act == Act::floor || cut.act == Act::skirt;
}

// One sigma of readings, halves of their variance fixed and averaging. Memory, as data/instruments.toml.
Gauge by_wheel() { return {"degree wheel, opening and closing", 0.15, 0.15}; }
Gauge by_light() { return {"degree wheel by light, opening and closing", 0.5, 0.5}; }
Gauge by_height(double deg_per_mm) {
  return {"height over its stock reading, same set-up", 0.035 * deg_per_mm, 0.05 * deg_per_mm, Reads::height};
}
/// Where no height was read, or its base face is another: the stock edge is scribed, and what is gone from it counts.
Gauge by_mark(double deg_per_mm) {
  return {"metal gone from the stock edge, scribed before the cut", 0.05 * deg_per_mm, 0.05 * deg_per_mm,
          Reads::amount};
}

std::string spoken(std::string name) {
  std::replace(name.begin(), name.end(), '_', ' ');
  return name;
}

/// Before and after one cut.
class Stepper {
 public:
  Stepper(const Engine& before, const Engine& after, const cuts::Cut& cut, const geometry::Survey& survey,
          const Settings& settings, const Bench& bench, bool done, bool face_stands)
      : before_(before),
        after_(after),
        cut_(cut),
        survey_(survey),
        settings_(settings),
        bench_(bench),
        done_(done),
        face_stands_(face_stands) {}

  base::Result<WorkStep> make() {
    step_.cut = cut_;
    step_.done = done_;
    step_.amount = is_turned(cut_) || is_ground(cut_) ? std::abs(cut_.amount) : 0.0;
    name_it();
    measure();
    if (auto guarded = guard(); !guarded) return tl::unexpected(guarded.error());
    expect();
    return step_;
  }

 private:
  void name_it() {
    const std::string port = spoken(cut_.port);
    switch (cut_.act) {
      case Act::gasket_out:
        return say("Leave the base gasket out", "sealant", "base face", "until the sealant has cured: nothing");
      case Act::gasket_to:
        return say("Fit the other base gasket", "gasket, torqued", "base face", "can be taken back");
      case Act::base:
        return say("Turn the base face", "lathe, on an arbor in the bore", "base face, square to the bore",
                   "first chip: heights count from the new face");
      case Act::band:
        return say("Turn the squish band", "lathe, from below on an arbor", "squish band, at its own angle",
                   "first chip: chamber and band are other ones");
      case Act::crown_edge:
        return say("Turn the crown's edge down", "lathe, piston in soft jaws", "crown edge, a ring as wide as the band",
                   "first chip: the top land is thinner");
      case Act::dome:
        return say("Turn the crown's middle down", "lathe, piston in soft jaws", "crown, from the middle outward",
                   "first chip: look how thick the crown is from below before it");
      case Act::widen:
        return say("Widen the " + port, "die grinder, then stone",
                   cut_.side.empty() ? "both sides alike, from the plating outward"
                                     : cut_.side + " side alone, from the plating outward",
                   "first chip: the chord does not come back");
      case Act::roof:
        return say("Raise the " + port + " roof", "die grinder, then stone", "roof, over its whole length",
                   timed_entry() >= 0 ? "first chip: the edge opens sooner for good"
                                      : "first chip: the window is larger for good");
      case Act::floor:
        return say("Lower the " + port + " floor", "die grinder, then stone", "floor, over its whole length",
                   timed_entry() >= 0 ? "first chip: the skirt covers less for good"
                                      : "first chip: the window is larger for good");
      case Act::skirt:
        return say("Shorten the " + cut_.side + " skirt", "lathe or file", "skirt's lower edge, square",
                   "first chip: another piston is the only way back");
      default:
        return say(cuts::cut_text(cut_), "", "", "first chip");
    }
  }
  void say(std::string what, std::string tool, std::string edge, std::string no_return) {
    step_.what = std::move(what);
    step_.tool = std::move(tool);
    step_.edge = std::move(edge);
    step_.no_return = std::move(no_return);
  }

  /// Entry whose edge this cut times: the port's own, or for the intake skirt the first intake window; -1 for none.
  [[nodiscard]] int timed_entry() const { return timed_by(cut_, survey_); }

  [[nodiscard]] static Known opens(const Engine& engine, int entry) {
    return geometry::timing(engine, engine.ports[static_cast<std::size_t>(entry)]).opens * Known(per_degree);
  }

  void measure() {
    const int entry = timed_entry();
    if (entry >= 0 && figure(opens(before_, entry), opens(after_, entry), port_name(entry) + " opens", "deg")) return;
    if (cut_.act == Act::widen) {
      const auto i = static_cast<std::size_t>(survey_.find_port(cut_.port));
      if (figure(before_.ports[i].width * Known(1e3), after_.ports[i].width * Known(1e3), spoken(cut_.port) + " chord",
                 "mm"))
        return;
    }
    const bool by_squish = is_gasket(cut_) || (is_turned(cut_) && cut_.act != Act::dome);
    if (by_squish && figure(before_.squish * Known(1e3), after_.squish * Known(1e3), "squish, mean of both ends", "mm"))
      return;
    // What has no figure to read, or one that waits for a reading: the metal that is gone.
    gone_ = is_turned(cut_) || is_ground(cut_);
    if (gone_) figure(0.0, 1e3 * step_.amount, gone_label(), "mm");
  }
  [[nodiscard]] std::string gone_label() const {
    if (cut_.act == Act::dome) return "depth turned in the middle";
    if (is_turned(cut_)) return "depth turned";
    return cut_.act == Act::skirt ? "gone from the skirt" : "gone from the edge";
  }
  [[nodiscard]] std::string port_name(int entry) const {
    return spoken(survey_.ports[static_cast<std::size_t>(entry)].name);
  }
  /// @return false where the figure waits for a reading
  bool figure(const Known& before, const Known& after, std::string label, std::string unit) {
    if (!before || !after) return false;
    step_.before = before.value_or(0.0);
    step_.target = after.value_or(0.0);
    step_.label = std::move(label);
    step_.unit = std::move(unit);
    if (step_.amount > 0.0) step_.per_mm = (step_.target - step_.before) / (1e3 * step_.amount);
    return true;
  }

  /// A height can be read again only where it was read, over the face that it was read from.
  [[nodiscard]] bool has_height() const {
    if (cut_.act == Act::skirt || !face_stands_ || survey_.crown_at_tdc.input < 0) return false;
    if (survey_.inputs[static_cast<std::size_t>(survey_.crown_at_tdc.input)].assumed) return false;
    const geometry::PortSlots& port = survey_.ports[static_cast<std::size_t>(timed_entry())];
    const bool crown = geometry::opened_by(port.kind) == geometry::OpenedBy::crown;
    const auto& readings = (crown ? port.roof : port.floor).readings;
    return std::any_of(readings.begin(), readings.end(),
                       [](const geometry::EdgeReading& one) { return one.form == geometry::EdgeForm::height; });
  }
  [[nodiscard]] static Known edge_height(const Engine& engine, int entry) {
    return engine.height(geometry::timed_edge(engine.ports[static_cast<std::size_t>(entry)])) * Known(1e3);
  }

  [[nodiscard]] std::vector<Gauge> gauges() const {
    const double steep = std::abs(step_.per_mm);
    if (step_.unit == "deg") {
      const auto kind = survey_.ports[static_cast<std::size_t>(timed_entry())].kind;
      const bool hidden = kind == geometry::PortKind::transfer || kind == geometry::PortKind::boost;
      const Gauge metal = has_height() ? by_height(steep) : by_mark(steep);
      return hidden ? std::vector<Gauge>{metal, by_light()} : std::vector<Gauge>{by_wheel(), metal};
    }
    if (gone_) {
      if (is_turned(cut_)) return {{"dial of the lathe", 0.01, 0.01}};
      Gauge mark = by_mark(1.0);
      mark.reads = Reads::figure;
      return {mark};
    }
    if (cut_.act == Act::widen) return {{"caliper, chord at the bore", 0.07, 0.07}};
    return {{"solder at both ends of the pin", 0.01, 0.01}};
  }

  [[nodiscard]] double half_band() const {
    if (step_.unit == "deg") return bench_.edge_band * per_degree;
    if (is_ground(cut_)) return 1e3 * bench_.width_band;
    return 1e3 * (gone_ ? bench_.depth_band : bench_.squish_band);
  }

  base::Result<void> guard() {
    if (step_.done || is_gasket(cut_) || step_.per_mm == 0.0) return {};
    const double steep = std::abs(step_.per_mm);
    const double both = cut_.act == Act::widen && cut_.side.empty() && !gone_ ? std::numbers::sqrt2 / 2.0
                                                                              : 1.0;  // two sides, each by itself
    const double hand = 1e3 * (is_turned(cut_) ? bench_.lathe : bench_.hand) * steep * both;
    const auto guard =
        guard_of(gauges(), {hand, is_turned(cut_) ? hand : last_touch * hand}, half_band(), step_.label, step_.unit);
    if (!guard) return tl::unexpected(guard.error());
    step_.guard = *guard;
    const double way = step_.per_mm > 0.0 ? 1.0 : -1.0;
    step_.never = step_.target + way * guard->half_band;
    if (guard->reads == Reads::height) {
      step_.height_before = edge_height(before_, timed_entry()).value_or(0.0);
      step_.height_after = edge_height(after_, timed_entry()).value_or(0.0);
    }
    step_.stop_amount = std::max(0.0, step_.amount - 1e-3 * guard->short_of / steep);
    if (step_.stop_amount < 0.05e-3) step_.stop_amount = 0.0;
    step_.stop = step_.stop_amount > 0.0 ? step_.target - way * guard->short_of : step_.before;
    const double wide = 3.0 * std::hypot(guard->sigma, left_by_others * (step_.unit == "deg" ? steep : 1.0));
    step_.start_low = step_.before - wide;
    step_.start_high = step_.before + wide;
    return {};
  }

  [[nodiscard]] std::string mm(const Known& metres) const {
    if (!metres) return "waits for readings";
    const double v = 1e3 * *metres;
    std::string out = base::number_text(v, 2) + " mm";
    if (settings_.study.style == base::UnitStyle::shop) out += " = " + base::number_text(v / 0.0254, 0) + " thou";
    return out;
  }
  [[nodiscard]] static std::string deg(const Known& radians) {
    return radians ? base::number_text(*radians * per_degree, 1) + " deg" : "waits for readings";
  }

  void expect() {
    if (step_.unit.empty()) return;
    const int entry = timed_entry();
    if (entry >= 0) {
      const geometry::Port& port = after_.ports[static_cast<std::size_t>(entry)];
      const geometry::Timing timing = geometry::timing(after_, port);
      step_.expected = {
          {"opens", deg(timing.opens)}, {"closes", deg(timing.closes)}, {"open for", deg(timing.duration)}};
      add_other_sides(entry, step_.expected.front());
      if (cut_.act != Act::skirt && after_.height(geometry::timed_edge(port))) {
        const bool crown = geometry::opened_by(port.kind) == geometry::OpenedBy::crown;
        step_.expected.push_back({crown ? "roof over the base face" : "floor over the base face",
                                  mm(after_.height(geometry::timed_edge(port)))});
      }
      return;
    }
    if (cut_.act == Act::widen) {
      const auto& port = after_.ports[static_cast<std::size_t>(survey_.find_port(cut_.port))];
      step_.expected = {{"chord", mm(port.width)}};
      if (port.width && after_.bore)
        step_.expected.push_back({"of the bore", base::number_text(100.0 * *port.width / *after_.bore, 1) + " %"});
      return;
    }
    if (gone_ && is_ground(cut_)) return;
    step_.expected = {{"squish", mm(after_.squish)}};
    for (std::size_t i = 0; cut_.act != Act::dome && i < after_.ports.size(); ++i) {
      if (after_.ports[i].twin_of >= 0) continue;
      step_.expected.push_back(
          {port_name(static_cast<int>(i)) + " opens", deg(geometry::timing(after_, after_.ports[i]).opens)});
      add_other_sides(static_cast<int>(i), step_.expected.back());
    }
  }
  /// Beside the first side of a mirrored port the other, where it was read as another one.
  void add_other_sides(int entry, Expected& first) const {
    for (std::size_t i = 0; i < after_.ports.size(); ++i) {
      if (survey_.ports[i].twin_of != entry) continue;
      const Known here = opens(after_, entry), there = opens(after_, static_cast<int>(i));
      if (here && there && std::abs(*here - *there) > 0.05)
        first.text += ", other side " + base::number_text(*there, 1) + " deg";
    }
  }

  const Engine& before_;
  const Engine& after_;
  const cuts::Cut& cut_;
  const geometry::Survey& survey_;
  const Settings& settings_;
  const Bench& bench_;
  bool done_;
  bool face_stands_;   ///< the base face is the one that heights were read from
  bool gone_ = false;  ///< the figure that is read is the metal that is gone
  WorkStep step_;
};

/// What of every hard limit is left after a list; nothing where the list cannot be made.
std::vector<study::HardLimit> limits_after(const cuts::CutList& list, const geometry::Survey& survey,
                                           const Settings& settings) {
  const auto prepared = cuts::prepare(list, survey, settings.folder);
  if (!prepared) return {};
  study::Options options = settings.study;
  options.samples = 2;  // values alone
  const cuts::Prepared* one[] = {prepared->get()};
  return study::hard_limits(survey, one, options, settings.chance).front();
}

/// Brings the far end of a step's band back to the first hard limit that it would pass, with what is cut so far and
/// with the whole way.
void keep_inside_limits(WorkStep& step, std::size_t k, const Way& way, const geometry::Survey& survey,
                        const Settings& settings) {
  const cuts::CutList& all = way.exact;
  double share = 1.0;
  for (const std::size_t count : {k + 1, all.size()}) {
    cuts::CutList list(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(count));
    const auto there = limits_after(list, survey, settings);
    list[k].amount += std::copysign(1e-3 * step.guard->half_band / std::abs(step.per_mm), list[k].amount);
    const auto past = limits_after(list, survey, settings);
    for (std::size_t i = 0; i < std::min(there.size(), past.size()); ++i) {
      const double left = there[i].margin(), over = -past[i].margin();
      if (left < 0.0 || over <= 0.0 || left / (left + over) >= share) continue;
      share = left / (left + over);
      step.never_why = there[i].label;
    }
  }
  step.never = step.target + (step.never - step.target) * share;
}

}  // namespace

bool is_near_enough(const WorkStep& step) {
  return step.guard && std::abs(step.before - step.target) <= step.guard->put_down;
}

base::ResultAll<Work> work_of(const Way& way, const geometry::Survey& survey, const Settings& settings,
                              const Bench& bench) {
  Work work;
  base::Errors errors;
  Engine before = geometry::resolve(survey);
  const Engine stock = before;
  for (std::size_t k = 0; k < way.exact.size(); ++k) {
    const cuts::CutList first(way.exact.begin(), way.exact.begin() + static_cast<std::ptrdiff_t>(k) + 1);
    const auto prepared = cuts::prepare(first, survey, settings.folder);
    if (!prepared) return tl::unexpected(prepared.error());
    Engine after = stock;
    cuts::apply(**prepared, after);
    const bool face_stands =
        std::none_of(first.begin(), first.end(), [](const cuts::Cut& cut) { return cut.act == Act::base; });
    const bool done = is_done(way.exact, k, settings.done);
    auto step = Stepper(before, after, way.exact[k], survey, settings, bench, done, face_stands).make();
    if (step) {
      if (step->guard) keep_inside_limits(*step, k, way, survey, settings);
      work.steps.push_back(*std::move(step));
    } else {
      errors.push_back(step.error());
    }
    before = after;
  }
  if (!errors.empty()) return tl::unexpected(std::move(errors));
  return work;
}

std::vector<std::string> assembly_list() {
  return {"Edges broken 0.3 to 1 mm all round, after the last reading",
          "Grit washed out, oil ways too; dried, oiled",
          "Ring ends on their pegs; end gap and bore clearance",
          "Circlips seated; the arrow to the exhaust",
          "Squish by solder again",
          "Turned over by hand through the ports",
          "Base sealant cured; impulse hole and boot open and tight",
          "Pressure and vacuum held, crank turning",
          "Start rich; heat cycles; retorque",
          "Gauge again after two or three tanks; test cuts against stock"};
}

}  // namespace portwright::plan
