#include "bottom_end/bearing.hpp"

#include <cmath>
#include <limits>

namespace portwright::bottom_end {

namespace {

/// Sum of load^p over the turns of the bearing in one turn of the crank, and those turns.
struct Wear {
  double sum = 0.0, turns = 0.0;
};
Wear wear_of(std::span<const double> load, std::span<const double> turns, double p) {
  Wear out;
  for (std::size_t i = 0; i < load.size(); ++i) {
    out.sum += std::pow(load[i], p) * turns[i];
    out.turns += turns[i];
  }
  const double n = static_cast<double>(load.size());
  if (n > 0.0) out.sum /= n, out.turns /= n;
  return out;
}

}  // namespace

double life_exponent(Rolling kind) { return kind == Rolling::ball ? 3.0 : 10.0 / 3.0; }

double basic_life(double rating, double load, Rolling kind) { return std::pow(rating / load, life_exponent(kind)); }

double life_hours(double rating, Rolling kind, std::span<const DutyPart> duty) {
  constexpr double million = 1e6, hour = 3600.0;
  const double p = life_exponent(kind);
  double per_second = 0.0;
  for (const DutyPart& part : duty) per_second += part.share * part.speed * wear_of(part.load, part.turns, p).sum;
  if (!(per_second > 0.0)) return std::numeric_limits<double>::infinity();
  return million * std::pow(rating, p) / per_second / hour;
}

double equivalent_load(std::span<const double> load, std::span<const double> turns, Rolling kind) {
  const double p = life_exponent(kind);
  const Wear wear = wear_of(load, turns, p);
  return wear.turns > 0.0 ? std::pow(wear.sum / wear.turns, 1.0 / p) : 0.0;
}

}  // namespace portwright::bottom_end
