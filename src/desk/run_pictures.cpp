#include "desk/run_pictures.hpp"

#include <algorithm>
#include <numbers>

#include "desk/labels.hpp"
#include "sheet/airway_picture.hpp"
#include "sheet/curve_picture.hpp"
#include "sheet/trace_picture.hpp"

namespace portwright::desk {

namespace {

constexpr double bar = 1e-5, milligrams = 1e6, cm2 = 1e4, deg = 180.0 / std::numbers::pi;

template <class Input>
Input titled(const Case& opened) {
  Input out;
  out.saw = opened.readings.name;
  out.state = opened.readings.state;
  out.plan = plan_name(opened.cut_list.size());
  return out;
}

const study::Figure* figure(const wire::RunPoint& point, const char* id) {
  for (const study::Figure& one : point.figures)
    if (one.id == id) return &one;
  return nullptr;
}

double before(const study::Figure& figure) { return figure.stock ? figure.stock->value : *figure.value; }

void add_band(const study::Figure& figure, double rpm, std::vector<sheet::CurveBand>& bands) {
  if (figure.low && figure.high) bands.push_back({rpm, *figure.low, *figure.high});
}

sheet::TraceSide side_of(const cycle::Traced& traced) {
  sheet::TraceSide out;
  const double per_degree = milligrams / (360.0 * traced.point.speed);
  out.windows = {{"exhaust", sheet::TraceKind::exhaust, {}},
                 {"transfers", sheet::TraceKind::transfers, {}},
                 {"intake", sheet::TraceKind::intake, {}}};
  for (const cycle::Instant& at : traced.instants) {
    out.rows.push_back({at.angle * deg, at.cylinder * bar, at.crankcase * bar, at.exhaust * bar, at.tract * bar,
                        at.intake_flow * per_degree, at.transfer_flow * per_degree, at.exhaust_flow * per_degree});
    out.windows[0].area.push_back(at.exhaust_area * cm2);
    out.windows[1].area.push_back(at.transfer_area * cm2);
    out.windows[2].area.push_back(at.intake_area * cm2);
  }
  return out;
}

sheet::AirwaySide side_of(const cycle::Airflow& flow, const std::vector<wire::AirWay>& ways) {
  sheet::AirwaySide out;
  out.trapped_mg = flow.trapped * milligrams;
  out.straight_mg = flow.short_lost * milligrams;
  for (const wire::AirWay& way : ways) {
    sheet::AirStream stream{way.name, way.count, way.forward_mg, way.back_mg, "", 0.0};
    const auto costs = std::find_if(way.losses.begin(), way.losses.end(),
                                    [](const wire::AirLoss& loss) { return loss.cause != "window"; });
    if (costs != way.losses.end()) {
      stream.loss = costs->cause;
      stream.loss_mbar = costs->pressure_mbar;
    }
    if (way.kind == "tract")
      out.intake.push_back(std::move(stream));
    else if (way.kind == "exhaust")
      out.exhaust.push_back(std::move(stream));
    else if (way.kind != "pipe")
      out.transfers.push_back(std::move(stream));
  }
  return out;
}

}  // namespace

base::Result<std::string> curve_picture(const Case& opened, const wire::RunAnswer& answer) {
  auto input = titled<sheet::CurveInput>(opened);
  if (opened.has_cuts()) input.stock.emplace();
  for (const wire::RunPoint& point : answer.points) {
    const study::Figure *power = figure(point, "run.power"), *torque = figure(point, "run.torque");
    input.now.points.push_back({point.rpm, *power->value, *torque->value, point.settled});
    if (!answer.bands.empty()) {
      add_band(*power, point.rpm, input.now.power_kw);
      add_band(*torque, point.rpm, input.now.torque_nm);
    }
    if (input.stock && power->stock)
      input.stock->points.push_back({point.rpm, before(*power), before(*torque), "stable"});
  }
  if (input.stock && input.stock->points.empty()) input.stock.reset();
  for (const wire::RunChange& change : answer.changes)
    if (change.figure == "run.power") input.changes.push_back({change.rpm, change.change, change.low, change.high});
  input.rated_rpm = answer.rated_rpm;
  input.anchored = answer.anchored;
  return sheet::curve_svg(input);
}

base::Result<std::string> turn_picture(const Case& opened, const cycle::Traced& now, const cycle::Traced* stock) {
  auto input = titled<sheet::TraceInput>(opened);
  input.rpm = now.point.speed * rpm_per_rev;
  input.now = side_of(now);
  if (stock != nullptr) input.stock = side_of(*stock);
  return sheet::trace_svg(input);
}

base::Result<std::string> airway_picture(const Case& opened, const cycle::Airflow& flow,
                                         const wire::AirflowAnswer& answer, const cycle::Airflow* stock_flow,
                                         const std::vector<wire::AirWay>& stock_ways) {
  auto input = titled<sheet::AirwayInput>(opened);
  input.rpm = answer.rpm;
  input.now = side_of(flow, answer.ways);
  if (stock_flow != nullptr) input.stock = side_of(*stock_flow, stock_ways);
  return sheet::airway_svg(input);
}

}  // namespace portwright::desk
