#pragma once
// A port's window measured on the photo of its rubbing: the printed square gives the scale, the border's light the
// outline, and everything that is not known its part of the range.

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "base/error.hpp"
#include "rubbing/square.hpp"

namespace portwright::rubbing {

/// Where a pencil's line is taken.
enum class LineSide { inner, middle, outer };

/// What a person adds to the photo. Lengths [mm], places [pixels].
struct Hints {
  std::vector<Point> inside{};   ///< within the window; two: the openings beside a bridge
  std::vector<Point> points{};   ///< outline put by hand, as kept and moved; empty: as found
  std::vector<Point> upright{};  ///< two places on a line along the bore; none: the sheet's own direction
  LineSide line = LineSide::middle;
  std::optional<double> across{}, down{};  ///< the square's inside as measured on this print
  bool taped = false;                      ///< lies flat, by all its edges
  bool wall_side = false;                  ///< the photo shows the face that lay at the wall
  std::optional<double> bore{};            ///< that the paper was pressed into
  bool bridge = false;                     ///< the port has a bridge: two openings may be joined
};

/// A number with half of its 95 % range.
struct Size {
  double value = 0.0, plus_minus = 0.0;
};
/// One reason of the area's range [mm²], half of the 95 % range by itself.
struct Part {
  std::string name;
  double plus_minus = 0.0;
};

/// What was measured. Places on the sheet [mm], seen from inside the bore: x from the middle of the outline, clockwise
/// seen from the plug; y down from its highest point.
struct Measured {
  Loop outline{};                  ///< border to be drawn over the photo [pixels]
  Loop points{};                   ///< kept [mm]
  Loop handles{};                  ///< the same [pixels], in the same order
  int moved = 0;                   ///< so many of them were put by hand
  Size area{}, width{}, height{};  ///< [mm²], [mm], [mm]
  double within = 0.0;             ///< the outline is true to within this, to each side, 95 % [mm]
  double line_width = 0.0;         ///< of a pencil's line [mm]; 0: an edge
  std::vector<Part> parts{};       ///< of the area's range, greatest first
};

/// What a photo gives. `measured` is empty where `why` says what stands against it.
struct Rubbing {
  Square square;
  double scale = 0.0;  ///< pixels in a millimetre, the least within the square
  double tilt = 0.0;   ///< of the camera against the sheet's upright [deg]
  std::optional<Measured> measured{};
  std::optional<base::Error> why{};
  std::vector<std::string> findings{};
};

inline constexpr double least_scale = 4.0;      ///< [pixels/mm]
inline constexpr double greatest_tilt = 40.0;   ///< [deg]
inline constexpr double paper_thickness = 0.1;  ///< [mm], @source{practice}

/// Measures within a square that was found. Never fails as a whole: see Rubbing::why.
[[nodiscard]] Rubbing measure(const picture::Grey& grey, const Square& square, const Hints& hints);

}  // namespace portwright::rubbing
