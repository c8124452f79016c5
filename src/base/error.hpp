#pragma once
// What ordinarily goes wrong, said once: a code for the program, a sentence for a person.

#include <string>
#include <vector>

#include <tl/expected.hpp>

namespace portwright::base {

/// What kind of trouble it is; each has one exit status (see exit_status).
enum class ErrorCode {
  usage,           ///< the command was not understood
  unreadable,      ///< a reading's text is not a quantity, or could be several
  wrong_unit,      ///< a quantity of another kind than the field asks for
  out_of_range,    ///< outside the allowed box
  contradiction,   ///< two readings of one thing do not agree
  impossible,      ///< readings that no engine can have (overlapping windows, a port above TDC)
  not_a_saw_file,  ///< not UTF-8, too long, not TOML, a directory
  unknown_key,     ///< a key that the saw file does not have
  unknown_format,  ///< a format number this program does not read
  bad_cut,         ///< a cut text that is not understood or cannot be applied
  not_found,       ///< a file, port or figure that is not there
  storage,         ///< the disk is full or refuses
  busy,            ///< another program holds the book
  conflict,        ///< somebody else changed the same thing since it was seen
  damaged,         ///< a book whose bytes are not those that were written
  newer,           ///< a book of a later program
  fault,           ///< a fault in the program itself
};

/// One thing that went wrong.
struct Error {
  ErrorCode code = ErrorCode::fault;
  std::string message;                ///< one sentence for a person, with the value as typed
  std::string path;                   ///< field, by port name: `port.exhaust.opens`; empty when none
  std::string hint;                   ///< what would mend it; empty when none
  std::vector<std::string> readings;  ///< what an ambiguous text could have meant, or the readings that disagree
  friend bool operator==(const Error&, const Error&) = default;
};

using Errors = std::vector<Error>;

template <class T>
using Result = tl::expected<T, Error>;

/// Everything found wrong in one go.
template <class T>
using ResultAll = tl::expected<T, Errors>;

inline tl::unexpected<Error> fail(ErrorCode code, std::string message, std::string path = {}, std::string hint = {}) {
  return tl::unexpected<Error>(Error{code, std::move(message), std::move(path), std::move(hint), {}});
}

/// Short stable word for a code, as written in JSON: `wrong_unit`.
[[nodiscard]] const char* code_name(ErrorCode code);

/// Exit status of the program for a code: 1 fault, 2 usage, 4 invalid input, 5 not found,
/// 6 book busy or conflict, 7 storage.
[[nodiscard]] int exit_status(ErrorCode code);

}  // namespace portwright::base
