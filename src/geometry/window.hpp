#pragma once
// A window in the bore as a closed chain of lines and arcs on the unrolled wall, and its area on one side of a level
// line.
//
// x runs round the bore along the wall (arc, not chord) from the window's centre line, clockwise seen from the plug;
// y runs DOWN the bore: the drop below the crown edge's TDC place. All in metres.

#include <array>
#include <memory>
#include <ranges>
#include <span>
#include <vector>

#include "base/error.hpp"
#include "geometry/window_law.hpp"
#include "geometry/window_piece.hpp"

namespace portwright::geometry {

/// What a caliper and a wheel say of a window, before it becomes an outline. Lengths [m], angles [rad].
struct WindowShape {
  double roof = 0.0;         ///< y of the highest point
  double floor = 0.0;        ///< y of the lowest point
  double width = 0.0;        ///< chord, over both windows and the bridge
  double corner_roof = 0.0;  ///< radius on the unrolled wall
  double corner_floor = 0.0;
  double roof_slope = 0.0;  ///< + rises toward +x; the caller turns "toward the exhaust" into this sign
  double roof_arch = 0.0;   ///< middle above the ends, square to the line between them
  double bridge = 0.0;      ///< width of the bridge (chord), 0 for none
  double bridge_at = 0.0;   ///< middle of the bridge, x
};

/// Why a shape cannot be a window; numbers only, so that the sampled path needs no text.
enum class ShapeFault {
  none,
  floor_above_roof,
  no_width,
  wider_than_bore,
  corners_too_large,
  arch_too_high,
  bridge_too_wide
};

/// From the datum in which a window's levels are kept to the window's own.
struct LevelPlacing {
  double scale = 1.0, shift = 0.0;
  double operator()(double level) const { return scale * level + shift; }
};

class Window {
 public:
  Window() = default;

  /// Builds the chain; on a fault the window is empty and `fault` says why. The chord becomes the arc bore * asin(chord
  /// / bore). Roof corners are tangent to the side and to the sloped or arched roof; `roof` is the highest point that
  /// is left, so a rounded high corner lies at it. A bridge has straight edges; the corners beside it take the radii of
  /// the outer ones as far as the width of their side leaves room. Corners, arches and slopes that fail to fit by less
  /// than 0.5 mm (a reading's error) are drawn in to what fits: corner_roof + corner_floor <= height, corner <= half
  /// the width, arch up to a half circle. Negative radii, arches and bridges within a reading's error of 0 are 0. No
  /// allocation.
  static Window from_shape(const WindowShape& shape, double bore, ShapeFault* fault = nullptr);

  /// From traced points: x from the centre line on the unrolled wall, y down from the highest point; closed of itself.
  /// Refused: fewer than three points, crossing itself, no area.
  static base::Result<Window> from_outline(std::span<const Point> points, double roof);

  /// The same window moved: y + dy. No allocation.
  [[nodiscard]] Window moved_down(double dy) const;

  /// A traced window made wider about its middle and taller from its roof down, each by its factor > 0. Not for windows
  /// built from a shape: an arc would not stay one. No allocation.
  [[nodiscard]] Window stretched(double across, double down) const;
  /// A traced window stretched as another one was.
  [[nodiscard]] Window stretched_like(const Window& other) const { return stretched(other.scale_x_, other.scale_y_); }

  /// Area on the upper side of the level line y [m²]: what a crown edge at that drop leaves open. 0 above the roof,
  /// area() below the floor.
  [[nodiscard]] double area_above(double level) const;
  /// Area on the lower side [m²]: what a skirt edge at that level leaves open.
  [[nodiscard]] double area_below(double level) const { return area_ - area_above(level); }
  [[nodiscard]] double area() const { return area_; }

  /// Open width along the wall at a level [m] (the bridge not counted).
  [[nodiscard]] double width_at(double level) const;
  /// Leftmost and rightmost x of the window between two levels [m]; empty range (left > right) where there is none.
  struct Extent {
    double left = 1.0, right = -1.0;
    [[nodiscard]] bool empty() const { return left > right; }
  };
  [[nodiscard]] Extent extent(double level_from, double level_to) const;
  [[nodiscard]] Extent extent() const { return extent(roof_, floor_); }

  [[nodiscard]] double roof() const { return roof_; }
  [[nodiscard]] double floor() const { return floor_; }
  [[nodiscard]] bool empty() const { return area_ <= 0.0; }
  /// Levels at which the area's law changes, ascending, roof first and floor last.
  [[nodiscard]] auto levels() const {
    return std::views::transform(law_levels(), trace_ ? LevelPlacing{scale_y_, shift_} : LevelPlacing{});
  }
  /// The chain, loop after loop (two loops with a bridge), as built: `y` in the same datum as roof().
  [[nodiscard]] std::vector<std::vector<Point>> polygons(double tolerance) const;
  [[nodiscard]] std::vector<std::vector<Piece>> chains() const;

 private:
  friend class WindowBuilder;
  struct Trace;  // the immutable chain of a traced outline

  static constexpr int max_pieces = 24, max_levels = 20, max_circles = 12;

  [[nodiscard]] std::span<const Piece> pieces() const;
  [[nodiscard]] std::span<const LevelBand> bands() const;
  [[nodiscard]] std::span<const double> law_levels() const;
  [[nodiscard]] double in_law(double level) const { return trace_ ? (level - shift_) / scale_y_ : level; }
  [[nodiscard]] const double* find_band(double level) const;
  void adopt_law();

  double roof_ = 0.0, floor_ = 0.0, area_ = 0.0;
  double shift_ = 0.0;                                    ///< of this window against the pieces and circles [m]
  double shift_x_ = 0.0, scale_x_ = 1.0, scale_y_ = 1.0;  ///< of a traced window against its pieces
  int piece_count_ = 0, second_loop_ = 0, level_count_ = 0;
  std::array<double, max_levels> levels_{};  ///< in this window's datum
  std::array<LevelBand, max_levels> bands_{};
  std::array<LevelCircle, max_circles> circles_{};
  std::array<Piece, max_pieces> pieces_{};
  std::shared_ptr<const Trace> trace_;
};

}  // namespace portwright::geometry
