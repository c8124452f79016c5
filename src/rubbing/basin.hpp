#pragma once
// What lies enclosed within the square: a light window within a dark line or on rubbed ground, or a dark shape on light
// paper. Inside the module only.
//
// Light is poured off level by level: cells are taken from the brightest down, each joined to its neighbours that are
// taken already. Where two large parts meet, the darker cell between them tells how well the one was enclosed, and
// where its line is weakest. For dark shapes the same with levels turned over.

#include <optional>
#include <vector>

#include "rubbing/ground.hpp"

namespace portwright::rubbing {

/// A part that is enclosed down to a level.
struct Basin {
  bool dark = false;      ///< a dark shape on light ground
  std::size_t cells = 0;  ///< when it met the next large part
  double inner = 0.0;     ///< its mean level
  double rim = 0.0;       ///< level at which it met
  std::size_t start = 0;  ///< one of its cells, well inside
  std::size_t gap = 0;    ///< the cell where it met
  [[nodiscard]] double depth() const { return dark ? rim - inner : inner - rim; }
};

inline constexpr double least_area = 12.0;    ///< of a window [mm²]
inline constexpr double clear_depth = 0.13;   ///< of what is found without a touch
inline constexpr double touched_depth = 0.1;  ///< of what somebody touched

/// Every large part of one kind that is deep enough to be found without a touch.
[[nodiscard]] std::vector<Basin> basins_of(const Ground& ground, bool dark);

/// The part about a cell: the first that is deep enough; none where it lies open.
[[nodiscard]] std::optional<Basin> basin_about(const Ground& ground, std::size_t touched);

/// Cells of a part half way up to its rim, as a mask; holes in it filled.
[[nodiscard]] std::vector<std::uint8_t> cells_of(const Ground& ground, const Basin& basin);

/// Border of a mask as a closed line on the sheet [mm as drawn], clockwise.
[[nodiscard]] Loop border_of(const Ground& ground, const std::vector<std::uint8_t>& mask, std::size_t start);

/// Where a line that nearly encloses something is open: the place, and how wide [mm as drawn].
struct Gap {
  Point at{};
  double width = 0.0;
};
[[nodiscard]] std::optional<Gap> gap_in(const Ground& ground);

/// Something dark reaches the square's rim.
[[nodiscard]] bool touches_the_ring(const Ground& ground);

}  // namespace portwright::rubbing
