#include "desk/run_bands.hpp"

#include <algorithm>
#include <cmath>
#include <thread>

namespace portwright::desk {

namespace {

using cycle::Band;
using cycle::Ensemble;
using cycle::Point;

constexpr std::array<double, 3> search_shares{0.85, 1.0, 1.15};
constexpr int scattered_in_sets = 4;
constexpr double fewest_that_weigh = 8.0;
/// How well a stock power is taken to be known, one sigma [-]: as well as leaves enough sets to tell a range from.
constexpr double sigmas_of_power[] = {0.05, 0.08, 0.12, 0.2};
/// Sets that look for the rated speed: their mean's peak is not told to better than some hundred rpm anyway.
constexpr int sets_for_rated = 16;
/// Sets are searched less far than the curve: to 3 in 10,000 of the mean pressure.
constexpr cycle::Search quick{3e-4, 40, 4, 1};

double power_at(const std::vector<Point>& points, std::size_t i) { return points[i].power; }

cycle::EnsemblePlan plan_of(const Sides& sides, int members, const std::array<double, 3>& speeds) {
  cycle::EnsemblePlan plan;
  plan.members = members;
  plan.speeds.assign(speeds.begin(), speeds.end());
  plan.run = sides.plan({});
  if (plan.run.scattered_turns > 0) plan.run.scattered_turns = scattered_in_sets;
  plan.run.search = quick;
  plan.threads = std::clamp(static_cast<int>(std::thread::hardware_concurrency()), 1, 16);
  return plan;
}

std::array<double, 3> times(double speed, const std::array<double, 3>& shares) {
  return {speed * shares[0], speed * shares[1], speed * shares[2]};
}

/// Top of the parabola through three points, kept between the first and the last.
double top_of(const std::array<double, 3>& x, const std::array<double, 3>& y) {
  const double s1 = (y[1] - y[0]) / (x[1] - x[0]), s2 = (y[2] - y[1]) / (x[2] - x[1]);
  const double bend = (s2 - s1) / (x[2] - x[0]);
  if (!(bend < 0.0)) return y[2] > y[0] ? x[2] : x[0];
  return std::clamp(0.5 * (x[0] + x[1]) - 0.5 * s1 / bend, x[0], x[2]);
}

/// Speed of greatest power of the mean stock curve, from three speeds about the middle curve's own [rpm].
std::optional<Rated> rated_of_mean(const Sides& sides, const geometry::Survey& survey, double near, int members,
                                   Progress& progress, double weight) {
  const std::array<double, 3> speeds = times(near / rpm_per_rev, search_shares);
  const Ensemble found =
      cycle::run_ensemble(sides.stock, survey.needs, plan_of(sides, std::min(members, sets_for_rated), speeds),
                          progress.stage("rated speed", weight));
  if (found.stopped) return std::nullopt;
  std::array<double, 3> power{};
  for (std::size_t i = 0; i < 3; ++i) power[i] = cycle::band(found, &Point::power, i).mean;
  const double top = top_of(speeds, power) * rpm_per_rev;
  return Rated{std::round(top / 100.0) * 100.0, "greatest power of the mean stock curve"};
}

/// Speed of greatest power of a curve, from the parabola about its best point [rpm].
Rated between_points(const std::vector<Point>& stock) {
  Rated out = rated_of_curve(stock);
  for (std::size_t i = 1; i + 1 < stock.size(); ++i) {
    if (std::abs(stock[i].speed * rpm_per_rev - out.rpm) > 1e-6) continue;
    const double top = top_of({stock[i - 1].speed, stock[i].speed, stock[i + 1].speed},
                              {stock[i - 1].power, stock[i].power, stock[i + 1].power});
    out.rpm = std::round(top * rpm_per_rev / 100.0) * 100.0;
    return out;
  }
  return out;
}

/// Number of sets that would weigh as much if all weighed alike.
double sets_that_weigh(const std::vector<double>& weight) {
  double squares = 0.0;
  for (const double w : weight) squares += w * w;
  return squares > 0.0 ? 1.0 / squares : 0.0;
}

void anchor(const Sides& sides, const cycle::EnsemblePlan& plan, Bands& bands) {
  const geometry::Breathing& read = sides.stock.breathing;
  if (!read.stock_power || !read.stock_power_speed) return;
  const std::vector<double> alike = bands.stock.weight;
  const double enough = std::min(fewest_that_weigh, 0.5 * static_cast<double>(alike.size()));
  for (const double sigma : sigmas_of_power) {
    bands.stock.weight = alike;
    cycle::weigh_by_power(bands.stock, plan, *read.stock_power, *read.stock_power_speed, sigma);
    bands.anchored = bands.stock.weight != alike && sets_that_weigh(bands.stock.weight) >= enough;
    if (!bands.anchored) continue;
    if (sigma > sigmas_of_power[0])
      bands.warnings.push_back(
          "Few sets of assumptions come near the stock power as read, so it was taken as known to " +
          base::number_text(100.0 * sigma, 0) + " % only; the ranges are wider for it.");
    return;
  }
  bands.stock.weight = alike;
  bands.warnings.push_back(
      "No set of assumptions comes near the stock power as read, so it could not weigh them; look at that reading, at "
      "the chamber and at the ports.");
}

/// A band less a value, for carrying it to another speed.
Band about(const Band& band, double value) { return {band.mean - value, band.low - value, band.high - value}; }

/// A band between the three speeds; beyond them that of the last.
Band between(const std::array<double, 3>& speeds, const std::array<Band, 3>& bands, double speed) {
  if (speed <= speeds[0]) return bands[0];
  for (std::size_t i = 1; i < 3; ++i) {
    if (speed > speeds[i]) continue;
    const double t = (speed - speeds[i - 1]) / (speeds[i] - speeds[i - 1]);
    const auto mix = [&](double Band::*part) { return bands[i - 1].*part + t * (bands[i].*part - bands[i - 1].*part); };
    return {mix(&Band::mean), mix(&Band::low), mix(&Band::high)};
  }
  return bands[2];
}

/// Doubt of power grows with speed as torque's does.
bool goes_with_speed(const study::RunRow& row) { return row.value == &Point::power; }

Band carried(const study::RunRow& row, const std::array<double, 3>& speeds, std::array<Band, 3> offsets, double speed,
             double value) {
  const bool per_speed = goes_with_speed(row);
  for (std::size_t i = 0; per_speed && i < 3; ++i)
    for (double Band::*part : {&Band::mean, &Band::low, &Band::high}) offsets[i].*part /= speeds[i];
  const Band off = between(speeds, offsets, speed);
  const double scale = per_speed ? speed : 1.0;
  return {value + scale * off.mean, value + scale * off.low, value + scale * off.high};
}

/// A range that a figure which cannot fall below nothing may have.
Band possible(const study::RunRow& row, Band band, double value) {
  if (row.absolute && !row.needs_work) return band;
  if (value >= 0.0) band.low = std::max(0.0, band.low);
  return band;
}

bool gave_middle(const Ensemble& ensemble) { return !ensemble.points.empty() && ensemble.points[0].size() == 3; }

wire::RunChange change_of(const Bands& bands, const study::RunRow& row, std::size_t i, base::UnitStyle style) {
  const Band stock = cycle::band(bands.stock, row.value, i);
  const Band change = cycle::change_band(bands.stock, bands.cut, row.value, i);
  wire::RunChange out;
  out.figure = row.id;
  out.label = row.label;
  out.unit = row.unit;
  out.rpm = bands.speeds[i] * rpm_per_rev;
  out.stock = row.shown(stock.mean);
  out.stock_low = row.shown(stock.low);
  out.stock_high = row.shown(stock.high);
  out.change = row.scale * change.mean;
  out.low = row.scale * change.low;
  out.high = row.scale * change.high;
  out.distinguishable = out.low > 0.0 || out.high < 0.0;
  const base::Spread spread{out.change, out.low, out.high};
  out.text = out.distinguishable ? study::signed_change(spread, out.stock, row.unit, style) : "not told apart";
  out.range = base::change_text({out.low, out.low, out.high}, row.unit, style) + " to " +
              base::change_text({out.high, out.low, out.high}, row.unit, style);
  return out;
}

}  // namespace

Rated rated_of_curve(const std::vector<Point>& stock) {
  Rated out{0.0, "greatest power of the stock curve"};
  if (stock.empty()) return out;
  std::size_t best = 0;
  for (std::size_t i = 1; i < stock.size(); ++i)
    if (power_at(stock, i) > power_at(stock, best)) best = i;
  out.rpm = stock[best].speed * rpm_per_rev;
  return out;
}

std::optional<Rated> rated_as_read(const geometry::Engine& engine) {
  const base::Known& speed = engine.breathing.stock_power_speed;
  if (!engine.breathing.stock_power || !speed) return std::nullopt;
  return Rated{*speed * rpm_per_rev, "stock power reading"};
}

std::optional<Bands> run_bands(const Sides& sides, const geometry::Survey& survey, const std::vector<Point>& stock,
                               const BandsPlan& how, Progress& progress) {
  Bands out;
  auto rated = rated_as_read(sides.stock);
  if (!rated && how.quick) rated = between_points(stock);
  const double part = how.weight / ((rated ? 1.0 : 2.0) + (sides.has_cuts ? 1.0 : 0.0));
  if (!rated) rated = rated_of_mean(sides, survey, rated_of_curve(stock).rpm, how.members, progress, part);
  if (!rated) return std::nullopt;
  out.rated = *rated;
  out.speeds = times(rated->rpm / rpm_per_rev, shares_of_rated);
  cycle::EnsemblePlan plan = plan_of(sides, how.members, out.speeds);
  if (how.quick) plan.run.scattered_turns = 0;
  std::vector<const geometry::Engine*> engines = {&sides.stock};
  if (sides.has_cuts) engines.push_back(&sides.cut);
  auto found = cycle::run_ensembles(engines, survey.needs, plan,
                                    progress.stage("ranges", part * static_cast<double>(engines.size())));
  for (const Ensemble& one : found)
    if (one.stopped || !gave_middle(one)) return std::nullopt;
  out.stock = std::move(found.front());
  if (sides.has_cuts) out.cut = std::move(found.back());
  anchor(sides, plan, out);
  out.cut.weight = out.stock.weight;
  return out;
}

std::vector<study::RunRange> ranges_at(const Bands& bands, bool has_cuts, const Point& point) {
  const Ensemble& of = bands.subject(has_cuts);
  std::vector<study::RunRange> out;
  for (const study::RunRow& row : study::run_rows()) {
    std::array<Band, 3> offsets;
    for (std::size_t i = 0; i < 3; ++i) offsets[i] = about(cycle::band(of, row.value, i), of.points[0][i].*row.value);
    const double value = point.*row.value;
    out.push_back({possible(row, carried(row, bands.speeds, offsets, point.speed, value), value), bands.anchored});
  }
  return out;
}

std::optional<Band> change_at(const Bands& bands, const study::RunRow& row, double speed, double change) {
  if (speed < bands.speeds.front() * (1.0 - 1e-9) || speed > bands.speeds.back() * (1.0 + 1e-9)) return std::nullopt;
  std::array<Band, 3> offsets;
  for (std::size_t i = 0; i < 3; ++i)
    offsets[i] = about(cycle::change_band(bands.stock, bands.cut, row.value, i),
                       bands.cut.points[0][i].*row.value - bands.stock.points[0][i].*row.value);
  return carried(row, bands.speeds, offsets, speed, change);
}

void fill_bands(const Bands& bands, bool has_cuts, bool has_reed, base::UnitStyle style, wire::RunAnswer& answer) {
  const Ensemble& of = bands.subject(has_cuts);
  for (const study::RunRow& row : study::run_rows()) {
    if (!row.headline || (row.reed_only && !has_reed)) continue;
    const Band band = cycle::band(of, row.value, at_rated);
    study::Figure figure = study::run_figure(row, band.mean, {band, bands.anchored}, style);
    if (has_cuts) {
      const Band stock = cycle::band(bands.stock, row.value, at_rated);
      figure.stock = base::Spread{row.shown(stock.mean), row.shown(stock.low), row.shown(stock.high)};
      const wire::RunChange change = change_of(bands, row, at_rated, style);
      figure.change = study::Change{change.change, change.low, change.high, change.distinguishable};
    }
    answer.bands.push_back(std::move(figure));
  }
  for (std::size_t i = 0; has_cuts && i < bands.speeds.size(); ++i)
    for (const study::RunRow& row : study::run_rows())
      if (row.headline && (!row.reed_only || has_reed)) answer.changes.push_back(change_of(bands, row, i, style));
}

}  // namespace portwright::desk
