// What a turn costs: the kernel per cell step, the whole step over the kernel, steps and turns, seconds of a 12-point
// curve.
#include <chrono>
#include <cstdio>
#include <string>

#include "cycle/build.hpp"
#include "cycle/curve.hpp"
#include "geometry/survey.hpp"
#include "saw/file.hpp"

namespace {

using namespace portwright;
using Clock = std::chrono::steady_clock;

double seconds_since(Clock::time_point from) { return std::chrono::duration<double>(Clock::now() - from).count(); }

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
  const auto from = Clock::now();
  for (int i = 0; i < steps; ++i) {
    flow::predict(net.gas, duct, contents, 1e-6, scratch, account);
    scratch.flux.front() = scratch.flux[1];  // what enters leaves: the ends' own solve is not the kernel's
    scratch.flux.back() = scratch.flux[1];
    flow::advance(net.gas, duct, 1e-9, scratch, contents, account);
    flow::decode(net.gas, duct, contents, scratch);
  }
  return seconds_since(from) / steps / cells;
}

void report(const char* name) {
  const auto file = saw::read_saw_file(std::string(PORTWRIGHT_SOURCE_DIR "/data/samples/") + name + ".saw.toml");
  if (!file) return;
  const geometry::Survey survey = geometry::survey(file->readings);
  const auto net = cycle::build(geometry::resolve(survey), cycle::middle_assumptions(), survey.needs);
  if (!net) return;
  int cells = 0;
  for (const flow::Duct& duct : net->ducts) cells += duct.grid.cells();

  cycle::March march(*net, 150.0);
  cycle::State state = march.cold();
  cycle::Turn turn;
  for (int i = 0; i < 5; ++i) {
    turn = march.empty_turn();
    march.turn(state, turn);
  }
  const auto from = Clock::now();
  for (int i = 0; i < 20; ++i) {
    turn = march.empty_turn();
    march.turn(state, turn);
  }
  const double each = seconds_since(from) / 20.0, cell = kernel(*net);

  cycle::CurvePlan plan;
  plan.both_ways = false;
  for (int i = 0; i < 12; ++i) plan.speeds.push_back((5000.0 + 500.0 * i) / 60.0);
  const auto begun = Clock::now();
  const cycle::Curve curve = cycle::run_curve(*net, plan);
  const double whole = seconds_since(begun);
  int turns = 0;
  for (const cycle::Point& p : curve.points) turns += p.turns;
  std::printf(
      "%-16s %3d cells  %5.1f ns a cell step  step over kernel %4.2f  %4d steps a turn  %5.2f ms a turn  %4.1f turns a "
      "point"
      "  12 points %5.2f s\n",
      name, cells, cell * 1e9, each / (turn.steps * cells * cell), turn.steps, each * 1e3, turns / 12.0, whole);
}

}  // namespace

int main() {
  for (const char* name : {"alder-60", "oak-110", "spruce-92"}) report(name);
  return 0;
}
