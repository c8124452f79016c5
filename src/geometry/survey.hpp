#pragma once
// The only door from readings to an Engine, first half: every reading as one numbered input with its value and its
// errors. Contradictions and readings outside the allowed box are found here, in words, once; resolve() then only
// computes.

#include <array>
#include <span>
#include <string>
#include <vector>

#include "base/error.hpp"
#include "geometry/engine.hpp"
#include "saw/readings.hpp"

namespace portwright::geometry {

/// One independent cause of error, normal with the given sigma. Readings of one set-up share theirs.
struct ErrorSource {
  std::string name;    ///< "crank.bore", "wheel zero of wheel 1", "assumed rod ratio"
  double sigma = 0.0;  ///< [SI of what it moves]
};

/// One number that goes into the engine.
struct Input {
  std::string path;  ///< "crank.bore", "port.exhaust.opens", "piston.ring.1.peg"
  base::Dimension dimension = base::Dimension::length;
  double value = 0.0;                       ///< SI, mean of the repeats
  double sigma = 0.0;                       ///< one sigma, all sources together, SI
  bool assumed = false;                     ///< a named assumption, not a reading
  double least = -1e300, greatest = 1e300;  ///< samples are kept inside, SI (assumptions have bounds)
  std::string source;  ///< "caliper", "typed tolerance", key of docs/references.bib, "memory", "common practice"
  struct Part {
    int source = 0;       ///< index into Survey::sources
    double factor = 1.0;  ///< how much of that source's error this input takes
  };
  std::vector<Part> parts;
};

/// A place for a number: the input that fills it, else the reading it waits for; or a constant.
struct Slot {
  int input = -1;
  int need = -1;
  double constant = 0.0;       ///< when neither
  bool share_of_half = false;  ///< the input is a share of the window's smaller half size (an assumed corner)
};

/// One reading of an edge, brought to y.
enum class EdgeForm { opens, closes, duration, height, drop };
struct EdgeReading {
  EdgeForm form = EdgeForm::height;
  int input = -1;
  double weight = 1.0;        ///< in the crown drop when the edge is passed; sums to 1 over the edge's readings
  double level_weight = 1.0;  ///< in the edge's own place, which differs where the skirt opens it
};
struct EdgeSlot {
  Few<EdgeReading, 5> readings;
  int need = -1;     ///< when there is none
  int stretch = -1;  ///< input [m] that widens the edge when its readings contradict each other; value 0
};

/// Two readings of one thing held against each other.
struct EdgeCheck {
  std::string port;  ///< empty for the crown height
  std::string edge;  ///< roof | floor
  struct Row {
    std::string path;
    double y = 0.0, sigma = 0.0;  ///< [m]
    base::Known height;           ///< [m]
  };
  std::vector<Row> rows;
  bool agrees = true;
  double gap = 0.0;  ///< greatest less least [m]
  std::string mend;  ///< the reading that would mend it, in words
};

struct PassageSlots {
  Slot length, bend, tilt, aim, foot, gasket, mouth, case_step, lower_roof, lower_floor, lower_width;
  bool lower_open = false;
};
struct PortSlots {
  std::string name;
  PortKind kind = PortKind::exhaust;
  int index = 0, count = 1, twin_of = -1;
  Slot centre, width, corner_roof, corner_floor, roof_arch, roof_slope, bridge, bridge_at, duct_length, duct_outlet,
      duct_tilt;
  EdgeSlot roof, floor;
  PassageSlots passage;
  bool own_edge = true;         ///< false: the timed edge is the very reading of the side it mirrors
  Window traced;                ///< outline of a rubbing with its roof at y = 0; empty when none
  Slot line_across, line_down;  ///< how far the rubbing's lines lie too far out, to each side of it [m]
};
struct RingSlots {
  Slot below_crown, height, radial, peg, end_gap, free_gap;
};
struct PistonWindowSlots {
  Slot centre, roof, floor, width, corner;
  int count = 1;
};

/// An edge known both by angle and by level: two such edges say something of a missing rod, one says a missing crown
/// height.
struct BothWays {
  PortKind kind = PortKind::exhaust;
  EdgeReading angle, level;
  double sigma = 0.0;       ///< of the two together, without the wheel's shared zero [m]
  bool takes_zero = false;  ///< the angle shares the wheel's zero
};

/// Two readings that belong together: a place and a bore of a pipe, a speed and its advance.
struct PairSlots {
  Slot first, second;
};

struct BreathingSlots {
  Slot tract_length, tract_bore, throttle;
  Slot petals, reed_length, reed_width, reed_thickness, reed_modulus, reed_density, reed_window_length,
      reed_window_width, reed_stop, block_angle;
  Slot air_box_volume, filter_loss;
  std::vector<Slot> boxes, baffles;  ///< the outlets are Survey::outlets
  int boxes_need = -1;
  bool screen = false, screen_known = false;
  std::vector<PairSlots> pipe, curve;
  Slot limiter, air_fuel, altitude, temperature, humidity, stock_power, stock_power_speed, gauge_volume;
  OctaneScale octane_scale = OctaneScale::unknown;
};

/// Everything known before a number is computed.
struct Survey {
  std::vector<ErrorSource> sources;
  std::vector<Input> inputs;
  std::vector<std::string> needs;  ///< path of each reading that something may wait for; Known's numbers index this
  base::Errors errors;             ///< readings left out or contradicted, in words
  std::vector<EdgeCheck> checks;
  std::string wheel_verdict;  ///< "wheel zero off by 1.2 deg explains all four edges", or empty

  Slot bore, stroke, rod, rod_ratio, pin_offset;
  Slot skirt_exhaust, skirt_intake, skirt_side, skirt_exhaust_width, pin_below_crown, pin_diameter, dome, mass;
  std::vector<RingSlots> rings;
  std::vector<PistonWindowSlots> piston_windows;
  int piston_window_need = -1;
  Slot crown_at_tdc, crown_above_deck, base_gasket;
  double crown_weight = 1.0;  ///< of crown_at_tdc against crown_above_deck - base_gasket when both were read
  int crown_stretch = -1;     ///< input [m] that widens it when the two contradict each other; value 0
  std::vector<Slot> squish;   ///< one a place
  std::size_t squish_least = 0, squish_greatest = 0;  ///< places, as read
  int squish_need = -1;
  Slot squish_stretch, squish_band, chamber, plug_thread, plug_reach, bowl, decompression, spigot_clearance, pin_axis,
      thrust;
  bool filled_to_plug_seat = false;
  Slot case_volume, case_volume_at;
  std::vector<PortSlots> ports;
  IntakeKind intake = IntakeKind::unknown;
  ImpulseFrom impulse = ImpulseFrom::unknown;
  std::vector<Slot> outlets;
  std::vector<BothWays> both_ways;
  double zero_sigma = 0.0;  ///< of the wheel's zero [rad]
  int outlet_need = -1, exhaust_need = -1, transfer_need = -1, intake_need = -1;
  Slot shaft, advance, octane, venturi, chain_pitch, teeth, in_cut, no_load, gauge_compression, ring_modulus, ring_gas;
  BreathingSlots breathing;

  /// Values of the inputs as read, in order.
  [[nodiscard]] std::vector<double> values() const;
  /// Entry of a port by name, or -1.
  [[nodiscard]] int find_port(std::string_view name) const;
};

/// Numbers every reading and assumption, weighs edges read more than once, and says what is wrong.
/// Never fails: what cannot be used is left out and stands in `errors`.
[[nodiscard]] Survey survey(const saw::Readings& readings);

/// Second half: numbers to numbers. Fills `engine`; no allocation, no text.
/// @param values one for each of survey.inputs, in order [SI]
void resolve(const Survey& survey, std::span<const double> values, Engine& engine);

/// The outline of an entry with its roof at y = 0, stretched by what its lines lie too far out. No allocation.
[[nodiscard]] Window outline_of(const PortSlots& slots, std::span<const double> values);

/// The engine of the values as read.
[[nodiscard]] Engine resolve(const Survey& survey);

/// Sentences for what no engine can have: overlapping windows, a port above TDC, a shape that cannot be.
[[nodiscard]] base::Errors impossibilities(const Survey& survey, const Engine& engine);

}  // namespace portwright::geometry
