#pragma once
// A saw's engine as numbers, resolved to one datum. Every value is SI and either known or names the readings it waits
// for.
//
// Levels are drops [m]: y runs down the bore from the crown edge's TDC place. Crank angles [rad ATDC]; places round the
// bore [rad], 0 at the exhaust's centre, clockwise seen from the plug, -π..π. A height above the base face is
// crown_at_tdc - y, and is made only for the outside.

#include <optional>

#include "base/known.hpp"
#include "geometry/breathing.hpp"
#include "geometry/crank_slider.hpp"
#include "geometry/few.hpp"
#include "geometry/time_area.hpp"
#include "geometry/window.hpp"

namespace portwright::geometry {

using base::Known;

enum class PortKind { exhaust, transfer, boost, intake, air };

/// The crown edge opens exhaust, transfer and boost; the skirt opens intake and air.
[[nodiscard]] constexpr OpenedBy opened_by(PortKind kind) {
  return kind == PortKind::intake || kind == PortKind::air ? OpenedBy::skirt : OpenedBy::crown;
}

/// Crank angle at which the port's edge is passed on opening [rad, on its own way: after TDC for crown-opened, before
/// TDC (positive) for skirt-opened] and on closing [rad ATDC], and how long it is open [rad].
struct Timing {
  Known opens, closes, duration;
};

struct Passage {
  Known length, bend, tilt, aim;  ///< [m], [rad], [rad] upward, [rad] toward, round the bore
  Known foot, gasket, mouth;      ///< areas of the way from the case [m²]; the least counts
  Known case_step;                ///< height of the ledge at the case mouth [m]
  Known lower_roof, lower_floor;  ///< y of the lower opening [m]
  Known lower_width;              ///< chord [m]
  bool lower_open = false;
};

/// One port: one window, or `count` equal ones. A mirrored side that differs is an entry of its own
/// with `twin_of` set: its window is drawn as on the first side and lies mirrored at -centre.
struct Port {
  PortKind kind = PortKind::exhaust;
  int index = 0;      ///< place in the file's list of ports; the survey has the names
  int count = 1;      ///< windows of this entry
  int twin_of = -1;   ///< entry whose mirrored side this is, or -1
  Known centre;       ///< of the first window [rad]
  Known roof, floor;  ///< y [m]; roof is the highest point, floor the lowest
  /// Drop of the crown edge when the timed edge is passed [m]: roof for crown-opened, floor less skirt for
  /// skirt-opened. It is known without the skirt when the edge was read as an angle, so whatever moves an edge or a
  /// skirt moves this too.
  Known passed;
  Timing read;             ///< as read by wheel: what timing() falls back on while stroke or rod is unknown
  bool read_holds = true;  ///< until a cut moves the edge
  Known width;             ///< chord, over both and the bridge [m]
  Known corner_roof, corner_floor, roof_arch;  ///< [m]
  Known roof_slope;                            ///< + rises toward the exhaust side [rad]
  Known bridge;                                ///< width, 0 for none [m]
  Known bridge_at;                             ///< middle, from the centre line [m]
  bool traced = false;  ///< the outline comes from a rubbing; the window is moved and scaled, not rebuilt
  Window window;        ///< built when roof, floor and width are known; else empty
  Known window_known;   ///< 0, or what the window waits for
  Known duct_length, duct_outlet, duct_tilt;  ///< [m], [m²], [rad]
  Passage passage;
};

struct Ring {
  Known below_crown, height, radial;  ///< [m]
  Known peg;                          ///< [rad]
  Known end_gap, free_gap;            ///< [m]
};

struct PistonWindow {
  Known centre, roof, floor, width, corner;  ///< [rad], below the crown edge [m] ..
  int count = 1;
};

struct Piston {
  Known skirt_exhaust, skirt_intake, skirt_side;  ///< from the crown edge down [m]
  Known skirt_exhaust_width;                      ///< chord of the full-length skirt [m]
  Known pin_below_crown, pin_diameter, dome;      ///< [m]
  Known mass;                                     ///< [kg]
  Few<Ring, 4> rings;
  Few<PistonWindow, 6> windows;
  Known pocket_roof;  ///< upper edge of the pocket that opens the air windows, below the crown edge [m]
};

enum class IntakeKind { unknown, reed_into_case, reed_behind_window, skirt };
enum class ImpulseFrom { unknown, base, crankcase, none };

struct Engine {
  // crank
  Known bore, stroke, rod, pin_offset;  ///< [m]
  std::optional<CrankSlider> slider;    ///< when stroke and rod are known
  Known slider_known;                   ///< 0, or what the slider waits for
  Piston piston;

  // cylinder
  Known crown_at_tdc;                       ///< crown edge above the base face at TDC [m]
  Known base_gasket;                        ///< [m]
  Known squish, squish_tilt, squish_least;  ///< mean of the places, greatest less least, least as soldered [m]
  Known squish_stretch;                     ///< taken up at speed [m]
  Known squish_band;                        ///< width of the band, radial [m]
  Known chamber;                            ///< at TDC, all counted [m³]
  Known spigot_clearance;                   ///< [m]
  Known pin_axis, thrust;                   ///< [rad]
  Known case_at_tdc;                        ///< case volume with the piston at TDC [m³]
  Few<Port, 16> ports;

  // round about
  IntakeKind intake = IntakeKind::unknown;
  ImpulseFrom impulse = ImpulseFrom::unknown;
  Known muffler_outlets;         ///< sum [m²]
  Known ignition_shaft;          ///< diameter [m]
  Known advance, advance_added;  ///< [rad]; `advance` holds what was added
  Known octane;                  ///< as typed [-]
  Known venturi;                 ///< [m]
  Known chain_pitch, teeth;      ///< [m], [-]
  Known in_cut, no_load;         ///< [rev/s]
  Known gauge_compression;       ///< gauge [Pa]
  Known ring_modulus, ring_gas;  ///< named assumptions [Pa]
  Breathing breathing;

  [[nodiscard]] Known swept() const;      ///< bore area times stroke [m³]
  [[nodiscard]] Known bore_area() const;  ///< [m²]
  /// Height above the base face of a level y [m].
  [[nodiscard]] Known height(const Known& y) const { return crown_at_tdc - y; }
};

/// Whether corners that do not fit are a fault (a reading) or drawn in to the largest that do (a sample of it, a cut).
enum class Corners { as_read, drawn_in };

/// Makes the port's window anew from its sizes, after they were resolved or cut. Not for traced ports.
/// A shape that cannot be leaves the window empty and returns why. A roof sloped "toward the exhaust" rises toward +x
/// for a port on the anticlockwise side and toward -x on the clockwise one; at 0 and ±π, where both ways are toward or
/// away, toward +x.
ShapeFault rebuild_window(Port& port, const Known& bore, Corners corners = Corners::drawn_in);

/// Makes the slider anew after stroke, rod or offset changed. Sizes that no crank can have (a draw far out in a wide
/// error) are drawn in to the nearest that turns: stroke at least 1 mm, offset at most a quarter of it, rod 1 % longer
/// than it must be.
void rebuild_slider(Engine& engine);

/// Moves the whole port down the bore by dy [m]: edges, window, lower opening and `passed`; forgets the read timing
/// when dy is not 0.
void shift(Port& port, const Known& dy);

/// After a cut moved the timed edge or the skirt by itself: adds `dy` [m] to `passed` and forgets the read timing.
void shift_timing(Port& port, const Known& dy);

/// Edge of the piston, below the crown edge, that opens or covers this port [m]: the skirt's intake side for intake,
/// the pocket's upper edge for air, the skirt's exhaust side for exhaust, its side for the rest.
[[nodiscard]] Known skirt_at(const Engine& engine, PortKind kind);

/// From `passed` and the slider; while either is unknown, as read, as long as no cut has moved the edge.
/// An edge above TDC is passed at TDC, one below BDC at BDC.
[[nodiscard]] Timing timing(const Engine& engine, const Port& port);

/// The edge that opens the port, y [m]: the roof for crown-opened, the floor for skirt-opened.
[[nodiscard]] Known timed_edge(const Port& port);

}  // namespace portwright::geometry
