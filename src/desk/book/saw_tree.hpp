#pragma once
// A set of readings as a tree of the book, and back. Both are made from saw/fields.hpp, so that no field can be
// forgotten. Inside the module only.
//
// Each field has one path that stays: ports, rings, windows, fins and places are named by counters (`port.p1`,
// `piston.ring.r2`, `cylinder.squish.s1`) that nothing else shifts, their order is kept in a leaf `order`, and a port's
// or place's own name is a leaf (`name`, `place`). A reading is { read, with, setup, note }; numbers are kept as texts.

#include <string>
#include <string_view>
#include <vector>

#include "book/tree.hpp"
#include "saw/file.hpp"

namespace portwright::desk {

/// Every typed text of the readings.
[[nodiscard]] book::Tree tree_of(const saw::Readings& readings);

/// The readings of a tree; parts of the tree that are no field are passed over. Quantities are not read: see read_tree.
[[nodiscard]] saw::Readings readings_of(const book::Tree& tree);

/// The same with every text read as in a saw file. Errors: as of saw::read_saw, for a set that cannot be taken as a
/// whole.
[[nodiscard]] base::ResultAll<saw::ReadSaw> read_tree(const book::Tree& tree);

/// Keys of the parts of a branch in their order: as `order` has them, then those that it does not name.
[[nodiscard]] std::vector<std::string> ordered_keys(const book::Tree& branch);

/// A key that is not in use yet: "p3".
[[nodiscard]] std::string free_key(const book::Tree& branch, char letter);

[[nodiscard]] book::Tree text_leaf(std::string text);
[[nodiscard]] book::Tree list_leaf(std::vector<std::string> list);
/// Puts a part into a branch, in place of the one of that name; empty texts, lists and branches are left out.
void put_part(book::Tree& branch, std::string_view name, book::Tree value);
/// The text of a leaf of a branch; empty when there is none.
[[nodiscard]] std::string text_at(const book::Tree& branch, std::string_view path);

/// Shortest text that gives the number back.
[[nodiscard]] std::string plain_number(double number);

}  // namespace portwright::desk
