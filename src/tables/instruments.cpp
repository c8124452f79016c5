#include "tables/instruments.hpp"

#include <algorithm>

#include "tables/document.hpp"
#include "tables/pattern.hpp"

namespace portwright::tables {
namespace {

constexpr const char* file = "instruments.toml";
const std::vector<std::string> names = {"instrument", "usual"};

// Zero when the key is missing.
double quantity_or_none(const Row& row, const char* key, base::Dimension dimension) {
  return row.has(key) ? row.quantity(key, dimension) : 0.0;
}

InstrumentRow read_instrument(const Row& row) {
  InstrumentRow out;
  out.name = row.text("name");
  if (plain_word(out.name) != out.name) row.broken("a name in capitals or with outer blanks");
  out.fields = row.texts("fields");
  out.dimension = row.dimension("kind");
  out.sigma = quantity_or_none(row, "sigma", out.dimension);
  out.sigma_share = row.has("sigma_share") ? row.quantity("sigma_share", base::Dimension::share) : 0.0;
  out.shares = row.text_or("shares", "");
  out.shared_sigma = quantity_or_none(row, "shared_sigma", out.dimension);
  out.note = row.text_or("note", "");
  out.source = row.text("source");
  row.done();
  if (out.sigma < 0.0 || out.sigma_share < 0.0 || out.sigma + out.sigma_share <= 0.0)
    row.broken("an instrument without an error");
  if (out.shares.empty() != (out.shared_sigma == 0.0) || out.shared_sigma < 0.0)
    row.broken("shares and shared_sigma go together");
  return out;
}

std::vector<InstrumentRow> read_instruments() {
  std::vector<InstrumentRow> out;
  for (const Row& row : rows(file, "instrument", names)) out.push_back(read_instrument(row));
  return out;
}

std::vector<UsualRow> read_usual() {
  std::vector<UsualRow> out;
  for (const Row& row : rows(file, "usual", names)) {
    const std::string name = row.text("instrument");
    if (!instrument_known(name)) row.broken("no instrument " + name);
    for (const std::string& field : row.texts("fields")) out.push_back({field, name});
    row.done();
  }
  return out;
}

bool reads(const InstrumentRow& row, base::Dimension dimension, std::string_view path, std::string_view kind) {
  if (row.dimension != dimension) return false;
  if (row.fields.empty()) return true;
  return std::any_of(row.fields.begin(), row.fields.end(),
                     [&](const std::string& pattern) { return matches(pattern, path, kind); });
}

}  // namespace

std::span<const InstrumentRow> instruments() {
  static const std::vector<InstrumentRow> table = read_instruments();
  return table;
}

std::span<const UsualRow> usual_instruments() {
  static const std::vector<UsualRow> table = read_usual();
  return table;
}

const InstrumentRow* instrument(std::string_view name, base::Dimension dimension, std::string_view path,
                                std::string_view kind) {
  const std::string wanted = plain_word(name);
  for (const InstrumentRow& row : instruments())
    if (row.name == wanted && reads(row, dimension, path, kind)) return &row;
  return nullptr;
}

bool instrument_known(std::string_view name) {
  const std::string wanted = plain_word(name);
  for (const InstrumentRow& row : instruments())
    if (row.name == wanted) return true;
  return false;
}

const InstrumentRow* usual_instrument(std::string_view path, base::Dimension dimension, std::string_view kind) {
  for (const UsualRow& row : usual_instruments())
    if (matches(row.field, path, kind)) return instrument(row.instrument, dimension, path, kind);
  return nullptr;
}

std::vector<std::string> instrument_names(base::Dimension dimension, std::string_view path, std::string_view kind) {
  std::vector<std::string> out;
  for (const InstrumentRow& row : instruments())
    if (reads(row, dimension, path, kind) && std::find(out.begin(), out.end(), row.name) == out.end())
      out.push_back(row.name);
  return out;
}

}  // namespace portwright::tables
