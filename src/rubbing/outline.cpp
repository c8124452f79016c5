// 1. The rough border made even, with a line square to it at each of its points. 2. The light along each of these lines
// in the photo. 3. Whether there is a pencil's line or an edge, by most of them. 4. Where the light is half way.
// 5. What cannot be read is carried on from its neighbours.
#include "rubbing/outline.hpp"

#include <algorithm>
#include <optional>

namespace portwright::rubbing {
namespace {

constexpr double stride = 0.25;                // along the border [mm]
constexpr double inward = 1.3, outward = 2.6;  // along a line square to it [mm]
constexpr double plateau_in = 0.55;            // from here inward the inside is bare [mm]
constexpr double line_reach = 1.0;             // a pencil's line has its darkest place this near [mm]
constexpr double most_off = 1.2;               // of an edge from the rough border [mm]

// The light on a line square to the border, inside first; turned over where the inside is dark.
struct Cross {
  std::vector<double> level{};
  double step = 0.0;  // [mm]
  [[nodiscard]] double off(double index) const { return index * step - inward; }
  [[nodiscard]] std::size_t index(double off) const {
    return static_cast<std::size_t>(std::clamp((off + inward) / step, 0.0, static_cast<double>(level.size() - 1)));
  }
  [[nodiscard]] double median(double from, double to) const {
    const auto at = [this](double o) { return level.begin() + static_cast<std::ptrdiff_t>(index(o)); };
    return median_of({at(from), at(to) + 1});
  }
  // Where the level falls (or rises) through a value between two places, the one nearest to `near`.
  [[nodiscard]] std::optional<double> passing(double value, double from, double to, bool falling, double near) const {
    std::optional<double> best;
    for (std::size_t i = index(from); i < index(to); ++i) {
      const bool down = level[i] >= value && level[i + 1] < value, up = level[i] < value && level[i + 1] >= value;
      if (!(falling ? down : up)) continue;
      const double place = off(static_cast<double>(i) + (level[i] - value) / (level[i] - level[i + 1]));
      if (!best || std::abs(place - near) < std::abs(*best - near)) best = place;
    }
    return best;
  }
};

Cross cross_at(const Light& light, const Camera& camera, Point at, Point normal, bool dark_inside, std::size_t count) {
  const Point from = camera.to_picture(at - inward * normal), to = camera.to_picture(at + outward * normal);
  Cross out{profile(light, from, to, count), (inward + outward) / static_cast<double>(count - 1)};
  if (dark_inside)
    for (double& v : out.level) v = 1.0 - v;
  return out;
}

// All of them laid over one another: what the border is like, without paper's and pencil's grain.
Cross mean_of(const std::vector<Cross>& crosses) {
  Cross out = crosses.front();
  for (std::size_t i = 0; i < out.level.size(); ++i) {
    double sum = 0.0;
    for (const Cross& one : crosses) sum += one.level[i];
    out.level[i] = sum / static_cast<double>(crosses.size());
  }
  return out;
}

// Where the border is on one line square to it; offsets outward [mm].
struct Reading {
  double inner = 0.0, outer = 0.0, softness = 0.0;
};

// The darkest place near the border, and how far the light comes back beyond it.
struct Valley {
  std::size_t at = 0;
  double inside = 0.0, bottom = 0.0, outside = 0.0;
  [[nodiscard]] bool is_line() const { return outside - bottom > 0.12 * (inside - bottom); }
  [[nodiscard]] bool deep() const { return inside - bottom > 0.06 * std::max(0.05, inside); }
};

Valley valley_of(const Cross& cross) {
  Valley out;
  const auto first = cross.index(-0.5), last = cross.index(line_reach);
  const auto at = std::min_element(cross.level.begin() + static_cast<std::ptrdiff_t>(first),
                                   cross.level.begin() + static_cast<std::ptrdiff_t>(last) + 1);
  out.at = static_cast<std::size_t>(at - cross.level.begin());
  out.bottom = *at;
  out.inside = cross.median(-inward, -plateau_in);
  const double beyond = cross.off(static_cast<double>(out.at));
  out.outside = cross.median(std::min(outward, beyond + 0.7), outward);
  return out;
}

// @param usual width of the line where its outer side does not stand out from the ground there
std::optional<Reading> line_reading(const Cross& cross, double usual) {
  const Valley valley = valley_of(cross);
  if (!valley.deep()) return std::nullopt;
  const double bottom = cross.off(static_cast<double>(valley.at));
  const double in = valley.inside - valley.bottom, out = valley.outside - valley.bottom;
  const auto inner = [&](double share) {
    return cross.passing(valley.bottom + share * in, -inward, bottom, true, bottom);
  };
  const auto inner_edge = inner(0.5), high = inner(0.65), low = inner(0.35);
  if (!inner_edge || !high || !low) return std::nullopt;
  const auto outer_edge = cross.passing(valley.bottom + 0.5 * out, bottom, outward, false, bottom);
  const bool seen = outer_edge && out > 0.2 * in;
  return Reading{*inner_edge, seen ? *outer_edge : *inner_edge + usual, 0.5 * std::abs(*high - *low)};
}

std::optional<Reading> edge_reading(const Cross& cross) {
  const double inside = cross.median(-inward, -plateau_in), outside = cross.median(plateau_in, inward);
  const double step = inside - outside;
  if (!(step > 0.06 * std::max(0.05, inside))) return std::nullopt;
  const auto at = [&](double share) { return cross.passing(outside + share * step, -most_off, most_off, true, 0.0); };
  const auto half = at(0.5), high = at(0.65), low = at(0.35);
  if (!half || !high || !low) return std::nullopt;
  return Reading{*half, *half, 0.5 * std::abs(*high - *low)};
}

// A reading that is far from those about it is none.
void drop_far(std::vector<std::optional<Reading>>& readings, double Reading::*side) {
  constexpr std::size_t about = 4;
  const std::size_t n = readings.size();
  std::vector<bool> far(n);
  for (std::size_t i = 0; i < n; ++i) {
    if (!readings[i]) continue;
    std::vector<double> near;
    for (std::size_t k = 0; k <= 2 * about; ++k)
      if (const auto& other = readings[(i + n - about + k) % n]) near.push_back((*other).*side);
    far[i] = std::abs((*readings[i]).*side - median_of(near)) > 0.3;
  }
  for (std::size_t i = 0; i < n; ++i)
    if (far[i]) readings[i].reset();
}

// Fills from the nearest reading before and the nearest after.
void carry_on(std::vector<std::optional<Reading>>& readings) {
  const std::size_t n = readings.size();
  const std::vector<std::optional<Reading>> seen = readings;
  for (std::size_t i = 0; i < n; ++i) {
    if (seen[i]) continue;
    std::size_t before = 1, after = 1;
    while (before < n && !seen[(i + n - before) % n]) ++before;
    while (after < n && !seen[(i + after) % n]) ++after;
    if (before == n) return;
    const Reading a = *seen[(i + n - before) % n], b = *seen[(i + after) % n];
    const double share = static_cast<double>(before) / static_cast<double>(before + after);
    const auto between = [share](double x, double y) { return x + share * (y - x); };
    readings[i] = Reading{between(a.inner, b.inner), between(a.outer, b.outer), between(a.softness, b.softness)};
  }
}

}  // namespace

Border measured_border(const Light& light, const Camera& camera, const Loop& rough, bool dark_inside) {
  const Loop even = evened(rough, stride, 0.6);
  const std::vector<Point> normals = normals_of(even, 2);
  const double finest = camera.scale_at(even.front()).most;
  const auto count = static_cast<std::size_t>(std::clamp(2.0 * finest * (inward + outward), 24.0, 240.0));
  std::vector<Cross> crosses;
  for (std::size_t i = 0; i < even.size(); ++i)
    crosses.push_back(cross_at(light, camera, even[i], normals[i], dark_inside, count));
  const Cross mean = mean_of(crosses);
  const Valley valley = valley_of(mean);
  const auto usual = line_reading(mean, 0.0);
  const bool is_line = !dark_inside && valley.is_line() && usual && usual->outer > usual->inner;
  std::vector<std::optional<Reading>> readings;
  for (const Cross& cross : crosses)
    readings.push_back(is_line ? line_reading(cross, usual->outer - usual->inner) : edge_reading(cross));
  drop_far(readings, &Reading::inner);
  drop_far(readings, &Reading::outer);
  Border out;
  std::vector<double> widths, softness;
  for (const auto& one : readings)
    if (one) widths.push_back(one->outer - one->inner), softness.push_back(one->softness);
  out.unread = 1.0 - static_cast<double>(widths.size()) / static_cast<double>(even.size());
  carry_on(readings);
  out.softness = median_of(softness);
  for (const double w : widths) out.line_width += w / static_cast<double>(widths.size());
  for (std::size_t i = 0; i < even.size(); ++i) {
    const Reading r = readings[i].value_or(Reading{});
    out.inner.push_back(even[i] + r.inner * normals[i]);
    out.middle.push_back(even[i] + (0.5 * (r.inner + r.outer)) * normals[i]);
    out.outer.push_back(even[i] + r.outer * normals[i]);
  }
  if (!is_line) out.line_width = 0.0;
  out.line_hidden = !is_line && !dark_inside;
  return out;
}

}  // namespace portwright::rubbing
