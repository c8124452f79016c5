// What docs/validation.md says of the simulation, measured: bench_validation grid | signs | curve | ablations | anchor
// [saw file]. Tables on standard output, as they stand in the page.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <string>
#include <vector>

#include "cuts/cut.hpp"
#include "cycle/build.hpp"
#include "cycle/curve.hpp"
#include "geometry/survey.hpp"
#include "saw/file.hpp"

namespace {

using namespace portwright;

struct Saw {
  std::string name;
  geometry::Survey survey;
  geometry::Engine engine;
};

Saw load(const std::string& path) {
  const auto file = saw::read_saw_file(path);
  if (!file) {
    std::fprintf(stderr, "cannot read %s\n", path.c_str());
    std::exit(4);
  }
  Saw out{file->readings.name, geometry::survey(file->readings), {}};
  out.engine = geometry::resolve(out.survey);
  return out;
}

std::string sample(const char* name) {
  return std::string(PORTWRIGHT_SOURCE_DIR "/data/samples/") + name + ".saw.toml";
}

cycle::Network network(const Saw& saw, const geometry::Engine& engine, double finer = 1.0,
                       cycle::Assumptions take = cycle::middle_assumptions()) {
  cycle::Fineness fine;
  fine.tract /= finer;
  fine.transfer /= finer;
  fine.hot /= finer;
  auto net = cycle::build(engine, take, saw.survey.needs, fine);
  if (!net) {
    std::fprintf(stderr, "%s: %s\n", saw.name.c_str(), net.error().message.c_str());
    std::exit(4);
  }
  return *net;
}

std::vector<cycle::Point> points(const cycle::Network& net, const std::vector<double>& speeds, int scattered = 0) {
  cycle::CurvePlan plan;
  plan.both_ways = false;
  plan.scattered_turns = scattered;
  for (const double rpm : speeds) plan.speeds.push_back(rpm / 60.0);
  return cycle::run_curve(net, plan).points;
}

std::vector<double> ladder(double from, double to, double step) {
  std::vector<double> out;
  for (double rpm = from; rpm <= to + 1.0; rpm += step) out.push_back(rpm);
  return out;
}

double peak_rpm(const cycle::Network& net) {
  const auto curve = points(net, ladder(5000, 12000, 250), net.has_reed ? 8 : 0);
  const auto best = std::max_element(curve.begin(), curve.end(), [](auto& a, auto& b) { return a.power < b.power; });
  return best->speed * 60.0;
}

const char* label(cycle::Label l) {
  constexpr const char* words[] = {"stable", "alternating", "two-solution", "not settled"};
  return words[static_cast<int>(l)];
}

/// Default grid against finer ones, at the speeds given; Richardson's estimate of what is left.
void grid(const std::vector<std::string>& saws, double finest) {
  std::printf("| saw | rpm | default [bar] | 2x | 4x | %gx | default less finest, %% of the curve's peak |\n", finest);
  for (const std::string& path : saws) {
    const Saw saw = load(path);
    const std::vector<double> speeds = {5000, 7000, 9000};
    std::vector<std::vector<cycle::Point>> runs;
    for (const double finer : {1.0, 2.0, 4.0, finest}) runs.push_back(points(network(saw, saw.engine, finer), speeds));
    double peak = 0.0;
    for (const auto& p : runs.back()) peak = std::max(peak, p.imep);
    for (std::size_t i = 0; i < speeds.size(); ++i) {
      std::printf("| %s | %.0f |", saw.name.c_str(), speeds[i]);
      for (const auto& run : runs)
        std::printf(" %.4f%s |", run[i].imep / 1e5, run[i].label == cycle::Label::stable ? "" : "*");
      std::printf(" %+.3f |\n", 100.0 * (runs[0][i].imep - runs.back()[i].imep) / peak);
      std::fflush(stdout);
    }
  }
}

/// Signs of single cuts at half, at once and at 1.3 of the rpm of greatest power.
void signs(const std::vector<std::string>& saws) {
  const char* cuts[] = {"roof exhaust +1 mm", "roof primary +1 mm", "outlets to 2 cm2",   "advance +4 deg",
                        "base -0.5 mm",       "case +15 cc",        "widen exhaust +1 mm"};
  std::printf("| saw | cut | at half | at peak power | at 1.3 | [change of power, %%]\n");
  for (const std::string& path : saws) {
    const Saw saw = load(path);
    const cycle::Network stock = network(saw, saw.engine);
    const double peak = peak_rpm(stock);
    const std::vector<double> speeds = {0.5 * peak, peak, 1.3 * peak};
    const int turns = stock.has_reed ? 8 : 0;
    const auto base = points(stock, speeds, turns);
    for (const char* text : cuts) {
      const auto list = cuts::parse_cuts(text);
      if (!list) continue;
      const auto prepared = cuts::prepare(*list, saw.survey, ".");
      if (!prepared) continue;
      geometry::Engine engine = saw.engine;
      cuts::apply(**prepared, engine);
      const auto cut = points(network(saw, engine), speeds, turns);
      std::printf("| %s (%.0f) | %s |", saw.name.c_str(), peak, text);
      for (std::size_t i = 0; i < speeds.size(); ++i)
        std::printf(" %+.1f%s |", 100.0 * (cut[i].power / base[i].power - 1.0),
                    cut[i].label == cycle::Label::stable && base[i].label == cycle::Label::stable ? "" : "*");
      std::printf("\n");
      std::fflush(stdout);
    }
  }
}

/// Second difference and hysteresis of power on an 80 rpm grid.
void curve(const std::vector<std::string>& saws) {
  for (const std::string& path : saws) {
    const Saw saw = load(path);
    const cycle::Network net = network(saw, saw.engine);
    const double peak = peak_rpm(net);
    for (const int turns : net.has_reed ? std::vector<int>{0, 8} : std::vector<int>{0}) {
      const auto run = points(net, ladder(0.5 * peak, 1.15 * peak, 80), turns);
      double most = 0.0, power = 0.0;
      int labels[4] = {};
      for (const auto& p : run) {
        power = std::max(power, p.power);
        ++labels[static_cast<int>(p.label)];
      }
      for (std::size_t i = 1; i + 1 < run.size(); ++i)
        most = std::max(most, std::abs(run[i - 1].power - 2.0 * run[i].power + run[i + 1].power) / power * 100.0);
      std::printf("| %s | %s | %.3f | ", saw.name.c_str(), turns > 0 ? "mean of 8" : "repeating turn", most);
      for (int l = 0; l < 4; ++l)
        std::printf("%s %d%s", label(static_cast<cycle::Label>(l)), labels[l], l < 3 ? ", " : " |\n");
      std::fflush(stdout);
    }
  }
}

void ablations(const std::vector<std::string>& saws) {
  struct Row {
    const char* name;
    double cycle::Assumptions::*member;
    double value;
  };
  const Row rows[] = {{"perfect mixing (no bias)", &cycle::Assumptions::exit_bias, 0.0},
                      {"displacement, then mixing", &cycle::Assumptions::second_law, 1.0},
                      {"completeness does not feel dilution", &cycle::Assumptions::completeness_slope, 0.0},
                      {"friction that does not grow with speed", &cycle::Assumptions::friction_speed, 0.0},
                      {"no short circuit", &cycle::Assumptions::short_circuit_rise, 0.0}};
  for (const std::string& path : saws) {
    const Saw saw = load(path);
    const std::vector<double> speeds = {5000, 7000, 9000};
    const auto base = points(network(saw, saw.engine), speeds);
    for (const Row& row : rows) {
      cycle::Assumptions take = cycle::middle_assumptions();
      take.*row.member = row.value;
      const auto run = points(network(saw, saw.engine, 1.0, take), speeds);
      std::printf("| %s | %s |", saw.name.c_str(), row.name);
      for (std::size_t i = 0; i < speeds.size(); ++i)
        std::printf(" %+.1f |", 100.0 * (run[i].power / base[i].power - 1.0));
      std::printf("\n");
      std::fflush(stdout);
    }
  }
}

void anchor(const std::vector<std::string>& saws) {
  for (const std::string& path : saws) {
    const Saw saw = load(path);
    const cycle::Network net = network(saw, saw.engine);
    for (const auto& p : points(net, ladder(7500, 11500, 250)))
      std::printf("| %s | %.0f | %.2f kW | %.2f bar | %s |\n", saw.name.c_str(), p.speed * 60.0, p.power / 1e3,
                  p.bmep / 1e5, label(p.label));
  }
}

}  // namespace

int main(int count, char** words) {
  const std::string what = count > 1 ? words[1] : "";
  std::vector<std::string> saws;
  for (int i = 2; i < count; ++i) saws.emplace_back(words[i]);
  const bool given = !saws.empty();
  if (!given)
    for (const char* name : {"alder-60", "hornbeam-66-a", "oak-110", "spruce-92", "larch-70"})
      saws.push_back(sample(name));
  if (what == "grid")
    grid(saws, 8.0);
  else if (what == "signs")
    signs(saws);
  else if (what == "curve")
    curve(saws);
  else if (what == "ablations")
    ablations(saws);
  else if (what == "anchor")
    anchor(given ? saws : std::vector<std::string>{PORTWRIGHT_SOURCE_DIR "/tests/reference/cycle/forty_two.saw.toml"});
  else
    return std::fputs("bench_validation grid | signs | curve | ablations | anchor [saw file ..]\n", stderr), 2;
  return 0;
}
