#pragma once
// Points of many engines searched side by side: reach() of cycle/curve.hpp in lanes, on all cores.

#include <atomic>
#include <span>

#include "cycle/curve.hpp"

namespace portwright::cycle {

/// A point that is asked for, where its search begins, and what it found.
struct LanePoint {
  const Network* network = nullptr;  ///< must outlive it
  double speed = 0.0;                ///< [rev/s]
  CurvePlan plan;                    ///< its speeds are not used
  State state;                       ///< where the search begins (empty: cold), and then where its turn begins
  Point point;
  bool reached = false;  ///< false: stopped before
};

/// So many of one pattern at least go into lanes: two together take as long there as one after the other.
inline constexpr std::size_t fewest_side_by_side = 3;

/// reach() for all of them: those whose ducts are of one pattern side by side, what finds no companions one at a time.
/// The same bits for any number of threads and in any order; in lanes they differ from reach()'s by rounding, and by
/// what the search makes of it, which is within what it leaves open. T as in MarchLanes: double for what is shown; float
/// for a search, with a tolerance of no less than 1e-4, which its rounding allows.
/// Contract: paces that do not rest at BDC. @param stop  asked from every thread  @param done  raised by one for each
template <class T = double>
void reach_side_by_side(std::span<LanePoint> points, int threads, const StopCall& stop, std::atomic<std::size_t>& done);

}  // namespace portwright::cycle
