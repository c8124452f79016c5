#pragma once
// Saws to plan for, and figures of them by roads that the planner does not take.

#include <cmath>
#include <numbers>
#include <stdexcept>
#include <string>

#include "plan/plan.hpp"
#include "saw/file.hpp"
#include "study/study.hpp"
#include "unit/cuts/bench_saw.hpp"

namespace portwright::bench {

inline constexpr const char* samples[] = {"alder-60", "birch-50", "hornbeam-66-a", "hornbeam-66-b",
                                          "larch-70", "oak-110",  "spruce-92",     "willow-64"};

inline geometry::Survey sample_survey(const std::string& name) {
  const auto file = saw::read_saw_file(PORTWRIGHT_SOURCE_DIR "/data/samples/" + name + ".saw.toml");
  if (!file) throw std::runtime_error("no sample " + name);
  return geometry::survey(file->readings);
}

inline plan::Settings exactly(double chance = 0.05) {
  plan::Settings settings;
  settings.step = 0.0;
  settings.chance = chance;
  return settings;
}

inline base::ResultAll<plan::Plan> planned(const geometry::Survey& survey, const std::string& text,
                                           const plan::Settings& settings) {
  const auto wishes = plan::parse_wishes(text);
  if (!wishes) return tl::unexpected(wishes.error());
  return plan::make_plan(*wishes, survey, settings);
}

/// The study's figures after cuts, by id.
inline std::map<std::string, double> figures_after(const geometry::Survey& survey, const cuts::CutList& list) {
  const auto prepared = cuts::prepare(list, survey, ".");
  if (!prepared) throw std::runtime_error(prepared.error().front().message);
  study::Options options;
  options.samples = 16;
  options.next_reading = false;
  std::map<std::string, double> out;
  for (const study::Figure& figure : study::study(survey, list, prepared->get(), options).figures)
    if (figure.value) out[figure.id] = *figure.value;
  return out;
}

/// The crank by the law of cosines, apart from the program: crown edge's drop [mm] at an angle [deg ATDC], and back.
struct OwnCrank {
  double stroke, rod;
  double drop(double deg) const {
    const double r = 0.5 * stroke, a = deg * degree;
    return r + rod - r * std::cos(a) - std::sqrt(rod * rod - r * r * std::sin(a) * std::sin(a));
  }
  double angle(double drop) const {
    const double r = 0.5 * stroke, pin = r + rod - drop;
    return std::acos((r * r + pin * pin - rod * rod) / (2.0 * r * pin)) / degree;
  }
};

}  // namespace portwright::bench
