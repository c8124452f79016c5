#include "rubbing/range.hpp"

#include <algorithm>
#include <numbers>

namespace portwright::rubbing {
namespace {

// All half of a 95 % range. @source{memory} where nothing else is said.
constexpr double caliper = 0.1;                      // on a printed edge [mm]
constexpr double unmeasured = 0.02;                  // a printer's scale, each way [-]
constexpr double edge_more = 0.02;                   // ink and paper under the half level [mm]
constexpr double lift_free = 4.0, lift_taped = 0.5;  // of the strip off the sheet [mm]
constexpr double usual_distance = 300.0;             // of the camera [mm]
constexpr double half_view = 40.0;                   // of a phone's camera, from its middle to a corner [deg]
constexpr double turn_unknown = 2.0;                 // of the sheet against the bore [deg]
constexpr double least_bore = 35.0;                  // where it is not known [mm]

constexpr double deg = std::numbers::pi / 180.0;

double root(std::initializer_list<double> parts) {
  double squares = 0.0;
  for (const double p : parts) squares += p * p;
  return std::sqrt(squares);
}

// The camera's distance, not more than usual: nearer where the photo shows little of the sheet. A cut photo seems
// nearer than it was, and has the wider range.
double distance_of(const Rubbing& rubbing) {
  const Corners& c = rubbing.square.corners;
  const double mm = 0.5 * (length(c[2] - c[0]) + length(c[3] - c[1])) / (square_side * std::numbers::sqrt2);
  return std::min(usual_distance, rubbing.square.camera.half_diagonal() / mm / std::tan(half_view * deg));
}

// Linear shares, each way.
struct Shares {
  double across = 0.0, down = 0.0, flat = 0.0, round = 0.0;
};

Shares shares_of(const Rubbing& rubbing, const Hints& hints) {
  Shares out;
  out.across = hints.across ? caliper / *hints.across : unmeasured;
  out.down = hints.down ? caliper / *hints.down : unmeasured;
  out.flat = root({rubbing.square.straightness / (0.5 * square_side), lift_share(rubbing, hints)});
  out.round = hints.bore ? 0.25 * paper_thickness / *hints.bore : paper_thickness / least_bore;
  return out;
}

// How much an extent changes when the sheet lay a little askew.
double turn_part(const std::vector<Loop>& loops, const Hints& hints, double (Extent::*size)() const) {
  if (hints.upright.size() == 2) return 0.0;
  const double now = (extent_of(loops).*size)();
  double most = 0.0;
  for (const double angle : {-turn_unknown * deg, turn_unknown * deg}) {
    std::vector<Loop> askew = loops;
    for (Loop& loop : askew)
      for (Point& p : loop) p = turned(p, angle);
    most = std::max(most, std::abs((extent_of(askew).*size)() - now));
  }
  return most;
}

}  // namespace

double lift_share(const Rubbing& rubbing, const Hints& hints) {
  return 0.5 * (hints.taped ? lift_taped : lift_free) / distance_of(rubbing);
}

void fill_ranges(Measured& out, const Window& window, const Rubbing& rubbing, const Hints& hints) {
  const Shares share = shares_of(rubbing, hints);
  double round_about = 0.0;
  for (const Loop& loop : window.loops) round_about += perimeter_of(evened(loop, 0.5, 0.5));
  const double edge = window.all_by_hand ? 0.0 : window.softness + edge_more, line = 0.5 * window.line_width;
  const bool both = hints.across && hints.down;
  // a printer that was not measured is off both ways alike; two readings are not
  const double scale = both ? root({share.across, share.down}) : share.across + share.down;
  out.parts = {{"scale", scale * window.area},      {"edge", edge * round_about},
               {"line", line * round_about},        {"flatness", 2.0 * share.flat * window.area},
               {"bend", share.round * window.area}, {"hand", window.hand}};
  std::erase_if(out.parts, [](const Part& p) { return p.plus_minus <= 0.0; });
  std::sort(out.parts.begin(), out.parts.end(),
            [](const Part& a, const Part& b) { return a.plus_minus > b.plus_minus; });
  double squares = 0.0;
  for (const Part& p : out.parts) squares += p.plus_minus * p.plus_minus;
  out.area = {window.area, std::sqrt(squares)};

  const Extent extent = extent_of(window.loops);
  const double hand = out.moved > 0 ? 0.2 * std::numbers::sqrt2 : 0.0;
  out.width = {extent.width(),
               root({(share.across) * extent.width(), 2.0 * edge, 2.0 * line, hand, share.flat * extent.width(),
                     share.round * extent.width(), turn_part(window.loops, hints, &Extent::width)})};
  out.height = {extent.height(), root({share.down * extent.height(), 2.0 * edge, 2.0 * line, hand,
                                       share.flat * extent.height(), turn_part(window.loops, hints, &Extent::height)})};
  const double half = 0.5 * std::max(extent.width(), extent.height());
  out.within = std::max(
      out.area.plus_minus / std::max(1.0, round_about),
      root({edge, line, out.moved > 0 ? 0.2 : 0.0, half * root({std::max(share.across, share.down), share.flat})}));
}

}  // namespace portwright::rubbing
