#include "cli/parts.hpp"

#include <algorithm>

namespace portwright::cli {
namespace {

std::string joined(const std::vector<std::string>& words, const char* between) {
  std::string out;
  for (const std::string& word : words)
    if (!word.empty()) out += (out.empty() ? "" : between) + word;
  return out;
}

std::string letter(std::size_t index) {
  std::string out(1, static_cast<char>('A' + index % 26));
  return index < 26 ? out : out + std::to_string(index / 26);
}

// The mark stands on the first line only, the letter beside it.
void one_finding(Page& page, const study::Finding& finding, const std::string& name) {
  const std::string lead = std::string("  ") + shape_of(finding.state) + ' ' + left(name, 3);
  std::string text = std::string(word_of(finding.state)) + ". " + finding.text;
  if (finding.accepted) text = "Accepted. " + text;
  page.paragraph({lead, ink_of(finding.state)}, text);
  if (!finding.fix.empty() && finding.state >= study::State::caution)
    page.paragraph({"       Mend: ", Ink::faint}, finding.fix, Ink::faint);
}

}  // namespace

NumberAndUnit parted(const std::string& text) {
  const std::size_t blank = text.find(' ');
  if (blank == std::string::npos) return {text, {}};
  return {text.substr(0, blank), text.substr(blank + 1)};
}

std::string listed(const std::vector<std::string>& words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i)
    out += (i == 0 ? "" : i + 1 == words.size() ? " and " : ", ") + words[i];
  return out;
}

void bad_readings(Page& page, const base::Errors& errors) {
  if (errors.empty()) return;
  page.heading("Readings that do not fit", "the rest stands");
  for (const base::Error& error : errors) {
    page.paragraph({"  \u2715 ", Ink::stop}, (error.path.empty() ? "" : error.path + ": ") + error.message);
    for (const std::string& reading : error.readings) page.paragraph({"      ", Ink::plain}, reading);
    if (!error.hint.empty()) page.paragraph({"    ", Ink::plain}, error.hint, Ink::faint);
  }
}

void head(Page& page, const wire::Head& head, std::string_view what) {
  if (head.saw) {
    const std::string aside = joined({head.saw->model, head.saw->casting, head.saw->state}, " \u00B7 ");
    const std::size_t room = page_width - std::min<std::size_t>(columns(what) + 2, page_width);
    const std::string name = left(safe(head.saw->name), std::min(room, columns(safe(head.saw->name))));
    const std::size_t rest = room - columns(name);
    page.line({{name, Ink::bold},
               {left("   " + safe(aside), rest), Ink::faint},
               {right(what, page_width - room), Ink::faint}});
  }
  if (head.saw && !head.saw->use.empty()) page.line("aims at a " + head.saw->use + " saw", Ink::faint);
  for (std::size_t i = 0; i < head.cuts.size(); ++i)
    page.paragraph({right(std::to_string(i + 1), 3) + "  ", Ink::changed}, head.cuts[i], Ink::changed);
  page.rule();
  bad_readings(page, head.errors);
}

const char* shape_of(study::State state) {
  constexpr const char* shapes[] = {"\u2713", "\u25CB", "\u25B3", "\u2B22"};
  return shapes[static_cast<std::size_t>(state)];
}

const char* word_of(study::State state) {
  constexpr const char* words[] = {"Held", "Note", "Caution", "Stop"};
  return words[static_cast<std::size_t>(state)];
}

Ink ink_of(study::State state) {
  constexpr Ink inks[] = {Ink::plain, Ink::plain, Ink::caution, Ink::stop};
  return inks[static_cast<std::size_t>(state)];
}

Letters letters_of(const std::vector<study::Finding>& findings) {
  Letters letters;
  std::size_t index = 0;
  for (const study::Finding& finding : findings) {
    if (finding.state == study::State::ok || letters.count(finding.figure) > 0) continue;
    letters.emplace(finding.figure, std::pair{letter(index++), finding.state});
  }
  return letters;
}

void findings(Page& page, const std::vector<study::Finding>& all, const std::vector<study::Figure>& figures,
              bool with_held) {
  const auto passed = std::count_if(all.begin(), all.end(),
                                    [](const auto& f) { return f.state >= study::State::caution && !f.accepted; });
  if (all.empty()) return;
  page.heading("Findings", passed == 0 ? "none to stop for" : "worst first");
  const Letters letters = letters_of(all);
  std::vector<std::string> held;
  for (const study::Finding& finding : all) {
    const auto figure =
        std::find_if(figures.begin(), figures.end(), [&](const auto& f) { return f.id == finding.figure; });
    if (finding.state != study::State::ok)
      one_finding(page, finding, letters.at(finding.figure).first);
    else if (with_held)
      page.paragraph({"  \u2713    ", Ink::plain}, finding.text);
    else if (const std::string name = figure == figures.end() ? finding.figure : figure->label;
             std::find(held.begin(), held.end(), name) == held.end())
      held.push_back(name);
  }
  std::string sentence;
  for (const std::string& name : held) sentence += (sentence.empty() ? "" : "; ") + name;
  if (!held.empty()) page.paragraph({"  \u2713    ", Ink::plain}, "Held: " + sentence + '.', Ink::faint);
}

void assumed(Page& page, const std::vector<study::Assumed>& all, const Setting& setting) {
  if (all.empty()) return;
  page.line();
  if (!setting.all) {
    std::vector<std::string> names;
    for (const study::Assumed& item : all) {
      std::string name = item.name.substr(0, item.name.find('.'));
      std::replace(name.begin(), name.end(), '_', ' ');
      if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
    }
    return page.paragraph({"Assumed, not read: ", Ink::bold}, listed(names) + " (--all shows values).", Ink::faint);
  }
  page.line("Assumed", Ink::bold);
  for (const study::Assumed& item : all) {
    const base::Spread spread{item.value, item.low, item.high};
    page.line({{"  " + left(item.name, 36), Ink::plain},
               {left(base::value_text(spread, item.unit, setting.style), 20), Ink::plain},
               {left(base::range_text(spread, item.unit, setting.style), 22), Ink::faint}});
  }
}

void assumed_running(Page& page, const std::vector<study::Assumed>& all, const Setting& setting) {
  constexpr std::string_view stands_for = " (for ";
  std::vector<std::string> readings;
  std::size_t others = 0;
  for (const study::Assumed& item : all) {
    const std::size_t at = item.name.find(stands_for);
    if (at == std::string::npos)
      ++others;
    else
      readings.push_back(item.name.substr(at + stands_for.size(), item.name.size() - at - stands_for.size() - 1));
  }
  if (setting.all) return assumed(page, all, setting);
  page.line();
  if (!readings.empty()) page.paragraph({"Not read, the usual taken: ", Ink::bold}, listed(readings) + '.', Ink::faint);
  if (others > 0)
    page.paragraph({"Assumed of every engine: ", Ink::bold},
                   std::to_string(others) + " values, the same for all (--all shows them).", Ink::faint);
}

void stopped(Page& page, bool is) {
  if (is) page.paragraph({"  ! ", Ink::caution}, "Stopped: here is what was ready.", Ink::caution);
}

void cautions(Page& page, const std::vector<std::string>& all) {
  if (all.empty()) return;
  page.line();
  page.rule();
  std::string paragraph;
  for (const std::string& caution : all) paragraph += (paragraph.empty() ? "" : " ") + caution;
  page.paragraph({}, paragraph, Ink::faint);
}

}  // namespace portwright::cli
