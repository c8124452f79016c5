#pragma once
// What the journal keeps.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace portwright::book {

/// One row of the journal.
struct Entry {
  std::int64_t sequence = 0;
  std::string document;
  /// Dotted path; empty: the document was added (`after` = { belongs_to, body, kind }); `#hidden`: hidden or brought
  /// back
  std::string path;
  std::optional<std::string> before, after;  ///< canonical JSON; none: not there
  std::string chain;                         ///< SHA-256 over this entry and the chain before it, hexadecimal
};

/// One thing that an author did.
struct Action {
  std::int64_t number = 0;  ///< 0: the deed changed nothing and nothing was written
  std::int64_t root = 0;    ///< itself, or the action that this one takes back or does again
  std::string author, at, label, token;
  bool off_stack = false;
  std::vector<Entry> entries;
};

}  // namespace portwright::book
