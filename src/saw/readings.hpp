#pragma once
// One reading set of one saw, as it was typed. Nothing is computed here; an absent reading is an empty one.
// The fields, their kinds and their order in a file are said once, in saw/fields.hpp.

#include <concepts>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/error.hpp"
#include "base/quantity.hpp"

namespace portwright::saw {

/// One typed text and what it says; no value when it cannot be read (the text is kept all the same).
struct Typed {
  std::string text;
  std::optional<base::Quantity> value;
  friend bool operator==(const Typed& a, const Typed& b) { return a.text == b.text; }
};

/// A quantity read once, or several times at one place.
struct Reading {
  std::vector<Typed> repeats;  ///< none: not taken
  std::string with;            ///< instrument, a row of data/instruments; empty: the field's usual one
  std::string setup;           ///< readings of one set-up share an error
  std::string note;
  [[nodiscard]] bool taken() const { return !repeats.empty(); }
  /// Taken, and at least one repeat could be read.
  [[nodiscard]] bool readable() const {
    for (const Typed& typed : repeats)
      if (typed.value) return true;
    return false;
  }
  friend bool operator==(const Reading&, const Reading&) = default;
};

/// A quantity read at named places, as squish at the exhaust and at the intake side.
struct Places {
  std::vector<std::pair<std::string, Reading>> places;  ///< one unnamed place when typed as plain text
  [[nodiscard]] bool taken() const { return !places.empty(); }
  friend bool operator==(const Places&, const Places&) = default;
};

/// Pairs of quantities: a traced outline, an ignition curve, the profile of a pipe.
struct Pairs {
  std::vector<std::pair<Typed, Typed>> rows;
  [[nodiscard]] bool taken() const { return !rows.empty(); }
  friend bool operator==(const Pairs&, const Pairs&) = default;
};

/// Several things of one kind, not repeats: boxes and outlets of a muffler.
struct Several {
  std::vector<Typed> items;
  [[nodiscard]] bool taken() const { return !items.empty(); }
  friend bool operator==(const Several&, const Several&) = default;
};

/// "91 pump" ((R+M)/2), "95 research", "86 motor".
struct Octane {
  std::string text;
  std::optional<double> number;
  std::string method;  ///< pump | research | motor
  [[nodiscard]] bool taken() const { return !text.empty(); }
  friend bool operator==(const Octane& a, const Octane& b) { return a.text == b.text; }
};

/// "3.6 kW at 9000 rpm".
struct PowerAt {
  std::string text;
  std::optional<base::Quantity> power;
  std::optional<base::Quantity> speed;
  [[nodiscard]] bool taken() const { return !text.empty(); }
  friend bool operator==(const PowerAt& a, const PowerAt& b) { return a.text == b.text; }
};

/// A value that TOML writes by itself; or the text that stands in its place and cannot be read as one.
template <class T>
struct Plain : std::optional<T> {
  using std::optional<T>::optional;
  std::string text;  ///< empty when there is a value
  [[nodiscard]] bool taken() const { return this->has_value() || !text.empty(); }
  template <std::same_as<Plain> A, std::same_as<Plain> B>  // a bare value is compared as with any optional
  friend bool operator==(const A& a, const B& b) {
    const std::optional<T>&left = a, &right = b;
    return left == right && a.text == b.text;
  }
};
using Number = Plain<double>;  ///< a count or a pure ratio
using Flag = Plain<bool>;

struct Aim {
  std::string use;
  friend bool operator==(const Aim&, const Aim&) = default;
};

struct Crank {
  Reading bore, stroke, rod, pin_offset;
  friend bool operator==(const Crank&, const Crank&) = default;
};

struct Ring {
  Reading below_crown, height, radial, peg, end_gap, free_gap;
  friend bool operator==(const Ring&, const Ring&) = default;
};

struct PistonWindow {
  Reading centre, roof_below_crown, floor_below_crown, width, corner;
  Flag mirrored;
  friend bool operator==(const PistonWindow&, const PistonWindow&) = default;
};

struct Piston {
  Reading skirt_exhaust, skirt_intake, skirt_side, skirt_exhaust_width, pin_below_crown, pin_diameter, dome, mass;
  std::vector<Ring> ring;
  std::vector<PistonWindow> window;
  friend bool operator==(const Piston&, const Piston&) = default;
};

struct Cylinder {
  Reading crown_at_tdc, crown_above_deck, base_gasket;
  Places squish;
  Reading squish_band, chamber;
  std::string chamber_filled_to;
  Reading bowl, decompression, plug_thread, plug_reach, spigot_clearance, pin_axis, thrust;
  Flag plated;
  friend bool operator==(const Cylinder&, const Cylinder&) = default;
};

struct Case {
  Reading volume;
  Reading volume_at;  ///< "tdc", "bdc" or an angle; read as an angle
  friend bool operator==(const Case&, const Case&) = default;
};

struct Duct {
  Reading length, outlet, tilt;
  friend bool operator==(const Duct&, const Duct&) = default;
};

/// The lower opening of a passage into the bore, masked by the skirt near BDC.
struct LowerOpening {
  Reading roof, floor, width;
  Flag open;
  friend bool operator==(const LowerOpening&, const LowerOpening&) = default;
};

struct Passage {
  Reading length, bend, tilt, aim, foot, gasket, mouth, case_step;
  LowerOpening lower;
  friend bool operator==(const Passage&, const Passage&) = default;
};

/// The ways an edge may be read, and the sizes that may differ on the mirrored side.
struct Edges {
  Reading opens, closes, duration, roof, floor, drop, width;
  friend bool operator==(const Edges&, const Edges&) = default;
};

struct Port {
  std::string name;  ///< [a-z][a-z0-9_]*, unique
  std::string kind;  ///< exhaust | transfer | boost | intake | air
  Reading centre;
  Flag mirrored;
  Edges edges;
  Edges twin;  ///< where the mirrored side differs
  Reading corner_roof, corner_floor, roof_slope, roof_arch, bridge, bridge_at;
  Pairs outline;
  std::string seen;        ///< of the outline: inside | wall side
  Reading outline_within;  ///< the outline is true to within this, to each side, 95 %
  Duct duct;
  Passage passage;
  friend bool operator==(const Port&, const Port&) = default;
};

struct ReedWindow {
  Reading length, width;
  friend bool operator==(const ReedWindow&, const ReedWindow&) = default;
};

struct Reed {
  Number petals;
  Reading length, width, thickness;
  std::string material;
  ReedWindow window;
  Reading stop, block_angle;
  friend bool operator==(const Reed&, const Reed&) = default;
};

struct Tract {
  Reading length, bore;
  friend bool operator==(const Tract&, const Tract&) = default;
};

struct Intake {
  std::string kind;  ///< reed into case | reed behind a window | skirt
  Tract tract;
  Reed reed;
  friend bool operator==(const Intake&, const Intake&) = default;
};

struct Carburettor {
  Reading venturi, throttle;
  friend bool operator==(const Carburettor&, const Carburettor&) = default;
};

struct AirBox {
  Reading volume, filter;
  friend bool operator==(const AirBox&, const AirBox&) = default;
};

struct Muffler {
  Several boxes, baffles, outlets;
  Flag screen;
  friend bool operator==(const Muffler&, const Muffler&) = default;
};

struct Pipe {
  Pairs profile;
  friend bool operator==(const Pipe&, const Pipe&) = default;
};

struct Ignition {
  Reading advance;
  Pairs curve;
  Reading limiter, shaft;
  friend bool operator==(const Ignition&, const Ignition&) = default;
};

struct Fuel {
  Octane octane;
  Number air_fuel;
  friend bool operator==(const Fuel&, const Fuel&) = default;
};

struct Day {
  Reading altitude, temperature, humidity;
  friend bool operator==(const Day&, const Day&) = default;
};

struct Drive {
  Reading chain_pitch;
  Number teeth;
  Reading bar, clutch_engages, wood;
  friend bool operator==(const Drive&, const Drive&) = default;
};

struct Fins {
  Reading from, to, length, pitch, thickness;
  friend bool operator==(const Fins&, const Fins&) = default;
};

struct Cooling {
  Flag fan;
  std::vector<Fins> fins;
  friend bool operator==(const Cooling&, const Cooling&) = default;
};

struct Bearing {
  Reading rating, pin;
  std::string kind;
  friend bool operator==(const Bearing&, const Bearing&) = default;
};

struct BottomEnd {
  Reading rod_small_mass, rod_big_mass;
  Bearing big_end, small_end, main;
  Reading counterweight;
  friend bool operator==(const BottomEnd&, const BottomEnd&) = default;
};

struct Impulse {
  std::string where;  ///< base | case | none
  friend bool operator==(const Impulse&, const Impulse&) = default;
};

struct Spot {
  std::string where;
  Reading value, at;
  friend bool operator==(const Spot&, const Spot&) = default;
};

/// What the saw did, to judge the estimate by.
struct Evidence {
  PowerAt stock_power;
  Reading gauge_compression, gauge_volume, no_load, in_cut;
  Spot spot;
  friend bool operator==(const Evidence&, const Evidence&) = default;
};

struct Readings {
  std::string format;  ///< "portwright saw 1"
  std::string name, model, casting, state;
  Aim aim;
  Crank crank;
  Piston piston;
  Cylinder cylinder;
  Case crankcase;
  std::vector<Port> ports;
  Intake intake;
  Carburettor carburettor;
  AirBox air_box;
  Muffler muffler;
  Pipe pipe;
  Ignition ignition;
  Fuel fuel;
  Day day;
  Drive drive;
  Cooling cooling;
  BottomEnd bottom_end;
  Impulse impulse;
  Evidence evidence;
  friend bool operator==(const Readings&, const Readings&) = default;
};

}  // namespace portwright::saw
