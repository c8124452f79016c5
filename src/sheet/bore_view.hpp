#pragma once
// The bore unrolled on paper: seen from inside, plug end up, angles growing to the right, cut at a seam no window lies
// over. Inside the module only.

#include <vector>

#include "draw/canvas.hpp"
#include "geometry/engine.hpp"
#include "geometry/walls.hpp"

namespace portwright::sheet {

/// Where the bore lies on the page.
struct BoreView {
  double left = 0.0;                 ///< of the seam's left edge [mm]
  double top = 0.0;                  ///< of the crown edge's TDC place [mm]
  double width = 0.0;                ///< of the whole turn [mm]
  double bore = 0.0;                 ///< [m]
  double seam = 3.9269908169872414;  ///< [rad], 225 deg; the left edge is one turn before it

  /// Page place of an angle round the bore; angles are taken into the turn that ends at the seam [mm].
  [[nodiscard]] double x(double angle) const;
  /// Page length of a length along the wall [m] to [mm].
  [[nodiscard]] double along(double wall) const;
  /// Page place of a level, drop below the crown edge's TDC place [m] to [mm].
  [[nodiscard]] double y(double drop) const { return top + 1000.0 * drop; }
  [[nodiscard]] double right() const { return left + width; }
};

/// A window on the page.
struct Placed {
  int entry = 0;       ///< in Engine::ports
  int side = 0;        ///< 1 for the mirrored one
  double angle = 0.0;  ///< of its centre line [rad], -pi..pi
  double x = 0.0;      ///< of its centre line on the page [mm]
  draw::Area area;     ///< arcs parted finely enough that a narrowed page bends them by less than 0.001 mm
  draw::Box box;
  const geometry::Port* port = nullptr;
};

/// Every window that is known, left to right.
[[nodiscard]] std::vector<Placed> placed_windows(const geometry::Engine& engine, const BoreView& view);

/// 225 deg, or the middle of the nearest stretch of wall that no window of either engine lies over [rad]. `other` may
/// be null.
[[nodiscard]] double seam_of(const geometry::Engine& engine, const geometry::Engine* other);

/// Hatch pattern and role of a kind of window. `transfer_rank` counts transfers from the exhaust round to the intake: 0
/// primary, 1 secondary, 2 third.
struct WindowLook {
  draw::Hatch pattern = draw::Hatch::upright;
  draw::Role role = draw::Role::ink;
};
[[nodiscard]] WindowLook look_of(const geometry::Engine& engine, int entry);

/// Keeps texts apart: boxes that are taken, and the first of some places that is free.
class Taken {
 public:
  void add(const draw::Box& box) { boxes_.push_back(box); }
  [[nodiscard]] bool is_free(const draw::Box& box) const;
  /// The first box that is free, else the first; takes it.
  draw::Box take_first_free(const std::vector<draw::Box>& wanted);

 private:
  std::vector<draw::Box> boxes_;
};

}  // namespace portwright::sheet
