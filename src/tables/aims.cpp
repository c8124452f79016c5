#include "tables/aims.hpp"

#include <vector>

#include "tables/document.hpp"
#include "tables/pattern.hpp"

namespace portwright::tables {
namespace {

// "work" closed, or "work_from" and "work_to" alone where the band is open.
std::optional<Band> read_band(const Row& row, const std::string& use) {
  const auto closed = row.optional_pair(use);
  const auto from = row.optional_number(use + "_from");
  const auto to = row.optional_number(use + "_to");
  if (closed && (from || to)) row.broken(use + " is given twice");
  if (closed) return Band{closed->first, closed->second};
  if (from || to) return Band{from, to};
  return std::nullopt;
}

AimRow read_aim(const Row& row) {
  AimRow out;
  out.figure = row.text("figure");
  out.unit = row.text("unit");
  out.when = row.has("when") ? row.word("when", {"no bridge", "bridged", "skirt intake"}) : "";
  out.stock = read_band(row, "stock");
  out.work = read_band(row, "work");
  out.race = read_band(row, "race");
  out.item = row.text("item");
  out.source = row.text("source");
  row.done();
  if (!out.stock && !out.work && !out.race) row.broken("an aim without a band");
  return out;
}

std::vector<AimRow> read_aims() {
  std::vector<AimRow> out;
  for (const Row& row : rows("aims.toml", "aim", {"aim"})) out.push_back(read_aim(row));
  return out;
}

}  // namespace

const std::optional<Band>& AimRow::of_use(std::string_view use) const {
  static const std::optional<Band> none;
  if (use == "stock") return stock;
  if (use == "work") return work;
  if (use == "race") return race;
  return none;
}

std::span<const AimRow> aims() {
  static const std::vector<AimRow> table = read_aims();
  return table;
}

const AimRow* aim(std::string_view figure, std::string_view kind, std::string_view condition) {
  for (const AimRow& row : aims())
    if (matches(row.figure, figure, kind) && (row.when.empty() || row.when == condition)) return &row;
  return nullptr;
}

}  // namespace portwright::tables
