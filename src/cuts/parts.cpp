// A part from another saw file: its readings become constants, in this saw's order of ports and rings.

#include <filesystem>

#include "cuts/prepared.hpp"
#include "cuts/words.hpp"
#include "saw/file.hpp"

namespace portwright::cuts {

using base::ErrorCode;
using geometry::Port;
using geometry::Survey;

namespace {

/// Reading of the other file, else what this saw waits for; what only the other file lacks is told.
class Taker {
 public:
  Taker(const Cut& cut, base::Errors& errors) : cut_(cut), errors_(errors) {}

  void operator()(const std::string& path, Known& here, const Known& other) {
    if (other)
      here = other;
    else if (here)
      lacks(path);
  }
  void lacks(const std::string& path) {
    errors_.push_back({ErrorCode::not_found,
                       shown(cut_.text) + " cannot be told: " + cut_.file + " lacks a reading that this saw has",
                       path,
                       "add " + path + " to " + cut_.file,
                       {}});
  }
  void differs(const std::string& why, const std::string& path) {
    errors_.push_back({ErrorCode::bad_cut, shown(cut_.text) + " does not fit this saw: " + why, path, {}, {}});
  }

 private:
  const Cut& cut_;
  base::Errors& errors_;
};

void take_ring(Taker& take, const std::string& path, geometry::Ring& here, const geometry::Ring& other) {
  take(path + "below_crown", here.below_crown, other.below_crown);
  take(path + "height", here.height, other.height);
  take(path + "radial", here.radial, other.radial);
  take(path + "peg", here.peg, other.peg);
  take(path + "end_gap", here.end_gap, other.end_gap);
  take(path + "free_gap", here.free_gap, other.free_gap);
}

void take_piston(Taker& take, geometry::Piston& here, const geometry::Piston& other) {
  take("piston.skirt_exhaust", here.skirt_exhaust, other.skirt_exhaust);
  take("piston.skirt_intake", here.skirt_intake, other.skirt_intake);
  take("piston.skirt_side", here.skirt_side, other.skirt_side);
  take("piston.skirt_exhaust_width", here.skirt_exhaust_width, other.skirt_exhaust_width);
  take("piston.pin_below_crown", here.pin_below_crown, other.pin_below_crown);
  take("piston.pin_diameter", here.pin_diameter, other.pin_diameter);
  take("piston.dome", here.dome, other.dome);
  take("piston.mass", here.mass, other.mass);
  const bool same_rings = other.rings.size() == here.rings.size();
  if (!same_rings && !other.rings.empty()) here.rings = other.rings;  // another count: only what its file says
  for (std::size_t k = 0; k < here.rings.size() && (same_rings || other.rings.empty()); ++k) {
    const std::string path = "piston.ring." + std::to_string(k + 1) + ".";
    if (same_rings)
      take_ring(take, path, here.rings[k], other.rings[k]);
    else
      take.lacks(path + "below_crown");
  }
  here.windows = other.windows;
  here.pocket_roof = other.pocket_roof;
}

/// What another count of rings or piston windows leaves open waits for a number of the other file's list, which means
/// nothing here.
void require_complete(Taker& take, const geometry::Piston& piston, std::size_t rings_here) {
  for (std::size_t k = 0; k < piston.rings.size() && piston.rings.size() != rings_here; ++k) {
    const geometry::Ring& r = piston.rings[k];
    const std::string path = "piston.ring." + std::to_string(k + 1) + ".";
    const std::pair<const char*, const Known*> fields[] = {{"below_crown", &r.below_crown}, {"height", &r.height},
                                                           {"radial", &r.radial},           {"peg", &r.peg},
                                                           {"end_gap", &r.end_gap},         {"free_gap", &r.free_gap}};
    for (const auto& [name, value] : fields) {
      if (!*value) take.lacks(path + name);
    }
  }
  for (std::size_t k = 0; k < piston.windows.size(); ++k) {
    const geometry::PistonWindow& w = piston.windows[k];
    if (!(w.centre && w.roof && w.floor && w.width && w.corner)) take.lacks("piston.window." + std::to_string(k + 1));
  }
}

void take_passage(Taker& take, const std::string& path, geometry::Passage& here, const geometry::Passage& other) {
  take(path + "length", here.length, other.length);
  take(path + "bend", here.bend, other.bend);
  take(path + "tilt", here.tilt, other.tilt);
  take(path + "aim", here.aim, other.aim);
  take(path + "foot", here.foot, other.foot);
  take(path + "gasket", here.gasket, other.gasket);
  take(path + "mouth", here.mouth, other.mouth);
  take(path + "case_step", here.case_step, other.case_step);
  take(path + "lower.roof", here.lower_roof, other.lower_roof);
  take(path + "lower.floor", here.lower_floor, other.lower_floor);
  take(path + "lower.width", here.lower_width, other.lower_width);
  here.lower_open = other.lower_open;
}

void take_port(Taker& take, const std::string& name, Port& here, const Port& other, const Known& bore) {
  const std::string path = "port." + name + ".";
  take(path + "centre", here.centre, other.centre);
  take(path + "roof", here.roof, other.roof);
  take(path + "floor", here.floor, other.floor);
  take(path + "opens", here.passed, other.passed);
  take(path + "width", here.width, other.width);
  take(path + "corner_roof", here.corner_roof, other.corner_roof);
  take(path + "corner_floor", here.corner_floor, other.corner_floor);
  take(path + "roof_arch", here.roof_arch, other.roof_arch);
  take(path + "roof_slope", here.roof_slope, other.roof_slope);
  take(path + "bridge", here.bridge, other.bridge);
  take(path + "bridge_at", here.bridge_at, other.bridge_at);
  take(path + "duct.length", here.duct_length, other.duct_length);
  take(path + "duct.outlet", here.duct_outlet, other.duct_outlet);
  take(path + "duct.tilt", here.duct_tilt, other.duct_tilt);
  take_passage(take, path + "passage.", here.passage, other.passage);
  here.traced = other.traced;
  here.window = other.window;
  here.window_known = here.roof * Known(0.0);
  if (!here.traced) geometry::rebuild_window(here, bore);
}

/// Entry of the other file for entry i of this saw, or -1 with the trouble told.
int matching_entry(Taker& take, const Survey& here, std::size_t i, const Survey& other) {
  const geometry::PortSlots& port = here.ports[i];
  const std::string path = "port." + port.name;
  const int first = other.find_port(port.name);
  if (first < 0) return take.differs("its cylinder has no port " + shown(port.name), path), -1;
  if (other.ports[static_cast<std::size_t>(first)].kind != port.kind)
    return take.differs("its " + port.name + " is of another kind", path), -1;
  for (std::size_t j = 0; port.twin_of >= 0 && j < other.ports.size(); ++j) {
    if (other.ports[j].twin_of == first) return static_cast<int>(j);
  }
  return first;
}

/// Ports that only the other file has, and sides that differ only there, have no entry to go to.
void refuse_extra(Taker& take, const Survey& here, const Survey& other) {
  const auto has_twin = [](const Survey& survey, const std::string& name) {
    for (const geometry::PortSlots& port : survey.ports) {
      if (port.name == name && port.twin_of >= 0) return true;
    }
    return false;
  };
  for (const geometry::PortSlots& port : other.ports) {
    if (here.find_port(port.name) < 0)
      take.differs("its cylinder has a port more, " + shown(port.name), "port." + port.name);
    else if (port.twin_of >= 0 && !has_twin(here, port.name))
      take.differs("the two sides of its " + port.name + " differ", "port." + port.name);
  }
}

void take_cylinder(Taker& take, const Survey& survey, Engine& here, const Survey& other_survey, const Engine& other) {
  take("crank.bore", here.bore, other.bore);
  take("cylinder.crown_at_tdc", here.crown_at_tdc, other.crown_at_tdc);
  take("cylinder.squish", here.squish, other.squish);
  if (other.squish) here.squish_least = other.squish_least;
  here.squish_tilt = other.squish_tilt ? other.squish_tilt : Known::waits_for(survey.squish_need);
  take("cylinder.squish_band", here.squish_band, other.squish_band);
  take("cylinder.chamber", here.chamber, other.chamber);
  take("cylinder.spigot_clearance", here.spigot_clearance, other.spigot_clearance);
  take("piston.dome", here.piston.dome, other.piston.dome);
  refuse_extra(take, survey, other_survey);
  for (std::size_t i = 0; i < survey.ports.size() && i < here.ports.size(); ++i) {
    const int j = matching_entry(take, survey, i, other_survey);
    if (j >= 0)
      take_port(take, survey.ports[i].name, here.ports[i], other.ports[static_cast<std::size_t>(j)], here.bore);
  }
}

void take_reed(Taker& take, geometry::ReedBlock& here, const geometry::ReedBlock& other) {
  take("intake.reed.petals", here.petals, other.petals);
  take("intake.reed.length", here.length, other.length);
  take("intake.reed.width", here.width, other.width);
  take("intake.reed.thickness", here.thickness, other.thickness);
  take("intake.reed.material", here.modulus, other.modulus);
  if (other.density) here.density = other.density;  // known together with the modulus
  take("intake.reed.window.length", here.window_length, other.window_length);
  take("intake.reed.window.width", here.window_width, other.window_width);
  take("intake.reed.stop", here.stop, other.stop);
  take("intake.reed.block_angle", here.block_angle, other.block_angle);
}

template <std::size_t N>
void take_list(Taker& take, const std::string& path, Few<Known, N>& here, const Few<Known, N>& other) {
  for (const Known& item : other) {
    if (!item) return take.lacks(path);
  }
  if (!other.empty())
    here = other;
  else if (!here.empty())
    take.lacks(path);
}

/// A list of baffles that is not there and a pipe that is not there are none.
void take_muffler(Taker& take, Engine& here, const Engine& other) {
  geometry::Breathing& into = here.breathing;
  const geometry::Breathing& from = other.breathing;
  take("muffler.outlets", here.muffler_outlets, other.muffler_outlets);
  if (other.muffler_outlets) {
    into.outlets = from.outlets;
    into.outlets_known = 0.0;
  }
  take_list(take, "muffler.boxes", into.boxes, from.boxes);
  if (!into.boxes.empty()) into.boxes_known = 0.0;
  into.baffles.clear();
  take_list(take, "muffler.baffles", into.baffles, from.baffles);
  if (!from.screen_known && into.screen_known) take.lacks("muffler.screen");
  into.screen = from.screen;
  into.screen_known = from.screen_known;
  into.pipe = from.pipe;
}

}  // namespace

base::ResultAll<std::shared_ptr<const Engine>> swap_part(const Cut& cut, Part part, const Survey& survey,
                                                         const Engine& stock, const std::string& path) {
  const auto read = saw::read_saw_file(path);
  if (!read) {
    base::Errors errors = read.error();
    for (base::Error& error : errors) error.message = shown(cut.text) + " cannot be done: " + error.message;
    return tl::unexpected(std::move(errors));
  }
  const Survey other_survey = geometry::survey(read->readings);
  const Engine other = geometry::resolve(other_survey);
  base::Errors errors;
  Taker take(cut, errors);
  auto here = std::make_shared<Engine>(stock);
  if (part == Part::piston) {
    take_piston(take, here->piston, other.piston);
    require_complete(take, here->piston, stock.piston.rings.size());
  }
  if (part == Part::cylinder) take_cylinder(take, survey, *here, other_survey, other);
  if (part == Part::reed) {
    if (other_survey.intake == geometry::IntakeKind::skirt)
      take.differs("the intake of its file has no reed", "intake.kind");
    take_reed(take, here->breathing.reed, other.breathing.reed);
  }
  if (part == Part::carburettor) {
    take("carburettor.venturi", here->venturi, other.venturi);
    take("carburettor.throttle", here->breathing.throttle, other.breathing.throttle);
  }
  if (part == Part::muffler) take_muffler(take, *here, other);
  if (!errors.empty()) return tl::unexpected(std::move(errors));
  return std::shared_ptr<const Engine>(std::move(here));
}

}  // namespace portwright::cuts
