// The gauge and the air's way as text.
#include <algorithm>

#include "cli/parts.hpp"

namespace portwright::cli {
namespace {

constexpr std::size_t name_width = 34, text_width = 22;

void one_figure(Page& page, const study::Figure& figure, base::UnitStyle style) {
  const std::string range =
      figure.value ? base::range_text({*figure.value, figure.low, figure.high}, figure.unit, style) : "";
  page.line({{"  " + left(figure.label, name_width), Ink::plain},
             {left(figure.text, text_width), Ink::bold},
             {left(range, page_width - 2 - name_width - text_width), Ink::faint}});
  if (!figure.stock) return;
  const std::string stock = base::value_text(*figure.stock, figure.unit, style);
  std::string change = "not told apart";
  if (figure.change && figure.change->distinguishable)
    change = base::change_text({figure.change->value, figure.change->low, figure.change->high}, figure.unit, style);
  page.line({{"  " + left("  stock", name_width), Ink::faint},
             {left(stock, text_width), Ink::faint},
             {change, figure.change && figure.change->distinguishable ? Ink::changed : Ink::plain}});
}

std::string mg(double value) { return base::number_text(value, value < 0.95 ? 2 : 1); }
std::string percent(double share) { return base::number_text(100.0 * share, 0) + " %"; }

// One passage: what goes through it and back, then what its corners cost.
void one_way(Page& page, const wire::AirWay& way, bool all) {
  const std::string count = way.count > 1 ? ", " + std::to_string(way.count) + " windows" : "";
  page.line({{"  " + left(way.name + count, name_width), Ink::plain},
             {right(mg(way.forward_mg), 12), Ink::bold},
             {right(mg(way.back_mg), 12), Ink::plain},
             {right(percent(way.share), 12), Ink::plain}});
  constexpr std::size_t most = 3;
  std::string losses, jet;
  std::size_t said = 0;
  for (const wire::AirLoss& loss : way.losses) {
    const std::string cost = base::number_text(loss.pressure_mbar, loss.pressure_mbar < 9.5 ? 1 : 0) + " mbar";
    if (loss.cause == "window")
      jet = "jet at the window " + cost;
    else if (all || said++ < most)
      losses += (losses.empty() ? "" : ", ") + loss.cause + ' ' + cost;
  }
  if (!jet.empty()) losses += (losses.empty() ? "" : "; ") + jet;
  if (!losses.empty()) page.paragraph({"      ", Ink::plain}, losses, Ink::faint);
}

// Tract, transfers, exhaust: the order in which the charge meets them.
std::vector<wire::AirWay> in_order(std::vector<wire::AirWay> ways) {
  const auto rank = [](const wire::AirWay& way) {
    return way.kind == "tract" ? 0 : way.kind == "exhaust" ? 2 : way.kind == "pipe" ? 3 : 1;
  };
  std::stable_sort(ways.begin(), ways.end(), [&](const auto& a, const auto& b) { return rank(a) < rank(b); });
  return ways;
}

}  // namespace

std::string crank_text(const wire::CrankAnswer& answer, const Setting& setting) {
  Page page(setting.coloured);
  head(page, answer.head, "on the gauge");
  stopped(page, answer.stopped);
  for (const study::Figure& figure : answer.figures) one_figure(page, figure, setting.style);
  if (!answer.strokes_bar.empty()) {
    std::string pulls;
    for (const double bar : answer.strokes_bar) pulls += (pulls.empty() ? "" : ", ") + base::number_text(bar, 1);
    page.line();
    page.paragraph({"  ", Ink::plain}, "The needle after each pull: " + pulls + " bar.");
  }
  if (answer.read_bar)
    page.paragraph({"  ", Ink::plain}, "Read on this saw: " + base::number_text(*answer.read_bar, 1) + " bar.");
  if (!answer.verdict.empty()) page.paragraph({"  ", Ink::plain}, answer.verdict);
  findings(page, answer.findings, answer.figures, setting.all);
  assumed_running(page, answer.head.assumed, setting);
  cautions(page, answer.cautions);
  return page.text();
}

std::string airflow_text(const wire::AirflowAnswer& answer, const Setting& setting) {
  Page page(setting.coloured);
  head(page, answer.head, "where the air goes");
  stopped(page, answer.stopped);
  const std::string speed = base::value_text({answer.rpm, {}, {}}, "rpm", setting.style);
  page.heading("At " + speed + ", " + answer.rpm_from, answer.settled == "stable" ? "" : answer.settled);
  for (const study::Figure& figure : answer.figures) one_figure(page, figure, setting.style);
  if (!answer.ways.empty())
    page.heading("Way, mg a turn",
                 left(right("forward", 12) + right("back", 12) + right("share", 12), page_width - 2 - name_width));
  for (const wire::AirWay& way : in_order(answer.ways)) one_way(page, way, setting.all);
  if (!answer.gains.empty()) page.heading("What opening the case mouth would bring");
  for (const wire::AirGain& gain : answer.gains) {
    page.paragraph({"  ", Ink::plain}, gain.sentence);
    page.line("    " + gain.cut, Ink::changed);
  }
  if (!answer.written.empty()) page.line();
  for (const std::string& file : answer.written) page.line("Written: " + file);
  assumed_running(page, answer.head.assumed, setting);
  cautions(page, answer.cautions);
  return page.text();
}

}  // namespace portwright::cli
