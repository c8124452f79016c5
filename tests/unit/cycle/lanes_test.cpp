// Turns of many engines side by side against March::turn: the same state and sums to rounding, whatever runs beside
// them.
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "cycle/lanes/march_lanes.hpp"
#include "unit/support/allocations.hpp"
#include "unit/support/every_machine.hpp"
#include "unit/support/sample_engines.hpp"

namespace portwright::cycle {
namespace {

/// Of each quantity's greatest value in the engine: a turn's rounding, and float's.
constexpr double alike = 1e-12, coarse_alike = 1e-4;

/// An engine with its speed and the state that its turn begins with.
struct Job {
  Network net;
  double speed;
  State state;
  Draw draw;
};

/// What one turn of it comes to.
struct Answer {
  State state;
  Turn sums;
};

Answer alone(const Job& job) {
  March march(job.net, job.speed);
  Answer out{job.state, march.empty_turn()};
  march.turn(out.state, out.sums, job.draw);
  return out;
}

/// All of them in as many lanes as the machine has.
template <class T>
std::vector<Answer> together(const std::vector<const Job*>& jobs) {
  std::vector<March> marches;
  std::vector<Answer> out;
  std::vector<LaneTurn> turns;
  marches.reserve(jobs.size());
  for (const Job* job : jobs) {
    marches.emplace_back(job->net, job->speed);
    out.push_back({job->state, marches.back().empty_turn()});
  }
  for (std::size_t i = 0; i < jobs.size(); ++i)
    turns.push_back({&marches[i], &out[i].state, &out[i].sums, jobs[i]->draw});
  MarchLanes<T> lanes(jobs.front()->net);
  for (const Job* job : jobs) EXPECT_TRUE(lanes.takes(job->net));
  lanes.turn(turns);
  return out;
}

/// Greatest difference of one quantity over the greatest of it.
class Apart {
 public:
  void look(double a, double b) {
    greatest_ = std::max(greatest_, std::abs(a));
    differ_ = std::isfinite(b) ? std::max(differ_, std::abs(a - b)) : 1e300;
  }
  void look(const std::vector<double>& a, const std::vector<double>& b) {
    for (std::size_t i = 0; i < a.size(); ++i) look(a[i], b[i]);
  }
  /// What the quantity is there at least, where it may all but vanish.
  void at_least(double greatest) { greatest_ = std::max(greatest_, greatest); }
  [[nodiscard]] double greatest() const { return greatest_; }
  [[nodiscard]] double share() const { return greatest_ > 0.0 ? differ_ / greatest_ : differ_; }

 private:
  double greatest_ = 0.0, differ_ = 0.0;
};

double apart(const State& a, const State& b) {
  std::array<Apart, 5> ducts, ends, rooms;
  Apart pressure, gap, reed;
  for (std::size_t d = 0; d < a.ducts.size(); ++d) {
    const flow::Contents &x = a.ducts[d], &y = b.ducts[d];
    ducts[0].look(x.mass, y.mass);
    ducts[1].look(x.momentum, y.momentum);
    ducts[2].look(x.energy, y.energy);
    ducts[3].look(x.fresh, y.fresh);
    ducts[4].look(x.fuel, y.fuel);
    for (std::size_t e = 0; e < 2; ++e) {
      ends[0].look(x.end[e].rho, y.end[e].rho);
      ends[1].look(x.end[e].p, y.end[e].p);
      ends[2].look(x.end[e].fresh, y.end[e].fresh);
      ends[3].look(x.end[e].fuel, y.end[e].fuel);
      pressure.look(a.end_pressure[d][e], b.end_pressure[d][e]);
    }
  }
  ducts[1].at_least(100.0 * ducts[0].greatest());  // gas at 100 m/s: a turn ends with most of it at rest
  for (std::size_t r = 0; r < a.rooms.size(); ++r) {
    rooms[0].look(a.rooms[r].mass, b.rooms[r].mass);
    rooms[1].look(a.rooms[r].energy, b.rooms[r].energy);
    rooms[2].look(a.rooms[r].fresh, b.rooms[r].fresh);
    rooms[3].look(a.rooms[r].fuel, b.rooms[r].fuel);
  }
  gap.look(a.gap_flow, b.gap_flow);
  for (std::size_t k = 0; k < flow::reed_modes; ++k) reed.look(a.reed.q[k], b.reed.q[k]);
  reed.at_least(1e-3);  // a millimetre: it may lie on its seat
  double worst = std::max({pressure.share(), gap.share(), reed.share()});
  for (const auto* of : {&ducts, &ends, &rooms})
    for (const Apart& one : *of) worst = std::max(worst, one.share());
  return worst;
}

/// The sums that a point is made of, heats of the heat set free, masses of what was delivered; steps and floors to the
/// last.
double apart(const Turn& a, const Turn& b) {
  double worst = a.steps == b.steps && a.floors == b.floors ? 0.0 : 1e300;
  const auto look = [&](double x, double y, double least) {
    Apart one;
    one.look(x, y);
    one.at_least(least);
    worst = std::max(worst, one.share());
  };
  const double heat = a.burn_heat, mass = a.delivered_mass;
  for (const auto sum : {&Turn::work, &Turn::case_work, &Turn::heat_cylinder, &Turn::heat_rooms, &Turn::burn_heat})
    look(a.*sum, b.*sum, heat);
  for (const auto sum : {&Turn::delivered_fresh, &Turn::exhaust_mass, &Turn::drawn, &Turn::drawn_fuel,
                         &Turn::intake_back, &Turn::blown_back})
    look(a.*sum, b.*sum, mass);
  for (const auto sum : {&Turn::peak_pressure, &Turn::case_low, &Turn::knock, &Turn::purity, &Turn::exhaust_heat})
    look(a.*sum, b.*sum, 0.0);
  for (std::size_t d = 0; d < a.ducts.size(); ++d) {
    const DuctTurn &x = a.ducts[d], &y = b.ducts[d];
    for (const auto sum : {&DuctTurn::near_in, &DuctTurn::near_out, &DuctTurn::far_in, &DuctTurn::far_out})
      look(x.*sum, y.*sum, mass);
    look(x.account.wall_heat, y.account.wall_heat, heat);
    look(x.account.wall_friction, y.account.wall_friction, heat);
    for (std::size_t j = 0; j < x.account.lost.size(); ++j) look(x.account.lost[j], y.account.lost[j], heat);
  }
  return worst;
}

/// The network after `turns` turns of its own, from cold.
Job job_of(const Network& net, double speed, int turns, const Draw& draw = {}) {
  Job out{net, speed, March(net, speed).cold(), draw};
  March march(out.net, speed);
  for (int i = 0; i < turns; ++i) {
    Turn sums = march.empty_turn();
    march.turn(out.state, sums);
  }
  return out;
}

std::vector<const Job*> all_of(const std::vector<Job>& jobs) {
  std::vector<const Job*> out;
  for (const Job& job : jobs) out.push_back(&job);
  return out;
}

/// One and a half times as many as lanes: some lanes take two turns, some one.
template <class T>
int more_than_lanes() {
  return 3 * flow::lanes_of_machine<T>() / 2 + 1;
}

template <class T>
void expect_each_by_itself(const std::vector<Job>& jobs, double bound, double sums_bound) {
  const std::vector<Answer> beside = together<T>(all_of(jobs));
  for (std::size_t i = 0; i < jobs.size(); ++i) {
    const Answer one = alone(jobs[i]);
    EXPECT_LT(apart(one.state, beside[i].state), bound) << i;
    EXPECT_LT(apart(one.sums, beside[i].sums), sums_bound) << i;
  }
}

/// An engine of the same pattern: every size, loss and temperature of its own.
Network another(const Network& from, std::mt19937_64& chance) {
  const auto about = [&](double share) { return std::uniform_real_distribution<>(1.0 - share, 1.0 + share)(chance); };
  Network net = from;
  for (flow::Duct& duct : net.ducts) {
    const double wide = about(0.1), longer = about(0.1);
    for (double& x : duct.grid.length) x *= longer;
    for (double& x : duct.grid.area) x *= wide;
    for (double& x : duct.grid.volume) x *= wide * longer;
    for (double& x : duct.grid.wall) x *= std::sqrt(wide) * longer;
    for (double& x : duct.grid.bore) x *= std::sqrt(wide);
    duct.friction *= about(0.3);
    duct.wall_temperature *= about(0.1);
    for (flow::Loss& loss : duct.losses) {
      loss.forward *= about(0.5);
      loss.backward *= about(0.5);
      loss.area *= wide;
    }
  }
  for (Room& room : net.rooms) {
    room.size *= about(0.1);
    room.film *= about(0.3);
  }
  for (Opening& opening : net.openings) opening.discharge *= about(0.1);
  net.day.p *= about(0.1);
  net.day.T *= about(0.05);
  net.burning.advance *= about(0.2);
  return net;
}

TEST(turns_side_by_side, of_every_sample_are_the_turns_one_by_one) {
  for (const char* name : bench::running_samples) {
    SCOPED_TRACE(name);
    const Network net = bench::sample_network(name);
    std::vector<Job> jobs;
    for (int i = 0; i < more_than_lanes<double>(); ++i) jobs.push_back(job_of(net, 90.0 + 8.0 * i, i % 3));
    expect_each_by_itself<double>(jobs, alike, alike);
    expect_each_by_itself<float>(jobs, coarse_alike, coarse_alike);
  }
}

TEST(turns_side_by_side, of_random_engines_are_the_turns_one_by_one_on_every_machine) {
  std::mt19937_64 chance(11);
  for (const char* name : {"alder-60", "spruce-92"}) {
    SCOPED_TRACE(name);
    const Network net = bench::coarse_network(name);
    bench::on_every_machine([&] {
      std::vector<Job> jobs;
      for (int i = 0; i < more_than_lanes<double>(); ++i)
        jobs.push_back(job_of(another(net, chance), 80.0 + 9.0 * i, 1, {1.0 + 0.01 * i, 0.95, 1.01}));
      expect_each_by_itself<double>(jobs, alike, alike);
    });
  }
}

TEST(turns_side_by_side, are_the_same_bits_whatever_runs_beside_them) {
  std::mt19937_64 chance(12);
  const Network net = bench::coarse_network("alder-60");
  std::vector<Job> jobs;
  for (int i = 0; i < more_than_lanes<double>(); ++i) jobs.push_back(job_of(another(net, chance), 90.0 + 9.0 * i, 1));
  const std::vector<Answer> whole = together<double>(all_of(jobs));
  std::vector<const Job*> backward = all_of(jobs);
  std::reverse(backward.begin(), backward.end());
  const std::vector<Answer> turned = together<double>(backward);
  for (std::size_t i = 0; i < jobs.size(); ++i) {
    const std::vector<Answer> single = together<double>({&jobs[i]});
    for (const Answer* other : {&single[0], &turned[jobs.size() - 1 - i]}) {
      EXPECT_EQ(apart(whole[i].state, other->state), 0.0) << i;
      EXPECT_EQ(apart(whole[i].sums, other->sums), 0.0) << i;
    }
  }
}

TEST(turns_side_by_side, feel_nothing_of_one_that_has_become_no_number) {
  const Network net = bench::coarse_network("alder-60");
  std::vector<Job> jobs;
  for (int i = 0; i < 3; ++i) jobs.push_back(job_of(net, 100.0 + 20.0 * i, 1));
  const std::vector<Answer> well = together<double>(all_of(jobs));
  jobs[1].state.ducts[0].energy[1] = std::nan("");
  const std::vector<Answer> sick = together<double>(all_of(jobs));
  for (const std::size_t i : {0, 2}) {
    EXPECT_EQ(apart(well[i].state, sick[i].state), 0.0);
    EXPECT_EQ(apart(well[i].sums, sick[i].sums), 0.0);
  }
  EXPECT_FALSE(std::isfinite(sick[1].state.ducts[0].energy[1]));
}

TEST(turns_side_by_side, take_no_memory) {
  const Network net = bench::coarse_network("spruce-92");
  std::vector<March> marches;
  std::vector<Answer> held;
  std::vector<LaneTurn> turns;
  const int n = more_than_lanes<double>();
  for (int i = 0; i < n; ++i) marches.emplace_back(net, 100.0 + 5.0 * i);
  for (int i = 0; i < n; ++i) held.push_back({marches[static_cast<std::size_t>(i)].cold(), marches[0].empty_turn()});
  for (std::size_t i = 0; i < held.size(); ++i) turns.push_back({&marches[i], &held[i].state, &held[i].sums, {}});
  MarchLanes<double> lanes(net);
  const long before = bench::allocations();
  lanes.turn(turns);
  EXPECT_EQ(bench::allocations(), before);
}

TEST(turns_side_by_side, keep_the_steps_of_a_march_from_turn_to_turn) {
  const Network net = bench::coarse_network("alder-60");
  Job job = job_of(net, 150.0, 0);
  March march(net, job.speed), other(net, job.speed);
  MarchLanes<double> lanes(net);
  State a = job.state, b = job.state;
  for (int i = 0; i < 3; ++i) {
    Turn x = march.empty_turn(), y = march.empty_turn();
    march.turn(a, x);
    const LaneTurn turn{&other, &b, &y, {}};
    lanes.turn({&turn, 1});
    EXPECT_EQ(x.steps, y.steps);
    EXPECT_LT(apart(a, b), 1e-11);
  }
}

TEST(turns_side_by_side, stop_where_they_are_asked_to) {
  const Network net = bench::coarse_network("alder-60");
  Job job = job_of(net, 150.0, 0);
  March march(net, job.speed);
  march.set_stop({[](void*) { return true; }, nullptr});
  Turn sums = march.empty_turn();
  MarchLanes<double> lanes(net);
  const LaneTurn turn{&march, &job.state, &sums, {}};
  lanes.turn({&turn, 1});
  EXPECT_EQ(sums.steps, 127);
  EXPECT_EQ(march.speed(), job.speed);
}

TEST(turns_side_by_side, are_of_engines_with_one_pattern_of_ducts) {
  const Network net = bench::coarse_network("alder-60");
  const MarchLanes<double> lanes(net);
  EXPECT_TRUE(lanes.takes(net));
  EXPECT_FALSE(lanes.takes(bench::sample_network("alder-60")));
  EXPECT_FALSE(lanes.takes(bench::coarse_network("spruce-92")));
}

}  // namespace
}  // namespace portwright::cycle
