#include "cycle/airflow.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "desk/aims.hpp"
#include "desk/run.hpp"
#include "desk/run_pictures.hpp"
#include "desk/turning.hpp"
#include "desk/written.hpp"
#include "study/run_figures.hpp"

namespace portwright::desk {

namespace {

using base::Known;
using cycle::Airflow;
using cycle::DuctFlow;
using cycle::Role;

constexpr double milligrams = 1e6, millibar = 1e-2, cm2 = 1e4, cc = 1e6;
constexpr double least_told = 0.05;  ///< gains under this are nobody's [%]
constexpr const char* figures_shown[] = {"run.delivery_ratio", "run.trapping",  "run.charging",
                                         "run.blow_back",      "run.spit_back", "run.case_high"};

const char* kind_of(const DuctFlow& duct, const geometry::Engine& engine) {
  if (duct.name.role == Role::tract) return "tract";
  if (duct.name.role == Role::pipe) return "pipe";
  const auto& port = engine.ports[static_cast<std::size_t>(duct.name.port)];
  return port.kind == geometry::PortKind::exhaust ? "exhaust"
         : port.kind == geometry::PortKind::boost ? "boost"
                                                  : "transfer";
}

std::string name_of(const DuctFlow& duct, const geometry::Engine& engine, const geometry::Survey& survey) {
  if (duct.name.port < 0) return duct.name.role == Role::pipe ? "pipe" : "tract";
  const auto port = static_cast<std::size_t>(duct.name.port);
  std::string name = survey.ports[port].name;
  std::replace(name.begin(), name.end(), '_', ' ');
  return engine.ports[port].twin_of >= 0 ? name + ", mirrored side" : name;
}

std::string percent(double share) { return base::number_text(100.0 * share, share < 0.095 ? 1 : 0) + " %"; }

std::string sentence_of(const wire::AirWay& way) {
  std::string out = way.name;
  out[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(out[0])));
  out += ": " + study::three_digits(way.forward_mg - way.back_mg, "mg", base::UnitStyle::metric) + " a turn";
  if (way.kind == "transfer" || way.kind == "boost") out += ", " + percent(way.share) + " of the charge";
  if (way.back_mg > 0.005 * way.forward_mg) out += ", " + percent(way.back_mg / way.forward_mg) + " of it goes back";
  const auto inside = std::find_if(way.losses.begin(), way.losses.end(),
                                   [](const wire::AirLoss& loss) { return loss.cause != "window"; });
  if (inside != way.losses.end() && inside->share > 0.0)
    out += "; the " + inside->cause + " takes " + percent(inside->share) + " of what drives it";
  return out + '.';
}

wire::AirWay way_of(const DuctFlow& duct, const geometry::Engine& engine, const geometry::Survey& survey) {
  wire::AirWay out;
  out.name = name_of(duct, engine, survey);
  out.kind = kind_of(duct, engine);
  out.count = duct.name.count;
  out.forward_mg = duct.forward * milligrams;
  out.back_mg = duct.back * milligrams;
  out.share = duct.share;
  double whole = 0.0;
  for (const cycle::CauseLoss& loss : duct.losses) whole += std::max(0.0, loss.energy);
  for (const cycle::CauseLoss& loss : duct.losses)
    if (loss.energy > 0.0)
      out.losses.push_back({cycle::cause_name(loss.cause), loss.pressure * millibar, loss.energy / whole});
  std::stable_sort(out.losses.begin(), out.losses.end(),
                   [](const wire::AirLoss& a, const wire::AirLoss& b) { return a.share > b.share; });
  out.sentence = sentence_of(out);
  return out;
}

std::vector<study::Figure> figures_of(const cycle::Point& point, bool has_reed, base::UnitStyle style) {
  std::vector<study::Figure> out;
  for (study::Figure& figure : study::run_figures(point, has_reed, {}, style))
    if (std::find(std::begin(figures_shown), std::end(figures_shown), figure.id) != std::end(figures_shown))
      out.push_back(std::move(figure));
  return out;
}

/// A transfer that the case or the gasket leaves less than its foot.
struct Narrow {
  std::string port;
  std::vector<std::size_t> entries;  ///< both sides of a mirrored port
  double mouth = 0.0, foot = 0.0;    ///< [m²]
  bool gasket = false;               ///< the gasket's hole is narrow, too
};

std::vector<Narrow> narrow_ones(const geometry::Engine& engine, const geometry::Survey& survey) {
  std::vector<Narrow> out;
  for (std::size_t i = 0; i < engine.ports.size(); ++i) {
    const geometry::Port& port = engine.ports[i];
    const geometry::Passage& way = port.passage;
    if ((port.kind != geometry::PortKind::transfer && port.kind != geometry::PortKind::boost) || !way.foot) continue;
    const bool mouth = way.mouth && *way.mouth < *way.foot, gasket = way.gasket && *way.gasket < *way.foot;
    if (!mouth && !gasket) continue;
    const std::string& name = survey.ports[i].name;
    const auto known = std::find_if(out.begin(), out.end(), [&](const Narrow& narrow) { return narrow.port == name; });
    if (known != out.end())
      known->entries.push_back(i);
    else
      out.push_back({name, {i}, way.mouth.value_or(*way.foot), *way.foot, gasket});
  }
  return out;
}

/// What opening one mouth gives: the engine, and the case volume that the ledge leaves behind; unknown where its height
/// was not read.
struct Opened {
  geometry::Engine engine;
  Known ledge;  ///< [m³]
};

base::ResultAll<Opened> opened_mouth(const geometry::Engine& engine, const geometry::Survey& survey,
                                     const Narrow& narrow, const cuts::CutList& cut) {
  const auto prepared = cuts::prepare(cut, survey, ".");
  if (!prepared) return tl::unexpected(prepared.error());
  Opened out{engine, {}};
  cuts::apply(**prepared, out.engine);
  for (const std::size_t entry : narrow.entries) {
    geometry::Port& port = out.engine.ports[entry];
    const geometry::Passage& before = engine.ports[entry].passage;
    if (narrow.gasket) port.passage.gasket = port.passage.foot;
    if (before.mouth) out.ledge += before.case_step * (port.passage.mouth - before.mouth) * Known(port.count);
  }
  if (out.ledge && out.engine.case_at_tdc) out.engine.case_at_tdc += out.ledge;
  return out;
}

std::string gain_sentence(const Narrow& narrow, const Known& ledge, const wire::AirGain& gain, double told) {
  std::string name = narrow.port;
  std::replace(name.begin(), name.end(), '_', ' ');
  const auto size = [](double area) { return base::value_text({area * cm2, {}, {}}, "cm2", base::UnitStyle::shop); };
  std::string out = "Opening " + name + " at the case from " + size(narrow.mouth) + " to its foot of " +
                    size(narrow.foot) + (narrow.gasket ? ", the gasket trimmed to match," : "");
  const auto change = [](double percents) {
    return (percents < 0.0 ? "\u2212" : "+") + base::number_text(std::abs(percents), 1) + " %";
  };
  if (std::max(std::abs(gain.charging_percent), std::abs(gain.power_percent)) < told)
    out += " is not told apart";
  else
    out += " changes charging by " + change(gain.charging_percent) + " and power by " + change(gain.power_percent);
  if (!ledge) return out + "; the case volume that the ledge leaves is not counted: its height was not read.";
  if (*ledge > 0.0) return out + ", " + base::number_text(*ledge * cc, 2) + " cc more case counted.";
  return out + '.';
}

double gain_percent(double now, double before) { return before > 0.0 ? 100.0 * (now / before - 1.0) : 0.0; }

base::ResultAll<std::optional<wire::AirGain>> gain_of(const Narrow& narrow, const geometry::Engine& engine,
                                                      const geometry::Survey& survey, const cycle::Point& before,
                                                      const cycle::CurvePlan& plan, const cycle::Tell& tell) {
  cuts::Cut cut;
  cut.act = cuts::Act::mouth;
  cut.port = narrow.port;
  cut.amount = narrow.foot;
  const auto opened = opened_mouth(engine, survey, narrow, {cut});
  if (!opened) return tl::unexpected(opened.error());
  const auto network = network_of(opened->engine, survey);
  if (!network) return tl::unexpected(network.error());
  const cycle::Point after = cycle::run_traced(*network, before.speed, plan, tell).point;
  if (tell(1.0)) return std::optional<wire::AirGain>{};
  wire::AirGain gain{narrow.port, cuts::cut_text(cut), gain_percent(after.charging, before.charging),
                     gain_percent(after.power, before.power), ""};
  const double told = std::max(least_told, 400.0 * (before.error + after.error));
  gain.sentence = gain_sentence(narrow, opened->ledge, gain, told);
  return std::optional(std::move(gain));
}

std::vector<wire::AirWay> ways_of(const Airflow& flow, const geometry::Engine& engine, const geometry::Survey& survey) {
  std::vector<wire::AirWay> out;
  for (const DuctFlow& duct : flow.ducts) out.push_back(way_of(duct, engine, survey));
  return out;
}

base::Result<void> add_gains(const Sides& sides, const geometry::Survey& survey, const std::vector<Narrow>& narrow,
                             const cycle::Point& before, const cycle::CurvePlan& plan, Progress& progress,
                             wire::AirflowAnswer& answer) {
  for (const Narrow& one : narrow) {
    if (progress.stopped()) break;
    auto gain = gain_of(one, sides.cut, survey, before, plan, progress.stage("gain of " + one.port, 1.0));
    if (!gain) return tl::unexpected(gain.error().front());
    if (*gain) answer.gains.push_back(std::move(**gain));
  }
  return {};
}

base::Result<void> write_picture(const AirflowRequest& request, const Case& opened, const Sides& sides,
                                 const Airflow& flow, const cycle::CurvePlan& plan, Progress& progress,
                                 wire::AirflowAnswer& answer) {
  if (request.plot.empty() || answer.ways.empty()) return {};
  std::optional<Airflow> stock;
  if (sides.has_cuts)
    stock = cycle::air_flow(sides.stock_network, flow.point.speed, plan, progress.stage("stock", 1.0));
  const auto svg = airway_picture(opened, flow, answer, stock ? &*stock : nullptr,
                                  stock ? ways_of(*stock, sides.stock, opened.survey) : std::vector<wire::AirWay>{});
  if (!svg) return tl::unexpected(svg.error());
  if (auto done = put(request.plot, *svg); !done) return done;
  answer.written.push_back(request.plot);
  return {};
}

}  // namespace

base::ResultAll<wire::AirflowAnswer> airflow(const AirflowRequest& request, const Watch& watch) {
  const auto opened = open_turning(request.file, request.cuts, request.book);
  if (!opened) return tl::unexpected(opened.error());
  const auto found_sides = sides_of(*opened);
  if (!found_sides) return tl::unexpected(found_sides.error());
  const Sides& sides = **found_sides;
  const auto speed = speed_of(request.speed, sides.cut);
  if (!speed) return only(speed);
  const std::vector<Narrow> narrow = narrow_ones(sides.cut, opened->survey);
  Progress progress(watch, 2.0 + static_cast<double>(narrow.size()));
  const cycle::CurvePlan plan = sides.plan({speed->rpm});
  const Airflow flow =
      cycle::air_flow(sides.cut_network, speed->rpm / rpm_per_rev, plan, progress.stage("airflow", 1.0));
  wire::AirflowAnswer answer;
  answer.head = opened->head;
  answer.head.assumed = assumed_of(sides.cut_network);
  answer.rpm = speed->rpm;
  answer.rpm_from = speed->from;
  answer.settled = settled_name(flow.point.label);
  answer.cautions = cautions();
  if (!progress.stopped()) {
    answer.figures = figures_of(flow.point, sides.has_reed(), request.style);
    answer.ways = ways_of(flow, sides.cut, opened->survey);
  }
  if (auto done = add_gains(sides, opened->survey, narrow, flow.point, plan, progress, answer); !done)
    return only(done);
  if (auto done = write_picture(request, *opened, sides, flow, plan, progress, answer); !done) return only(done);
  answer.stopped = progress.stopped();
  return answer;
}

}  // namespace portwright::desk
