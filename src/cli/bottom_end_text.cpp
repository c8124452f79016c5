// Bottom end and chain as text.
#include <algorithm>

#include "cli/parts.hpp"

namespace portwright::cli {
namespace {

constexpr std::size_t name_width = 38, text_width = 20, speed_width = 20, rung_width = 34;
/// Figures of a builder's page; --all shows the others too.
constexpr const char* page_figures[] = {
    "bottom_end.rev_ceiling",       "bottom_end.rev_ceiling_cut", "bottom_end.thrust",  "bottom_end.wall_pressure",
    "bottom_end.big_end_load",      "bottom_end.small_end_load",  "bottom_end.shaking", "bottom_end.balance",
    "bottom_end.free.big_end_load", "bottom_end.flutter",         "bottom_end.life"};

void one_figure(Page& page, const study::Figure& figure, base::UnitStyle style) {
  const std::string range =
      figure.value ? base::range_text({*figure.value, figure.low, figure.high}, figure.unit, style) : "";
  page.line({{"  " + left(figure.label, name_width), Ink::plain},
             {left(figure.text, text_width), Ink::bold},
             {left(range, page_width - 2 - name_width - text_width), Ink::faint}});
  if (!figure.stock) return;
  const bool told = figure.change && figure.change->distinguishable;
  page.line({{"  " + left("  stock", name_width), Ink::faint},
             {left(figure.stock_text, text_width), Ink::faint},
             {told ? figure.change_text : "not told apart", told ? Ink::changed : Ink::plain}});
}

std::string speed_text(const std::optional<wire::RungSpeed>& speed) { return speed ? speed->text : ""; }

void one_rung(Page& page, const wire::Rung& rung, bool all) {
  const Ink ink = rung.kind == "hard" ? Ink::bold : rung.kind == "mark" ? Ink::changed : Ink::plain;
  page.line({{"  " + left(rung.name, rung_width), ink},
             {left(rung.kind == "mark" ? "" : rung.kind, 6), Ink::faint},
             {right(speed_text(rung.free), speed_width - 2), Ink::plain},
             {right(speed_text(rung.cut), speed_width - 2), Ink::plain}});
  if (rung.stock_free && rung.free && rung.stock_free->text != rung.free->text)
    page.line({{"  " + left("  stock", rung_width + 6), Ink::faint},
               {right(speed_text(rung.stock_free), speed_width - 2), Ink::faint},
               {right(speed_text(rung.stock_cut), speed_width - 2), Ink::faint}});
  if (rung.free && !rung.free->range.empty() && rung.kind == "hard")
    page.line("      95 % free: " + rung.free->range + " rpm", Ink::faint);
  if (!rung.moves.empty() && (all || rung.kind == "hard"))
    page.paragraph({"      ", Ink::plain}, rung.moves, Ink::faint);
}

void sentences(Page& page, const std::vector<std::string>& all, Ink ink = Ink::plain) {
  for (const std::string& sentence : all) page.paragraph({"  ", Ink::plain}, sentence, ink);
}

void waits(Page& page, const std::vector<std::string>& all) {
  if (all.empty()) return;
  page.heading("Not told yet");
  sentences(page, all);
}

bool on_page(const study::Figure& figure) {
  return std::find(std::begin(page_figures), std::end(page_figures), figure.id) != std::end(page_figures);
}

}  // namespace

std::string revs_text(const wire::RevsAnswer& answer, const Setting& setting) {
  Page page(setting.coloured);
  head(page, answer.head, "will the bottom end stand it");
  stopped(page, answer.stopped);
  sentences(page, answer.sentences);
  const auto rpm = [&](double value) { return base::value_text({value, {}, {}}, "rpm", setting.style); };
  page.heading((answer.turned ? "Loads in the cut at " + rpm(answer.cut_rpm) + ", free" : "Loads without gas, free") +
               " at " + rpm(answer.free_rpm));
  for (const study::Figure& figure : answer.figures)
    if (setting.all || on_page(figure)) one_figure(page, figure, setting.style);
  page.heading("Ladder of speeds", left(right("free", 18) + right("in the cut", 18), 38));
  for (const wire::Rung& rung : answer.rungs)
    if (rung.free || rung.cut) one_rung(page, rung, setting.all);
  if (!answer.duty.empty())
    page.paragraph({"  ", Ink::plain}, "Bearing life is told for: " + answer.duty + '.', Ink::faint);
  waits(page, answer.waits);
  findings(page, answer.findings, answer.figures, setting.all);
  if (!answer.written.empty()) page.line();
  for (const std::string& file : answer.written) page.line("Written: " + file);
  assumed_running(page, answer.head.assumed, setting);
  cautions(page, answer.cautions);
  return page.text();
}

std::string chain_text(const wire::ChainAnswer& answer, const Setting& setting) {
  Page page(setting.coloured);
  head(page, answer.head, "what reaches the wood");
  stopped(page, answer.stopped);
  sentences(page, answer.sentences);
  page.line();
  for (const study::Figure& figure : answer.figures) one_figure(page, figure, setting.style);
  if (!answer.sprockets.empty()) page.heading("Sprockets in this wood");
  for (const wire::Sprocket& one : answer.sprockets)
    if (setting.all || one.fitted || one.chance > 0.02)
      page.paragraph({"  ", Ink::plain}, one.sentence, one.fitted ? Ink::bold : Ink::plain);
  if (!answer.widths.empty()) page.heading("Other widths, pressed as usual");
  for (const wire::WoodWidth& one : answer.widths) page.paragraph({"  ", Ink::plain}, one.sentence);
  waits(page, answer.waits);
  for (const std::string& warning : answer.warnings) page.paragraph({"  ! ", Ink::caution}, warning, Ink::caution);
  assumed_running(page, answer.head.assumed, setting);
  cautions(page, answer.cautions);
  return page.text();
}

}  // namespace portwright::cli
