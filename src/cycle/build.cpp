#include "cycle/build.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "combustion/knock.hpp"
#include "cycle/builder.hpp"
#include "gas/atmosphere.hpp"

namespace portwright::cycle {

using geometry::PortKind;

double Builder::need(const Known& known) {
  if (known) return *known;
  missing_ = missing_ | known.needs();
  return 1.0;
}

void Builder::need(bool there, const char* what) {
  if (!there) wrong(std::string("a simulation needs ") + what, what, "add this reading");
}

double Builder::or_take(const Known& known, const char* reading, const char* assumption, double value) {
  if (known) return *known;
  net_.filled.push_back({reading, assumption, value});
  return value;
}

void Builder::wrong(std::string message, std::string path, std::string hint) {
  errors_.push_back({base::ErrorCode::impossible, std::move(message), std::move(path), std::move(hint), {}});
}

int Builder::add_opening(Opening opening) {
  net_.openings.push_back(std::move(opening));
  return static_cast<int>(net_.openings.size()) - 1;
}

int Builder::fixed_opening(double area, double discharge) {
  Opening o;
  o.area = area;
  o.discharge = discharge;
  return add_opening(std::move(o));
}

int Builder::window_opening(const geometry::Port& port, OpenedBy by, double discharge) {
  Opening o;
  o.by = by;
  o.discharge = discharge;
  o.count = port.count;
  o.window = port.window;
  if (by == OpenedBy::skirt) o.skirt = need(port.floor) - need(port.passed);
  return add_opening(std::move(o));
}

int Builder::add_room(Room room) {
  net_.rooms.push_back(room);
  return static_cast<int>(net_.rooms.size()) - 1;
}

flow::Grid Builder::grid_of(std::span<const flow::Station> stations, double cell, double count, const char* path) {
  bool fits = stations.back().place > stations.front().place;
  for (std::size_t i = 0; i < stations.size(); ++i)
    fits = fits && stations[i].area > 0.0 && (i == 0 || stations[i].place >= stations[i - 1].place);
  if (fits) return flow::make_grid(stations, cell, count);
  wrong("these sizes make no duct: places must ascend, lengths and areas be more than nothing", path,
        "look at its lengths, bores and areas");
  const flow::Station stand_in[] = {{0.0, 1e-4}, {0.01, 1e-4}};
  return flow::make_grid(stand_in, cell, count);
}

int Builder::add_duct(flow::Duct duct, DuctName name, DuctEnd near, DuctEnd far) {
  net_.ducts.push_back(std::move(duct));
  net_.names.push_back(name);
  net_.ends.push_back({near, far});
  return static_cast<int>(net_.ducts.size()) - 1;
}

double Builder::scale() const { return std::cbrt(net_.swept / 60e-6); }

void Builder::crank() {
  net_.bore = need(engine_.bore);
  net_.stroke = need(engine_.stroke);
  net_.piston_area = 0.25 * std::numbers::pi * net_.bore * net_.bore;
  net_.swept = net_.piston_area * net_.stroke;
  net_.chamber = need(engine_.chamber);
  if (engine_.slider)
    net_.slider = *engine_.slider;
  else
    need(engine_.slider_known);
  if (!(net_.chamber > 0.0)) wrong("the chamber has no volume", "cylinder.chamber", "read it again with liquid");
}

void Builder::day_and_gas() {
  const geometry::Breathing& b = engine_.breathing;
  const double altitude = or_take(b.altitude, "day.altitude", "altitude", take_.altitude);
  const double T = or_take(b.temperature, "day.temperature", "temperature", take_.temperature);
  const double humid = or_take(b.humidity, "day.humidity", "humidity", take_.humidity);
  net_.burning.air_fuel = or_take(b.air_fuel, "fuel.air_fuel", "air_fuel", take_.air_fuel);
  const double p = gas::standard_atmosphere(altitude).pressure;
  auto made = gas::working_gas(net_.burning.air_fuel, gas::humidity_ratio(humid, T, p));
  if (!made) {
    errors_.push_back(made.error());
    return;
  }
  net_.gas = *made;
  net_.burning.lambda = net_.burning.air_fuel / net_.gas.stoichiometric;
  net_.day = {p, T, 1.0, 0.0};
  net_.day_density = p / (net_.gas.air.R * T);
}

void Builder::rooms() {
  Room cylinder;
  cylinder.by = SizedBy::cylinder;
  cylinder.size = net_.chamber;
  net_.cylinder = add_room(cylinder);

  Room below;
  below.by = SizedBy::crankcase;
  below.size = or_take(engine_.case_at_tdc, "case.volume", "case_share", (take_.case_share + 1.0) * net_.swept);
  below.film = take_.case_film * take_.case_wall_area * std::pow(net_.swept / 41.6e-6, 2.0 / 3.0);
  below.wall_temperature = take_.case_wall;
  net_.crankcase = add_room(below);
}

void Builder::burning() {
  const geometry::Breathing& b = engine_.breathing;
  Burning& burn = net_.burning;
  for (const geometry::AdvancePoint& point : b.advance_curve)
    if (point.speed && point.advance)
      net_.advance_curve.push_back({*point.speed, *point.advance + engine_.advance_added.value_or(0.0)});
  if (net_.advance_curve.empty())
    burn.advance =
        or_take(engine_.advance, "ignition.advance", "advance", take_.advance) + engine_.advance_added.value_or(0.0);
  using combustion::OctaneScale;
  const double number = or_take(engine_.octane, "fuel.octane", "octane", take_.octane);
  const OctaneScale scale = b.octane_scale == geometry::OctaneScale::pump    ? OctaneScale::pump
                            : b.octane_scale == geometry::OctaneScale::motor ? OctaneScale::motor
                                                                             : OctaneScale::research;
  burn.octane = combustion::octane_asked(number, scale);
  burn.law.duration = take_.burn_angle;
  burn.law.speed_exponent = take_.burn_speed_exponent;
  burn.law.delay = take_.burn_delay;
  burn.law.completeness = take_.completeness;
  burn.law.purity_knee = take_.completeness_knee;
  burn.law.purity_slope = take_.completeness_slope;
}

/// A turn begins when the last exhaust window has shut, on its way up.
void Builder::settle_start() {
  double opens = 2.0 * std::numbers::pi, shuts = 0.0;
  for (const geometry::Port& port : engine_.ports) {
    if (port.kind != PortKind::exhaust || port.window.empty()) continue;
    opens = std::min(opens, net_.slider.angle_down(port.window.roof()));
    shuts = std::max(shuts, net_.slider.angle_up(port.window.roof()));
  }
  net_.exhaust_opens = opens;
  net_.start = shuts - 2.0 * std::numbers::pi;
  if (net_.start >= -20.0 * std::numbers::pi / 180.0)
    wrong("the exhaust shuts too late for anything to be compressed", "port.exhaust", "look at its roof and opens");
}

/// What the later rooms would miss, so that all of it is named at once.
void Builder::name_the_rest() {
  bool exhaust = false, transfer = false, intake = false;
  for (const geometry::Port& port : engine_.ports) {
    exhaust = exhaust || port.kind == PortKind::exhaust;
    transfer = transfer || port.kind == PortKind::transfer || port.kind == PortKind::boost;
    intake = intake || port.kind == PortKind::intake;
    need(port.window_known);
  }
  need(exhaust, "port.exhaust");
  need(transfer, "port.transfer");
  need(engine_.venturi);
  if (engine_.intake == geometry::IntakeKind::unknown)
    need(false, "intake.kind");
  else if (engine_.intake != geometry::IntakeKind::reed_into_case)
    need(intake, "port.intake");
  if (engine_.intake == geometry::IntakeKind::unknown || engine_.intake == geometry::IntakeKind::skirt) return;
  const geometry::ReedBlock& petals = engine_.breathing.reed;
  for (const Known* size : {&petals.petals, &petals.length, &petals.width, &petals.thickness}) need(*size);
}

Network Builder::run(base::Errors& errors) {
  for (const geometry::Port& port : engine_.ports)
    if (port.kind == PortKind::air)
      wrong("an air-head saw is timed and drawn, but its airflow is not solved yet: geometry only", "port",
            "the study and the map hold for it");
  crank();
  day_and_gas();
  if (errors_.empty() && missing_.none()) {
    rooms();
    transfers();
    exhaust();
    intake();
    burning();
    if (errors_.empty() && missing_.none()) settle_start();
  } else {
    exhaust_area_ = 1.0;
    name_the_rest();
  }
  for (int i = 0; i < static_cast<int>(readings_.size()); ++i)
    if (missing_.has(i))
      errors_.push_back({base::ErrorCode::impossible,
                         "a simulation needs " + readings_[static_cast<std::size_t>(i)],
                         readings_[static_cast<std::size_t>(i)],
                         "add this reading",
                         {}});
  if (!missing_.none() && errors_.empty()) wrong("a simulation needs readings that are missing", "", "");
  net_.assumptions = take_;
  errors = std::move(errors_);
  return std::move(net_);
}

base::Result<Network> build(const geometry::Engine& engine, const Assumptions& assumptions,
                            std::span<const std::string> readings, const Fineness& fineness, base::Errors* all) {
  base::Errors errors;
  Network net = Builder(engine, assumptions, readings, fineness).run(errors);
  if (errors.empty()) return net;
  const base::Error first = errors.front();
  if (all != nullptr) *all = std::move(errors);
  return tl::unexpected<base::Error>(first);
}

double advance_at(const Network& network, double speed) {
  const auto& curve = network.advance_curve;
  if (curve.empty()) return network.burning.advance;
  if (speed <= curve.front()[0]) return curve.front()[1];
  for (std::size_t i = 1; i < curve.size(); ++i)
    if (speed <= curve[i][0]) {
      const double t = (speed - curve[i - 1][0]) / (curve[i][0] - curve[i - 1][0]);
      return curve[i - 1][1] + t * (curve[i][1] - curve[i - 1][1]);
    }
  return curve.back()[1];
}

}  // namespace portwright::cycle
