#include "desk/revs_parts.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/shown_unit.hpp"
#include "desk/shown.hpp"
#include "tables/assumptions.hpp"
#include "tables/box.hpp"

namespace portwright::desk {

namespace {

using bottom_end::Machine;
using bottom_end::Place;
using bottom_end::Read;

constexpr double scale_sigma = 0.5e-3;  ///< of a kitchen or jewellers' scale [kg]: common practice
constexpr double share_sigma = 0.02, ring_sigma = 0.03e-3;
constexpr int trace_angles = 360;

double sigma_of(const geometry::Survey& survey, const geometry::Slot& slot, double otherwise) {
  return slot.input >= 0 ? survey.inputs[static_cast<std::size_t>(slot.input)].sigma : otherwise;
}

struct Reader {
  base::Errors errors;

  Read take(const std::string& path, const saw::Reading& reading, double sigma) {
    auto read = read_of(path, reading, sigma);
    if (read) return *read;
    errors.push_back(read.error());
    return {};
  }
  bottom_end::ReadBearing bearing(Place place, const saw::Bearing& from) {
    const std::string path = std::string("bottom_end.") + bottom_end::place_key(place);
    bottom_end::ReadBearing out;
    out.named = from.rating.taken() || from.pin.taken() || !from.kind.empty();
    out.rating = take(path + ".rating", from.rating, 0.0).value;
    (void)take(path + ".pin", from.pin, 0.0);
    if (from.kind == "needle") out.kind = bottom_end::Rolling::needle;
    if (from.kind == "roller") out.kind = bottom_end::Rolling::roller;
    if (from.kind == "ball") out.kind = bottom_end::Rolling::ball;
    return out;
  }
};

bottom_end::ReadParts read_parts(const Case& opened, const geometry::Engine& engine, Reader& reader) {
  const saw::BottomEnd& read = opened.readings.bottom_end;
  bottom_end::ReadParts out;
  if (engine.piston.mass) out.piston = {*engine.piston.mass, sigma_of(opened.survey, opened.survey.mass, scale_sigma)};
  out.rod_small = reader.take("bottom_end.rod_small_mass", read.rod_small_mass, scale_sigma);
  out.rod_big = reader.take("bottom_end.rod_big_mass", read.rod_big_mass, scale_sigma);
  out.balance = reader.take("bottom_end.counterweight", read.counterweight, share_sigma);
  const saw::Bearing* const bearings[] = {&read.big_end, &read.small_end, &read.main};
  for (const Place place : bottom_end::places)
    out.bearings[static_cast<int>(place)] = reader.bearing(place, *bearings[static_cast<int>(place)]);
  return out;
}

/// The skirt's length on the side of a direction; the side's where that one was not read, then any.
base::Known skirt_toward(const geometry::Engine& engine, double direction) {
  const double away = std::abs(std::remainder(direction, 2.0 * std::numbers::pi));
  const geometry::Piston& piston = engine.piston;
  const base::Known& first = away < 0.25 * std::numbers::pi   ? piston.skirt_exhaust
                             : away > 0.75 * std::numbers::pi ? piston.skirt_intake
                                                              : piston.skirt_side;
  for (const base::Known* one : {&first, &piston.skirt_side, &piston.skirt_intake, &piston.skirt_exhaust})
    if (*one) return *one;
  return first;
}

/// Below the lowest ring, or the upper quarter of the skirt where no ring was read.
double skirt_top(const geometry::Engine& engine, double bottom) {
  double top = 0.0;
  for (const geometry::Ring& ring : engine.piston.rings)
    if (ring.below_crown && ring.height) top = std::max(top, *ring.below_crown + *ring.height);
  return top > 0.0 && top < 0.8 * bottom ? top : 0.25 * bottom;
}

void add_wall(const geometry::Engine& engine, Machine& machine, std::vector<std::string>& waits) {
  const geometry::WindowMap map = geometry::map_windows(engine);
  const base::Known skirt = engine.thrust ? skirt_toward(engine, *engine.thrust) : engine.thrust;
  if (!skirt || !map.known) {
    waits.push_back(
        "What the windows leave of the wall under the skirt waits for the pressed side (cylinder.thrust), the skirt's "
        "length there and the windows' edges, widths and places.");
    return;
  }
  machine.skirt = {skirt_top(engine, *skirt), *skirt};
  const bottom_end::TurnGrid grid(machine.slider, trace_angles);
  machine.wall_pressed = bottom_end::wall_left(map, *engine.thrust, machine.skirt, grid);
  machine.wall_other = bottom_end::wall_left(map, *engine.thrust + std::numbers::pi, machine.skirt, grid);
}

base::ResultAll<Machine> machine_of(const Case& opened, const geometry::Engine& engine,
                                    std::vector<std::string>& waits) {
  Reader reader;
  const bottom_end::ReadParts read = read_parts(opened, engine, reader);
  auto parts = bottom_end::parts_of(read, *engine.bore, *engine.stroke);
  if (!parts) reader.errors.insert(reader.errors.end(), parts.error().begin(), parts.error().end());
  if (!reader.errors.empty()) return tl::unexpected(std::move(reader.errors));
  Machine out;
  out.bore = *engine.bore;
  out.stroke = *engine.stroke;
  out.slider = *engine.slider;
  for (std::size_t i = 0; i < engine.piston.rings.size(); ++i) {
    const base::Known& height = engine.piston.rings[i].height;
    if (!height) continue;
    const bool read_here = i < opened.survey.rings.size();
    const double sigma = read_here ? sigma_of(opened.survey, opened.survey.rings[i].height, ring_sigma) : ring_sigma;
    out.rings.push_back({*height, sigma, std::max(0.3e-3, *height - 4.0 * sigma), *height + 4.0 * sigma, {}});
  }
  out.parts = std::move(*parts);
  add_wall(engine, out, waits);
  return out;
}

base::Errors missing_for_crank(const geometry::Engine& engine) {
  base::Errors out;
  for (const auto& [known, path] : {std::pair(&engine.bore, "crank.bore"), std::pair(&engine.stroke, "crank.stroke")})
    if (!*known)
      out.push_back({base::ErrorCode::impossible,
                     "Nothing moves on paper without it.",
                     path,
                     "Read it; masses are estimated from bore and stroke where they were not weighed.",
                     {}});
  return out;
}

void try_networks(const Case& opened, RevsSides& out) {
  auto networks = sides_of(opened);
  if (networks) {
    out.networks = std::move(*networks);
    return;
  }
  std::string why;
  for (const base::Error& error : networks.error()) why += (why.empty() ? "" : " ") + error.message;
  out.waits.push_back("The engine cannot be turned, so loads stand without gas, as at free-rev. " + why);
}

/// A bearing that is named has a sentence of its own; those that nobody spoke of share one.
void say_ratings(const saw::BottomEnd& read, const Machine& machine, std::vector<std::string>& waits) {
  const saw::Bearing* const all[] = {&read.big_end, &read.small_end, &read.main};
  std::string names;
  for (const Place place : bottom_end::places) {
    const auto i = static_cast<std::size_t>(place);
    if (machine.parts.bearings[i].rating) continue;
    if (all[i]->pin.taken() || !all[i]->kind.empty())
      waits.push_back(machine.parts.bearings[i].waits);
    else
      names += (names.empty() ? "" : ", ") + std::string("bottom_end.") + bottom_end::place_key(place) + ".rating";
  }
  if (!names.empty())
    waits.push_back("Bearing life, and how near a bearing's load comes to what it bears, wait for " + names +
                    ": the dynamic rating from the bearing maker's catalogue.");
}

bool repeats(const cycle::Point& point) {
  return point.label == cycle::Label::stable || point.label == cycle::Label::steep;
}

bottom_end::GasTrace gas_of(const cycle::Network& network, double speed, const cycle::CurvePlan& plan,
                            const cycle::Tell& tell, bool& is_settled) {
  const cycle::Traced traced = cycle::run_traced(network, speed, plan, tell);
  is_settled = repeats(traced.point);
  std::vector<double> angle, cylinder, crankcase;
  for (const cycle::Instant& at : traced.instants) {
    angle.push_back(at.angle);
    cylinder.push_back(at.cylinder);
    crankcase.push_back(at.crankcase);
  }
  if (angle.size() < 3) return {};
  return bottom_end::even_trace(angle, cylinder, crankcase, trace_angles);
}

}  // namespace

base::Result<Read> read_of(const std::string& path, const saw::Reading& reading, double usual_sigma) {
  if (!reading.readable()) return Read{};
  double sum = 0.0, typed = -1.0;
  int count = 0;
  for (const saw::Typed& one : reading.repeats) {
    if (!one.value) continue;
    sum += one.value->si;
    if (one.value->sigma) typed = *one.value->sigma;
    ++count;
  }
  const double value = sum / count;
  const tables::BoxRow* row = tables::box_of(path);
  if (row != nullptr && (value < row->least || value > row->greatest))
    return base::fail(base::ErrorCode::out_of_range, reading.repeats.front().text + " is outside what is allowed here",
                      path, "allowed: " + row->least_text + " to " + row->greatest_text);
  return Read{value, typed >= 0.0 ? typed : usual_sigma / std::sqrt(static_cast<double>(count))};
}

base::ResultAll<std::unique_ptr<RevsSides>> revs_sides(const Case& opened) {
  auto out = std::make_unique<RevsSides>();
  out->has_cuts = opened.has_cuts();
  out->stock_engine = geometry::resolve(opened.survey);
  out->cut_engine = out->stock_engine;
  if (out->has_cuts) cuts::apply(*opened.cuts(), out->cut_engine);
  for (const geometry::Engine* engine : {&out->stock_engine, &out->cut_engine})
    if (base::Errors missing = missing_for_crank(*engine); !missing.empty()) return tl::unexpected(std::move(missing));
  std::vector<std::string> of_stock;
  auto cut = machine_of(opened, out->cut_engine, out->waits);
  if (!cut) return tl::unexpected(cut.error());
  out->cut = std::move(*cut);
  out->stock = out->cut;
  if (out->has_cuts) {
    auto stock = machine_of(opened, out->stock_engine, of_stock);
    if (!stock) return tl::unexpected(stock.error());
    out->stock = std::move(*stock);
  }
  const base::Known &before = out->stock_engine.piston.mass, &after = out->cut_engine.piston.mass;
  out->other_piston = before.known() != after.known() || (before && *before != *after);
  try_networks(opened, *out);
  say_ratings(opened.readings.bottom_end, out->cut, out->waits);
  return out;
}

void add_gas(RevsSides& sides, double speed, Progress& progress) {
  if (!sides.networks) return;
  const cycle::CurvePlan plan = sides.networks->plan({speed * rpm_per_rev});
  bool cut_settled = true, stock_settled = true;
  bottom_end::GasTrace cut = gas_of(sides.networks->cut_network, speed, plan, progress.stage("turn", 1.0), cut_settled);
  bottom_end::GasTrace stock = cut;
  if (sides.has_cuts && !progress.stopped())
    stock = gas_of(sides.networks->stock_network, speed, plan, progress.stage("stock", 1.0), stock_settled);
  if (progress.stopped()) return;
  if (!cut_settled || !stock_settled)
    sides.waits.push_back(
        "Turns at this speed do not settle on one answer; loads in the cut are those of one of them, and a real engine "
        "may run unevenly there.");
  sides.cut.gas = std::move(cut);
  sides.stock.gas = std::move(stock);
}

study::Assumed assumed_row(const std::string& name, double factor, const std::string& stands_for) {
  const tables::AssumptionRow& row = tables::assumption(name);
  const base::ShownUnit shown = base::shown_unit(row.dimension);
  const bool plain = row.dimension == base::Dimension::count;
  const auto in_unit = [&](double si) { return plain ? si : shown.of(si); };
  const double half = sigmas_of_95 * row.sigma;
  return {stands_for.empty() ? name : name + " (for " + stands_for + ")",
          in_unit(factor * row.value),
          in_unit(factor * std::max(row.least, row.value - half)),
          in_unit(factor * std::min(row.greatest, row.value + half)),
          plain ? row.unit : shown.unit,
          row.source};
}

std::vector<study::Assumed> assumed_parts(const Machine& machine) {
  std::vector<study::Assumed> out;
  const std::pair<const bottom_end::Doubtful*, const char*> all[] = {
      {&machine.parts.piston, "piston.mass"},
      {&machine.parts.rod_small, "bottom_end.rod_small_mass"},
      {&machine.parts.rod_big, "bottom_end.rod_big_mass"},
      {&machine.parts.balance, "bottom_end.counterweight"}};
  for (const auto& [part, path] : all)
    if (!part->assumed.empty())
      out.push_back(assumed_row(part->assumed, part->value / tables::assumption(part->assumed).value, path));
  for (const char* name : {"gas_force", "static_share_needle", "static_share_roller", "static_share_ball", "idle_speed",
                           "idle_gas", "duty_work", "duty_free"})
    out.push_back(assumed_row(name));
  return out;
}

}  // namespace portwright::desk
