#include "desk/run.hpp"

#include <algorithm>
#include <cmath>

#include "desk/aims.hpp"
#include "desk/run_bands.hpp"
#include "desk/run_files.hpp"
#include "desk/run_pictures.hpp"
#include "desk/turning.hpp"
#include "desk/written.hpp"
#include "study/run_findings.hpp"

namespace portwright::desk {

namespace {

using cycle::Point;

constexpr int fewest_members = 2, most_members = 512;
/// Work of one speed of a set of assumptions, of the search for no torque, of a trace, against one speed of a curve.
constexpr double set_weight = 0.5, zero_weight = 8.0, trace_weight = 0.6;
constexpr double speed_alike = 1e-6;
/// An upper bound needs no last digit.
constexpr cycle::Search rough{1e-3, 24, 4, 3};

/// Everything a run found.
struct Found {
  cycle::Curve subject, stock;  ///< alike where there are no cuts
  std::optional<Bands> bands;
  Rated rated;
  double zero_torque = 0.0;  ///< [rev/s]; 0: none
  std::vector<cycle::Traced> traces;
  std::vector<cycle::Traced> stock_turn;  ///< at the one speed asked, for its picture
};

const Point* at_speed(const std::vector<Point>& points, double speed) {
  for (const Point& point : points)
    if (std::abs(point.speed - speed) <= speed_alike * speed) return &point;
  return nullptr;
}

double weight_of_bands(const RunRequest& request, const Sides& sides) {
  const double sets = (rated_as_read(sides.stock) ? 1.0 : 2.0) + (sides.has_cuts ? 1.0 : 0.0);
  return sets * request.members * 3.0 * set_weight;
}

cycle::Curve curve_of(const cycle::Network& network, const cycle::CurvePlan& plan, Progress& progress,
                      const char* what) {
  const double weight = static_cast<double>(plan.speeds.size()) * (plan.both_ways ? 2.0 : 1.0);
  return cycle::run_curve(network, plan, progress.stage(what, weight));
}

/// Where the torque falls to nothing: inside the curve where it does, else beyond its end.
double zero_torque_of(const cycle::Network& network, const std::vector<Point>& points, const cycle::CurvePlan& plan,
                      Progress& progress) {
  for (std::size_t i = points.size(); i-- > 1;) {
    const Point &a = points[i - 1], &b = points[i];
    if (a.torque > 0.0 && b.torque <= 0.0) return a.speed + (b.speed - a.speed) * a.torque / (a.torque - b.torque);
  }
  if (points.back().torque <= 0.0) return 0.0;
  // From the speed of greatest power on, where no engine starts in two minds.
  const double from = rated_of_curve(points).rpm / rpm_per_rev;
  cycle::CurvePlan search = plan;
  search.scattered_turns = 0;
  search.search = rough;
  const double found = cycle::zero_torque_speed(network, from, greatest_rpm / rpm_per_rev, search,
                                                progress.stage("speed without torque", zero_weight));
  return found > from ? found : 0.0;
}

/// With one speed there is no curve to draw, so the picture shows its turn.
bool shows_one_turn(const RunRequest& request, const std::vector<double>& rpm) {
  return !request.plot.empty() && rpm.size() == 1;
}
bool wants_turns(const RunRequest& request, const std::vector<double>& rpm) {
  return !request.traces.empty() || shows_one_turn(request, rpm);
}

Found find_all(const RunRequest& request, const Case& opened, const Sides& sides, const cycle::CurvePlan& plan,
               const std::vector<double>& rpm, Progress& progress) {
  Found out;
  // The engine asked about comes first, so that a run that is stopped has something to say of it.
  out.subject = curve_of(sides.cut_network, plan, progress, sides.has_cuts ? "curve after the cuts" : "curve");
  if (!sides.has_cuts)
    out.stock = out.subject;
  else if (!progress.stopped())
    out.stock = curve_of(sides.stock_network, plan, progress, "stock curve");
  const std::vector<Point>& curve = out.stock.points.empty() ? out.subject.points : out.stock.points;
  out.rated = rated_as_read(sides.stock).value_or(rated_of_curve(curve));
  if (request.bands && !progress.stopped())
    out.bands =
        run_bands(sides, opened.survey, curve, {request.members, false, weight_of_bands(request, sides)}, progress);
  if (out.bands) out.rated = out.bands->rated;
  if (out.subject.points.size() > 1 && !progress.stopped())
    out.zero_torque = zero_torque_of(sides.cut_network, out.subject.points, plan, progress);
  if (wants_turns(request, rpm) && !progress.stopped())
    out.traces = traces_of(sides.cut_network, rpm, plan, progress, trace_weight * static_cast<double>(rpm.size()));
  if (shows_one_turn(request, rpm) && sides.has_cuts && !progress.stopped())
    out.stock_turn = traces_of(sides.stock_network, rpm, plan, progress, trace_weight);
  return out;
}

/// A difference larger than what the search left open on both sides, where nothing else tells its range.
bool beyond_the_search(double change, double stock, const Point& a, const Point& b) {
  constexpr double least = 1e-3;
  return std::abs(change) > std::max(least, 4.0 * (a.error + b.error)) * std::abs(stock);
}

void add_change(study::Figure& figure, const study::RunRow& row, const Point& point, const Point& stock,
                const Found& found) {
  double change = point.*row.value - stock.*row.value;
  study::Change out;
  if (const auto band = found.bands ? change_at(*found.bands, row, point.speed, change) : std::nullopt) {
    if (found.bands->anchored) change = band->mean;
    const double a = row.scale * band->low, b = row.scale * band->high;
    out.low = std::min(a, b);
    out.high = std::max(a, b);
    out.distinguishable = *out.low > 0.0 || *out.high < 0.0;
  } else if (!found.bands) {
    out.distinguishable = beyond_the_search(change, stock.*row.value, point, stock);
  }
  out.value = row.scale * change;
  figure.change = out;
  figure.stock = base::Spread{*figure.value - out.value, {}, {}};
}

/// Figures of one speed; where the saw's own power weighs the assumptions, their weighted mean in place of the middles.
std::vector<study::Figure> figures_at(const Point& point, const Point* stock, const Found& found, const Sides& sides,
                                      base::UnitStyle style) {
  std::vector<study::RunRange> ranges;
  if (found.bands) ranges = ranges_at(*found.bands, sides.has_cuts, point);
  Point shown = point;
  const auto table = study::run_rows();
  for (std::size_t i = 0; i < ranges.size(); ++i)
    if (ranges[i].anchored) shown.*table[i].value = ranges[i].band->mean;
  std::vector<study::Figure> out = study::run_figures(shown, sides.has_reed(), ranges, style);
  if (stock == nullptr || !sides.has_cuts) return out;
  for (study::Figure& figure : out) {
    const study::RunRow* row = study::run_row(figure.id);
    if (study::has_row(*row, *stock, sides.has_reed())) add_change(figure, *row, point, *stock, found);
  }
  return out;
}

wire::RunPoint point_answer(const Point& point, const Found& found, const Sides& sides, base::UnitStyle style) {
  wire::RunPoint out;
  out.rpm = point.speed * rpm_per_rev;
  out.figures = figures_at(point, at_speed(found.stock.points, point.speed), found, sides, style);
  out.settled = settled_name(point.label);
  out.cycles = point.turns;
  out.mass_residual = point.mass_residual;
  out.energy_residual = point.energy_residual;
  return out;
}

/// Points of the speeds an engine works at: 0.65 to 1.25 of rated; all where none lies there.
std::vector<Point> working(const std::vector<Point>& points, double rated_rpm) {
  std::vector<Point> out;
  for (const Point& point : points) {
    const double share = point.speed * rpm_per_rev / rated_rpm;
    if (share >= shares_of_rated.front() - 1e-9 && share <= shares_of_rated.back() + 1e-9) out.push_back(point);
  }
  return out.empty() ? points : out;
}

std::string promise_of(const Found& found, const Sides& sides, int members) {
  std::string out;
  if (found.bands && found.bands->anchored)
    out = "Power rests on the saw's own stock power, which weighs " + std::to_string(members) + " sets of assumptions.";
  else
    out = power_is_an_order_of_size;
  if (!sides.has_cuts) return out;
  if (found.bands)
    return out +
           " Differences from stock are far surer: set by set, at 0.65, 1 and 1.25 of rated speed, with the mixture "
           "re-set; \u201Cnot told apart\u201D where the range spans zero.";
  return out + differences_under_one_set;
}

std::vector<std::string> warnings_of(const Found& found, const Case& opened, const geometry::Engine& stock) {
  std::vector<std::string> out;
  if (opened.has_cuts()) out = cuts::account(opened.cut_list, opened.survey, stock, ".").warnings;
  if (found.bands) out.insert(out.end(), found.bands->warnings.begin(), found.bands->warnings.end());
  std::string unsure, steep;
  for (const Point& point : found.subject.points) {
    if (point.label == cycle::Label::stable) continue;
    std::string& list = point.label == cycle::Label::steep ? steep : unsure;
    list += (list.empty() ? "" : ", ") + base::number_text(point.speed * rpm_per_rev, 0);
  }
  if (!unsure.empty())
    out.push_back("Turns do not settle on one answer at " + unsure +
                  " rpm; a real engine may run unevenly there, and the figures are one of its answers.");
  if (!steep.empty())
    out.push_back("Power steps between neighbouring speeds at " + steep +
                  " rpm; a small change of anything moves that step, so trust no single figure there.");
  return out;
}

base::Result<std::string> picture_of(const Case& opened, const Found& found, const wire::RunAnswer& answer,
                                     bool one_turn) {
  if (!one_turn) return curve_picture(opened, answer);
  return turn_picture(opened, found.traces.front(), found.stock_turn.empty() ? nullptr : &found.stock_turn.front());
}

base::Result<void> write_files(const RunRequest& request, const Case& opened, const Found& found,
                               const std::vector<double>& rpm, wire::RunAnswer& answer) {
  const bool one_turn = shows_one_turn(request, rpm);
  if (!request.plot.empty() && (one_turn ? !found.traces.empty() : !answer.points.empty())) {
    const auto svg = picture_of(opened, found, answer, one_turn);
    if (!svg) return tl::unexpected(svg.error());
    if (auto done = put(request.plot, *svg); !done) return done;
    answer.written.push_back(request.plot);
  }
  if (!request.traces.empty() && !found.traces.empty()) {
    if (auto done = put(request.traces, traces_csv(found.traces)); !done) return done;
    answer.written.push_back(request.traces);
  }
  return {};
}

void fill_once(const Found& found, base::UnitStyle style, wire::RunAnswer& answer) {
  if (!(found.zero_torque > 0.0)) return;
  answer.zero_torque_rpm = found.zero_torque * rpm_per_rev;
  answer.figures.push_back(study::once_figure(study::zero_torque_row(), found.zero_torque, {}, style));
}

wire::RunAnswer answer_of(const RunRequest& request, const Case& opened, const Sides& sides, const Found& found) {
  wire::RunAnswer answer;
  answer.head = opened.head;
  answer.head.assumed = assumed_of(sides.cut_network);
  answer.rated_rpm = found.rated.rpm;
  answer.rated_from = found.rated.from;
  answer.anchored = found.bands && found.bands->anchored;
  answer.promise = promise_of(found, sides, request.members);
  for (const Point& point : found.subject.points)
    answer.points.push_back(point_answer(point, found, sides, request.style));
  if (found.bands) fill_bands(*found.bands, sides.has_cuts, sides.has_reed(), request.style, answer);
  answer.findings = study::find_run(working(found.subject.points, found.rated.rpm), sides.has_reed(), request.style);
  fill_once(found, request.style, answer);
  answer.warnings = warnings_of(found, opened, sides.stock);
  answer.cautions = cautions();
  return answer;
}

}  // namespace

base::ResultAll<wire::RunAnswer> run(const RunRequest& request, const Watch& watch) {
  const auto rpm = speeds_of(request.speeds);
  if (!rpm) return only(rpm);
  if (request.members < fewest_members || request.members > most_members)
    return tl::unexpected(base::Errors{{base::ErrorCode::usage,
                                        std::to_string(request.members) + " sets of assumptions cannot be run.",
                                        "members",
                                        "From 2 to 512.",
                                        {}}});
  const auto opened = open_turning(request.file, request.cuts, request.book);
  if (!opened) return tl::unexpected(opened.error());
  const auto sides = sides_of(*opened);
  if (!sides) return tl::unexpected(sides.error());
  const cycle::CurvePlan plan = (*sides)->plan(*rpm);
  const auto points = static_cast<double>(rpm->size());
  const double curves = points * (plan.both_ways ? 2.0 : 1.0) * ((*sides)->has_cuts ? 2.0 : 1.0);
  Progress progress(watch, curves + (request.bands ? weight_of_bands(request, **sides) : 0.0) + zero_weight +
                               (wants_turns(request, *rpm) ? 2.0 * trace_weight * points : 0.0));
  const Found found = find_all(request, *opened, **sides, plan, *rpm, progress);
  wire::RunAnswer answer = answer_of(request, *opened, **sides, found);
  answer.stopped = progress.stopped();
  if (auto done = write_files(request, *opened, found, *rpm, answer); !done) return only(done);
  return answer;
}

}  // namespace portwright::desk
