#pragma once
// A photo as a document of the book: { name (its caption), picture and small (`blob:<hash>`), width, height, taken }.
// Inside the module only.

#include <string>

#include "book/book.hpp"
#include "wire/book_answer.hpp"

namespace portwright::desk {

/// A photo as a line of a list.
[[nodiscard]] wire::BookPhoto photo_line(const book::Document& photo);

/// Hash of the bytes that a leaf of a photo names; empty when it names none.
/// @param leaf "picture" or "small"
[[nodiscard]] std::string kept_hash(const book::Document& photo, const char* leaf);

}  // namespace portwright::desk
