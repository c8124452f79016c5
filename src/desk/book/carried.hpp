#pragma once
// A book on its way: actions, documents and kept bytes as text that any program can read. Inside the module only.
//
// One JSON object a line. Numbers are written as texts, as everywhere in the book.

#include <string>
#include <string_view>
#include <vector>

#include "base/error.hpp"
#include "book/book.hpp"

namespace portwright::desk {

/// A line for each action, and below it one for each of its entries.
[[nodiscard]] std::string journal_lines(const std::vector<book::Action>& actions);
/// Errors: damaged, with the line.
[[nodiscard]] base::Result<std::vector<book::Action>> actions_from(std::string_view lines);

/// A line for each document.
[[nodiscard]] std::string document_lines(const std::vector<book::Document>& documents);
[[nodiscard]] base::Result<std::vector<book::Document>> documents_from(std::string_view lines);

/// What the folder is: format, id of the book, facets.
[[nodiscard]] std::string book_line(const std::string& id, const std::vector<std::string>& facets);
struct BookLine {
  std::string id;
  std::vector<std::string> facets;
};
[[nodiscard]] base::Result<BookLine> book_from(std::string_view line);

/// A cell of a CSV table: quoted, and no formula for a program that takes one for such.
[[nodiscard]] std::string csv_cell(const std::string& text);

/// @source{memory, RFC 4648 section 4}
[[nodiscard]] std::string to_base64(std::string_view bytes);
/// None when the text is no base 64.
[[nodiscard]] std::optional<std::string> from_base64(std::string_view text);

}  // namespace portwright::desk
