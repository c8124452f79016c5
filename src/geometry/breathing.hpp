#pragma once
// What a gas-exchange simulation needs beside the geometry: tract, reed, air box, muffler, pipe, spark, fuel and day.
// Every number is SI and either known or waits for its reading, so that whoever simulates may take a named assumption
// or say what is missing, all at once. Nothing here is computed from anything else.

#include "base/known.hpp"
#include "geometry/few.hpp"

namespace portwright::geometry {

using base::Known;

/// The petals of a reed block, all alike, each over one window.
struct ReedBlock {
  Known petals;                       ///< how many [-]
  Known length, width, thickness;     ///< of one petal, free length from its clamp [m]
  Known modulus, density;             ///< of the material named in the readings [Pa], [kg/m³]
  Known window_length, window_width;  ///< under one petal [m]
  Known stop;                         ///< lift of the tip at the stop [m]
  Known block_angle;                  ///< of the seat against the tract's middle line [rad]
};

/// One place of a pipe behind the exhaust, in the order typed.
struct PipeStation {
  Known place, bore;  ///< from the pipe's beginning [m], diameter [m]
};

/// One point of an ignition's curve, in the order typed, which rises with speed.
struct AdvancePoint {
  Known speed, advance;  ///< [rev/s], [rad before TDC] as read: the spark comes Engine::advance_added earlier
};

/// What an octane number counts on; `pump` is the mean of research and motor.
enum class OctaneScale { unknown, pump, research, motor };

struct Breathing {
  // intake; the venturi is Engine::venturi
  Known tract_length, tract_bore;  ///< from carburettor to reed or window [m], diameter [m]
  Known throttle;                  ///< bore at the throttle [m]
  ReedBlock reed;                  ///< waits for its readings where the intake has none
  Known air_box_volume;            ///< [m³]
  Known filter_loss;               ///< at 20 l/s [Pa]

  // muffler; the sum of the outlets is Engine::muffler_outlets
  Few<Known, 6> boxes;        ///< volumes in the order the gas takes [m³]
  Known boxes_known;          ///< 0, or what an empty list waits for
  Few<Known, 6> baffles;      ///< openings between boxes [m²]; none read: empty
  Few<Known, 8> outlets;      ///< [m²]
  Known outlets_known;        ///< 0, or what an empty list waits for
  bool screen = false;        ///< a spark screen is fitted
  bool screen_known = false;  ///< whether the readings say so

  Few<PipeStation, 24> pipe;            ///< empty: none
  Few<AdvancePoint, 16> advance_curve;  ///< empty: one advance at every speed, Engine::advance
  Known limiter;                        ///< [rev/s]

  // fuel and day; the octane number is Engine::octane
  Known air_fuel;                                   ///< air to fuel, by mass [-]
  OctaneScale octane_scale = OctaneScale::unknown;  ///< of Engine::octane
  Known altitude, temperature, humidity;            ///< [m], [K], share of saturation [-]

  // what the saw did
  Known stock_power, stock_power_speed;  ///< [W], [rev/s]
  Known gauge_volume;                    ///< of the compression gauge, up to its valve [m³]
};

}  // namespace portwright::geometry
