// Where it runs hot, as text. Degrees are printed only where the answer has them.
#include <algorithm>

#include "cli/heat_text.hpp"
#include "cli/parts.hpp"

namespace portwright::cli {
namespace {

constexpr std::size_t name_width = 35, over_width = 25;

std::string where_of(const wire::HeatPlace& place) {
  if (!place.angle_deg || !place.drop_mm) return {};
  return base::number_text(*place.angle_deg, 0) + " deg, " + base::number_text(*place.drop_mm, 0) + " mm down";
}

void one_place(Page& page, const wire::HeatPlace& place, bool has_cuts) {
  page.line({{"  " + right(std::to_string(place.rank), 2) + "  " + left(place.name, name_width - 4), Ink::plain},
             {left(place.temperature ? place.temperature->text : place.over_mean.text, over_width), Ink::bold},
             {where_of(place), Ink::faint}});
  if (!has_cuts || !place.change) return;
  page.line({{"      " + left("against stock", name_width - 4), Ink::faint},
             {place.change->text, place.change->distinguishable ? Ink::changed : Ink::plain}});
}

void places(Page& page, const wire::HeatAnswer& answer, const std::string& part, bool has_cuts) {
  for (const wire::HeatPlace& place : answer.places)
    if (place.part == part) one_place(page, place, has_cuts);
}

std::string with_range(const study::Figure& figure) {
  return figure.low_text.empty() ? figure.text : figure.text + " (" + figure.low_text + " to " + figure.high_text + ")";
}

void figure(Page& page, const study::Figure& figure) {
  const std::string change =
      figure.change ? (figure.change->distinguishable ? figure.change_text + ' ' + figure.unit : "not told apart") : "";
  page.line({{"  " + left(figure.label, name_width), Ink::plain},
             {left(figure.value ? with_range(figure) : "waits for a spot reading", over_width), Ink::bold},
             {change, figure.change && figure.change->distinguishable ? Ink::changed : Ink::plain}});
}

std::string percents(const wire::HeatShare& share) {
  const auto shown = [](double part) { return base::number_text(100.0 * part, 0); };
  return shown(share.low) + " to " + shown(share.high) + " %";
}

void effects(Page& page, const std::vector<wire::HeatEffect>& all) {
  if (all.empty()) return;
  page.heading("What another way of running would do, each alone");
  for (const wire::HeatEffect& effect : all) {
    page.line("  " + effect.what, Ink::bold);
    page.paragraph({"      ", Ink::plain}, effect.sentence.substr(effect.what.size() + 2));
  }
}

}  // namespace

std::string heat_text(const wire::HeatAnswer& answer, const Setting& setting) {
  Page page(setting.coloured);
  head(page, answer.head, "where it runs hot");
  stopped(page, answer.stopped);
  const bool has_cuts = !answer.head.cuts.empty();
  const std::string speed = base::value_text({answer.rpm, {}, {}}, "rpm", setting.style);
  page.heading("At " + speed + ", " + answer.rpm_from, answer.settled == "stable" ? "" : answer.settled);
  if (!answer.promise.empty()) page.paragraph({"  ", Ink::plain}, answer.promise);
  const std::string column = answer.calibrated ? "from the spot read" : "against the mean of the bore's wall";
  if (!answer.places.empty()) page.heading("Cylinder, hottest first", column);
  places(page, answer, "cylinder", has_cuts);
  if (!answer.places.empty()) page.heading("Piston, hottest first", column);
  places(page, answer, "piston", has_cuts);
  if (!answer.figures.empty()) page.heading("Figures", has_cuts ? "change" : "");
  for (const study::Figure& one : answer.figures) figure(page, one);
  findings(page, answer.findings, answer.figures, setting.all);
  effects(page, answer.effects);
  if (answer.soak) {
    page.heading("Stopped hot");
    page.paragraph({"  ", Ink::plain}, answer.soak->sentence);
  }
  if (setting.all && !answer.shares.empty()) {
    page.heading("Where the heat of burning goes");
    for (const wire::HeatShare& share : answer.shares) page.line("  " + left(share.way, name_width) + percents(share));
  }
  if (!answer.written.empty()) page.line();
  for (const std::string& file : answer.written) page.line("Written: " + file);
  for (const std::string& warning : answer.warnings) page.paragraph({"  ! ", Ink::caution}, warning, Ink::caution);
  assumed_running(page, answer.head.assumed, setting);
  cautions(page, answer.cautions);
  return page.text();
}

}  // namespace portwright::cli
