#pragma once
// Engines drawn at random inside the allowed box, each turned at a random speed under a random set of assumptions. A
// draw starts from a sample saw and moves every reading some way, or all the way, to an even draw of its box.

#include <array>
#include <cmath>
#include <map>
#include <memory>
#include <random>
#include <stdexcept>
#include <string>
#include <vector>

#include "../unit/support/sample_engines.hpp"
#include "cycle/curve.hpp"
#include "cycle/ensemble.hpp"
#include "tables/box.hpp"

namespace portwright::bench {

struct Drawn {
  std::string sample;
  double boldness = 0.0;  ///< 0: the sample; 1: anywhere in the box
  double speed = 0.0;     ///< [rev/s]
  geometry::Engine engine;
  cycle::Assumptions assumptions;
};

/// What became of one.
struct Outcome {
  bool built = false;
  std::string refusal;  ///< the first sentence, where it was not built
  bool finite = true;
  cycle::Point point;
  double fresh_residual = 0.0, fuel_residual = 0.0;
};

class RandomEngines {
 public:
  explicit RandomEngines(std::uint64_t seed) : random_(seed), members_(cycle::ensemble_members(32)) {
    for (const char* name : running_samples) samples_.emplace_back(name, sample_engine(name));
  }

  Drawn next() {
    const auto& [name, sample] = samples_[pick(samples_.size())];
    Drawn out;
    out.sample = name;
    survey_ = &sample.survey;
    // A third stays near the sample, where most draws are engines; a third goes anywhere.
    const std::size_t kind = pick(3);
    out.boldness = kind == 0 ? 0.15 * even() : kind == 1 ? even() : 1.0;
    std::vector<double> values;
    for (const geometry::Input& input : sample.survey.inputs) values.push_back(moved(input, out.boldness));
    out.engine = sample.engine;
    geometry::resolve(sample.survey, values, out.engine);
    out.speed = (1000.0 + 19000.0 * even()) / 60.0;
    out.assumptions = members_[pick(members_.size())];
    return out;
  }

  [[nodiscard]] const std::vector<std::string>& needs() const { return survey_->needs; }

 private:
  double even() { return std::uniform_real_distribution<double>(0.0, 1.0)(random_); }
  std::size_t pick(std::size_t of) {
    return std::min(static_cast<std::size_t>(even() * static_cast<double>(of)), of - 1);
  }

  double moved(const geometry::Input& input, double boldness) {
    const double share = even();
    const tables::BoxRow* row = tables::box_of(input.path, kind_of(input.path));
    if (row == nullptr || !row->of.empty() || even() < 0.2) return input.value;
    return input.value + boldness * (row->least + share * (row->greatest - row->least) - input.value);
  }
  [[nodiscard]] std::string kind_of(const std::string& path) const {
    static const char* const names[] = {"exhaust", "transfer", "boost", "intake", "air"};
    for (const geometry::PortSlots& port : survey_->ports)
      if (path.starts_with("port." + port.name + ".")) return names[static_cast<std::size_t>(port.kind)];
    return {};
  }

  std::mt19937_64 random_;
  std::vector<cycle::Assumptions> members_;
  std::vector<std::pair<std::string, SampleEngine>> samples_;
  const geometry::Survey* survey_ = nullptr;
};

inline bool all_finite(const cycle::Point& p) {
  for (const double x : {p.power,
                         p.torque,
                         p.bmep,
                         p.imep,
                         p.fmep,
                         p.case_mep,
                         p.delivery_ratio,
                         p.trapping,
                         p.scavenging,
                         p.charging,
                         p.peak_pressure,
                         p.peak_angle,
                         p.exhaust_temperature,
                         p.case_low,
                         p.case_high,
                         p.fuel,
                         p.knock,
                         p.spit_back,
                         p.blow_back,
                         p.reed_lift,
                         p.reed_impact,
                         p.heat_cylinder,
                         p.fuel_lost,
                         p.error,
                         p.multiplier,
                         p.mass_residual,
                         p.energy_residual})
    if (!std::isfinite(x)) return false;
  return true;
}

inline Outcome turn_it(const Drawn& drawn, const std::vector<std::string>& needs, const cycle::Search& search) {
  Outcome out;
  const auto network = cycle::build(drawn.engine, drawn.assumptions, needs);
  if (!network) {
    out.refusal = network.error().message;
    return out;
  }
  out.built = true;
  cycle::March march(*network, drawn.speed);
  cycle::State state = march.cold();
  cycle::Settled settled;
  cycle::settle(march, state, search, settled);
  out.point = cycle::point_of(*network, drawn.speed, settled.turn);
  out.point.label = settled.label;
  out.point.error = settled.error;
  out.point.multiplier = settled.multiplier;
  out.point.turns = settled.turns;
  out.fresh_residual = settled.turn.fresh_residual;
  out.fuel_residual = settled.turn.fuel_residual;
  out.finite = all_finite(out.point) && std::isfinite(out.fresh_residual) && std::isfinite(out.fuel_residual);
  return out;
}

}  // namespace portwright::bench
