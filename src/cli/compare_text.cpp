#include <algorithm>

#include "cli/groups.hpp"
#include "cli/parts.hpp"

namespace portwright::cli {
namespace {

constexpr std::size_t label_width = 34, value_width = 16, change_width = 14;

void sides(Page& page, const wire::CompareAnswer& answer) {
  const auto side = [&](const char* letter, const wire::Saw& saw, const std::vector<std::string>& cuts) {
    std::string text = saw.name;
    if (!saw.state.empty()) text += ", " + saw.state;
    std::string list;
    for (const std::string& cut : cuts) list += (list.empty() ? "" : "; ") + cut;
    page.paragraph({std::string(letter) + "  ", Ink::bold}, text + (list.empty() ? "" : ": " + list));
  };
  if (!answer.head.saw) return;
  side("A", *answer.head.saw, answer.head.cuts);
  side("B", answer.saw_b ? *answer.saw_b : *answer.head.saw, answer.cuts_b);
}

std::string state_text(const std::optional<study::State>& state) {
  return state ? std::string(shape_of(*state)) + ' ' + word_of(*state) : "\u2014";
}

void rules(Page& page, const wire::CompareAnswer& answer) {
  if (answer.findings.empty()) return;
  page.heading("Findings", left("A", 12) + left("B", 12));
  for (const wire::ComparedFinding& finding : answer.findings) {
    const auto figure = std::find_if(answer.figures.begin(), answer.figures.end(),
                                     [&](const auto& f) { return f.id == finding.figure; });
    const std::string label = figure == answer.figures.end() ? finding.figure : figure->label;
    const auto ink = [](const std::optional<study::State>& state) { return state ? ink_of(*state) : Ink::faint; };
    page.line({{"  " + left(label, page_width - 26), Ink::plain},
               {left(state_text(finding.a), 12), ink(finding.a)},
               {left(state_text(finding.b), 12), ink(finding.b)}});
  }
}

// The rows of a builder's page in its order, or all of them.
std::vector<const study::Compared*> chosen(const wire::CompareAnswer& answer, bool all) {
  std::vector<const study::Compared*> out;
  std::vector<study::Figure> ids;
  std::vector<wire::Port> ports = answer.head.saw ? answer.head.saw->ports : std::vector<wire::Port>();
  if (answer.saw_b) ports.insert(ports.end(), answer.saw_b->ports.begin(), answer.saw_b->ports.end());
  for (const study::Compared& row : answer.figures) {
    if (all) out.push_back(&row);
    ids.emplace_back().id = row.id;
  }
  for (const Group& group : groups())
    for (const study::Figure* figure : all ? std::vector<const study::Figure*>() : members(group, ids, ports))
      out.push_back(&answer.figures[static_cast<std::size_t>(figure - ids.data())]);
  return out;
}

void one_row(Page& page, const study::Compared& row) {
  const auto text = [](const std::string& value) {
    return value.empty() ? std::string("\u2014") : value.substr(0, value.find(" ("));
  };
  const std::string change = !row.a || !row.b ? "" : row.distinguishable ? row.text_change : "not told apart";
  const auto labels = wrap(row.label, label_width - 2);
  page.line({{"  " + left(labels.front(), label_width - 2), Ink::plain},
             {right(text(row.text_a), value_width - 1), Ink::faint},
             {right(text(row.text_b), value_width - 1), Ink::plain},
             {right(change, change_width + 2), row.distinguishable ? Ink::changed : Ink::plain}});
  for (std::size_t i = 1; i < labels.size(); ++i) page.line("    " + labels[i]);
}

}  // namespace

std::string compare_text(const wire::CompareAnswer& answer, const Setting& setting) {
  Page page(setting.coloured);
  sides(page, answer);
  page.rule();
  bad_readings(page, answer.head.errors);
  std::size_t alike = 0, waiting = 0;
  page.heading("What differs",
               right("A", value_width - 3) + right("B", value_width - 1) + right("B less A", change_width + 2));
  for (const study::Compared* row : chosen(answer, setting.all)) {
    if (setting.all || row->distinguishable)
      one_row(page, *row);
    else
      ++(row->a && row->b ? alike : waiting);
  }
  page.line();
  std::string rest = std::to_string(alike) + " others are not told apart";
  if (waiting > 0) rest += ", " + std::to_string(waiting) + " wait for readings";
  if (!setting.all) page.paragraph({"  ", Ink::plain}, rest + "; --all shows every figure.", Ink::faint);
  rules(page, answer);
  cautions(page, answer.cautions);
  return page.text();
}

}  // namespace portwright::cli
