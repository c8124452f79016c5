#pragma once
// Many points of many cases, lines of JSON in and out: the use case. See desk/desk.hpp for what all requests share.

#include <functional>
#include <string>

#include "base/error.hpp"

namespace portwright::desk {

struct BatchRequest {
  std::string input;     ///< a file of lines; `-`: standard input
  std::string output;    ///< lines out, appended to as they get ready; empty or `-`: standard output
  bool go_on = false;    ///< the output is there: what it answers already is left out
  int part = 1, of = 1;  ///< the lines whose number less one, divided by `of`, leaves part - 1
  int threads = 2;
  std::string book = {};  ///< that `book:NAME` speaks of; empty: PORTWRIGHT_BOOK, else the usual one
};

struct BatchCount {
  int lines = 0;   ///< in this part
  int before = 0;  ///< answered by an earlier run
  int failed = 0;  ///< of those answered now, with errors
  bool stopped = false;
};

/// Told lines done and lines there are; returns whether to stop. May be empty.
using BatchWatch = std::function<bool(int done, int all)>;

/// Answers come in the order of the lines, and a line's answer hangs on that line alone, to rounding. A line that
/// cannot be answered says so in its place. Blank lines are passed over but count. Errors: the input cannot be read or
/// has over 200,000 lines, an output that is there and is not to be gone on from, or is of another input.
[[nodiscard]] base::Result<BatchCount> batch(const BatchRequest& request, const BatchWatch& watch = {});

}  // namespace portwright::desk
