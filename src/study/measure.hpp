#pragma once
// Every figure of an engine as a number: the sampled path, without text and without allocation.

#include <array>

#include "geometry/engine.hpp"
#include "geometry/walls.hpp"

namespace portwright::study {

using base::Known;

/// What a figure waits for when the engine itself cannot say: things that are no reading of an existing place, and
/// values for which a figure has none (a ratio over a chamber of nothing). Numbers index Plan::needs.
struct Wants {
  base::Needs exhaust, transfer, intake, impulse;
  base::Needs clearance;  ///< a squish clearance above 0
  base::Needs chamber;    ///< a chamber above 0
  base::Needs crankcase;  ///< a case volume above the swept volume
  base::Needs shape;      ///< a window shape that can be
  base::Needs opening;    ///< an edge that is passed between the dead centres
};

/// A wall that could have been the one chosen, had the readings erred otherwise.
struct Rival {
  geometry::Wall wall;
  int end = 0;  ///< of the pin bore: 0 or 1
};
/// Those nearest to the wall chosen as read; of a possible saw the same ones in the same order.
using Rivals = geometry::Few<Rival, 12>;

/// One window of a port. Angles [rad], lengths [m], areas [m²].
struct PortMeasures {
  Known opens, closes, duration, drop;
  Known roof, floor;  ///< below the crown edge at TDC
  Known area, area_at_bdc;
  Known width_of_bore, side_chord_of_bore;  ///< [-]
  Known bridge_width;
  Known deg_per_mm;                          ///< [rad/m]
  Known time_area, specific_time_area;       ///< [s m²], [s/m]
  Known masked_at_bdc, lower_masked_at_bdc;  ///< [-]
  Known normal_area;
  Known mouth_to_window, loss;  ///< [-]
  std::array<Known, 3> ways;    ///< of the passage: mouth, gasket hole, foot [m²]
  int narrowest = -1;           ///< of the passage: 0 mouth, 1 gasket hole, 2 foot; -1 not chosen
  double wider_half = 0.0;      ///< beside a bridge: +1 or -1, the side away from which the bridge stands; 0 not chosen
};

/// All windows of a kind together.
struct GroupMeasures {
  int windows = 0;
  Known area, time_area, specific_time_area, first_opens;
  int first = -1;  ///< entry of the port that opens first
};

/// Which of several is the least, first, lowest ...: entries in Engine::ports, sides; -1 where none was chosen.
struct Chosen {
  int transfer_first = -1, transfer_last = -1;  ///< among transfer and boost
  int exhaust_closes = -1;                      ///< the exhaust window that closes last
  int exhaust_floor = -1, intake_floor = -1, crown_floor = -1, intake_roof = -1;
  int pin_end = -1, thrust_side = -1;  ///< 0 or 1
};

struct RingMeasures {
  Known peg_wall, bow, lowest_over_intake;  ///< [m]
  geometry::Wall peg_at, widest_at;
  Rivals peg_rivals, bow_rivals;
};

struct Measures {
  Known displacement, rod_ratio, mean_piston_speed, peak_acceleration;
  geometry::Few<PortMeasures, 16> ports;
  std::array<GroupMeasures, 5> groups;  ///< by PortKind
  Known blowdown, blowdown_specific_time_area, stagger;
  Known chamber, full_ratio, trapped_ratio, case_ratio;
  Known squish_clearance, squish_tilt, squish_working, squish_band_share, squish_velocity, squish_velocity_angle;
  Known gauge_compression;
  Known skirt_cover_exhaust, skirt_cover_intake, free_port_area;
  Known crown_over_floors, crown_over_intake_roof, top_land;
  Known pin_hole_wall, impulse_covered, spigot_clearance;
  geometry::Few<RingMeasures, 4> rings;
  Known wall_least, thrust_share;
  geometry::Wall wall_least_at, thrust_at, pin_at;
  Rivals wall_rivals, pin_rivals;
  Chosen chosen;
  Known outlet_to_window;
  Known venturi, carburettor_factor, intake_pressure;  ///< [m], [-], [Pa]
  Known key_offset, advance_added;
  Known no_load, in_cut, chain_speed;
};

/// Fills `out` with every figure [SI].
///
/// A figure that is the least of several (walls, floors, openings) speaks of the one that is least on the values as
/// read. A possible saw is measured at that very one: the least of each would lie below what was read wherever two are
/// alike.
/// @param speed of the crank [rev/s], for what turns with it
/// @param as_read the measures of the values as read, whose choices are held; null: these are they
void measure(const geometry::Engine& engine, double speed, const Wants& wants, Measures& out,
             const Measures* as_read = nullptr);

}  // namespace portwright::study
