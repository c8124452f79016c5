#include <algorithm>
#include <cmath>
#include <map>

#include "cli/groups.hpp"
#include "cli/parts.hpp"

namespace portwright::cli {
namespace {

constexpr std::size_t label_width = 36, number_width = 8, unit_width = 13, range_width = 17;
constexpr std::size_t cut_label_width = 29, stock_width = 9, cut_width = 9, change_width = 15;

// One study on its way to a page.
class StudyPage {
 public:
  StudyPage(const wire::StudyAnswer& answer, const Setting& setting)
      : answer_(answer), setting_(setting), page_(setting.coloured), letters_(letters_of(answer.findings)), with_cuts_(!answer.head.cuts.empty()) {}

  std::string text() {
    head(page_, answer_.head, with_cuts_ ? "what if" : "what it is");
    if (setting_.all) every_figure();
    else for (const Group& group : groups()) one_group(group);
    if (with_cuts_) about_cuts();
    if (!setting_.all) waiting();
    findings(page_, answer_.findings, answer_.figures, setting_.all);
    next();
    aims();
    assumed(page_, answer_.head.assumed, setting_.style);
    cautions(page_, answer_.cautions);
    return page_.text();
  }

 private:
  [[nodiscard]] base::Spread spread(const study::Figure& figure) const { return {figure.value.value_or(0.0), figure.low, figure.high}; }

  [[nodiscard]] Piece mark(const study::Figure& figure) const {
    const auto found = letters_.find(figure.id);
    if (found == letters_.end()) return {};
    return {std::string(" ") + shape_of(found->second.second) + found->second.first, ink_of(found->second.second)};
  }

  // "Exhaust opens   103.0 deg   102.2 to 103.8"
  void row(const study::Figure& figure, const std::string& label) {
    const NumberAndUnit value = parted(figure.text);
    const std::string range = base::range_text(spread(figure), figure.unit, setting_.style);
    page_.line({{"  " + left(label, label_width), Ink::plain}, {right(value.number, number_width), Ink::bold}, {' ' + left(value.unit, unit_width), Ink::plain},
                {left(range, range_width), Ink::faint}, mark(figure)});
  }

  // Stock, what-if with its range, change.
  void cut_row(const study::Figure& figure) {
    const NumberAndUnit value = parted(figure.text);
    const std::string stock = figure.stock ? parted(base::value_text(*figure.stock, figure.unit, setting_.style)).number : "\u2014";
    const std::string range = base::range_text(spread(figure), figure.unit, setting_.style);
    const bool told_apart = figure.change && figure.change->distinguishable;
    const std::string change = told_apart ? base::change_text({figure.change->value, figure.change->low, figure.change->high}, figure.unit, setting_.style)
                               : figure.change ? "not told apart" : "";
    const std::string unit = value.unit.substr(0, value.unit.find(' '));
    const auto labels = wrap(figure.label + (unit.empty() ? "" : ", " + unit), cut_label_width);
    const Ink ink = told_apart ? Ink::changed : Ink::plain;
    page_.line({{left(labels.front(), cut_label_width), Ink::plain}, {right(stock, stock_width), Ink::faint}, {right(value.number, cut_width), ink},
                {"  " + left(range, range_width - 1), Ink::faint}, {right(change, change_width - 3), ink}, mark(figure)});
    for (std::size_t i = 1; i < labels.size(); ++i) page_.line("  " + labels[i]);
  }

  [[nodiscard]] bool moves(const study::Figure& figure) const {
    if (!figure.change) return figure.value.has_value() != figure.stock.has_value();
    const study::Change& c = *figure.change;
    return c.distinguishable || std::abs(c.value) > 0.0 || c.low.value_or(0.0) != c.high.value_or(0.0);
  }

  void one_group(const Group& group) {
    std::vector<const study::Figure*> rows = members(group, answer_.figures, ports());
    std::erase_if(rows, [&](const study::Figure* figure) { return !figure->value || (with_cuts_ && !moves(*figure)); });
    if (rows.empty()) return;
    heading(group.title);
    for (const study::Figure* figure : rows) with_cuts_ ? cut_row(*figure) : row(*figure, figure->label);
  }

  void heading(std::string title) {
    const std::size_t at = title.find("{rpm}");
    if (at != std::string::npos) title.replace(at, 5, base::value_text({answer_.rpm, {}, {}}, "rpm", setting_.style) + ", " + answer_.rpm_from);
    if (!with_cuts_) return page_.heading(title, shown_++ == 0 ? left("95 % range", range_width + 3) : "");
    const std::string columns_of = right("stock", stock_width) + right("what if", cut_width) + "  " + left("95 % range", range_width - 1) + right("change", change_width - 3);
    page_.heading(title, shown_++ == 0 ? left(columns_of, page_width - cut_label_width) : "");
  }

  void every_figure() {
    page_.heading("Every figure");
    for (const study::Figure& figure : answer_.figures) {
      if (figure.value) with_cuts_ ? cut_row(figure) : row(figure, figure.id);
      else page_.paragraph({"  " + left(with_cuts_ ? figure.label : figure.id, label_width) + ' ', Ink::plain}, "\u2014 waits for " + listed(figure.waits_for), Ink::faint);
    }
  }

  // The figures of the page that are missing, by what they wait for.
  void waiting() {
    std::vector<std::pair<std::string, std::vector<std::string>>> by_reading;
    for (const Group& group : groups())
      for (const study::Figure* figure : members(group, answer_.figures, ports())) {
        if (figure->value || figure->waits_for.empty()) continue;
        const std::string key = listed(figure->waits_for);
        auto found = std::find_if(by_reading.begin(), by_reading.end(), [&](const auto& entry) { return entry.first == key; });
        if (found == by_reading.end()) found = by_reading.insert(found, {key, {}});
        found->second.push_back(figure->label);
      }
    if (by_reading.empty()) return;
    page_.heading("Waits for");
    for (const auto& [reading, labels] : by_reading) {
      std::string sentence;
      for (const std::string& label : labels) sentence += (sentence.empty() ? "" : "; ") + label;
      page_.paragraph({"  \u2014 ", Ink::faint}, reading);
      page_.paragraph({"      ", Ink::plain}, sentence, Ink::faint);
    }
  }

  void about_cuts() {
    std::size_t still = 0;
    for (const study::Figure& figure : answer_.figures) still += figure.value && !moves(figure) ? 1 : 0;
    page_.line();
    if (answer_.metal_mm3) {
      const bool added = *answer_.metal_mm3 < 0.0;
      page_.paragraph({"  ", Ink::plain}, std::string(added ? "Metal put on: " : "Metal taken off: ") + base::value_text({std::abs(*answer_.metal_mm3), {}, {}}, "mm3", setting_.style) + '.');
    }
    if (still > 0 && !setting_.all) page_.paragraph({"  ", Ink::plain}, std::to_string(still) + " other figures stay as they were (--all).", Ink::faint);
    for (const std::string& warning : answer_.warnings) page_.paragraph({"  ! ", Ink::caution}, warning);
  }

  void next() {
    if (answer_.next_reading.empty()) return;
    page_.heading("Read next");
    constexpr std::size_t most = 3;
    for (std::size_t i = 0; i < answer_.next_reading.size() && (setting_.all || i < most); ++i) {
      const study::NextReading& reading = answer_.next_reading[i];
      page_.paragraph({"  ", Ink::plain}, reading.reading + ": " + reading.narrows);
    }
  }

  // The bands, with a mark at those that hold the value.
  void aims() {
    if (answer_.aims.empty()) return;
    constexpr std::size_t band_width = 14;
    page_.heading("Aims", right("stock", band_width) + right("work", band_width) + right("race", band_width));
    for (const wire::Aim& aim : answer_.aims) {
      const auto figure = std::find_if(answer_.figures.begin(), answer_.figures.end(), [&](const auto& f) { return f.id == aim.figure; });
      if (figure == answer_.figures.end() || !figure->value) continue;
      std::vector<Piece> pieces = {{"  " + left(figure->label, page_width - 2 - 3 * band_width), Ink::plain}};
      for (const auto* band : {&aim.stock, &aim.work, &aim.race}) {
        const bool inside = *band && (!(*band)->low || *figure->value >= *(*band)->low) && (!(*band)->high || *figure->value <= *(*band)->high);
        pieces.push_back({right((*band ? (*band)->text : "\u2014") + (inside ? " \u25C2" : "  "), band_width), inside ? Ink::bold : Ink::faint});
      }
      page_.line(pieces);
    }
    page_.line("  \u25C2 holds this saw's value; bands that builders steer for, common practice", Ink::faint);
  }

  [[nodiscard]] const std::vector<wire::Port>& ports() const { return answer_.head.saw->ports; }

  const wire::StudyAnswer& answer_;
  const Setting& setting_;
  Page page_;
  Letters letters_;
  bool with_cuts_;
  int shown_ = 0;
};

}  // namespace

std::string study_text(const wire::StudyAnswer& answer, const Setting& setting) { return StudyPage(answer, setting).text(); }

}  // namespace portwright::cli
