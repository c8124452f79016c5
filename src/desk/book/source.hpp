#pragma once
// The book as the source of a saw: `book:NAME` where a saw file is asked for. Inside the module only.

#include <string>
#include <vector>

#include "saw/file.hpp"
#include "study/study.hpp"
#include "wire/answer.hpp"

namespace portwright::desk {

/// "book:larch-70" names a saw of the book; "./book:x" is a file.
[[nodiscard]] bool is_of_book(const std::string& file);

struct BookSource {
  saw::ReadSaw read;
  std::vector<wire::Acceptance> accepted;  ///< findings accepted on this saw
};
/// The newest readings of the saw, read as a saw file would be.
[[nodiscard]] base::ResultAll<BookSource> read_from_book(const std::string& file, const std::string& book);

/// Marks the findings that are accepted for the value they have. An acceptance of another value is stale, and its
/// finding stands again.
void mark_accepted(std::vector<study::Finding>& findings, std::vector<wire::Acceptance>& accepted);

}  // namespace portwright::desk
