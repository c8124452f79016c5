#pragma once
// Speeds one after the other, each seeded by its neighbour, swept from both sides.

#include <functional>
#include <vector>

#include "cycle/point.hpp"

namespace portwright::cycle {

/// How a curve is run.
struct CurvePlan {
  std::vector<double> speeds;  ///< [rev/s], ascending
  bool both_ways = true;       ///< swept up and down: a fold shows as two answers at one speed
  int scattered_turns = 0;  ///< mean of so many turns with scattered burning and speed; 0: the repeating turn itself,
                            ///< and where none repeats the mean of eight as they come
  bool proven =
      true;  ///< whether what is found is pushed to tell its label; else the search alone, which finds no label
  Search search;
  Pace pace;
};

/// Share done, 0..1; returns whether to stop.
using Tell = std::function<bool(double share)>;

struct Curve {
  std::vector<Point> points;  ///< those that were reached, ascending
  bool stopped = false;
};

/// The points of the plan. Stopped early, the points that are ready are kept.
/// Where the sweeps up and down end more than four tolerances apart the point is labelled two_solution and holds the
/// upward one. Steep points are labelled last.
[[nodiscard]] Curve run_curve(const Network& network, const CurvePlan& plan, const Tell& tell = {});

/// Points as far from each other as this tell a step of power from its plain curvature [rev/s]: 100 rpm.
inline constexpr double near_enough_for_steps = 100.0 / 60.0;
/// The second difference of power from which a step is spoken of, of the curve's greatest [-]: own judgement.
inline constexpr double steep_step = 0.01;

/// Second difference of power at each point, of the curve's greatest power [-]: P(-) - 2 P + P(+), or twice the
/// distance from the neighbours' line where they stand unevenly. 0 at the ends and where there is no work.
[[nodiscard]] std::vector<double> second_differences(const std::vector<Point>& points);

/// Labels stable points steep whose second difference is more than steep_step; only where both neighbours are near
/// enough to tell.
void label_steep(std::vector<Point>& points);

/// One settled turn at a speed, instant by instant.
struct Traced {
  Point point;
  Turn turn;
  std::vector<Instant> instants;
};
[[nodiscard]] Traced run_traced(const Network& network, double speed, const CurvePlan& plan, const Tell& tell = {});

/// How turns differ from their mean, one sigma of it. Burning: memory. Speed: own arithmetic for a saw in the cut - a
/// turn's work scatters by a tenth, 3 J of the 180 J that crank, flywheel and clutch hold, which is 0.8 % of speed each
/// turn, and the turns' shares add until the load takes them back after some six: 2 %.
struct Scatter {
  double burn_angle = 0.10, completeness = 0.03, speed = 0.02;
};
inline constexpr Scatter scatter;

/// Draws for scattered turns: the same for every speed and every engine, so that a difference is not made of luck.
/// Drawn in pairs that cancel, so their mean is 1.
[[nodiscard]] std::vector<Draw> common_draws(int turns);

/// One speed, from the state that a near one left (empty: cold), which it leaves at the turn it found. Stopped early
/// the point is no answer.
[[nodiscard]] Point reach(const Network& network, double speed, const CurvePlan& plan, State& state,
                          const StopCall& stop = {});

/// The same as a course that may wait for its turns.
Course reaching(Turner& turner, const Network& network, double speed, const CurvePlan& plan, State& state,
                StopCall stop, Point& out);

inline constexpr double glance_tolerance = 1e-3;
/// The same for a first look: the search alone, until a turn moves the work by less than the tolerance; whether such a
/// turn holds is not asked. The point's error is the last move: above the tolerance where the search came to no end.
[[nodiscard]] Point glance(const Network& network, double speed, State& state, const StopCall& stop = {});

/// A state of one network as a start for another: what stands at a share of a duct's length there stands at the same
/// share here. Empty, which means cold, where ducts or rooms are not the same in number.
[[nodiscard]] State carried(const Network& from, const State& state, const Network& to);

/// Speed at which what the gas gives equals what is stated as lost [rev/s]: an upper bound of what the engine can turn,
/// never its no-load speed, which the rich screw sets. 0 where the torque never falls to nothing below `greatest`.
/// Stopped early: 0.
[[nodiscard]] double zero_torque_speed(const Network& network, double from, double greatest, const CurvePlan& plan,
                                       const Tell& tell = {});

}  // namespace portwright::cycle
