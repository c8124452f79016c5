#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "desk/aims.hpp"
#include "desk/curve.hpp"
#include "desk/turning.hpp"
#include "study/run_figures.hpp"
#include "study/run_findings.hpp"

namespace portwright::desk {

namespace {

using cycle::Instant;

constexpr double bar = 1e-5, mg = 1e6, cm2 = 1e4, mm = 1e3, degrees = 180.0 / std::numbers::pi;
constexpr int last_degree = 360;

struct SeriesRow {
  const char* id;
  const char* label;
  const char* unit;
  double Instant::*value;
  double scale;
  bool per_degree = false;  ///< a flow: told by the degree of the crank, not by the second
};

constexpr SeriesRow series_rows[] = {
    {"cylinder_bar", "cylinder pressure", "bar", &Instant::cylinder, bar},
    {"case_bar", "case pressure", "bar", &Instant::crankcase, bar},
    {"exhaust_bar", "exhaust duct at the window", "bar", &Instant::exhaust, bar},
    {"tract_bar", "tract at the case", "bar", &Instant::tract, bar},
    {"intake_flow", "into the case", "mg/deg", &Instant::intake_flow, mg, true},
    {"transfer_flow", "case to cylinder", "mg/deg", &Instant::transfer_flow, mg, true},
    {"exhaust_flow", "out of the cylinder", "mg/deg", &Instant::exhaust_flow, mg, true},
    {"exhaust_area", "exhaust, effective area", "cm2", &Instant::exhaust_area, cm2},
    {"transfer_area", "transfers, effective area", "cm2", &Instant::transfer_area, cm2},
    {"intake_area", "intake, effective area", "cm2", &Instant::intake_area, cm2},
    {"purity", "fresh share in the cylinder", "%", &Instant::purity, 100.0},
    {"temperature", "cylinder gas", "K", &Instant::temperature, 1.0},
    {"reed_lift_mm", "petal lift", "mm", &Instant::reed_lift, mm},
};

/// Values at each whole degree from TDC to TDC, straight between the instants of the turn, which goes round.
std::vector<double> by_the_degree(const std::vector<Instant>& instants, const SeriesRow& row, double speed) {
  struct At {
    double deg, value;
  };
  const double scale = row.scale / (row.per_degree ? 360.0 * speed : 1.0);
  std::vector<At> all;
  for (const Instant& instant : instants) {
    const double deg = instant.angle * degrees, turned = deg - 360.0 * std::floor(deg / 360.0);
    all.push_back({turned, scale * (instant.*row.value)});
  }
  std::sort(all.begin(), all.end(), [](const At& a, const At& b) { return a.deg < b.deg; });
  const At before{all.back().deg - 360.0, all.back().value}, after{all.front().deg + 360.0, all.front().value};
  all.insert(all.begin(), before);
  all.push_back(after);
  std::vector<double> out;
  std::size_t k = 0;
  for (int degree = 0; degree <= last_degree; ++degree) {
    while (k + 2 < all.size() && all[k + 1].deg < degree) ++k;
    const At &a = all[k], &b = all[k + 1];
    const double t = b.deg > a.deg ? std::clamp((degree - a.deg) / (b.deg - a.deg), 0.0, 1.0) : 0.0;
    out.push_back(a.value + t * (b.value - a.value));
  }
  return out;
}

/// Where an area stands open, by the degree; none where it never shuts or never opens, as behind petals.
void add_window(const std::vector<double>& area, const char* kind, const char* label,
                std::vector<wire::TraceWindow>& out) {
  const double least = 1e-3 * *std::max_element(area.begin(), area.end());
  if (!(least > 0.0)) return;
  const auto open = [&](int degree) { return area[static_cast<std::size_t>((degree + 720) % 360)] > least; };
  int opens = -1;
  for (int degree = 0; degree < last_degree; ++degree)
    if (open(degree) && !open(degree - 1)) opens = degree;
  if (opens < 0) return;
  int closes = opens;
  while (open(closes)) ++closes;
  out.push_back({kind, label, static_cast<double>(opens), static_cast<double>(closes)});
}

struct Side {
  std::vector<std::vector<double>> values;  ///< row by row
  std::vector<wire::TraceWindow> windows;
};

Side side_of(const cycle::Traced& traced) {
  Side out;
  for (const SeriesRow& row : series_rows)
    out.values.push_back(by_the_degree(traced.instants, row, traced.point.speed));
  const auto of = [&](const char* id) -> const std::vector<double>& {
    const auto row = std::find_if(std::begin(series_rows), std::end(series_rows),
                                  [&](const SeriesRow& one) { return std::string_view(one.id) == id; });
    return out.values[static_cast<std::size_t>(row - std::begin(series_rows))];
  };
  add_window(of("exhaust_area"), "exhaust", "exhaust open", out.windows);
  add_window(of("transfer_area"), "transfer", "transfers open", out.windows);
  add_window(of("intake_area"), "intake", "intake open", out.windows);
  return out;
}

std::vector<study::Figure> figures_of(const cycle::Point& point, const cycle::Point* stock, bool has_reed,
                                      base::UnitStyle style) {
  std::vector<study::Figure> out = study::run_figures(point, has_reed, {}, style);
  if (stock == nullptr) return out;
  for (study::Figure& figure : out) {
    const study::RunRow* row = study::run_row(figure.id);
    if (!study::has_row(*row, *stock, has_reed) || !figure.value) continue;
    const double was = row->shown(stock->*row->value);
    study::Change change;
    change.value = *figure.value - was;
    const double told = std::max(1e-3, 4.0 * (point.error + stock->error));
    change.distinguishable = std::abs(change.value) > told * std::abs(was);
    figure.change = change;
    figure.stock = base::Spread{was, {}, {}};
  }
  return out;
}

std::string at_text(double value, const char* unit) {
  return study::three_digits(value, unit, base::UnitStyle::metric);
}

/// "Case at 1.42 bar when the transfers open against 1.10 bar in the cylinder; .."
std::string sentence_of(const Side& side) {
  const auto transfer = std::find_if(side.windows.begin(), side.windows.end(),
                                     [](const wire::TraceWindow& one) { return one.kind == "transfer"; });
  const std::vector<double>&cylinder = side.values[0], &crankcase = side.values[1], &flow = side.values[5];
  if (transfer == side.windows.end()) return "";
  const auto at = static_cast<std::size_t>(transfer->opens_deg);
  std::string out = "When the transfers open, the case stands at " + at_text(crankcase[at], "bar") +
                    " and the cylinder at " + at_text(cylinder[at], "bar");
  std::optional<int> enters;
  double back = 0.0;
  for (int degree = static_cast<int>(at); degree < static_cast<int>(transfer->closes_deg); ++degree) {
    const double rate = flow[static_cast<std::size_t>(degree % 360)];
    if (rate > 0.0 && !enters) enters = degree;
    if (rate < 0.0) back -= rate;
  }
  if (!enters) return out + "; nothing enters.";
  const int late = *enters - static_cast<int>(at);
  if (late > 1)
    out += ": the charge waits " + std::to_string(late) + " deg before it enters";
  else
    out += ": the charge enters at once";
  if (back > 0.05) out += "; " + at_text(back, "mg") + " go back into the case";
  return out + '.';
}

}  // namespace

base::ResultAll<wire::TracesAnswer> traces(const TracesRequest& request, const Watch& watch) {
  const auto opened = open_turning(request.file, request.cuts, request.book);
  if (!opened) return tl::unexpected(opened.error());
  const auto found_sides = sides_of(*opened);
  if (!found_sides) return tl::unexpected(found_sides.error());
  const Sides& sides = **found_sides;
  const auto speed = speed_of(request.speed, sides.cut);
  if (!speed) return only(speed);
  Progress progress(watch, sides.has_cuts ? 2.0 : 1.0);
  const cycle::CurvePlan plan = sides.plan({speed->rpm});
  const double turned = speed->rpm / rpm_per_rev;
  wire::TracesAnswer answer;
  answer.head = opened->head;
  answer.head.assumed = assumed_of(sides.cut_network);
  answer.rpm = speed->rpm;
  answer.rpm_from = speed->from;
  answer.cautions = cautions();
  const cycle::Traced now = cycle::run_traced(sides.cut_network, turned, plan, progress.stage("turn", 1.0));
  std::optional<cycle::Traced> stock;
  if (sides.has_cuts && !progress.stopped())
    stock = cycle::run_traced(sides.stock_network, turned, plan, progress.stage("stock", 1.0));
  answer.stopped = progress.stopped();
  if (answer.stopped) return answer;

  answer.settled = settled_name(now.point.label);
  for (int degree = 0; degree <= last_degree; ++degree) answer.angle_deg.push_back(degree);
  Side side = side_of(now);
  answer.windows = side.windows;
  answer.sentence = sentence_of(side);
  Side before;
  if (stock) {
    before = side_of(*stock);
    answer.stock_windows = before.windows;
  }
  for (std::size_t i = 0; i < std::size(series_rows); ++i) {
    const SeriesRow& row = series_rows[i];
    if (row.value == &Instant::reed_lift && !sides.has_reed()) continue;
    answer.series.push_back({row.id, row.label, row.unit, std::move(side.values[i]),
                             stock ? std::move(before.values[i]) : std::vector<double>{}});
  }
  answer.figures = figures_of(now.point, stock ? &stock->point : nullptr, sides.has_reed(), request.style);
  answer.findings = study::find_run(std::span(&now.point, 1), sides.has_reed(), request.style);
  return answer;
}

}  // namespace portwright::desk
