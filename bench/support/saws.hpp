#pragma once
// What the programs of bench/ that turn engines share: saws, their networks, speeds, and work shared out to threads.

#include <algorithm>
#include <atomic>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <thread>
#include <vector>

#include "cuts/cut.hpp"
#include "cycle/build.hpp"
#include "cycle/curve.hpp"
#include "geometry/survey.hpp"
#include "saw/file.hpp"

namespace portwright::bench {

struct Saw {
  std::string name;
  geometry::Survey survey;
  geometry::Engine engine;
};

inline Saw load(const std::string& path) {
  const auto file = saw::read_saw_file(path);
  if (!file) {
    std::fprintf(stderr, "cannot read %s\n", path.c_str());
    std::exit(4);
  }
  Saw out{file->readings.name, geometry::survey(file->readings), {}};
  out.engine = geometry::resolve(out.survey);
  return out;
}

/// The saw's engine after a list of cuts.
inline geometry::Engine with_cuts(const Saw& saw, const std::string& text) {
  const auto list = cuts::parse_cuts(text);
  geometry::Engine out = saw.engine;
  const auto prepared = list ? cuts::prepare(*list, saw.survey, ".") : tl::unexpected(list.error());
  if (!prepared) {
    std::fprintf(stderr, "%s: %s\n", text.c_str(), prepared.error().front().message.c_str());
    std::exit(4);
  }
  cuts::apply(**prepared, out);
  return out;
}

inline std::string sample(const std::string& name) {
  return PORTWRIGHT_SOURCE_DIR "/data/samples/" + name + ".saw.toml";
}

/// Every sample that can be turned.
inline std::vector<std::string> all_samples() {
  std::vector<std::string> out;
  for (const char* name : {"alder-60", "hornbeam-66-a", "hornbeam-66-b", "larch-70", "oak-110", "spruce-92"})
    out.push_back(sample(name));
  return out;
}

/// With cells `finer` times as short as usual.
inline cycle::Network network(const Saw& saw, const geometry::Engine& engine, double finer = 1.0,
                              const cycle::Assumptions& take = cycle::middle_assumptions()) {
  cycle::Fineness fine;
  fine.tract /= finer;
  fine.transfer /= finer;
  fine.hot /= finer;
  auto net = cycle::build(engine, take, saw.survey.needs, fine);
  if (!net) {
    std::fprintf(stderr, "%s: %s\n", saw.name.c_str(), net.error().message.c_str());
    std::exit(4);
  }
  return *std::move(net);
}

/// A sweep upward. @param rpm ascending
inline std::vector<cycle::Point> points(const cycle::Network& net, const std::vector<double>& rpm, int scattered = 0) {
  cycle::CurvePlan plan;
  plan.both_ways = false;
  plan.scattered_turns = scattered;
  for (const double speed : rpm) plan.speeds.push_back(speed / 60.0);
  return cycle::run_curve(net, plan).points;
}

inline std::vector<double> ladder(double from, double to, double step) {
  std::vector<double> out;
  for (double rpm = from; rpm <= to + 1.0; rpm += step) out.push_back(rpm);
  return out;
}

inline double peak_rpm(const cycle::Network& net) {
  const auto curve = points(net, ladder(5000, 12000, 250), net.has_reed ? 8 : 0);
  const auto best = std::max_element(curve.begin(), curve.end(), [](auto& a, auto& b) { return a.power < b.power; });
  return best->speed * 60.0;
}

inline const char* label(cycle::Label l) {
  constexpr const char* words[] = {"stable", "alternating", "two-solution", "steep", "not settled"};
  return words[static_cast<int>(l)];
}

/// each(0) .. each(n - 1), on as many threads as PORTWRIGHT_THREADS says; one without.
template <class Each>
void shared_out(std::size_t n, Each&& each) {
  const char* wanted = std::getenv("PORTWRIGHT_THREADS");
  const int threads = wanted != nullptr ? std::atoi(wanted) : 1;
  std::atomic<std::size_t> next{0};
  const auto work = [&] {
    for (std::size_t i = next++; i < n; i = next++) each(i);
  };
  std::vector<std::jthread> helpers;
  for (int t = 1; t < threads; ++t) helpers.emplace_back(work);
  work();
}

}  // namespace portwright::bench
