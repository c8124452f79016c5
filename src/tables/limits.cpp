#include "tables/limits.hpp"

#include "tables/document.hpp"
#include "tables/pattern.hpp"

namespace portwright::tables {
namespace {

Side read_side(const Row& row) {
  const std::string word = row.word("side", {"at least", "at most", "is"});
  return word == "at least" ? Side::at_least : word == "at most" ? Side::at_most : Side::is;
}

When read_when(const Row& row) {
  if (!row.has("when")) return When::always;
  const std::string word = row.word("when", {"no bridge", "bridged", "skirt intake"});
  return word == "no bridge" ? When::no_bridge : word == "bridged" ? When::bridged : When::skirt_intake;
}

// From note over caution to stop the thresholds that are there must grow worse.
bool in_order(const LimitRow& limit) {
  std::optional<double> last;
  for (const std::optional<double>& step : {limit.note, limit.caution, limit.stop}) {
    if (!step) continue;
    const bool worse =
        !last || (limit.side == Side::at_least ? *step < *last : limit.side == Side::at_most && *step > *last);
    if (!worse) return false;
    last = step;
  }
  return true;
}

LimitRow read_limit(const Row& row) {
  LimitRow out;
  out.rule = row.text("rule");
  out.figure = row.text("figure");
  out.side = read_side(row);
  out.when = read_when(row);
  out.note = row.optional_number("note");
  out.caution = row.optional_number("caution");
  out.stop = row.optional_number("stop");
  out.hard = row.flag_or("hard", false);
  out.unit = row.text("unit");
  out.why = row.text("why");
  out.fix = row.text("fix");
  out.source = row.text("source");
  row.done();
  if (!in_order(out)) row.broken("thresholds out of order");
  if (out.hard && !out.stop) row.broken("hard without a stop");
  return out;
}

std::vector<LimitRow> read_limits() {
  std::vector<LimitRow> out;
  for (const Row& row : rows("limits/limits.toml", "limit", {"limit"})) {
    out.push_back(read_limit(row));
    for (std::size_t i = 0; i + 1 < out.size(); ++i)
      if (out[i].rule == out.back().rule) row.broken("a second rule " + out.back().rule);
  }
  return out;
}

}  // namespace

std::span<const LimitRow> limits() {
  static const std::vector<LimitRow> table = read_limits();
  return table;
}

const LimitRow* limit(std::string_view rule) {
  for (const LimitRow& row : limits())
    if (row.rule == rule) return &row;
  return nullptr;
}

std::vector<const LimitRow*> limits_of(std::string_view figure, std::string_view kind) {
  std::vector<const LimitRow*> out;
  for (const LimitRow& row : limits())
    if (matches(row.figure, figure, kind)) out.push_back(&row);
  return out;
}

const char* side_name(Side side) {
  switch (side) {
    case Side::at_least:
      return "at least";
    case Side::at_most:
      return "at most";
    case Side::is:
      return "is";
  }
  return "";
}

const char* when_name(When when) {
  switch (when) {
    case When::always:
      return "";
    case When::no_bridge:
      return "no bridge";
    case When::bridged:
      return "bridged";
    case When::skirt_intake:
      return "skirt intake";
  }
  return "";
}

}  // namespace portwright::tables
