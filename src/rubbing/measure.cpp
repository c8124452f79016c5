// 1. What stands against measuring at all. 2. The borders of the openings. 3. From the sheet to the wall: size of this
// print, direction of the bore, bend of the paper, face. 4. The kept points, with what a hand moved. 5. The ranges.
#include "rubbing/measure.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numbers>

#include "rubbing/kept_points.hpp"
#include "rubbing/range.hpp"
#include "rubbing/window.hpp"

namespace portwright::rubbing {
namespace {

using base::ErrorCode;

constexpr double deg = std::numbers::pi / 180.0;
constexpr double hidden_line = 0.5;   // width of a line that may lie in rubbed ground unseen [mm], @source{memory}
constexpr double same_handle = 0.75;  // a point that comes back this near was not moved [pixels]

double least_scale_of(const Camera& camera) {
  double least = 1e9;
  for (const double x : {0.0, 0.5, 1.0})
    for (const double y : {0.0, 0.5, 1.0})
      least = std::min(least, camera.scale_at({x * square_side, y * square_side}).least);
  return least;
}

std::optional<base::Error> against(const Rubbing& rubbing) {
  if (!(rubbing.tilt <= greatest_tilt))
    return base::Error{ErrorCode::out_of_range,
                       fmt::format("The camera looked at the sheet too slantwise: {:.0f} deg.", rubbing.tilt),
                       "photo",
                       "Hold it straight above the sheet.",
                       {}};
  if (!(rubbing.scale >= least_scale))
    return base::Error{
        ErrorCode::out_of_range,
        fmt::format("The square is too small on this photo: {:.1f} pixels in a millimetre.", rubbing.scale),
        "photo",
        "Go nearer: the frame may fill most of the photo.",
        {}};
  return std::nullopt;
}

// Places put by hand that lie outside the square's frame, or nowhere on the sheet at all.
bool beyond_the_frame(const Camera& camera, const Hints& hints) {
  for (const std::vector<Point>* places : {&hints.inside, &hints.points, &hints.upright})
    for (const Point& place : *places) {
      const Point p = camera.to_sheet(place);
      const bool within = p.x > -ring_thickness && p.y > -ring_thickness && p.x < square_side + ring_thickness &&
                          p.y < square_side + ring_thickness;
      if (!within) return true;
    }
  return false;
}

// Turn that brings a line drawn along the bore upright; 0 where none was touched.
double turn_of(const Placing& placing, const Camera& camera, const std::vector<Point>& upright) {
  if (upright.size() != 2) return 0.0;
  Point along = placing.stretched(camera.to_sheet(upright[1])) - placing.stretched(camera.to_sheet(upright[0]));
  if (along.y > 0.0) along = -1.0 * along;  // toward the roof
  return -std::atan2(along.x, -along.y);
}

Placing placing_of(const Rubbing& rubbing, const Hints& hints) {
  const Camera& camera = rubbing.square.camera;
  Placing out;
  out.lifted = 1.0 - lift_share(rubbing, hints);
  out.across = hints.across.value_or(square_side) / square_side;
  out.down = hints.down.value_or(square_side) / square_side;
  out.turn = turn_of(out, camera, hints.upright);
  // what was rubbed lay half a paper's thickness inside the middle of the paper, which keeps its length when flat
  if (hints.bore) out.round = *hints.bore / (*hints.bore - paper_thickness);
  out.mirrored = hints.wall_side;
  return out;
}

const Loop& side_of(const Border& border, LineSide side) {
  return side == LineSide::inner ? border.inner : side == LineSide::outer ? border.outer : border.middle;
}

// Two openings as one line: a slit a fiftieth of a millimetre wide leads from one to the other and back.
Loop joined(const std::vector<Loop>& loops) {
  if (loops.size() != 2) return loops.front();
  const Loop &a = loops[0], &b = loops[1];
  std::size_t i = 0, j = 0;
  for (std::size_t k = 0; k < a.size(); ++k)
    for (std::size_t l = 0; l < b.size(); ++l)
      if (length(a[k] - b[l]) < length(a[i] - b[j])) i = k, j = l;
  const Point over = b[j] - a[i];
  const Point aside = (0.01 / std::max(1e-9, length(over))) * Point{-over.y, over.x};
  Loop out{a[i] + aside};
  for (std::size_t k = 1; k < a.size(); ++k) out.push_back(a[(i + k) % a.size()]);
  out.push_back(a[i] - aside);
  out.push_back(b[j] - aside);
  for (std::size_t k = 1; k < b.size(); ++k) out.push_back(b[(j + k) % b.size()]);
  out.push_back(b[j] + aside);
  return out;
}

Loop mapped(const Loop& loop, auto&& to) {
  Loop out;
  out.reserve(loop.size());
  for (const Point& p : loop) out.push_back(to(p));
  return out;
}

// The kept points on the sheet [mm as drawn], and what a hand made of them.
struct Kept {
  Loop found{}, now{};
  std::vector<bool> moved{};
};

Kept kept_of(const std::vector<Loop>& borders, const Camera& camera, const Hints& hints) {
  Kept out;
  std::vector<Loop> few;
  for (const Loop& border : borders)
    few.push_back(kept_points(border, borders.size() > 1 ? most_points / 2 - 2 : most_points));
  if (!few.empty()) out.found = joined(few);
  if (hints.points.empty()) {
    out.now = out.found;
    out.moved.assign(out.now.size(), false);
    return out;
  }
  const Loop handles = mapped(out.found, [&](Point p) { return camera.to_picture(p); });
  for (const Point& p : hints.points) {
    const bool same = std::any_of(handles.begin(), handles.end(), [&](Point h) { return length(h - p) < same_handle; });
    out.now.push_back(camera.to_sheet(p));
    out.moved.push_back(!same);
  }
  return out;
}

// Straight lines through what was moved by hand count for 0.2 mm along half of their neighbours' distance.
double hand_part(const Loop& points, const std::vector<bool>& moved) {
  double sum = 0.0;
  const std::size_t n = points.size();
  for (std::size_t i = 0; i < n; ++i)
    if (moved[i])
      sum += 0.2 * 0.5 * (length(points[(i + 1) % n] - points[i]) + length(points[i] - points[(i + n - 1) % n]));
  return sum;
}

double mean_softness(const std::vector<Border>& borders) {
  double sum = 0.0;
  for (const Border& b : borders) sum += b.softness / static_cast<double>(borders.size());
  return sum;
}

double widest_line(const std::vector<Border>& borders) {
  double most = 0.0;
  for (const Border& b : borders) most = std::max(most, b.line_hidden ? hidden_line : b.line_width);
  return most;
}

Measured measured_of(const Rubbing& rubbing, const std::vector<Border>& borders, const Hints& hints) {
  const Camera& camera = rubbing.square.camera;
  const Placing placing = placing_of(rubbing, hints);
  std::vector<Loop> sides;
  for (const Border& border : borders) sides.push_back(side_of(border, hints.line));
  const Kept kept = kept_of(sides, camera, hints);
  Measured out;
  out.moved = static_cast<int>(std::count(kept.moved.begin(), kept.moved.end(), true));
  const auto wall = [&](Point p) { return placing.on_wall(p); };
  const bool by_points = !hints.points.empty() && (out.moved > 0 || kept.now.size() != kept.found.size());
  Loop points = mapped(kept.now, wall);
  std::vector<Loop> borders_on_wall;
  for (const Loop& side : sides) borders_on_wall.push_back(mapped(side, wall));
  if (by_points) borders_on_wall = {points};

  Window window;
  window.loops = borders_on_wall;
  if (by_points) {
    window.area = std::abs(area_of(points));
    if (!kept.found.empty() && !sides.empty()) {
      double all = 0.0;
      for (const Loop& side : sides) all += std::abs(area_of(mapped(side, wall)));
      window.area += all - std::abs(area_of(mapped(kept.found, wall)));
    }
  } else {
    for (const Loop& loop : borders_on_wall) window.area += std::abs(area_of(loop));
  }
  window.hand = hand_part(points, kept.moved);
  window.softness = mean_softness(borders);
  window.line_width = widest_line(borders);
  window.all_by_hand = borders.empty();
  for (const Border& b : borders) out.line_width = std::max(out.line_width, b.line_width);
  fill_ranges(out, window, rubbing, hints);

  const Extent extent = extent_of(borders_on_wall);
  const Point origin{0.5 * (extent.left + extent.right), extent.top};
  out.points = mapped(points, [&](Point p) { return p - origin; });
  out.handles = mapped(kept.now, [&](Point p) { return camera.to_picture(p); });
  out.outline = by_points ? out.handles : mapped(joined(sides), [&](Point p) { return camera.to_picture(p); });
  if (hints.wall_side) {
    std::reverse(out.points.begin(), out.points.end());
    std::reverse(out.handles.begin(), out.handles.end());
  }
  return out;
}

std::vector<std::string> findings_of(const Rubbing& rubbing, const std::vector<Border>& borders, const Hints& hints) {
  const Square& square = rubbing.square;
  std::vector<std::string> out;
  const auto say = [&](bool so, std::string text) {
    if (so) out.push_back(std::move(text));
  };
  say(!hints.across || !hints.down,
      "The square was not measured on this print: width and height may be 2 % off. Measure its inside both ways with a "
      "caliper.");
  say(square.by_hand, "The corners stand where a hand put them: no edge of the frame was found near them.");
  say(!square.turned, "The triangle at the roof's side is not to be seen: the photo's upper left is taken for it.");
  say(rubbing.tilt > 25.0,
      fmt::format("The camera looked slantwise, {:.0f} deg: straight above it sees more.", rubbing.tilt));
  say(rubbing.scale < 8.0,
      fmt::format("Only {:.1f} pixels in a millimetre: nearer, the outline is told better.", rubbing.scale));
  double softness = square.softness, unread = 0.0;
  for (const Border& b : borders) softness = std::max(softness, b.softness), unread = std::max(unread, b.unread);
  say(softness > 0.1, fmt::format("The photo is not sharp: its edges are {:.1f} mm wide.", 4.0 * softness));
  say(square.hidden > 0.1,
      fmt::format("{:.0f} % of the frame could not be read: glare, or something lies over it.", 100.0 * square.hidden));
  say(unread > 0.1,
      fmt::format("{:.0f} % of the outline could not be read: it was carried on from both sides.", 100.0 * unread));
  say(square.straightness > 0.25,
      fmt::format("The frame's sides are up to {:.2f} mm from straight: the sheet does not lie flat.",
                  square.straightness));
  say(!hints.taped,
      "The paper may stand up to 4 mm off the sheet, and looks larger then: half of that is taken off, the range holds "
      "both ends. Taped flat by all its edges it is 0.5 mm.");
  say(hints.upright.size() != 2, "No line along the bore was touched: the sheet's own direction is taken, to 2 deg.");
  say(!hints.bore, "The bore is not known: that the paper bent when it was pressed in is in the range only.");
  return out;
}

}  // namespace

Rubbing measure(const picture::Grey& grey, const Square& square, const Hints& hints) {
  Rubbing out{square, least_scale_of(square.camera), 0.0, {}, {}, {}};
  out.tilt = square.camera.tilt(hints.across.value_or(square_side) / square_side,
                                hints.down.value_or(square_side) / square_side) /
             deg;
  out.why = against(out);
  if (!out.why && beyond_the_frame(square.camera, hints))
    out.why = base::Error{ErrorCode::out_of_range,
                          "A place that was touched lies outside the square.",
                          "inside",
                          "Touch within the black frame.",
                          {}};
  if (out.why) return out;
  const Light light(grey);
  std::vector<Point> touches;
  for (const Point& p : hints.inside) touches.push_back(square.camera.to_sheet(p));
  auto borders = find_borders(light, square.camera, touches);
  if (borders && borders->size() > 1 && !hints.bridge && hints.points.empty())
    borders = base::fail(ErrorCode::contradiction, "Two openings were touched, and this port has no bridge.", "inside",
                         "Type the port's bridge, or measure the halves each as a port of its own.");
  if (!borders && hints.points.size() < 3) {
    out.why = borders.error();
    return out;
  }
  const std::vector<Border> found = borders ? *borders : std::vector<Border>();
  out.findings = findings_of(out, found, hints);
  out.measured = measured_of(out, found, hints);
  return out;
}

}  // namespace portwright::rubbing
