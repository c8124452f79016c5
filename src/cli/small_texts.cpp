#include <algorithm>

#include "cli/parts.hpp"

namespace portwright::cli {
namespace {

constexpr std::size_t name_width = 30;

std::string bands(const wire::Aim& aim) {
  std::string out;
  const auto add = [&](const char* use, const std::optional<wire::Band>& band) {
    if (band) out += (out.empty() ? "" : " \u00B7 ") + std::string(use) + ' ' + band->text;
  };
  add("stock", aim.stock);
  add("work", aim.work);
  add("race", aim.race);
  return out + " (" + aim.source + ')';
}

void row(Page& page, const char* name, const std::string& text) {
  if (!text.empty()) page.paragraph({left(name, 12), Ink::faint}, text);
}

/// As the figure has it in words: a temperature's ends are degrees while its value is kelvin.
std::string range_of(const study::Figure& figure, base::UnitStyle style) {
  if (!figure.low_text.empty()) return figure.low_text + " to " + figure.high_text;
  return base::range_text({figure.value.value_or(0.0), figure.low, figure.high}, figure.unit, style);
}

void why_value(Page& page, const study::Figure& figure, base::UnitStyle style) {
  const std::string range = range_of(figure, style);
  const std::string value = figure.value ? figure.text + (range.empty() ? "" : "   " + range + "  (95 %)") : "\u2014";
  page.line(
      {{left(figure.label, std::min<std::size_t>(columns(figure.label), 44)), Ink::bold}, {"   " + value, Ink::plain}});
  row(page, "id", figure.id);
  if (figure.count > 1) row(page, "windows", "each of " + std::to_string(figure.count));
  if (!figure.value) row(page, "waits for", listed(figure.waits_for));
  if (figure.stock)
    row(page, "stock",
        figure.unit != "K" ? base::value_text(*figure.stock, figure.unit, style) + "   " +
                                 base::range_text(*figure.stock, figure.unit, style)
                           : figure.stock_text);
  if (!figure.change) return;
  const base::Spread change{figure.change->value, figure.change->low, figure.change->high};
  row(page, "change",
      figure.change->distinguishable
          ? base::change_text(change, figure.unit, style) + "   " + base::range_text(change, figure.unit, style)
          : "not told apart");
}

void shares(Page& page, const std::vector<study::Share>& inputs, base::UnitStyle style) {
  if (inputs.empty()) return;
  page.heading("Where its doubt comes from", "share");
  constexpr double least_shown = 0.005;
  std::size_t left_out = 0;
  for (const study::Share& input : inputs) {
    if (input.share < least_shown) {
      ++left_out;
      continue;
    }
    const std::string percent = base::value_text({input.share * 100.0, {}, {}}, "%", style);
    const std::string value = input.unit.empty() ? "" : base::value_text({input.value, {}, {}}, input.unit, style);
    page.line({{"  " + left(input.path, 40), Ink::plain},
               {left(value, 20), Ink::plain},
               {left(input.assumed ? "assumed" : "", 9), Ink::faint},
               {right(percent, 9), Ink::plain}});
  }
  if (left_out > 0)
    page.line("  " + std::to_string(left_out) + (left_out == 1 ? " other" : " others") + " under 1 % each", Ink::faint);
}

}  // namespace

std::string why_text(const wire::WhyAnswer& answer, const Setting& setting) {
  Page page(setting.coloured);
  head(page, answer.head, "why");
  why_value(page, answer.figure, setting.style);
  page.line();
  row(page, "formula", answer.figure.formula);
  row(page, "tells", answer.figure.why);
  row(page, "source", answer.figure.source);
  if (answer.aim) row(page, "aims", bands(*answer.aim));
  shares(page, answer.inputs, setting.style);
  return page.text();
}

std::string check_text(const wire::CheckAnswer& answer, const Setting& setting) {
  Page page(setting.coloured);
  head(page, answer.head, "check");
  const auto once = [](const wire::EdgeCheck& edge) { return edge.readings.size() < 2; };
  if (std::all_of(answer.edges.begin(), answer.edges.end(), once))
    page.paragraph({},
                   "No edge is read in more than one way, so nothing can be held against anything. Read one edge by "
                   "wheel and by height.");
  else
    page.heading("Edges read more than one way", "above the base face");
  for (const wire::EdgeCheck& edge : answer.edges) {
    if (once(edge)) continue;
    const std::string name = edge.port.empty() ? "Crown edge at TDC" : edge.port + ' ' + edge.edge;
    page.line({{edge.agrees ? "  \u2713 " : "  \u25B3 ", edge.agrees ? Ink::plain : Ink::caution},
               {left(name, name_width), Ink::bold},
               {(edge.agrees ? "agree, " : "do not agree, ") + edge.gap_text + " apart", Ink::plain}});
    for (const wire::EdgeReading& reading : edge.readings)
      page.line({{"      " + left(reading.path, name_width - 2), Ink::plain}, {reading.text, Ink::faint}});
    if (!edge.mend.empty()) page.paragraph({"      ", Ink::plain}, edge.mend);
  }
  if (!answer.wheel.empty()) {
    page.line();
    page.paragraph({"Wheel  ", Ink::bold}, answer.wheel);
  }
  if (setting.all) {
    page.heading("Readings as understood", "one sigma");
    for (const wire::ReadAs& reading : answer.readings)
      page.line({{"  " + left(reading.path, name_width + 2), Ink::plain},
                 {left(reading.text, 27), Ink::plain},
                 {left(reading.source, 19), Ink::faint}});
    assumed(page, answer.head.assumed, setting);
  } else {
    page.line();
    page.paragraph({}, std::to_string(answer.readings.size()) + " readings taken; --all shows how each was understood.",
                   Ink::faint);
  }
  return page.text();
}

std::string edge_text(const wire::EdgeAnswer& answer, const Setting& setting) {
  Page page(setting.coloured);
  head(page, answer.head, "edge");
  const bool at = !answer.asked.empty(), cut = !answer.head.cuts.empty();
  const std::size_t label = 26, width = at && cut ? 13 : at || cut ? 22 : 27;
  page.line({{left(answer.port + ' ' + answer.edge, label), Ink::bold},
             {left("as read", width), Ink::faint},
             {at ? left("asked", width) : "", Ink::faint},
             {cut ? left("after cuts", width) : "", Ink::faint},
             {cut ? "change" : "", Ink::faint}});
  const auto number = [&](const std::optional<wire::Value>& value, bool one) {
    if (!value) return std::string("\u2014");
    const std::string text = one || !(at && cut) ? value->text : value->text.substr(0, value->text.find(" ("));
    return one && !value->range.empty() ? left(text, 23) + value->range : text;
  };
  for (const wire::EdgeForm& form : answer.forms) {
    const bool one = !at && !cut;
    if (!form.read && one) {
      page.paragraph(
          {"  " + left(form.label, label - 2), Ink::plain},
          form.waits_for.empty() ? "\u2014 the piston does not reach it" : "\u2014 waits for " + listed(form.waits_for),
          Ink::faint);
      continue;
    }
    page.line(
        {{"  " + left(form.label, label - 2), Ink::plain},
         {one ? number(form.read, one) : left(number(form.read, one), width), at || cut ? Ink::faint : Ink::plain},
         {at ? left(number(form.at, one), width) : "", cut ? Ink::plain : Ink::bold},
         {cut ? left(number(form.cut, one), width) : "", Ink::changed},
         {cut && form.change ? form.change->text : "", Ink::changed}});
  }
  if (at) {
    page.line();
    page.paragraph({"Asked  ", Ink::bold}, answer.asked + ". " + answer.move_sentence);
  }
  return page.text();
}

std::string units_text(const wire::UnitsAnswer& answer, const Setting& setting) {
  Page page(setting.coloured);
  page.line({{answer.typed, Ink::bold}, {"   " + answer.kind, Ink::faint}});
  for (const wire::UnitForm& form : answer.also) {
    const NumberAndUnit parts = parted(form.text);
    page.line({{right(parts.number, 20), Ink::plain}, {' ' + parts.unit, Ink::faint}});
  }
  return page.text();
}

std::string written_text(const wire::WrittenAnswer& answer, const Setting& setting) {
  Page page(setting.coloured);
  std::string what = "Wrote " + answer.file;
  if (!answer.paper.empty())
    what += ", " + answer.paper + ", " + std::to_string(answer.pages) + (answer.pages == 1 ? " page" : " pages");
  page.paragraph({}, what + '.');
  for (const std::string& note : answer.notes) page.paragraph({}, note);
  return page.text();
}

std::string errors_text(const base::Errors& errors, bool coloured) {
  Page page(coloured);
  for (const base::Error& error : errors) {
    page.paragraph({"\u2715 ", Ink::stop}, (error.path.empty() ? "" : error.path + ": ") + error.message);
    for (const std::string& reading : error.readings) page.paragraph({"    ", Ink::plain}, reading);
    if (!error.hint.empty()) page.paragraph({"  ", Ink::plain}, error.hint, Ink::faint);
  }
  return page.text();
}

}  // namespace portwright::cli
