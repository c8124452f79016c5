#pragma once
// The same engine under many sets of assumptions: how far an answer can be told, and how far a difference can.

#include <vector>

#include "cycle/build.hpp"
#include "cycle/curve.hpp"
#include "geometry/engine.hpp"

namespace portwright::cycle {

/// Sets of assumptions, half of them under either scavenging law, the same for every engine: member k of one engine is
/// held against member k of another. Spread evenly through the rows' ranges (low-discrepancy), member 0 the middles.
[[nodiscard]] std::vector<Assumptions> ensemble_members(int members);

struct EnsemblePlan {
  int members = 64;
  std::vector<double> speeds;  ///< [rev/s]
  CurvePlan run;               ///< its speeds are not used
  Fineness fineness{};
  int threads = 2;
};

/// points[k][i]: member k at speed i; a member whose network could not be built or that gave no answer is empty.
struct Ensemble {
  std::vector<std::vector<Point>> points;
  std::vector<double> weight;  ///< of each member; sums to 1
  bool stopped = false;
};

/// Runs the members of some engines, stock first, side by side where their ducts have equally many cells; the same bits
/// for any number of threads. Each set starts where the middles ended at its speed, and a later engine where stock
/// ended under the same set: what the search leaves open is then nearly the same on both sides of a difference.
[[nodiscard]] std::vector<Ensemble> run_ensembles(std::span<const geometry::Engine* const> engines,
                                                  std::span<const std::string> readings, const EnsemblePlan& plan,
                                                  const Tell& tell = {});

/// The same for one engine.
[[nodiscard]] Ensemble run_ensemble(const geometry::Engine& engine, std::span<const std::string> readings,
                                    const EnsemblePlan& plan, const Tell& tell = {});

/// Weighs members by what the saw is known to give [W] at a speed [rev/s]: each by a normal law of the given relative
/// sigma about it, of the power at the plan's speed nearest to it. Leaves the weights equal where none comes near.
void weigh_by_power(Ensemble& stock, const EnsemblePlan& plan, double power, double speed, double sigma = 0.05);

/// Weighted 95 % range and mean of a value over the members.
struct Band {
  double mean = 0.0, low = 0.0, high = 0.0;
};
[[nodiscard]] Band band_of(const std::vector<double>& values, const std::vector<double>& weight);

/// Mean and range of a figure at speed i, and of its change from stock, member by member.
[[nodiscard]] Band band(const Ensemble& ensemble, double Point::*figure, std::size_t speed);
[[nodiscard]] Band change_band(const Ensemble& stock, const Ensemble& cut, double Point::*figure, std::size_t speed);

}  // namespace portwright::cycle
