#pragma once
// Fields as a person names them, `port.exhaust.opens`, and where the book keeps them, `port.p1.opens`. Inside the
// module only.

#include <string>
#include <utility>
#include <vector>

#include "base/error.hpp"
#include "book/tree.hpp"
#include "wire/book_answer.hpp"

namespace portwright::desk {

enum class FieldKind { reading, several, pairs, number, flag, words };

/// Where one field of a set of readings is kept.
struct FieldPlace {
  std::string shown;  ///< whole path by names: "port.exhaust.opens"
  std::string path;   ///< in the tree: "port.p1.opens"
  FieldKind kind = FieldKind::words;
  bool identity = false;  ///< name, model, casting: kept with the saw, not with its readings
  /// What has to be set beside it, because the port, ring or place is a new one: path and value.
  std::vector<std::pair<std::string, book::Tree>> beside;
};

/// Finds a field by its path, or by the end of one where only one field ends so. A ring or window one beyond the last
/// and a place of squish are begun; a port is begun by its kind: "port.boost.kind".
/// Errors: not_found, with the nearest; usage where it could be several.
[[nodiscard]] base::Result<FieldPlace> find_field(const book::Tree& tree, const std::string& asked);

/// Every field that is taken, in the order of the saw file.
[[nodiscard]] std::vector<wire::BookField> fields_of(const book::Tree& tree);

/// A path of the tree as a person names it; what cannot be told stays as it is.
[[nodiscard]] std::string shown_path(const book::Tree& tree, const std::string& path);

/// A leaf or a reading as one text: "103 deg; 104 deg (wheel 1)".
[[nodiscard]] std::string shown_value(const book::Tree& value);

}  // namespace portwright::desk
