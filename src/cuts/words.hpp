#pragma once
// A cut list's bytes parted into cuts and words, before anything is understood.

#include <string>
#include <string_view>
#include <vector>

#include "base/error.hpp"

namespace portwright::cuts {

/// One word as typed, with a sign at its head in plain form; `quoted` when it stood in quotation marks (a file, an
/// octane).
struct Word {
  std::string text;
  bool quoted = false;
};

/// One cut of a list: its words, and its text as typed without blanks round it.
struct Phrase {
  std::string text;
  std::vector<Word> words;
  bool open_quote = false;  ///< a quotation mark without its partner
};

inline constexpr std::size_t longest_list = 64 * 1024;
inline constexpr std::size_t most_cuts = 200;

/// Parts at `;` and line ends; empty parts are left out. Quotation marks count only after the word `to`, so that an
/// inch mark is never one. Every kind of blank parts words. Refuses what is no UTF-8, has control characters, or is too
/// long.
[[nodiscard]] base::Result<std::vector<Phrase>> part_list(std::string_view text);

/// The word in lower case.
[[nodiscard]] std::string lower(std::string_view word);

/// In quotation marks, as it may be shown to a person.
[[nodiscard]] std::string shown(std::string_view text);

/// Words joined by single blanks.
[[nodiscard]] std::string joined(const std::vector<std::string>& words);

}  // namespace portwright::cuts
