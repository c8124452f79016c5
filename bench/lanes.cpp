// Engines side by side against one at a time: bench_lanes. Nanoseconds a cell step of the kernel (gas from contents,
// slopes, fluxes, new contents) and of the whole turn, in double and in float, beside the one-engine code in the same
// run, part by part.
#include <hwy/targets.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <ctime>

#include "cycle/lanes/march_lanes.hpp"
#include "support/reference.hpp"
#include "support/saws.hpp"

namespace {

using namespace portwright;
using namespace portwright::bench;
using Clock = std::chrono::steady_clock;

constexpr int steps = 2000, rounds = 25;

double since(Clock::time_point from) { return std::chrono::duration<double, std::nano>(Clock::now() - from).count(); }

/// Best of some rounds, each `steps` calls [ns a call].
template <class Work>
double best(Work&& work) {
  double least = 1e300;
  for (int round = 0; round < rounds; ++round) {
    const auto from = Clock::now();
    for (int i = 0; i < steps; ++i) work();
    least = std::min(least, since(from) / steps);
  }
  return least;
}

struct Parts {
  double decode = 0.0, predict = 0.0, advance = 0.0;
  [[nodiscard]] double all() const { return decode + predict + advance; }
};

/// Of one engine's duct [ns a cell step].
Parts alone(const cycle::Network& net, const flow::Duct& duct) {
  flow::Contents contents;
  flow::Scratch scratch;
  flow::DuctAccount account;
  account.lost.resize(duct.losses.size());
  flow::fill(net.gas, duct, {1.15, 30.0, 1.0e5, 1.0, 0.07}, contents, scratch);
  const double cells = duct.grid.cells();
  Parts out;
  out.decode = best([&] { flow::decode(net.gas, duct, contents, scratch); }) / cells;
  out.predict = best([&] { flow::predict(net.gas, duct, contents, 1e-6, scratch, account); }) / cells;
  scratch.flux.front() = scratch.flux.back() = scratch.flux[1];
  out.advance = best([&] { flow::advance(net.gas, duct, 1e-12, scratch, contents, account); }) / cells;
  return out;
}

/// Of as many as a vector takes [ns a cell step of one].
template <class T>
Parts beside(const cycle::Network& net, const flow::Duct& duct) {
  const int lanes = flow::lanes_of_machine<T>(), n = duct.grid.cells();
  flow::WorkingGasLanes<T> gas;
  flow::DuctLanes<T> ducts(duct);
  flow::ContentsLanes<T> contents(n);
  flow::ScratchLanes<T> scratch(n);
  flow::AccountLanes<T> account(static_cast<int>(duct.losses.size()));
  flow::Table<T> dt(1, 1, lanes), rate(1, 1, lanes);
  flow::Contents one;
  flow::Scratch unused;
  for (int lane = 0; lane < lanes; ++lane) {
    flow::fill(net.gas, duct, {1.15 + 0.01 * lane, 30.0, 1.0e5, 1.0, 0.07}, one, unused);
    gas.set(lane, net.gas);
    contents.set(lane, one);
    dt.at(0, 0, lane) = T(1e-6);
  }
  const double cells = double(n) * lanes;
  Parts out;
  out.decode = best([&] { flow::decode(gas, ducts, contents, scratch, rate); }) / cells;
  out.predict = best([&] { flow::predict(gas, ducts, contents, dt, scratch, account); }) / cells;
  for (int lane = 0; lane < lanes; ++lane) dt.at(0, 0, lane) = T(1e-12);
  out.advance = best([&] { flow::advance(ducts, dt, scratch, contents, account); }) / cells;
  return out;
}

constexpr int turns = 40, settling = 5;

/// Time that this thread had of the processor [ns]: whole turns are long enough to be interrupted every time.
double own_time() {
  std::timespec now{};
  clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
  return 1e9 * double(now.tv_sec) + double(now.tv_nsec);
}

int cells_of(const cycle::Network& net) {
  int cells = 0;
  for (const flow::Duct& duct : net.ducts) cells += duct.grid.cells();
  return cells;
}

/// Whole turns of one engine: the best of some [ns a cell step].
double turn_alone(const cycle::Network& net) {
  cycle::March march(net, 150.0);
  cycle::State state = march.cold();
  double least = 1e300;
  for (int i = 0; i < turns; ++i) {
    cycle::Turn sums = march.empty_turn();
    const double from = own_time();
    march.turn(state, sums);
    if (i >= settling) least = std::min(least, (own_time() - from) / (double(sums.steps) * cells_of(net)));
  }
  return least;
}

/// The same of a batch at speeds that differ, and where its time went [ns a cell step of one].
struct Whole {
  double all = 0.0;
  cycle::LaneTimes parts;
};
template <class T>
Whole turns_beside(const cycle::Network& net) {
  const auto lanes = static_cast<std::size_t>(flow::lanes_of_machine<T>());
  std::vector<cycle::March> marches;
  std::vector<cycle::State> states;
  std::vector<cycle::Turn> sums(lanes);
  for (std::size_t i = 0; i < lanes; ++i) {
    marches.emplace_back(net, 130.0 + 40.0 * double(i) / double(lanes));
    states.push_back(marches.back().cold());
  }
  std::vector<cycle::LaneTurn> batch;
  for (std::size_t i = 0; i < lanes; ++i) batch.push_back({&marches[i], &states[i], &sums[i], {}});
  cycle::MarchLanes<T> march(net);
  Whole out{1e300, {}};
  for (int i = 0; i < turns; ++i) {
    for (cycle::Turn& one : sums) one = marches.front().empty_turn();
    cycle::LaneTimes times;
    march.watch(&times);
    const double from = own_time();
    march.turn(batch);
    const double spent = own_time() - from;
    double steps_done = 0.0;
    for (const cycle::Turn& one : sums) steps_done += one.steps;
    const double per = 1.0 / (steps_done * cells_of(net)), each = 1e9 * per;
    if (i >= settling && spent * per < out.all)
      out = {spent * per, {times.ducts * each, times.ends * each, times.gaps * each, times.rest * each}};
  }
  return out;
}

void say(const char* what, const Whole& whole, double of) {
  const cycle::LaneTimes& p = whole.parts;
  std::printf("| %s | %.1f | %.1f | %.1f | %.1f | %.1f | %.1f | %.1f |\n", what, p.ducts, p.ends, p.gaps, p.rest,
              whole.all, whole.all / p.ducts, of / whole.all);
}

void report_turns(const cycle::Network& net) {
  std::printf(
      "| whole turns, ns a cell step | cells | ends | gaps | one by one | all | over cells | over one engine |\n"
      "|---|---|---|---|---|---|---|---|\n");
  const double one = turn_alone(net);
  std::printf("| one engine | | | | | %.1f | | 1.0 |\n", one);
  say("double", turns_beside<double>(net), one);
  say("float", turns_beside<float>(net), one);
}

/// Twelve speeds from cold, plain turns until each has come to what its turns come to, as the reference does it: the
/// lanes take one turn of every speed that is not there yet, again and again [s].
template <class T>
double curve_beside(const cycle::Network& net, const std::vector<double>& truth) {
  const std::vector<double> speeds = reference_speeds();
  const std::size_t n = speeds.size();
  std::vector<cycle::March> marches;
  std::vector<cycle::State> states;
  for (const double speed : speeds) marches.emplace_back(net, speed);
  for (const cycle::March& march : marches) states.push_back(march.cold());
  std::vector<cycle::Turn> sums(n, marches.front().empty_turn());
  std::vector<int> near(n, 0);
  std::vector<cycle::LaneTurn> batch;
  cycle::MarchLanes<T> march(net);
  const double from = own_time();
  for (int turn = 0; turn < reference_most_turns; ++turn) {
    batch.clear();
    for (std::size_t i = 0; i < n; ++i) {
      if (near[i] == 2) continue;
      sums[i] = marches[i].empty_turn();
      batch.push_back({&marches[i], &states[i], &sums[i], {}});
    }
    if (batch.empty()) break;
    march.turn(batch);
    for (std::size_t i = 0; i < n; ++i)
      if (near[i] < 2)
        near[i] = std::abs(cycle::net_pressure(net, sums[i]) / truth[i] - 1.0) < reference_tolerance ? near[i] + 1 : 0;
  }
  return 1e-9 * (own_time() - from);
}

void report_curve(const char* what, const cycle::Network& net) {
  std::vector<double> truth;
  for (const double speed : reference_speeds()) truth.push_back(reference_truth(net, speed));
  double alone = 0.0;
  for (std::size_t i = 0; i < truth.size(); ++i) {
    cycle::March march(net, reference_speeds()[i]);
    cycle::State state = march.cold();
    const double from = own_time();
    for (int near = 0, n = 0; near < 2 && n < reference_most_turns; ++n) {
      cycle::Turn turn = march.empty_turn();
      march.turn(state, turn);
      near = std::abs(cycle::net_pressure(net, turn) / truth[i] - 1.0) < reference_tolerance ? near + 1 : 0;
    }
    alone += 1e-9 * (own_time() - from);
  }
  std::printf("| %s | %d | %.2f | %.2f | %.2f |\n", what, cells_of(net), alone, curve_beside<double>(net, truth),
              curve_beside<float>(net, truth));
  std::fflush(stdout);
}

void say(const char* what, const Parts& parts, double of) {
  std::printf("| %s | %.2f | %.2f | %.2f | %.2f | %.1f |\n", what, parts.decode, parts.predict, parts.advance,
              parts.all(), of / parts.all());
}

}  // namespace

int main() {
  std::printf("vectors: %s, %d doubles, %d floats\n\n",
              hwy::TargetName(hwy::SupportedTargets() & (~hwy::SupportedTargets() + 1)),
              flow::lanes_of_machine<double>(), flow::lanes_of_machine<float>());
  for (const char* name : {"alder-60", "oak-110", "spruce-92"}) {
    const Saw saw = load(sample(name));
    const cycle::Network net = network(saw, saw.engine);
    const auto longest = std::max_element(net.ducts.begin(), net.ducts.end(),
                                          [](const auto& a, const auto& b) { return a.grid.cells() < b.grid.cells(); });
    std::printf(
        "%s, duct of %d cells\n\n| ns a cell step | gas | slopes and fluxes | contents | all | over one |\n"
        "|---|---|---|---|---|---|\n",
        name, longest->grid.cells());
    const Parts one = alone(net, *longest);
    say("one engine", one, one.all());
    say("double", beside<double>(net, *longest), one.all());
    say("float", beside<float>(net, *longest), one.all());
    std::printf("\n");
    report_turns(net);
    std::printf(
        "\n| 12 points from cold, plain turns, s | cells | one engine | double | float |\n|---|---|---|---|---|\n");
    report_curve("the reference's cells", reference_network(saw));
    report_curve("its own cells", net);
    std::printf("\n");
  }
}
