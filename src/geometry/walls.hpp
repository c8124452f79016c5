#pragma once
// Walls on the unrolled bore: between windows, beside whatever of the piston travels past them, and on the pressed
// sides.

#include "geometry/engine.hpp"

namespace portwright::geometry {

/// One window at its place on the wall. A mirrored port has two; the second is the first turned over, at the opposite
/// angle. An entry that is the mirrored side of another (twin_of) has only that second one.
struct PlacedWindow {
  const Window* window = nullptr;
  double x = 0.0;  ///< of its centre line along the wall [m], 0 at the exhaust's centre, clockwise seen from the plug
  bool mirrored = false;
  double bridge = 0.0;    ///< width of its bridge along the wall [m]
  double bridge_x = 0.0;  ///< middle of the bridge from the window's centre line [m]
  int entry = 0;          ///< in Engine::ports
  int side = 0;           ///< 0, or 1 for the mirrored one
};

/// All windows of a bore. Borrows the engine's windows.
struct WindowMap {
  Few<PlacedWindow, 32> windows;
  double circumference = 0.0;  ///< [m]
  Known known;                 ///< 0, or what the map waits for: bore, and each port's centre and window
};

[[nodiscard]] WindowMap map_windows(const Engine& engine);

/// Arc along the wall of a chord [m]; a chord is held to the bore.
[[nodiscard]] double arc_of_chord(double chord, double bore);
/// Chord of an arc along the wall [m].
[[nodiscard]] double chord_of_arc(double arc, double bore);

/// A wall and where it is.
struct Wall {
  double width = 0.0;  ///< along the wall [m]; negative where the two overlap
  double y = 0.0;      ///< [m]
  int entry = -1;      ///< in Engine::ports; -1: none met
  int side = 0;
  int other = -1;  ///< the second window of a wall between two
  int other_side = 0;
};

/// The least wall between any two windows at a height that both have. Exact for windows with straight sides and for
/// traced ones, where it lies at a level at which one of the outlines bends. Without two such windows the width is the
/// circumference.
[[nodiscard]] Wall least_wall(const WindowMap& map);

/// The wall between the very two windows that `held` names (entry, side, other, other_side), at a height that both
/// have, else where their heights come nearest. Its `entry` is -1 when one of them is not on the map.
[[nodiscard]] Wall wall_between(const WindowMap& map, const Wall& held);

/// The least wall between a strip of the piston, `half_width` to either side of x, that sweeps the bore from y `top` to
/// `bottom`, and any window in its way. Half the circumference less the half width where there is no window.
[[nodiscard]] Wall strip_wall(const WindowMap& map, double x, double half_width, double top, double bottom);

/// The wall between that strip and the very window that `held` names (entry, side), whether it lies in the strip's way
/// or just beside it. Its `entry` is -1 when the window is not on the map.
[[nodiscard]] Wall strip_wall_to(const WindowMap& map, const Wall& held, double x, double half_width, double top,
                                 double bottom);

/// Share of the bore left on a pressed side [-], the least over the heights from y `top` to `bottom`: within 45 deg to
/// either side of the direction, the arc that no window takes over that arc's whole length. A bridge is wall.
[[nodiscard]] Wall pressed_share(const WindowMap& map, double direction, double top, double bottom);

/// The same at one level y [m] [-].
[[nodiscard]] double pressed_share_at(const WindowMap& map, double direction, double y);

/// The widest stretch of wall that is missing under a ring that sweeps from y `top` to `bottom` [m], as an arc; a
/// bridge splits it.
[[nodiscard]] Wall widest_gap(const WindowMap& map, double top, double bottom);

/// The same under the very window that `held` names (entry, side); a window that lies just beside the ring's way counts
/// with its nearest level. Its `entry` is -1 when the window is not on the map.
[[nodiscard]] Wall widest_gap_of(const WindowMap& map, const Wall& held, double top, double bottom);

}  // namespace portwright::geometry
