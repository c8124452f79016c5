#include "tables/assumptions.hpp"

#include <limits>
#include <stdexcept>
#include <vector>

#include "tables/document.hpp"

namespace portwright::tables {
namespace {

AssumptionRow read_assumption(const Row& row) {
  constexpr double infinity = std::numeric_limits<double>::infinity();
  AssumptionRow out;
  out.name = row.text("name");
  out.dimension = row.dimension("kind");
  out.value = row.quantity("value", out.dimension);
  out.sigma = row.quantity("sigma", out.dimension);
  out.least = row.has("least") ? row.quantity("least", out.dimension) : -infinity;
  out.greatest = row.has("greatest") ? row.quantity("greatest", out.dimension) : infinity;
  out.unit = row.text("unit");
  out.sentence = row.text("sentence");
  out.source = row.text("source");
  row.done();
  if (!(out.sigma > 0.0)) row.broken("an assumption without a range");
  if (!(out.least <= out.value && out.value <= out.greatest)) row.broken("a value outside its own ends");
  return out;
}

std::vector<AssumptionRow> read_assumptions() {
  std::vector<AssumptionRow> out;
  for (const Row& row : rows("assumptions.toml", "assumption", {"assumption"})) {
    out.push_back(read_assumption(row));
    for (std::size_t i = 0; i + 1 < out.size(); ++i)
      if (out[i].name == out.back().name) row.broken("a second " + out.back().name);
  }
  return out;
}

}  // namespace

std::span<const AssumptionRow> assumptions() {
  static const std::vector<AssumptionRow> table = read_assumptions();
  return table;
}

const AssumptionRow& assumption(std::string_view name) {
  for (const AssumptionRow& row : assumptions())
    if (row.name == name) return row;
  throw std::logic_error("no assumption " + std::string(name));
}

}  // namespace portwright::tables
