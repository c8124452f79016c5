#include "rubbing/window.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace portwright::rubbing {
namespace {

using base::ErrorCode;

constexpr double least_thickness = 1.5;  // of what is taken for a shape [mm]

std::string place_of(Point p) {
  return fmt::format("{:.0f} mm from the square's left side and {:.0f} mm from its top", p.x, p.y);
}

tl::unexpected<base::Error> nothing_found(const Ground& ground) {
  if (const auto gap = gap_in(ground))
    return base::fail(ErrorCode::not_found,
                      fmt::format("The line is open for about {:.1f} mm, {}.", gap->width, place_of(gap->at)), "inside",
                      "Close it with the pencil and take the photo again.");
  if (touches_the_ring(ground))
    return base::fail(ErrorCode::not_found, "Something dark reaches the square's frame.", "inside",
                      "Outline and strip belong inside the square, with white all round them.");
  return base::fail(ErrorCode::not_found, "No closed outline was found in the square.", "inside",
                    "Touch the inside of the window, or go over the line with a soft pencil.");
}

// A pencil's line that encloses nothing is no shape.
bool is_thin(const Ground& ground, const Basin& basin) {
  const Loop rough = border_of(ground, cells_of(ground, basin), basin.start);
  return rough.size() < 16 || 2.0 * area_of(rough) < least_thickness * perimeter_of(evened(rough, 0.5, 0.5));
}

// Light openings before dark shapes: a pencil's line is dark, too.
base::Result<Basin> plainly_meant(const Ground& ground) {
  for (const bool dark : {false, true}) {
    std::vector<Basin> clear = basins_of(ground, dark);
    std::erase_if(clear, [&](const Basin& basin) { return is_thin(ground, basin); });
    if (clear.empty()) continue;
    std::sort(clear.begin(), clear.end(), [](const Basin& a, const Basin& b) { return a.cells > b.cells; });
    if (clear.size() > 1 && clear[1].cells * 4 > clear[0].cells)
      return base::fail(ErrorCode::contradiction,
                        fmt::format("Two outlines could be meant: about {}, and about {}.",
                                    place_of(ground.middle(clear[0].start)), place_of(ground.middle(clear[1].start))),
                        "inside", "Touch the inside of the one that counts, or of both beside a bridge.");
    return clear.front();
  }
  return nothing_found(ground);
}

base::Result<Border> border_in(const Light& light, const Camera& camera, const Ground& ground, const Basin& basin) {
  const std::vector<std::uint8_t> mask = cells_of(ground, basin);
  const Loop rough = border_of(ground, mask, basin.start);
  if (rough.size() < 16) return nothing_found(ground);
  const Border border = measured_border(light, camera, rough, basin.dark);
  if (border.unread > 0.4)
    return base::fail(ErrorCode::not_found, "The outline is too faint or too blurred to be measured.", "inside",
                      "Go over the line with a soft pencil, hold the camera still, let more light on it.");
  return border;
}

}  // namespace

base::Result<std::vector<Border>> find_borders(const Light& light, const Camera& camera,
                                               const std::vector<Point>& touches) {
  const Ground ground = ground_of(light, camera);
  std::vector<Basin> basins;
  for (const Point& touch : touches) {
    const auto basin = basin_about(ground, ground.cell_at(touch));
    if (!basin) return nothing_found(ground);
    basins.push_back(*basin);
  }
  if (touches.empty()) {
    const auto basin = plainly_meant(ground);
    if (!basin) return tl::unexpected(basin.error());
    basins.push_back(*basin);
  }
  std::vector<Border> out;
  for (const Basin& basin : basins) {
    auto border = border_in(light, camera, ground, basin);
    if (!border) return tl::unexpected(border.error());
    out.push_back(*std::move(border));
  }
  return out;
}

}  // namespace portwright::rubbing
