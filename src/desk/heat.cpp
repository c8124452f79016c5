#include "desk/heat.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "desk/aims.hpp"
#include "desk/heat_parts.hpp"
#include "desk/labels.hpp"
#include "desk/turning.hpp"
#include "desk/written.hpp"
#include "sheet/heat_map.hpp"

namespace portwright::desk {

namespace {

constexpr double mm = 1e3, deg = std::numbers::pi / 180.0, zero_celsius = 273.15;
constexpr std::size_t effect_members = 16, soak_members = 8;

/// What a change of the running makes of an engine.
struct Running {
  std::string what;
  double more_speed = 0.0;  ///< [rev/s]
  void (*change)(geometry::Engine&, const cycle::Network&) = nullptr;
  bool blocked = false;
};

void lean(geometry::Engine& engine, const cycle::Network& network) {
  engine.breathing.air_fuel = network.burning.air_fuel + 1.0;
}
void advance(geometry::Engine& engine, const cycle::Network& network) {
  engine.advance = engine.advance.value_or(network.burning.advance) + 4.0 * deg;
  engine.advance_added = engine.advance_added.value_or(0.0) + 4.0 * deg;
}
void open_outlet(geometry::Engine& engine, const cycle::Network&) {
  engine.muffler_outlets = engine.muffler_outlets * base::Known(1.5);
  for (base::Known& outlet : engine.breathing.outlets) outlet = outlet * base::Known(1.5);
}

std::vector<Running> runnings(const geometry::Engine& engine) {
  std::vector<Running> out = {
      {base::number_text(1000.0, 0) + " rpm more, the mixture held", 1000.0 / rpm_per_rev, nullptr, false},
      {"Leaner by one part of air to one of fuel", 0.0, lean, false},
      {"4 deg more advance", 0.0, advance, false}};
  if (engine.muffler_outlets && !engine.breathing.outlets.empty())
    out.push_back({"Muffler outlets half as large again", 0.0, open_outlet, false});
  out.push_back({"A quarter of the bore's fins packed with chips", 0.0, nullptr, true});
  return out;
}

/// The middle of the widest row of fins.
heat::Block chips(const heat::Cooling& cooling) {
  const auto widest = std::max_element(cooling.sectors.begin(), cooling.sectors.end(),
                                       [](const auto& a, const auto& b) { return a.to - a.from < b.to - b.from; });
  const double middle = 0.5 * (widest->from + widest->to);
  return {middle - 45.0 * deg, middle + 45.0 * deg, 0.8};
}

/// One settled turn.
struct Turned {
  heat::GasSide gas;
  double trapped = 0.0;  ///< fresh charge of a turn [kg]
  cycle::Label label{};
};

/// Everything that is known before the answer is put together.
struct Job {
  const HeatRequest& request;
  const Case& opened;
  const Sides& sides;
  Speed speed;
  heat::Cooling cooling;
  std::optional<SpotRead> spot;
  heat::Body stock_body, stock_coarse, cut_body, cut_coarse;
  Turned stock, cut;
};

Turned turned(const cycle::Network& network, double speed, const cycle::CurvePlan& plan, const cycle::Tell& tell) {
  const cycle::Traced traced = cycle::run_traced(network, speed, plan, tell);
  return {heat::gas_side(network, traced), traced.turn.trapped_fresh, traced.point.label};
}

/// Sets of assumptions, brought to the spot where one was read: on the engine as it was then, at its speed.
heat::Sets sets_of(const Job& job, const cycle::CurvePlan& plan, Progress& progress) {
  const int members = job.request.members;
  if (!job.spot) return heat::sets_for(members, nullptr, nullptr);
  const double speed = job.speed.rpm / rpm_per_rev;
  const bool same = std::abs(job.spot->speed - speed) < 1.0 / rpm_per_rev;
  const heat::GasSide gas =
      same ? job.stock.gas
           : turned(job.sides.stock_network, job.spot->speed, plan, progress.stage("at the spot's speed", 1.0)).gas;
  const heat::Load load{job.stock_body, job.cooling, gas, &job.stock_coarse};
  return progress.stopped() ? heat::sets_for(members, nullptr, nullptr)
                            : heat::sets_for(members, &job.spot->spot, &load);
}

base::Result<void> add_effects(const Job& job, const heat::Sets& sets, const cycle::CurvePlan& plan, Progress& progress,
                               wire::HeatAnswer& answer) {
  heat::Sets few = sets;
  few.sets.resize(std::min(few.sets.size(), effect_members));
  const auto was = heat::see_all({job.cut_body, job.cooling, job.cut.gas, &job.cut_coarse}, few);
  if (!was) return tl::unexpected(was.error());
  for (const Running& running : runnings(job.sides.cut)) {
    const cycle::Tell tell = progress.stage(running.what, 1.0);
    heat::Cooling cooling = job.cooling;
    if (running.blocked) cooling.block = chips(cooling);
    Turned other = job.cut;
    if (!running.blocked) {
      geometry::Engine engine = job.sides.cut;
      if (running.change != nullptr) running.change(engine, job.sides.cut_network);
      const auto network = network_of(engine, job.opened.survey);
      if (!network) continue;  // a mixture or a spark that no simulation takes: that effect is not told
      other = turned(*network, job.cut.gas.speed + running.more_speed, plan, tell);
    }
    if (progress.stopped()) return {};
    const auto now = heat::see_all({job.cut_body, cooling, other.gas, &job.cut_coarse}, few);
    if (!now) return tl::unexpected(now.error());
    std::optional<double> trapped;
    if (!running.blocked) trapped = other.trapped / job.cut.trapped - 1.0;
    answer.effects.push_back(effect_of(running.what, *was, *now, trapped));
  }
  return {};
}

base::Result<void> add_soak(const Job& job, const heat::Sets& sets, wire::HeatAnswer& answer) {
  std::vector<std::vector<heat::SoakInstant>> runs;
  for (std::size_t k = 0; k < std::min(sets.sets.size(), soak_members); ++k) {
    auto run = heat::soak({job.cut_body, job.cooling, job.cut.gas}, sets.sets[k]);
    if (!run) return tl::unexpected(run.error());
    runs.push_back(std::move(*run));
  }
  answer.soak = soak_of(runs, job.cut.gas.day);
  return {};
}

/// The first of each side is the fine wall under the middles.
void add_map(const Job& job, const HeatSides& sides, wire::HeatAnswer& answer) {
  const heat::Shell& shell = job.cut_body.shell;
  const heat::Seen& now = sides.now.front();
  wire::HeatMap out{shell.around, shell.rows, shell.row_height() * mm, {}, {}, {}, {}};
  for (const heat::Sector& sector : job.cooling.sectors) out.fins.push_back({sector.from / deg, sector.to / deg});
  if (sides.calibrated) out.mean_C = now.mean - zero_celsius;
  for (const double T : now.wall) out.over_mean.push_back(T - now.mean);
  if (!sides.stock.empty())
    for (std::size_t i = 0; i < now.wall.size(); ++i) out.change.push_back(now.wall[i] - sides.stock.front().wall[i]);
  answer.map = std::move(out);
}

base::Result<void> write_picture(const Job& job, wire::HeatAnswer& answer) {
  if (job.request.picture.empty() || !answer.map) return {};
  sheet::HeatMapInput input;
  input.saw = job.opened.readings.name;
  input.state = job.opened.readings.state;
  input.plan = plan_name(job.opened.cut_list.size());
  input.rpm = job.speed.rpm;
  input.engine = &job.sides.cut;
  input.around = answer.map->around;
  input.rows = answer.map->rows;
  input.height = job.cut_body.shell.height;
  input.over_mean = answer.map->over_mean;
  for (const heat::Sector& sector : job.cooling.sectors) input.fins.push_back({sector.from, sector.to});
  for (const wire::HeatPlace& place : answer.places)
    if (place.part == "cylinder" && place.angle_deg && input.hottest.empty()) {
      input.hottest = place.name;
      input.hottest_range = place.temperature
                                ? place.temperature->text
                                : "first of the cylinder in " + base::number_text(100.0 * place.first, 0) +
                                      " % of the ways the unread could be";
    }
  input.mean = answer.map->mean_C;
  const auto svg = sheet::heat_map_svg(input);
  if (!svg) return tl::unexpected(svg.error());
  if (auto done = put(job.request.picture, *svg); !done) return done;
  answer.written.push_back(job.request.picture);
  return {};
}

/// Places, figures, map, shares: what both sides show under the same sets.
base::Result<void> add_sides(const Job& job, const heat::Sets& sets, wire::HeatAnswer& answer) {
  HeatSides sides;
  sides.calibrated = sets.calibrated;
  auto now = heat::see_all({job.cut_body, job.cooling, job.cut.gas, &job.cut_coarse}, sets);
  if (!now) return tl::unexpected(now.error());
  sides.now = std::move(*now);
  if (job.sides.has_cuts) {
    auto stock = heat::see_all({job.stock_body, job.cooling, job.stock.gas, &job.stock_coarse}, sets);
    if (!stock) return tl::unexpected(stock.error());
    sides.stock = std::move(*stock);
  }
  answer.places = places_of(sides);
  answer.figures = heat_figures(sides, job.request.style);
  answer.findings = heat_findings(answer.figures, job.request.style);
  answer.shares = shares_of(sides.now, job.cut.gas.burnt);
  add_map(job, sides, answer);
  return {};
}

wire::HeatAnswer begun(const Job& job) {
  wire::HeatAnswer answer;
  answer.head = job.opened.head;
  answer.head.assumed = assumed_of(job.sides.cut_network);
  for (study::Assumed& one : heat_assumed()) answer.head.assumed.push_back(std::move(one));
  answer.rpm = job.speed.rpm;
  answer.rpm_from = job.speed.from;
  answer.settled = settled_name(job.cut.label);
  answer.cautions = cautions();
  answer.cautions.insert(answer.cautions.begin(),
                         "An estimate says nothing of a lean carburettor, an air leak or fins full of chips: those "
                         "seize saws. Stop at the first sign of heat, and let it cool before you touch it.");
  for (const std::string& reading : job.cut_body.stood_in)
    answer.warnings.push_back("A usual size stands in for " + reading + '.');
  return answer;
}

base::Result<void> fill(Job& job, const cycle::CurvePlan& plan, Progress& progress, wire::HeatAnswer& answer) {
  const heat::Sets sets = sets_of(job, plan, progress);
  answer.calibrated = sets.calibrated;
  answer.promise = promise_of(sets.calibrated, job.spot, sets.calibrated);
  if (progress.stopped()) return {};
  if (auto done = add_sides(job, sets, answer); !done) return done;
  if (!job.request.brief) {
    if (auto done = add_soak(job, sets, answer); !done) return done;
    if (auto done = add_effects(job, sets, plan, progress, answer); !done) return done;
  }
  return write_picture(job, answer);
}

}  // namespace

base::ResultAll<wire::HeatAnswer> heat(const HeatRequest& request, const Watch& watch) {
  const auto opened = open_turning(request.file, request.cuts, request.book);
  if (!opened) return tl::unexpected(opened.error());
  auto cooling = cooling_of(opened->readings);
  if (!cooling) return tl::unexpected(cooling.error());
  auto spot = spot_of(opened->readings);
  if (!spot) return only(spot);
  const auto found_sides = sides_of(*opened);
  if (!found_sides) return tl::unexpected(found_sides.error());
  const Sides& sides = **found_sides;
  const auto speed = speed_of(request.speed, sides.cut);
  if (!speed) return only(speed);
  const cycle::CurvePlan plan = sides.plan({speed->rpm});
  Job job{request,
          *opened,
          sides,
          *speed,
          std::move(*cooling),
          std::move(*spot),
          heat::body_of(sides.stock),
          heat::body_of(sides.stock, heat::coarse_around, heat::coarse_rows),
          heat::body_of(sides.cut),
          heat::body_of(sides.cut, heat::coarse_around, heat::coarse_rows),
          {},
          {}};
  const double others = request.brief ? 0.0 : static_cast<double>(runnings(sides.cut).size());
  Progress progress(watch, (sides.has_cuts ? 2.0 : 1.0) + (job.spot ? 1.0 : 0.0) + others);
  const double turns = speed->rpm / rpm_per_rev;
  job.stock = turned(sides.stock_network, turns, plan, progress.stage("a turn", 1.0));
  job.cut =
      sides.has_cuts ? turned(sides.cut_network, turns, plan, progress.stage("a turn after the cuts", 1.0)) : job.stock;
  wire::HeatAnswer answer = begun(job);
  if (!progress.stopped())
    if (auto done = fill(job, plan, progress, answer); !done) return only(done);
  answer.stopped = progress.stopped();
  return answer;
}

}  // namespace portwright::desk
