#pragma once
// The body of a document: branches of named parts, and leaves. JSON in and out, in one canonical form.

#include <string>
#include <string_view>
#include <vector>

#include "base/error.hpp"

namespace portwright::book {

struct Part;

/// A branch or a leaf. Leaves are a text, a list of texts or a flag; a number is kept as the text that was typed.
/// No branch inside a tree is ever empty: it goes when its last part goes.
struct Tree {
  enum class Kind { branch, text, list, flag };
  Kind kind = Kind::branch;
  std::string text;
  std::vector<std::string> list;
  bool flag = false;
  std::vector<Part> parts;  ///< of a branch, sorted by name

  [[nodiscard]] bool empty_branch() const;
  friend bool operator==(const Tree&, const Tree&);
};

/// A named part of a branch.
struct Part {
  std::string name;  ///< of [a-z0-9_]
  Tree tree;
  friend bool operator==(const Part&, const Part&);
};

inline constexpr int deepest_tree = 16;                        ///< branches within branches
inline constexpr std::size_t longest_tree = 8U * 1024 * 1024;  ///< bytes of JSON

/// Reads JSON: objects, texts, lists of texts, true and false. Empty objects inside are left out.
/// Error usage, with the byte where it was seen: anything else of JSON, a name given twice or not of [a-z0-9_], deeper
/// than `deepest` branches, longer than longest_tree, not UTF-8, a NUL.
[[nodiscard]] base::Result<Tree> parse_tree(std::string_view json, int deepest = deepest_tree);

/// Canonical JSON: names sorted, no white space, only `"`, `\` and control letters escaped.
/// parse_tree(print(t)) is t, and print(parse_tree(j)) is j when j is canonical.
[[nodiscard]] std::string print(const Tree& tree);

/// Whether `path` is one to sixteen names of [a-z0-9_] joined by dots.
[[nodiscard]] bool is_path(std::string_view path);

/// Whether one path is the other, or lies above it. "" lies above all; `#hidden` meets all.
[[nodiscard]] bool overlap(std::string_view one, std::string_view other);

/// The branch or leaf at `path`, none when there is none; "" is the tree itself.
[[nodiscard]] const Tree* find(const Tree& tree, std::string_view path);

/// Sets the branch or leaf at `path` and makes the branches that lead to it; an empty branch removes.
/// Error usage: a leaf stands where a branch is needed, or too deep. Then nothing is changed.
[[nodiscard]] base::Result<void> set(Tree& tree, std::string_view path, Tree value);

/// Removes what is at `path`, and the branches that it leaves empty.
void remove(Tree& tree, std::string_view path);

/// All texts of the leaves, in order, one a line, without the names of kept bytes (`blob:<hash>`).
[[nodiscard]] std::string texts(const Tree& tree);

/// Whether the bytes are UTF-8 without a NUL.
[[nodiscard]] bool is_text(std::string_view bytes);

}  // namespace portwright::book
