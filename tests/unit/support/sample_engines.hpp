#pragma once
// Engines of the sample saws, and their networks.

#include <stdexcept>
#include <string>

#include "cycle/build.hpp"
#include "geometry/survey.hpp"
#include "saw/file.hpp"

namespace portwright::bench {

/// Every sample that a simulation can run; birch-50 is an air-head saw, willow-64 lacks readings.
inline constexpr const char* running_samples[] = {"alder-60", "hornbeam-66-a", "hornbeam-66-b",
                                                  "larch-70", "oak-110",       "spruce-92"};

struct SampleEngine {
  geometry::Survey survey;
  geometry::Engine engine;
};

inline SampleEngine engine_of(const saw::Readings& readings) {
  SampleEngine out;
  out.survey = geometry::survey(readings);
  out.engine = geometry::resolve(out.survey);
  return out;
}

inline SampleEngine sample_engine(const std::string& name) {
  const auto file = saw::read_saw_file(PORTWRIGHT_SOURCE_DIR "/data/samples/" + name + ".saw.toml");
  if (!file) throw std::runtime_error("no sample " + name);
  return engine_of(file->readings);
}

/// Cells twice and a half as long as usual: a fifth of the work, for tests of what does not hang on the grid.
inline constexpr cycle::Fineness coarse{0.020, 0.025, 0.035};

inline cycle::Network network_of(const SampleEngine& sample,
                                 const cycle::Assumptions& take = cycle::middle_assumptions(),
                                 const cycle::Fineness& fineness = {}) {
  auto network = cycle::build(sample.engine, take, sample.survey.needs, fineness);
  if (!network) throw std::runtime_error(network.error().message);
  return *std::move(network);
}

inline cycle::Network sample_network(const std::string& name,
                                     const cycle::Assumptions& take = cycle::middle_assumptions()) {
  return network_of(sample_engine(name), take);
}

/// Every error of a build.
inline base::Errors refusals(const geometry::Engine& engine, const geometry::Survey& survey) {
  base::Errors all;
  const auto network = cycle::build(engine, cycle::middle_assumptions(), survey.needs, {}, &all);
  if (network) return {};
  return all;
}

inline cycle::Network coarse_network(const std::string& name) {
  return network_of(sample_engine(name), cycle::middle_assumptions(), coarse);
}

}  // namespace portwright::bench
