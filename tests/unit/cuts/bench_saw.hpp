#pragma once
// The 70 cm³ saw on which the table of cuts was worked out; invented.

#include <string>
#include <string_view>

#include "cuts/cut.hpp"
#include "saw/file.hpp"

namespace portwright::bench {

inline constexpr std::string_view saw_text = R"(
format = "portwright saw 1"
name = "Larch 70"
[crank]
bore = "50.0 mm"
stroke = "36.0 mm"
rod = "65.0 mm"
[piston]
skirt_exhaust = "38.0 mm"
skirt_intake = "38.0 mm"
skirt_side = "30.0 mm"
pin_below_crown = "22.0 mm"
dome = "2.0 mm"
[[piston.ring]]
below_crown = "3.0 mm"
height = "1.5 mm"
radial = "1.9 mm"
peg = "150 deg"
end_gap = "0.25 mm"
free_gap = "7 mm"
[cylinder]
crown_at_tdc = "61.0 mm"
base_gasket = "0.45 mm"
squish = "0.89 mm"
squish_band = "6.0 mm"
chamber = "8.9 cc"
spigot_clearance = "1.0 mm"
[case]
volume = "250 cc"
volume_at = "tdc"
[[port]]
name = "exhaust"
kind = "exhaust"
opens = "103 deg"
floor = "25.2 mm"
width = "28.0 mm"
corner_roof = "5 mm"
corner_floor = "5 mm"
[[port]]
name = "primary"
kind = "transfer"
centre = "65 deg"
mirrored = true
opens = "121 deg"
floor = "25.2 mm"
width = "16.0 mm"
corner_roof = "2 mm"
corner_floor = "2 mm"
[port.passage]
mouth = "1.6 cm2"
case_step = "3 mm"
[[port]]
name = "intake"
kind = "intake"
centre = "180 deg"
opens = "75 deg"
roof = "24 mm"
width = "26.0 mm"
corner_roof = "4 mm"
corner_floor = "4 mm"
[intake]
kind = "skirt"
[carburettor]
venturi = "20 mm"
[muffler]
outlets = ["1.4 cm2"]
[ignition]
advance = "26 deg"
[fuel]
octane = "91 pump"
)";

inline saw::Readings readings(std::string_view text = saw_text) {
  auto read = saw::read_saw(text);
  if (!read) throw std::runtime_error(read.error().front().message);
  return std::move(read->readings);
}

inline std::string with(std::string from, std::string to, std::string text = std::string(saw_text)) {
  const std::size_t at = text.find(from);
  if (at == std::string::npos) throw std::runtime_error("not in the saw: " + from);
  return text.replace(at, from.size(), to);
}

/// A saw on the bench, and what cuts make of it.
struct Bench {
  explicit Bench(std::string_view text = saw_text)
      : survey(geometry::survey(readings(text))), stock(geometry::resolve(survey)) {}
  explicit Bench(const saw::Readings& r) : survey(geometry::survey(r)), stock(geometry::resolve(survey)) {}

  geometry::Engine after(std::string_view text, const std::string& folder = ".") const {
    auto cuts = cuts::parse_cuts(text);
    if (!cuts) throw std::runtime_error(cuts.error().front().message);
    auto prepared = cuts::prepare(*cuts, survey, folder);
    if (!prepared) throw std::runtime_error(prepared.error().front().message);
    geometry::Engine engine = stock;
    cuts::apply(**prepared, engine);
    return engine;
  }
  const geometry::Port& port(const geometry::Engine& engine, std::string_view name) const {
    return engine.ports[static_cast<std::size_t>(survey.find_port(name))];
  }

  geometry::Survey survey;
  geometry::Engine stock;
};

inline constexpr double degree = 3.14159265358979323846 / 180.0;

}  // namespace portwright::bench
