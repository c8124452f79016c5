// What a turn costs: bench_cycle_speed. For each sample the kernel per cell step, the whole step over the kernel, steps
// and turns, seconds of a 12-point curve; then the reference that faster code is held against, described in
// docs/performance.md.
#include <cmath>
#include <cstdio>
#include <ctime>
#include <string>
#include <vector>

#include "support/reference.hpp"
#include "support/saws.hpp"

namespace {

using namespace portwright;
using namespace portwright::bench;
/// Time that the program had of the processor [s], so that what else the machine does counts little.
double now() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }
double seconds_since(double from) { return now() - from; }

/// Slopes, fluxes, new contents and gas again of one duct, per cell [s].
double kernel(const cycle::Network& net) {
  const flow::Duct& duct = net.ducts.front();
  flow::Contents contents;
  flow::Scratch scratch;
  flow::DuctAccount account;
  account.lost.resize(duct.losses.size());
  flow::fill(net.gas, duct, {1.15, 30.0, 1.0e5, 1.0, 0.07}, contents, scratch);
  flow::decode(net.gas, duct, contents, scratch);
  const int steps = 20000, cells = duct.grid.cells();
  const auto from = now();
  for (int i = 0; i < steps; ++i) {
    flow::predict(net.gas, duct, contents, 1e-6, scratch, account);
    scratch.flux.front() = scratch.flux[1];  // what enters leaves: the ends' own solve is not the kernel's
    scratch.flux.back() = scratch.flux[1];
    flow::advance(net.gas, duct, 1e-9, scratch, contents, account);
    flow::decode(net.gas, duct, contents, scratch);
  }
  return seconds_since(from) / steps / cells;
}

/// Nanoseconds, milliseconds and counts of a network on its usual cells.
void report(const char* name) {
  const Saw saw = load(sample(name));
  const cycle::Network net = network(saw, saw.engine);
  int cells = 0;
  for (const flow::Duct& duct : net.ducts) cells += duct.grid.cells();

  cycle::March march(net, 150.0);
  cycle::State state = march.cold();
  cycle::Turn turn;
  for (int i = 0; i < 5; ++i) {
    turn = march.empty_turn();
    march.turn(state, turn);
  }
  const auto from = now();
  for (int i = 0; i < 20; ++i) {
    turn = march.empty_turn();
    march.turn(state, turn);
  }
  const double each = seconds_since(from) / 20.0, cell = kernel(net);

  cycle::CurvePlan plan;
  plan.both_ways = false;
  plan.speeds = reference_speeds();
  const auto begun = now();
  const cycle::Curve curve = cycle::run_curve(net, plan);
  const double whole = seconds_since(begun);
  int turns = 0;
  for (const cycle::Point& p : curve.points) turns += p.turns;
  std::printf("| %s | %d | %.1f | %.0f | %.2f | %d | %.2f | %.1f | %.2f |\n", saw.name.c_str(), cells, cell * 1e9,
              each / (turn.steps * cells) * 1e9, each / (turn.steps * cells * cell), turn.steps, each * 1e3,
              turns / 12.0, whole);
  std::fflush(stdout);
}

/// The reference: every speed from cold, plain turns until the work stays within the tolerance of what it comes to.
void reference(const char* name) {
  const Saw saw = load(sample(name));
  const cycle::Network net = reference_network(saw);
  int cells = 0, turns = 0;
  long steps = 0;
  for (const flow::Duct& duct : net.ducts) cells += duct.grid.cells();
  double spent = 0.0;
  for (const double speed : reference_speeds()) {
    const double truth = reference_truth(net, speed);
    cycle::March march(net, speed);
    cycle::State state = march.cold();
    const auto from = now();
    for (int near = 0, n = 0; near < 2 && n < reference_most_turns; ++n) {
      cycle::Turn turn = march.empty_turn();
      march.turn(state, turn);
      near = std::abs(cycle::net_pressure(net, turn) / truth - 1.0) < reference_tolerance ? near + 1 : 0;
      ++turns;
      steps += turn.steps;
    }
    spent += seconds_since(from);
  }
  std::printf("| %s | %d | %.0f | %.0f | %.1f | %.2f |\n", saw.name.c_str(), cells,
              spent / (static_cast<double>(steps) * cells) * 1e9, static_cast<double>(steps) / turns, turns / 12.0,
              spent);
  std::fflush(stdout);
}

}  // namespace

int main() {
  std::printf(
      "| saw | cells | kernel, ns a cell step | step, ns a cell step | step over kernel | steps a turn | ms a "
      "turn | turns a point | 12 points, s |\n");
  for (const char* name : {"alder-60", "oak-110", "spruce-92"}) report(name);
  std::printf("\n| reference | cells | ns a cell step | steps a turn | turns a point | 12 points, s |\n");
  for (const char* name : {"alder-60", "oak-110", "spruce-92"}) reference(name);
  return 0;
}
