#pragma once
// The embedded tables as rows of named texts and numbers. Inside the module only: the rest of the house sees the typed
// rows. A table that cannot be read is a broken build, so everything here throws std::logic_error, with the table and
// the row.

#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "base/quantity.hpp"

namespace portwright::tables {

/// Text of a file of data/ as it was when the program was built; empty for a name that was not embedded.
[[nodiscard]] std::string_view embedded(std::string_view name);

/// One row of an embedded table. Every key must be asked for: `done` throws for one that was not (a typing error).
class Row {
 public:
  using Value = std::variant<std::string, double, bool, std::vector<std::string>, std::vector<double>>;

  Row(std::string where, std::map<std::string, Value> values) : where_(std::move(where)), values_(std::move(values)) {}

  [[nodiscard]] bool has(const std::string& key) const { return values_.contains(key); }
  /// A text that must be there and not be empty.
  [[nodiscard]] std::string text(const std::string& key) const;
  [[nodiscard]] std::string text_or(const std::string& key, std::string other) const;
  [[nodiscard]] double number(const std::string& key) const;
  [[nodiscard]] std::optional<double> optional_number(const std::string& key) const;
  [[nodiscard]] bool flag_or(const std::string& key, bool other) const;
  [[nodiscard]] std::vector<std::string> texts(const std::string& key) const;
  [[nodiscard]] std::vector<double> numbers(const std::string& key) const;
  /// Two numbers in rising order, when the key is there.
  [[nodiscard]] std::optional<std::pair<double, double>> optional_pair(const std::string& key) const;
  /// A typed quantity of the kind, in SI: "0.05 mm".
  [[nodiscard]] double quantity(const std::string& key, base::Dimension dimension) const;
  /// One of the words.
  [[nodiscard]] std::string word(const std::string& key, const std::vector<std::string>& words) const;
  /// The kind of quantity named under `key`: length, area, volume, angle, mass, pressure, force, power, speed,
  /// velocity, temperature, share, count.
  [[nodiscard]] base::Dimension dimension(const std::string& key) const;
  /// Checks that every key was asked for.
  void done() const;
  [[noreturn]] void broken(const std::string& why) const;

 private:
  [[nodiscard]] const Value* find(const std::string& key) const;

  std::string where_;
  std::map<std::string, Value> values_;
  mutable std::set<std::string> asked_;
};

/// The rows `[[name]]` of an embedded file, in order.
/// @param names every kind of row that the file may hold; another one is a broken table
[[nodiscard]] std::vector<Row> rows(std::string_view file, std::string_view name,
                                    const std::vector<std::string>& names);

/// The rows `[[name]]` of a text; `file` is for messages only.
[[nodiscard]] std::vector<Row> rows_of(std::string_view text, std::string_view file, std::string_view name,
                                       const std::vector<std::string>& names);

/// Letters in lower case, blanks at both ends taken off.
[[nodiscard]] std::string plain_word(std::string_view text);

}  // namespace portwright::tables
