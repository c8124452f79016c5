#pragma once
// A window's area as a function of a level line, built once from its chain: between two neighbouring levels the width
// is a straight line plus half chords of circles, so the area is a closed form.
//
//   width(y) = a + b h + Σ w_k s_k,          h = y - top of the band,  s_k = sqrt(t_k (2 r_k - t_k)),  t_k = y - top of
//   circle k area(y)  = A0 + h (a + b h / 2) + Σ w_k F(t_k, r_k) F(t, r)  = (r² θ - s (r - t)) / 2,       θ = atan2(s,
//   r - t)      (half a circular segment of height t)
//
// This is Green's integral of x dy over the pieces, clipped at the level, with the pieces' signs gathered in a, b and
// w.

#include <array>
#include <cstdint>
#include <span>

#include "geometry/window_piece.hpp"

namespace portwright::geometry {

/// A circle of the chain, by its highest point's y [m].
struct LevelCircle {
  double top = 0.0, radius = 0.0;
};

/// One stretch between neighbouring levels. A level crosses a shape's outline at most four times, so four circles are
/// enough.
struct LevelBand {
  double area0 = 0.0;  ///< area above the band's top less Σ w_k F at the top [m²]
  double width = 0.0;  ///< a [m]
  double slope = 0.0;  ///< b [-]
  std::array<std::uint8_t, 4> circle{};
  std::array<std::int8_t, 4> weight{};
  std::uint8_t circles = 0;
};

/// How many levels, bands (one fewer) and circles a chain has needed.
struct LawSize {
  int levels = 0, circles = 0;
};

/// Gathers the law of a closed chain of pieces that are monotone in y; right-hand pieces run downward.
/// Levels closer than 1e-12 m are one. The spans must hold one level more than there are distinct ends, and every
/// circle.
LawSize gather_law(std::span<const Piece> pieces, std::span<double> levels, std::span<LevelBand> bands,
                   std::span<LevelCircle> circles);

/// Half a circular segment of height t [m²], 0 <= t <= 2 radius, to a few ulp even where t is tiny.
[[nodiscard]] double half_segment(double t, double radius);

/// Area above a level within a band [m²]; h = level - top of the band, y = the level in the circles' datum.
[[nodiscard]] double area_in_band(const LevelBand& band, std::span<const LevelCircle> circles, double h, double y);

/// Width at a level within a band [m].
[[nodiscard]] double width_in_band(const LevelBand& band, std::span<const LevelCircle> circles, double h, double y);

}  // namespace portwright::geometry
