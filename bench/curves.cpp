// How smooth a curve is over rpm and over a port's timing: bench_curves smooth | rest | reeds [engines [first]] |
// timing [saw file ..]. Second difference of power on an 80 rpm grid from 0.5 to 1.15 of the rpm of greatest power, and
// power swept up less swept down, each the greatest, in per cent of greatest power.
#include <array>
#include <cmath>
#include <cstring>
#include <mutex>
#include <numbers>
#include <random>

#include <Eigen/Dense>

#include "support/saws.hpp"

namespace {

using namespace portwright;
using namespace portwright::bench;

struct Smooth {
  double step = 0.0, step_rpm = 0.0;  ///< greatest second difference [%] and where
  double apart = 0.0;                 ///< greatest of up less down [%]
  int points = 0, unlabelled = 0;     ///< unlabelled: stable in name beyond 1 % or 0.5 %
  std::array<int, 5> labels{};
};

/// Up with labels as shown, and down again with the same turns meant.
Smooth smooth(const cycle::Network& net, double peak, int scattered, const cycle::Pace& pace = {}) {
  cycle::CurvePlan plan;
  plan.scattered_turns = scattered;
  plan.pace = pace;
  for (const double rpm : ladder(0.5 * peak, 1.15 * peak, 80.0)) plan.speeds.push_back(rpm / 60.0);
  const std::vector<cycle::Point> up = cycle::run_curve(net, plan).points;
  const std::vector<double> step = cycle::second_differences(up);
  Smooth out;
  out.points = static_cast<int>(up.size());
  double greatest = 0.0;
  for (const cycle::Point& p : up) greatest = std::max(greatest, p.power);
  cycle::State state;
  static_cast<void>(cycle::reach(net, plan.speeds.back(), plan, state));
  for (std::size_t i = up.size(); i-- > 0;) {
    const cycle::Point down = cycle::reach(net, plan.speeds[i], plan, state);
    const double apart = 100.0 * std::abs(up[i].power - down.power) / greatest, bend = 100.0 * std::abs(step[i]);
    if (bend > out.step) out.step = bend, out.step_rpm = 60.0 * plan.speeds[i];
    out.apart = std::max(out.apart, apart);
    out.unlabelled += up[i].label == cycle::Label::stable && (bend > 1.0 || apart > 0.5) ? 1 : 0;
    ++out.labels[static_cast<std::size_t>(up[i].label)];
  }
  return out;
}

void print(const std::string& name, const char* turn, double peak, const Smooth& s) {
  std::printf("| %s | %s | %.0f | %.3f at %.0f | %.3f | %d points:", name.c_str(), turn, peak, s.step, s.step_rpm,
              s.apart, s.points);
  for (std::size_t l = 0; l < s.labels.size(); ++l)
    if (s.labels[l] > 0) std::printf(" %d %s", s.labels[l], label(static_cast<cycle::Label>(l)));
  std::printf("; %d beyond and unlabelled |\n", s.unlabelled);
  std::fflush(stdout);
}

void smooth_samples(const std::vector<std::string>& saws, bool at_rest) {
  struct Job {
    std::string saw;
    int scattered;
  };
  std::vector<Job> jobs;
  for (const std::string& path : saws)
    for (const int turns : at_rest ? std::vector<int>{0} : std::vector<int>{0, 8}) jobs.push_back({path, turns});
  shared_out(jobs.size(), [&](std::size_t i) {
    const Saw saw = load(jobs[i].saw);
    const cycle::Network net = network(saw, saw.engine);
    const double peak = peak_rpm(net);
    cycle::Pace pace;
    pace.rests_at_bdc = at_rest;
    const char* turn = at_rest ? "intake at rest at every BDC" : jobs[i].scattered > 0 ? "mean of 8" : "repeating";
    print(saw.name, turn, peak, smooth(net, peak, jobs[i].scattered, pace));
  });
}

// Reed engines drawn round the reed sample, each reading even within its box: petals, tract and venturi as saws have
// them, own judgement. Petals under 0.36 mm, tracts of 300 mm and stops under 4 mm are known to step or alternate.
struct Box {
  const char* path;
  double least, greatest;
};
constexpr Box boxes[] = {{"intake.reed.thickness", 0.36e-3, 0.55e-3},
                         {"intake.reed.stop", 5.5e-3, 10.0e-3},
                         {"intake.tract.length", 0.040, 0.090},
                         {"carburettor.venturi", 0.0195, 0.0235},
                         {"case.volume", 290e-6, 370e-6},
                         {"air_box.volume", 300e-6, 700e-6}};

void reeds(int engines, int first) {
  const Saw saw = load(sample("spruce-92"));
  std::printf("| engine |");
  for (const Box& box : boxes) std::printf(" %s |", box.path);
  std::printf(" peak rpm | step %% at rpm | up less down %% | labels |\n");
  std::vector<std::vector<double>> draws;
  std::mt19937_64 random(20261130);
  for (int k = 0; k < first + engines; ++k) {
    std::vector<double> values;
    for (const geometry::Input& input : saw.survey.inputs) values.push_back(input.value);
    for (const Box& box : boxes) {
      const double x = std::uniform_real_distribution<double>(box.least, box.greatest)(random);
      for (std::size_t i = 0; i < values.size(); ++i)
        if (saw.survey.inputs[i].path == box.path) values[i] = x;
    }
    draws.push_back(std::move(values));
  }
  std::mutex printing;
  shared_out(static_cast<std::size_t>(engines), [&](std::size_t i) {
    const std::size_t k = i + static_cast<std::size_t>(first);
    geometry::Engine engine = saw.engine;
    geometry::resolve(saw.survey, draws[k], engine);
    const cycle::Network net = network(saw, engine);
    const double peak = peak_rpm(net);
    const Smooth s = smooth(net, peak, 16);
    const std::lock_guard lock(printing);
    std::string name = "reed " + std::to_string(k);
    for (const Box& box : boxes)
      for (std::size_t n = 0; n < draws[k].size(); ++n)
        if (saw.survey.inputs[n].path == box.path) name += " | " + std::to_string(draws[k][n]);
    print(name, "mean of 16", peak, s);
  });
}

/// The engine with its exhaust opened so much later [deg]: the roof is lowered by what the crown falls in that time.
geometry::Engine opened_later(const Saw& saw, double degrees) {
  for (const geometry::Port& port : saw.engine.ports) {
    if (port.kind != geometry::PortKind::exhaust || port.twin_of >= 0) continue;
    const geometry::CrankSlider& crank = *saw.engine.slider;
    const double angle = crank.angle_down(*port.passed) + degrees * std::numbers::pi / 180.0;
    char text[64];
    std::snprintf(text, sizeof text, "roof exhaust %+.9f mm", 1e3 * (*port.passed - crank.drop(angle)));
    return with_cuts(saw, text);
  }
  return saw.engine;
}

/// Power over the exhaust's opening, +-3 deg in steps of a quarter, against its own parabola.
void timing(const std::vector<std::string>& saws) {
  for (const std::string& path : saws) {
    const Saw saw = load(path);
    const cycle::Network stock = network(saw, saw.engine);
    const double peak = peak_rpm(stock);
    constexpr int steps = 25;
    for (const double share : {0.8, 1.0}) {
      Eigen::VectorXd x(steps), power(steps);
      shared_out(steps, [&](std::size_t i) {
        const auto at = static_cast<Eigen::Index>(i);
        x[at] = -3.0 + 0.25 * static_cast<double>(i);
        const cycle::Network net = network(saw, opened_later(saw, x[at]));
        power[at] = points(net, {share * peak}, 8).front().power;
      });
      Eigen::MatrixXd basis(steps, 3);
      for (Eigen::Index i = 0; i < steps; ++i) basis.row(i) << 1.0, x[i], x[i] * x[i];
      const Eigen::VectorXd off = power - basis * basis.colPivHouseholderQr().solve(power);
      std::printf("| %s | %.0f | %.3f | %.3f |\n", saw.name.c_str(), share * peak,
                  100.0 * off.cwiseAbs().maxCoeff() / power.maxCoeff(),
                  100.0 * (power[steps - 1] - power[0]) / power[steps / 2]);
      std::fflush(stdout);
    }
  }
}

}  // namespace

int main(int count, char** words) {
  const std::string what = count > 1 ? words[1] : "";
  const std::vector<std::string> rest(words + std::min(count, 2), words + count);
  const auto number = [&](std::size_t i, int otherwise) {
    return i < rest.size() ? std::atoi(rest[i].c_str()) : otherwise;
  };
  const auto samples = [&](std::vector<std::string> otherwise) { return rest.empty() ? otherwise : rest; };
  if (what == "smooth" || what == "rest")
    smooth_samples(samples(all_samples()), what == "rest");
  else if (what == "reeds")
    reeds(number(0, 24), number(1, 0));
  else if (what == "timing")
    timing(samples({sample("alder-60"), sample("spruce-92")}));
  else
    return std::fputs("bench_curves smooth | rest | reeds [engines [first]] | timing [saw file ..]\n", stderr), 2;
  return 0;
}
