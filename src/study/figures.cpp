#include "study/figures.hpp"

#include <array>
#include <cmath>

#include "base/number_text.hpp"

namespace portwright::study {

namespace {

using geometry::PortKind;

constexpr std::array kinds{PortKind::exhaust, PortKind::transfer, PortKind::boost, PortKind::intake, PortKind::air};

std::string replaced(std::string text, std::string_view mark, std::string_view by) {
  for (std::size_t at = text.find(mark); at != std::string::npos; at = text.find(mark, at + by.size()))
    text.replace(at, mark.size(), by);
  return text;
}

bool has_twin(const geometry::Survey& survey, std::size_t i) {
  for (const geometry::PortSlots& port : survey.ports)
    if (port.twin_of == static_cast<int>(i)) return true;
  return false;
}

Entry port_entry(const FigureRow& row, const geometry::Survey& survey, std::size_t i) {
  const geometry::PortSlots& port = survey.ports[i];
  Entry entry{&row, i, {}, replaced(row.id, "{}", port.name), port.name, kind_name(port.kind), port.count};
  entry.id = port.twin_of < 0 ? entry.match : replaced(row.id, "{}", port.name + ".twin");
  if (port.twin_of >= 0)
    entry.name += ", other side";
  else if (has_twin(survey, i))
    entry.name += ", first side";
  return entry;
}

Entry named_entry(const FigureRow& row, std::size_t i, const std::string& name, int count) {
  const std::string id = replaced(row.id, "{}", name);
  return {&row, i, id, id, name, {}, count};
}

int windows_of(const geometry::Survey& survey, PortKind kind) {
  int count = 0;
  for (const geometry::PortSlots& port : survey.ports)
    if (port.kind == kind) count += port.count;
  return count;
}

void group_entries(std::span<const FigureRow> rows, const geometry::Survey& survey, std::vector<Entry>& out) {
  for (const PortKind kind : kinds) {
    const int windows = windows_of(survey, kind);
    const bool every_saw = kind == PortKind::exhaust || kind == PortKind::transfer;
    if (windows == 0 && !every_saw) continue;
    for (const FigureRow& row : rows)
      out.push_back(named_entry(row, static_cast<std::size_t>(kind), kind_name(kind), windows));
  }
}

}  // namespace

const char* kind_name(PortKind kind) {
  switch (kind) {
    case PortKind::exhaust:
      return "exhaust";
    case PortKind::transfer:
      return "transfer";
    case PortKind::boost:
      return "boost";
    case PortKind::intake:
      return "intake";
    case PortKind::air:
      return "air";
  }
  return "";
}

std::vector<Entry> entries(const geometry::Survey& survey) {
  std::vector<Entry> out;
  const auto present = [&](const FigureRow& row, std::size_t i) {
    return row.present == nullptr || row.present(survey, i);
  };
  const std::span<const FigureRow> rows = figure_rows();
  for (auto row = rows.begin(); row != rows.end();) {
    // Rows that stand together and are repeated over the same things are told thing by thing: one port after another.
    auto end = row;
    while (end != rows.end() && end->over == row->over) ++end;
    if (row->over == Over::once && present(*row, 0)) out.push_back(named_entry(*row, 0, {}, 1));
    if (row->over == Over::groups) group_entries({row, end}, survey, out);
    for (std::size_t i = 0; row->over == Over::ports && i < survey.ports.size(); ++i)
      for (auto one = row; one != end; ++one)
        if (present(*one, i)) out.push_back(port_entry(*one, survey, i));
    for (std::size_t k = 0; row->over == Over::rings && k < survey.rings.size(); ++k)
      for (auto one = row; one != end; ++one)
        if (present(*one, k)) out.push_back(named_entry(*one, k, std::to_string(k + 1), 1));
    row = row->over == Over::once ? row + 1 : end;
  }
  return out;
}

std::string filled(std::string_view text, std::string_view name, double speed) {
  const std::string rpm = base::number_text(std::round(speed * 60.0), 0) + " rpm";
  return replaced(replaced(std::string(text), "{rpm}", rpm), "{}", name);
}

}  // namespace portwright::study
