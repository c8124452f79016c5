#include "tables/run_rows.hpp"

#include <numbers>
#include <vector>

#include "tables/document.hpp"

namespace portwright::tables {
namespace {

struct Unit {
  const char* name;
  double per_unit, zero;
};
constexpr Unit units[] = {
    {"-", 1.0, 0.0},    {"K", 1.0, 0.0},     {"C", 1.0, 273.15},    {"deg", std::numbers::pi / 180.0, 0.0},
    {"m", 1.0, 0.0},    {"mm", 1e-3, 0.0},   {"mm2", 1e-6, 0.0},    {"m2", 1.0, 0.0},
    {"cm3", 1e-6, 0.0}, {"bar", 1e5, 0.0},   {"bar s/m", 1e5, 0.0}, {"kPa", 1e3, 0.0},
    {"GPa", 1e9, 0.0},  {"kg/m3", 1.0, 0.0}, {"W/m2K", 1.0, 0.0},   {"W/mK", 1.0, 0.0},
    {"W/K", 1.0, 0.0},  {"J/K", 1.0, 0.0},   {"m/s", 1.0, 0.0},     {"1e-6/K", 1e-6, 0.0}};

RunRow read_row(const Row& row) {
  RunRow out;
  out.name = row.text("name");
  out.unit = row.text("unit");
  const Unit* unit = nullptr;
  for (const Unit& u : units)
    if (out.unit == u.name) unit = &u;
  if (unit == nullptr) row.broken("a unit that is not known: " + out.unit);
  out.per_unit = unit->per_unit;
  out.zero = unit->zero;
  const auto si = [&](const char* key) { return unit->zero + unit->per_unit * row.number(key); };
  out.value = si("value");
  out.low = si("low");
  out.high = si("high");
  out.sentence = row.text("sentence");
  out.source = row.text("source");
  row.done();
  if (!(out.low < out.high)) row.broken("an assumption without a range");
  if (!(out.low <= out.value && out.value <= out.high)) row.broken("a value outside its own range");
  return out;
}

std::vector<RunRow> read_rows(const char* file, const char* table) {
  std::vector<RunRow> out;
  for (const Row& row : rows(file, table, {table})) {
    out.push_back(read_row(row));
    for (std::size_t i = 0; i + 1 < out.size(); ++i)
      if (out[i].name == out.back().name) row.broken("a second " + out.back().name);
  }
  return out;
}

}  // namespace

std::span<const RunRow> run_rows() {
  static const std::vector<RunRow> table = read_rows("run_assumptions.toml", "run");
  return table;
}

std::span<const RunRow> heat_rows() {
  static const std::vector<RunRow> table = read_rows("heat_assumptions.toml", "heat");
  return table;
}

}  // namespace portwright::tables
