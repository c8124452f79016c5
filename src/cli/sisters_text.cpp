#include <algorithm>

#include "cli/book_texts.hpp"
#include "cli/groups.hpp"
#include "cli/parts.hpp"

namespace portwright::cli {
namespace {

std::string letter(std::size_t index) {
  std::string out(1, static_cast<char>('A' + index % 26));
  return index < 26 ? out : out + std::to_string(index / 26);
}

// What says the same as another figure: the page shows it only when everything is asked for.
bool is_echo(const std::string& id) {
  for (const char* end : {".closes", ".duration", ".drop", ".deg_per_mm", ".first_opens", ".velocity_angle",
                          ".area_at_bdc", ".mouth_to_window"})
    if (id.ends_with(end)) return true;
  return id.starts_with("group.");
}

bool stands_apart(const wire::SisterFigure& figure) {
  return std::any_of(figure.saws.begin(), figure.saws.end(), [](const auto& saw) { return saw.real; });
}

// The sentences of one figure; of two saws one says it all.
void sentences(Page& page, const wire::SisterFigure& figure) {
  for (std::size_t i = 0; i < figure.saws.size(); ++i) {
    if (figure.saws[i].sentence.empty()) continue;
    page.paragraph({"  \u25C7 ", Ink::changed}, figure.saws[i].sentence);
    const auto others =
        std::count_if(figure.saws.begin(), figure.saws.end(), [](const auto& s) { return s.apart.has_value(); });
    if (others == 2) return;
  }
}

void one_figure(Page& page, const wire::SisterFigure& figure) {
  constexpr std::size_t label_width = 40;
  std::string values;
  for (std::size_t i = 0; i < figure.saws.size(); ++i) {
    const wire::SisterValue& saw = figure.saws[i];
    const std::string text =
        saw.value ? saw.text.substr(0, saw.text.find(" (")) + (saw.range.empty() ? "" : " (" + saw.range + ')')
                  : std::string("\u2014");
    values += (values.empty() ? "" : " \u00B7 ") + letter(i) + (saw.real ? "\u25C7 " : " ") + text;
  }
  const std::string spread = figure.spread_text.empty()
                                 ? "no more than reading errors"
                                 : "spread " + figure.spread_text.substr(0, figure.spread_text.find(" ("));
  page.line({{"  " + left(figure.label, label_width) + "  ", Ink::bold}, {figure.mean ? spread : "", Ink::faint}});
  page.paragraph({"      ", Ink::plain}, values);
}

// The rows of a builder's page in its order, or all of them.
std::vector<const wire::SisterFigure*> chosen(const wire::BookSistersAnswer& answer, bool all) {
  std::vector<const wire::SisterFigure*> out;
  for (const wire::SisterFigure& figure : answer.figures)
    if (all || (stands_apart(figure) && !is_echo(figure.id))) out.push_back(&figure);
  return out;
}

}  // namespace

std::string book_sisters_text(const wire::BookSistersAnswer& answer, const Setting& setting) {
  Page page(setting.coloured);
  page.line({{left(answer.model, std::min<std::size_t>(columns(answer.model), 60)), Ink::bold},
             {"   " + std::to_string(answer.saws.size()) + " sisters", Ink::faint}});
  for (std::size_t i = 0; i < answer.saws.size(); ++i) {
    const wire::BookSaw& saw = answer.saws[i];
    std::string aside = saw.casting;
    if (!saw.state.empty()) aside += (aside.empty() ? "" : " \u00B7 ") + saw.state;
    page.line(
        {{letter(i) + "  " + left(saw.name, 30), Ink::plain}, {left(aside, 36), Ink::faint}, {saw.id, Ink::faint}});
  }
  page.rule();
  for (const std::string& notice : answer.head.notices) page.paragraph({"! ", Ink::caution}, notice);
  const auto apart = std::count_if(answer.figures.begin(), answer.figures.end(), stands_apart);
  page.heading("Who stands apart", apart == 0 ? "nobody" : "");
  for (const wire::SisterFigure& figure : answer.figures)
    if (setting.all || !is_echo(figure.id)) sentences(page, figure);
  page.paragraph({"  ", Ink::plain}, answer.by_chance, Ink::faint);
  const auto rows = chosen(answer, setting.all);
  if (!rows.empty()) page.heading(setting.all ? "Every figure" : "These figures", "95 % ranges");
  for (const wire::SisterFigure* figure : rows) one_figure(page, *figure);
  if (!setting.all)
    page.paragraph({"  ", Ink::plain},
                   std::to_string(answer.figures.size() - rows.size()) +
                       " other figures are not told apart, or say the same in "
                       "another form (--all shows them).",
                   Ink::faint);
  return page.text();
}

}  // namespace portwright::cli
