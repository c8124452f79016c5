#include <algorithm>

#include "cycle/cranking.hpp"
#include "desk/aims.hpp"
#include "desk/figure_findings.hpp"
#include "desk/gaps.hpp"
#include "desk/run.hpp"
#include "desk/turning.hpp"
#include "study/run_figures.hpp"
#include "study/run_findings.hpp"

namespace portwright::desk {

namespace {

constexpr double bar = 1e-5;
/// How fast a starter is pulled [rev/s], from a tired arm to a strong one.
constexpr double slow_pull = 600.0 / rpm_per_rev, fast_pull = 1000.0 / rpm_per_rev;
/// What a gauge holds up to its valve [m³], where that was not read: a valve at the plug's end, a long hose.
constexpr double small_gauge = 0.1e-6, large_gauge = 1.6e-6;

struct Pulled {
  cycle::Cranked middle;
  cycle::Band range;  ///< of the reading [Pa]: slow on worn rings with a large gauge, fast on tight ones with a small
};

const tables::RunRow* leak_row() {
  for (const cycle::AssumptionRange& range : cycle::assumption_ranges())
    if (range.member == &cycle::Assumptions::leak_area) return range.row;
  return nullptr;
}

double pulled_at(const cycle::Network& network, cycle::CrankPlan plan, double speed, double leak, double gauge,
                 const cycle::Tell& tell) {
  cycle::Network other = network;
  other.assumptions.leak_area = leak;
  plan.speed = speed;
  plan.gauge_volume = gauge;
  return cycle::crank(other, plan, tell).reading;
}

Pulled pull(const cycle::Network& network, const base::Known& gauge_volume, const char* what, Progress& progress) {
  cycle::CrankPlan plan;
  plan.gauge_volume = gauge_volume.value_or(plan.gauge_volume);
  const double large = gauge_volume.value_or(large_gauge), small = gauge_volume.value_or(small_gauge);
  Pulled out;
  out.middle = cycle::crank(network, plan, progress.stage(what, 1.0));
  const tables::RunRow* leak = leak_row();
  const double low = pulled_at(network, plan, slow_pull, leak->high, large, progress.stage(what, 1.0));
  const double high = pulled_at(network, plan, fast_pull, leak->low, small, progress.stage(what, 1.0));
  out.range = {out.middle.reading, std::min(low, out.middle.reading), std::max(high, out.middle.reading)};
  return out;
}

study::Figure figure_of(const Pulled& subject, const Pulled& stock, bool has_cuts, base::UnitStyle style) {
  const study::OnceRow& row = study::gauge_row();
  study::Figure out = study::once_figure(row, subject.middle.reading, subject.range, style);
  if (!has_cuts) return out;
  out.stock = base::Spread{stock.range.mean * row.scale, stock.range.low * row.scale, stock.range.high * row.scale};
  // The same arm, rings and gauge on both sides.
  const double ends[3] = {subject.range.low - stock.range.low, subject.range.mean - stock.range.mean,
                          subject.range.high - stock.range.high};
  const auto [least, greatest] = std::minmax({ends[0], ends[1], ends[2]});
  out.change =
      study::Change{ends[1] * row.scale, least * row.scale, greatest * row.scale, least > 0.0 || greatest < 0.0};
  return out;
}

constexpr const char* looks_below =
    "Rings, a scored bore, a leaking decompression valve, a slow pull or a large gauge come first; if all are sound, "
    "read the chamber and the exhaust's opening again.";
constexpr const char* looks_above =
    "Oil in the cylinder or carbon on the crown come first; if both are clean, read the chamber again.";

std::string psi_text(double pa, base::UnitStyle style) {
  const study::OnceRow& row = study::gauge_row();
  return base::value_text({pa * row.scale, {}, {}}, row.unit, style);
}

std::string verdict_of(const Pulled& pulled, const base::Known& read, base::UnitStyle style) {
  const std::string span = psi_text(pulled.range.low, style) + " to " + psi_text(pulled.range.high, style);
  if (!read) return "No gauge reading to hold it against; this engine as read and sound should show " + span + ".";
  const std::string both = "The gauge showed " + psi_text(*read, style) + ", and " + span + " is expected";
  if (*read < pulled.range.low) return both + ": it lies below. " + looks_below;
  if (*read > pulled.range.high) return both + ": it lies above. " + looks_above;
  return both + ": they agree.";
}

/// A reading beyond what a sound engine shows; none where they agree or nothing was read.
std::optional<study::Finding> disagreement(const Pulled& pulled, const base::Known& read, base::UnitStyle style) {
  if (!read || (*read >= pulled.range.low && *read <= pulled.range.high)) return std::nullopt;
  const study::OnceRow& row = study::gauge_row();
  const bool below = *read < pulled.range.low;
  const double limit = below ? pulled.range.low : pulled.range.high;
  study::Finding out;
  out.rule = "gauge_agreement";
  out.figure = "gauge.compression";
  out.state = study::State::caution;
  out.value = *read * row.scale;
  out.limit = limit * row.scale;
  out.margin = -std::abs(*read - limit) * row.scale;
  out.unit = row.unit;
  out.chance = 1.0;
  out.text = "Gauge as read: " + psi_text(*read, style) + (below ? ", at least " : ", at most ") +
             psi_text(limit, style) + " is what this engine as read shows when sound.";
  out.why = "The estimate's range holds what a hand, a gauge and the readings' own errors move.";
  out.fix = below ? looks_below : looks_above;
  out.source = "own judgement";
  return out;
}

}  // namespace

base::ResultAll<wire::CrankAnswer> crank(const CrankRequest& request, const Watch& watch) {
  auto opened = open_turning(request.file, request.cuts, request.book);
  if (!opened) return tl::unexpected(opened.error());
  const auto sides = sides_of(*opened);
  if (!sides) return tl::unexpected(sides.error());
  const bool has_cuts = (*sides)->has_cuts;
  const base::Known gauge = (*sides)->stock.breathing.gauge_volume, read = (*sides)->stock.gauge_compression;
  Progress progress(watch, has_cuts ? 6.0 : 3.0);
  const Pulled stock = pull((*sides)->stock_network, gauge, has_cuts ? "stock" : "pulls", progress);
  const Pulled subject = has_cuts ? pull((*sides)->cut_network, gauge, "after the cuts", progress) : stock;
  wire::CrankAnswer answer;
  answer.head = std::move(opened->head);
  answer.head.assumed = assumed_of((*sides)->cut_network);
  answer.stopped = progress.stopped();
  if (!answer.stopped) answer.figures.push_back(figure_of(subject, stock, has_cuts, request.style));
  for (const double stroke : subject.middle.gauge) answer.strokes_bar.push_back(stroke * bar);
  if (read) answer.read_bar = *read * bar;
  if (!answer.stopped) {
    answer.findings = findings_on(answer.figures, request.style);
    if (auto odd = disagreement(stock, read, request.style)) answer.findings.insert(answer.findings.begin(), *odd);
    fill_letters(answer.findings);
  }
  answer.verdict = answer.stopped ? "Stopped before the gauge had settled." : verdict_of(stock, read, request.style);
  answer.cautions = cautions();
  return answer;
}

}  // namespace portwright::desk
