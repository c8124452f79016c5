#include "heat/cooling.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>

#include "base/number_text.hpp"

namespace portwright::heat {

namespace {

constexpr double turn = 2.0 * std::numbers::pi, deg = 180.0 / std::numbers::pi;
// What the assumed air is of: [rev/s], [m]; and what the correlations were found in [kg/m³].
constexpr double usual_speed = 150.0, usual_bore = 0.05, usual_density = 1.2;
constexpr double touching = 1e-9;

std::string place(const Sector& s) {
  return base::number_text(s.from * deg, 0) + " to " + base::number_text(s.to * deg, 0) + " deg";
}

void check_one(const Sector& s, base::Errors& out) {
  const auto wrong = [&](base::ErrorCode code, const std::string& what, const std::string& hint) {
    out.push_back({code, "Fins from " + place(s) + what, "cooling.fins", hint, {}});
  };
  const FinRow& f = s.fins;
  if (!(s.to > s.from) || s.to > s.from + turn + touching)
    wrong(base::ErrorCode::impossible, " go round no part of the cylinder.",
          "From and to clockwise seen from the plug.");
  else if (!(f.thickness > 0.0) || !(f.thickness < f.pitch) || !(f.length > 0.0))
    wrong(base::ErrorCode::impossible, " are as thick as their pitch, which leaves no room for air.",
          "Pitch is from one fin to the next, thickness of one fin.");
  else if (const auto film = gibson_film(f, 1.0); !film)
    out.push_back(film.error());
}

}  // namespace

double covered(double from, double to, double sector_from, double sector_to) {
  double sum = 0.0;
  for (int k = -2; k <= 2; ++k)
    sum += std::max(0.0, std::min(to, sector_to + k * turn) - std::max(from, sector_from + k * turn));
  return to > from ? sum / (to - from) : 0.0;
}

base::ResultAll<void> check(const Cooling& cooling) {
  base::Errors out;
  if (cooling.sectors.empty())
    out.push_back({base::ErrorCode::impossible,
                   "No fins were read: where they stand round the bore decides where the cylinder runs hot.",
                   "cooling.fins",
                   "fins = [ { from = \"60 deg\", to = \"300 deg\", length = \"18 mm\", pitch = \"6 mm\", thickness = "
                   "\"2 mm\" } ] under [cooling]; one entry for each side that has its own.",
                   {}});
  for (const Sector& s : cooling.sectors) check_one(s, out);
  if (!out.empty()) return tl::unexpected(std::move(out));
  for (std::size_t i = 0; i < cooling.sectors.size(); ++i)
    for (std::size_t j = i + 1; j < cooling.sectors.size(); ++j) {
      const Sector &a = cooling.sectors[i], &b = cooling.sectors[j];
      const double share = covered(a.from, a.to, b.from, b.to);
      if (share * (a.to - a.from) < 0.1 / deg) continue;
      out.push_back({base::ErrorCode::contradiction,
                     "Fins from " + place(a) + " and from " + place(b) + " overlap by " +
                         base::number_text(share * (a.to - a.from) * deg, 0) + " deg: one place has one row of fins.",
                     "cooling.fins",
                     "Clockwise seen from the plug, 0 at the exhaust's centre.",
                     {}});
    }
  if (!out.empty()) return tl::unexpected(std::move(out));
  return {};
}

double AirSide::gained(const FinRow& fins, double quicker) const {
  // check() has seen that the correlation speaks of these fins.
  const double usual = still_ ? 0.0 : gibson_film(fins, usual_air_).value_or(0.0);
  const double film = take_.air_factor * std::max(usual * std::pow(quicker, take_.air_power), take_.soak_film);
  return film * finned_gain(fins, 0.5 * outer_, film, take_.wall_conductivity);
}

double AirSide::bare(double quicker) const {
  const double usual = still_ ? 0.0 : crossed_film(outer_, usual_air_ * take_.bare_air, temperature_ + 50.0);
  return take_.air_factor * std::max(usual * std::pow(quicker, take_.air_power), take_.soak_film);
}

AirSide::AirSide(const Cooling& cooling, const Assumptions& assumptions, const GasSide& gas, double bore, double outer,
                 bool still)
    : cooling_(cooling),
      take_(assumptions),
      still_(still),
      outer_(outer),
      temperature_(gas.day + (still ? 0.0 : assumptions.air_warmer)),
      usual_air_(cooling.fan ? assumptions.fan_air * bore / usual_bore : assumptions.still_air) {
  const double quicker = gas.day_density / usual_density * (cooling.fan ? gas.speed / usual_speed : 1.0);
  const double left = 1.0 - std::clamp(cooling.block.share, 0.0, 1.0);
  bare_ = bare(quicker);
  bare_blocked_ = bare(quicker * left);
  double arcs = 0.0;
  for (const Sector& s : cooling.sectors) {
    const double faces = std::pow(0.5 * outer + s.fins.length, 2) - 0.25 * outer * outer;
    rows_.push_back({s.from, s.to, gained(s.fins, quicker), gained(s.fins, quicker * left),
                     faces / outer * s.fins.thickness / s.fins.pitch});
    const double blocked = covered(s.from, s.to, cooling.block.from, cooling.block.to);
    mean_ += (s.to - s.from) * (rows_.back().clear + blocked * (rows_.back().blocked - rows_.back().clear));
    arcs += s.to - s.from;
  }
  mean_ = arcs > 0.0 ? mean_ / arcs : bare_;
}

double AirSide::film(double from, double to, double finned) const {
  const double blocked = covered(from, to, cooling_.block.from, cooling_.block.to);
  double sum = 0.0, with_fins = 0.0;
  for (const Row& row : rows_) {
    const double share = finned * covered(from, to, row.from, row.to);
    sum += share * (row.clear + blocked * (row.blocked - row.clear));
    with_fins += share;
  }
  return sum + std::max(0.0, 1.0 - with_fins) * (bare_ + blocked * (bare_blocked_ - bare_));
}

double AirSide::fin_volume(double from, double to) const {
  double sum = 0.0;
  for (const Row& row : rows_) sum += covered(from, to, row.from, row.to) * row.volume;
  return sum;
}

}  // namespace portwright::heat
