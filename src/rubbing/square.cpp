#include "rubbing/square.hpp"

#include <algorithm>

#include "rubbing/square_edges.hpp"
#include "rubbing/square_search.hpp"

namespace portwright::rubbing {
namespace {

using base::ErrorCode;

constexpr std::size_t least_places = 4 * places_a_side * 6 / 10;
constexpr int rounds = 3;

// Places far from the line of all others of their side are none of the edge: a shadow, a strip lying over it.
std::size_t few_on_a_side(const std::vector<EdgePoint>& places) {
  std::array<std::size_t, 4> count{};
  for (const EdgePoint& p : places) ++count[static_cast<std::size_t>(p.side)];
  return *std::min_element(count.begin(), count.end());
}

// Means over an eighth of a side each, so that single pixels do not count.
double straightness_of(const std::vector<EdgePoint>& places, const Camera& camera) {
  constexpr std::size_t parts = 8;
  std::array<std::vector<double>, 4 * parts> off;
  for (const EdgePoint& p : places) {
    const auto part = std::min(parts - 1, static_cast<std::size_t>(p.along / square_side * parts));
    off[static_cast<std::size_t>(p.side) * parts + part].push_back(inward_of(camera, p));
  }
  double worst = 0.0;
  for (const auto& one : off)
    if (one.size() > 4) worst = std::max(worst, std::abs(median_of(one)));
  return worst;
}

Corners bent_corners(const Camera& camera) {
  return {camera.to_picture({0, 0}), camera.to_picture({square_side, 0}), camera.to_picture({square_side, square_side}),
          camera.to_picture({0, square_side})};
}

// The edges near a first guess, three times, each time from where they were seen to be.
std::optional<Square> refined(const Light& light, Camera camera) {
  std::vector<EdgePoint> places;
  for (int round = 0; round < rounds; ++round) {
    places = edge_points(light, camera, 0.0);
    if (places.size() < least_places || few_on_a_side(places) < places_a_side / 4) return std::nullopt;
    camera = fitted_camera(places, camera, light.width(), light.height());
  }
  std::vector<double> softness;
  for (const EdgePoint& p : places) softness.push_back(p.softness);
  Square out{camera, bent_corners(camera)};
  out.straightness = straightness_of(places, camera);
  out.softness = median_of(softness);
  out.hidden = 1.0 - static_cast<double>(places.size()) / (4.0 * places_a_side);
  return out;
}

// The outer edge lies where the ring's thickness has it: what is found is the printed ring and no window frame.
bool is_the_ring(const Light& light, const Square& square) {
  const std::vector<EdgePoint> outer = edge_points(light, square.camera, -ring_thickness);
  if (outer.size() < least_places / 2) return false;
  std::vector<double> off;
  for (const EdgePoint& p : outer) off.push_back(inward_of(square.camera, p) + ring_thickness);
  return std::abs(median_of(off)) < 0.6 && square.straightness < 0.8;
}

Corners inner_of(const Corners& outer, int width, int height) {
  const Camera ring(outer, 0.0, width, height);
  const double in = ring_thickness * square_side / (square_side + 2.0 * ring_thickness), far = square_side - in;
  return {ring.to_picture({in, in}), ring.to_picture({far, in}), ring.to_picture({far, far}),
          ring.to_picture({in, far})};
}

Corners started_at(const Corners& corners, std::size_t first) {
  Corners out;
  for (std::size_t i = 0; i < 4; ++i) out[i] = corners[(first + i) % 4];
  return out;
}

// Light where the triangle stands, left of the first corner, against the paper's between triangle and ring.
double triangle_light(const Light& light, const Camera& camera) {
  std::vector<double> dark;
  for (double x = -14.0; x <= -12.0; x += 0.5)
    for (double y = 5.0; y <= 7.0; y += 0.5) {
      const Point p = camera.to_picture({x, y});
      if (!light.holds(p)) return 9.0;
      dark.push_back(light.at(p));
    }
  const double paper = light.at(camera.to_picture({5.0, 5.0}));
  return paper > 0.0 ? median_of(dark) / paper : 9.0;
}

// The corner at which the triangle is seen comes first; without it the one that is most to the left and top.
Square with_roof(const Light& light, const Square& square) {
  std::array<double, 4> dark{};
  std::size_t best = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    const Camera turned(started_at(square.camera.corners(), i), square.camera.bend(), light.width(), light.height());
    dark[i] = triangle_light(light, turned);
    if (dark[i] < dark[best]) best = i;
  }
  Square out = square;
  out.turned = dark[best] < 0.5 && std::count_if(dark.begin(), dark.end(), [](double d) { return d < 0.5; }) == 1;
  if (!out.turned) {
    const auto sum = [&](std::size_t i) { return square.corners[i].x + square.corners[i].y; };
    for (std::size_t i = 0; i < 4; ++i)
      if (sum(i) < sum(best)) best = i;
  }
  out.camera = Camera(started_at(square.camera.corners(), best), square.camera.bend(), light.width(), light.height());
  out.corners = started_at(square.corners, best);
  return out;
}

bool convex(const Corners& c) {
  for (std::size_t i = 0; i < 4; ++i) {
    const Point a = c[(i + 1) % 4] - c[i], b = c[(i + 2) % 4] - c[(i + 1) % 4];
    if (!(cross(a, b) > 1e-3 * length(a) * length(b)) || !(length(a) > 20.0)) return false;
  }
  return true;
}

}  // namespace

base::Result<Square> find_square(const picture::Grey& grey) {
  const Light light(grey);
  std::optional<Square> found;
  bool cut_off = false;
  for (const RingGuess& guess : find_rings(grey)) {
    if (guess.cut_off) {
      cut_off = true;
      continue;
    }
    const auto square =
        refined(light, Camera(inner_of(guess.outer, grey.width, grey.height), 0.0, grey.width, grey.height));
    if (!square || !convex(square->corners) || !is_the_ring(light, *square)) continue;
    if (found)
      return base::fail(ErrorCode::contradiction, "Two printed squares are on this photo.", "corners",
                        "Show one of them alone, or put the four corners on the one that counts.");
    found = with_roof(light, *square);
  }
  if (found) return *found;
  if (cut_off)
    return base::fail(ErrorCode::not_found, "The printed square is cut off at the photo's rim.", "corners",
                      "Take the photo again with white paper to be seen all round the black frame.");
  return base::fail(
      ErrorCode::not_found, "The printed square was not found on this photo.", "corners",
      "Its black frame must be whole: nothing lies over it, no glare on it. Or put the four corners by hand.");
}

base::Result<Square> square_near(const picture::Grey& grey, const Corners& corners) {
  if (!convex(corners))
    return base::fail(ErrorCode::impossible, "These four corners make no square.", "corners",
                      "Begin left at the roof's side and go round clockwise.");
  const Light light(grey);
  const Camera start(corners, 0.0, grey.width, grey.height);
  if (const auto square = refined(light, start); square && convex(square->corners)) return *square;
  Square out{start, corners};
  out.by_hand = true;
  out.straightness = 0.5;
  return out;
}

}  // namespace portwright::rubbing
