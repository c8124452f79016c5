#pragma once
// How an answer leaves the program: text or JSON on standard output, what went wrong on standard error, a status.

#include <iostream>
#include <string>

#include "base/error.hpp"
#include "cli/texts.hpp"
#include "cli/words.hpp"
#include "wire/json.hpp"

namespace portwright::cli {

enum class Stream { out, error };
/// Whether colour and movement are welcome there: a terminal that is not dumb, and NO_COLOR is not set.
[[nodiscard]] bool is_coloured(Stream stream);

/// Says what went wrong; the status of the first.
int say_errors(const base::Errors& errors, bool json);

[[nodiscard]] base::UnitStyle style_of(const Words& words);
[[nodiscard]] Setting setting_of(const Words& words);

/// Prints an answer; a single bad reading beside it makes the status 4.
template <class A>
int say(const base::ResultAll<A>& answer, const Words& words, std::string (*text)(const A&, const Setting&)) {
  const bool json = words.has("--json");
  if (!answer) return say_errors(answer.error(), json);
  std::cout << (json ? wire::to_json(*answer) : text(*answer, setting_of(words)));
  return answer->head.errors.empty() ? 0 : base::exit_status(base::ErrorCode::unreadable);
}

}  // namespace portwright::cli
