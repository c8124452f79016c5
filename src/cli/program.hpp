#pragma once
// The command line: words in, text or JSON out, an exit status.

#include <string>
#include <vector>

namespace portwright::cli {

/// Exit status of a limit asked about with --fail-on that is passed.
inline constexpr int exit_limit_passed = 3;

/// Runs one command. Results go to standard output, messages to standard error; with --json errors go to standard
/// output, too.
/// @return 0 done, 1 fault in the program, 2 not understood, 3 limit passed, 4 input invalid, 5 not found, 6 book busy
/// or conflict, 7 storage
[[nodiscard]] int run(const std::vector<std::string>& words);

}  // namespace portwright::cli
