#pragma once
// A TOML text as a plain tree in the order of the file. Inside the module only; the outside library stays in tree.cpp.

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.hpp"

namespace portwright::saw {

struct Node {
  enum class Kind { text, number, flag, moment, list, table };
  Kind kind = Kind::text;
  std::string text;     ///< a text's content; for all else what stands in the file
  double number = 0.0;  ///< of a number; may be infinite or not a number
  bool flag = false;
  std::vector<Node> items;        ///< of a list or a table, as they stand in the file
  std::vector<std::string> keys;  ///< of a table: the key of each item
  std::size_t line = 0;

  [[nodiscard]] const Node* member(std::string_view key) const {
    for (std::size_t i = 0; i < keys.size(); ++i)
      if (keys[i] == key) return &items[i];
    return nullptr;
  }
};

/// The root table, or why the text is none (guard_text first, then what TOML says, with the line).
[[nodiscard]] base::Result<Node> parse_tree(std::string_view text);

}  // namespace portwright::saw
