#include "tables/box.hpp"

#include <vector>

#include "tables/document.hpp"
#include "tables/pattern.hpp"

namespace portwright::tables {
namespace {

// A row of the file bounds one field or several alike.
void read_row(const Row& row, std::vector<BoxRow>& out) {
  BoxRow one;
  one.of = row.text_or("of", "");
  one.dimension = row.dimension("kind");
  const base::Dimension bounds = one.of.empty() ? one.dimension : base::Dimension::count;
  one.least = row.quantity("least", bounds);
  one.greatest = row.quantity("greatest", bounds);
  one.least_text = row.text("least");
  one.greatest_text = row.text("greatest");
  one.source = row.text_or("source", "own judgement");
  const std::vector<std::string> fields = row.texts("fields");
  row.done();
  if (fields.empty()) row.broken("bounds no field");
  if (!(one.least < one.greatest)) row.broken("least is not under greatest");
  for (const std::string& field : fields) {
    one.field = field;
    out.push_back(one);
  }
}

std::vector<BoxRow> read_box() {
  std::vector<BoxRow> out;
  for (const Row& row : rows("limits/box.toml", "box", {"box"})) read_row(row, out);
  return out;
}

const BoxRow* find(std::string_view path, std::string_view kind, bool ratio) {
  for (const BoxRow& row : box())
    if (row.of.empty() != ratio && matches(row.field, path, kind)) return &row;
  return nullptr;
}

}  // namespace

std::span<const BoxRow> box() {
  static const std::vector<BoxRow> table = read_box();
  return table;
}

const BoxRow* box_of(std::string_view path, std::string_view kind) { return find(path, kind, false); }

const BoxRow* box_ratio_of(std::string_view path, std::string_view kind) { return find(path, kind, true); }

}  // namespace portwright::tables
