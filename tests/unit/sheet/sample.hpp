#pragma once
// An invented saw, brought to engines before and after cuts, as a sheet gets it.

#include <stdexcept>
#include <string>
#include <vector>

#include "cuts/cut.hpp"
#include "geometry/survey.hpp"
#include "saw/file.hpp"
#include "sheet/labels.hpp"

namespace portwright::test {

inline const char* larch = R"(format = "portwright saw 1"
name = "Larch 70"
state = "as received"
[crank]
bore = "50.0 mm"
stroke = "36.0 mm"
rod = "65.0 mm"
[piston]
skirt_exhaust = "38.0 mm"
skirt_intake = "38.0 mm"
skirt_side = "30.0 mm"
skirt_exhaust_width = "34 mm"
[[piston.ring]]
below_crown = "3.0 mm"
height = "1.5 mm"
peg = "150 deg"
[cylinder]
crown_at_tdc = "61.0 mm"
base_gasket = "0.45 mm"
squish = "0.89 mm"
squish_band = "6.0 mm"
pin_axis = "90 deg"
thrust = "180 deg"
[[port]]
name = "exhaust"
kind = "exhaust"
centre = "0 deg"
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
corner_roof = "3 mm"
corner_floor = "3 mm"
[[port]]
name = "intake"
kind = "intake"
centre = "180 deg"
opens = "75 deg"
roof = "19.5 mm"
width = "28 mm"
corner_roof = "4 mm"
corner_floor = "4 mm"
)";

/// A saw's engines along a cut list.
struct Saw {
  geometry::Survey survey;
  cuts::CutList cuts;
  std::vector<geometry::Engine> after;
  sheet::Labels labels;
};

inline Saw saw_of(const std::string& text, const std::string& cut_text = "") {
  const auto read = saw::read_saw(text);
  if (!read) throw std::runtime_error(read.error().front().message);
  Saw out;
  out.survey = geometry::survey(read->readings);
  out.after.push_back(geometry::resolve(out.survey));
  if (!cut_text.empty()) {
    const auto parsed = cuts::parse_cuts(cut_text);
    if (!parsed) throw std::runtime_error(parsed.error().front().message);
    out.cuts = *parsed;
  }
  for (std::size_t k = 1; k <= out.cuts.size(); ++k) {
    const cuts::CutList head(out.cuts.begin(), out.cuts.begin() + static_cast<std::ptrdiff_t>(k));
    const auto prepared = cuts::prepare(head, out.survey, ".");
    if (!prepared) throw std::runtime_error(prepared.error().front().message);
    out.after.push_back(out.after.front());
    cuts::apply(**prepared, out.after.back());
  }
  out.labels = sheet::labels_of(out.survey);
  out.labels.saw = read->readings.name;
  out.labels.state = read->readings.state;
  return out;
}

/// The sample with one piece of its text replaced.
inline std::string larch_with(const std::string& old_text, const std::string& new_text) {
  std::string text = larch;
  const std::size_t at = text.find(old_text);
  if (at == std::string::npos) throw std::runtime_error("no " + old_text);
  return text.replace(at, old_text.size(), new_text);
}

}  // namespace portwright::test
