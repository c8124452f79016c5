#include <algorithm>
#include <array>
#include <cmath>

#include "cli/groups.hpp"
#include "cli/parts.hpp"

namespace portwright::cli {
namespace {

// Columns of a row without cuts, and of one with cuts; the last three are the finding's mark.
constexpr std::size_t label_width = 36, number_width = 8, unit_width = 14, range_width = 16;
constexpr std::size_t cut_label_width = 27, stock_width = 8, cut_width = 8, cut_range_width = 16, change_width = 14;

// One study on its way to a page.
class StudyPage {
 public:
  StudyPage(const wire::StudyAnswer& answer, const Setting& setting)
      : answer_(answer),
        setting_(setting),
        page_(setting.coloured),
        letters_(letters_of(answer.findings)),
        with_cuts_(!answer.head.cuts.empty()) {}

  std::string text() {
    head(page_, answer_.head, with_cuts_ ? "what if" : "what it is");
    if (setting_.all)
      every_figure();
    else
      for (const Group& group : groups()) one_group(group);
    if (with_cuts_) about_cuts();
    if (!setting_.all && !with_cuts_) waiting();
    findings(page_, answer_.findings, answer_.figures, setting_.all);
    acceptances();
    next();
    aims();
    assumed(page_, answer_.head.assumed, setting_);
    cautions(page_, answer_.cautions);
    return page_.text();
  }

 private:
  [[nodiscard]] base::Spread spread(const study::Figure& figure) const {
    return {figure.value.value_or(0.0), figure.low, figure.high};
  }

  [[nodiscard]] Piece mark(const study::Figure& figure) const {
    const auto found = letters_.find(figure.id);
    if (found == letters_.end()) return {};
    return {std::string(" ") + shape_of(found->second.second) + found->second.first, ink_of(found->second.second)};
  }

  // Columns by which a text is longer than its own; six at most, so that the column beside it keeps its unit.
  [[nodiscard]] static std::size_t beyond(const std::string& text, std::size_t width) {
    constexpr std::size_t most = 6;
    return std::min(std::max(columns(text), width) - width, most);
  }

  // Further lines of a label that is longer than its column.
  void rest_of(const std::vector<std::string>& labels) {
    for (std::size_t i = 1; i < labels.size(); ++i) page_.line("    " + labels[i]);
  }

  // "Exhaust opens   103.0 deg   102.2 to 103.8"
  void row(const study::Figure& figure, const std::string& label) {
    NumberAndUnit value = parted(figure.text);
    const std::string range = base::range_text(spread(figure), figure.unit, setting_.style);
    const std::size_t over = beyond(range, range_width);  // a long range begins in the unit's column
    if (columns(value.unit) + over >= unit_width) value.unit.erase(std::min(value.unit.find(" ("), value.unit.size()));
    const auto labels = wrap(label, label_width);
    page_.line({{"  " + left(labels.front(), label_width), Ink::plain},
                {right(value.number, number_width), Ink::bold},
                {' ' + left(value.unit, unit_width - over), Ink::plain},
                {left(range, range_width + over), Ink::faint},
                mark(figure)});
    rest_of(labels);
  }

  [[nodiscard]] std::string change_words(const study::Figure& figure) const {
    if (!figure.change) return {};
    if (!figure.change->distinguishable) return moves(figure) ? "not told apart" : "as it was";
    return base::change_text({figure.change->value, figure.change->low, figure.change->high}, figure.unit,
                             setting_.style);
  }

  // Stock, what-if with its range, change.
  void cut_row(const study::Figure& figure) {
    const NumberAndUnit value = parted(figure.text);
    const std::string stock =
        figure.stock ? parted(base::value_text(*figure.stock, figure.unit, setting_.style)).number : "\u2014";
    const std::string range = base::range_text(spread(figure), figure.unit, setting_.style);
    const std::string unit = value.unit.substr(0, value.unit.find(" ("));
    const std::size_t over = beyond(range, cut_range_width);  // a long range takes from the label
    const auto labels = wrap(figure.label + (unit.empty() ? "" : ", " + unit), cut_label_width - over);
    const Ink ink = figure.change && figure.change->distinguishable ? Ink::changed : Ink::plain;
    page_.line({{"  " + left(labels.front(), cut_label_width - over), Ink::plain},
                {right(stock, stock_width), Ink::faint},
                {right(value.number, cut_width), ink},
                {"  " + left(range, cut_range_width + over), Ink::faint},
                {right(change_words(figure), change_width), ink},
                mark(figure)});
    rest_of(labels);
  }

  [[nodiscard]] bool moves(const study::Figure& figure) const {
    if (!figure.change) return figure.value.has_value() != figure.stock.has_value();
    const study::Change& c = *figure.change;
    return c.distinguishable || std::abs(c.value) > 0.0 || c.low.value_or(0.0) != c.high.value_or(0.0);
  }

  // Nothing added, nothing staggered: no line of a page.
  [[nodiscard]] static bool is_idle(const study::Figure& figure) {
    const bool may_be_idle =
        figure.id.rfind("ignition.", 0) == 0 || figure.id == "timing.stagger" || figure.id == "skirt.free_port_area";
    return may_be_idle && figure.value == 0.0 && figure.low == figure.high;
  }

  void one_group(const Group& group) {
    std::vector<const study::Figure*> rows = members(group, answer_.figures, ports());
    std::erase_if(rows, [&](const study::Figure* figure) {
      return !figure->value || is_idle(*figure) || (with_cuts_ && !moves(*figure));
    });
    if (rows.empty()) return;
    heading(group.title);
    for (const study::Figure* figure : rows) with_cuts_ ? cut_row(*figure) : row(*figure, figure->label);
  }

  void heading(std::string title) {
    const std::size_t at = title.find("{rpm}");
    if (at != std::string::npos)
      title.replace(at, 5, base::value_text({answer_.rpm, {}, {}}, "rpm", setting_.style) + ", " + answer_.rpm_from);
    if (!with_cuts_) return page_.heading(title, shown_++ == 0 ? left("95 % range", range_width + 3) : "");
    const std::string columns_of = right("stock", stock_width) + right("what if", cut_width) + "  " +
                                   left("95 % range", cut_range_width) + right("change", change_width);
    page_.heading(title, shown_++ == 0 ? left(columns_of, page_width - 2 - cut_label_width) : "");
  }

  void every_figure() {
    page_.heading("Every figure");
    for (const study::Figure& figure : answer_.figures) {
      if (figure.value)
        with_cuts_ ? cut_row(figure) : row(figure, figure.id);
      else
        page_.paragraph({"  " + left(with_cuts_ ? figure.label : figure.id, label_width) + ' ', Ink::plain},
                        "\u2014 waits for " + listed(figure.waits_for), Ink::faint);
    }
  }

  // The figures of the page that are missing, by what they wait for.
  void waiting() {
    std::vector<std::pair<std::string, std::vector<std::string>>> by_reading;
    for (const Group& group : groups())
      for (const study::Figure* figure : members(group, answer_.figures, ports())) {
        if (figure->value || figure->waits_for.empty()) continue;
        const std::string key = listed(figure->waits_for);
        auto found =
            std::find_if(by_reading.begin(), by_reading.end(), [&](const auto& entry) { return entry.first == key; });
        if (found == by_reading.end()) found = by_reading.insert(found, {key, {}});
        found->second.push_back(figure->label);
      }
    if (by_reading.empty()) return;
    page_.heading("Waits for");
    for (const auto& [reading, labels] : by_reading) {
      std::string sentence = reading + ": ";
      for (const std::string& label : labels) sentence += label + (&label == &labels.back() ? "" : "; ");
      page_.paragraph({"  \u2014 ", Ink::faint}, sentence);
    }
  }

  void about_cuts() {
    std::size_t still = 0;
    for (const study::Figure& figure : answer_.figures) still += figure.value && !moves(figure) ? 1 : 0;
    page_.line();
    if (answer_.metal_mm3) {
      const bool added = *answer_.metal_mm3 < 0.0;
      page_.paragraph({"  ", Ink::plain},
                      std::string(added ? "Metal put on: " : "Metal taken off: ") +
                          base::value_text({std::abs(*answer_.metal_mm3), {}, {}}, "mm3", setting_.style) + '.');
    }
    if (still > 0 && !setting_.all)
      page_.paragraph({"  ", Ink::plain},
                      std::to_string(still) + " other figures stay as they were (--all shows them).", Ink::faint);
    for (const std::string& warning : answer_.warnings) page_.paragraph({"  ! ", Ink::caution}, warning);
  }

  // Findings of the book that were accepted, and those whose value has changed since.
  void acceptances() {
    if (answer_.acceptances.empty()) return;
    page_.heading("Accepted in the book");
    for (const wire::Acceptance& one : answer_.acceptances) {
      const auto figure = std::find_if(answer_.figures.begin(), answer_.figures.end(),
                                       [&](const auto& f) { return f.id == one.figure; });
      const std::string label = figure == answer_.figures.end() ? one.figure : figure->label;
      std::string text = label + " at " + one.text + (one.cuts.empty() ? "" : " with " + one.cuts) + ": " + one.reason +
                         " (" + one.who + ", " + one.when.substr(0, 10) + ").";
      if (one.stale) {
        const bool there = figure != answer_.figures.end() && figure->value;
        text += " Stale: " + (there ? "it is " + figure->text + " now." : std::string("it is not there now."));
      }
      page_.paragraph({one.stale ? "  ! " : "  \u2713 ", one.stale ? Ink::caution : Ink::plain}, text);
    }
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
    constexpr std::array<std::size_t, 3> widths = {16, 16, 16};
    constexpr std::size_t rest = page_width - 3 * 16 - 2;
    page_.heading("Aims", right("stock  ", widths[0]) + right("work  ", widths[1]) + right("race  ", widths[2]));
    for (const wire::Aim& aim : answer_.aims) {
      const auto figure = std::find_if(answer_.figures.begin(), answer_.figures.end(),
                                       [&](const auto& f) { return f.id == aim.figure; });
      if (figure == answer_.figures.end() || !figure->value || is_idle(*figure) ||
          aim.figure == "group.transfer.first_opens")
        continue;
      const auto labels = wrap(figure->label, rest);
      std::vector<Piece> pieces = {{"  " + left(labels.front(), rest), Ink::plain}};
      const std::array bands = {&aim.stock, &aim.work, &aim.race};
      for (std::size_t i = 0; i < bands.size(); ++i) {
        const std::optional<wire::Band>& band = *bands[i];
        const bool inside =
            band && (!band->low || *figure->value >= *band->low) && (!band->high || *figure->value <= *band->high);
        pieces.push_back({right((band ? band->text : "\u2014") + (inside ? " \u25C2" : "  "), widths[i]),
                          inside ? Ink::bold : Ink::faint});
      }
      page_.line(pieces);
      rest_of(labels);
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

std::string study_text(const wire::StudyAnswer& answer, const Setting& setting) {
  return StudyPage(answer, setting).text();
}

}  // namespace portwright::cli
