#include "tables/materials.hpp"

#include "tables/document.hpp"

namespace portwright::tables {
namespace {

MaterialRow read_material(const Row& row) {
  constexpr double giga = 1e9;
  MaterialRow out;
  out.names = row.texts("names");
  if (out.names.empty()) row.broken("a material without a name");
  out.name = out.names.front();
  out.modulus = giga * row.number("modulus_GPa");
  out.sigma = giga * row.number("sigma_GPa");
  out.least = giga * row.number("least_GPa");
  out.greatest = giga * row.number("greatest_GPa");
  out.density = row.number("density");
  out.note = row.text_or("note", "");
  out.source = row.text("source");
  row.done();
  if (!(out.sigma > 0.0)) row.broken("a material without a range");
  if (!(0.0 < out.least && out.least < out.modulus && out.modulus < out.greatest))
    row.broken("a modulus outside its own ends");
  if (!(out.density > 0.0)) row.broken("a material without a density");
  return out;
}

std::vector<MaterialRow> read_materials() {
  std::vector<MaterialRow> out;
  for (const Row& row : rows("materials.toml", "reed", {"reed"})) {
    out.push_back(read_material(row));
    for (std::size_t i = 0; i + 1 < out.size(); ++i)
      if (out[i].name == out.back().name) row.broken("a second " + out.back().name);
  }
  return out;
}

}  // namespace

std::span<const MaterialRow> materials() {
  static const std::vector<MaterialRow> table = read_materials();
  return table;
}

const MaterialRow* material(std::string_view word) {
  const std::string plain = plain_word(word);
  for (const MaterialRow& row : materials())
    for (const std::string& name : row.names)
      if (plain_word(name) == plain) return &row;
  return nullptr;
}

}  // namespace portwright::tables
