#pragma once
// Help, manual page and completion, all made from the table of commands.

#include <string>

#include "cli/commands.hpp"

namespace portwright::cli {

/// Examples first, then the commands.
[[nodiscard]] std::string overview(bool coloured);
/// Examples first, then what it takes.
[[nodiscard]] std::string command_help(const Command& command, bool coloured);
/// The manual page as troff, section 1.
[[nodiscard]] std::string man_page();
[[nodiscard]] std::string bash_completion();
[[nodiscard]] std::string zsh_completion();

/// What the exit statuses mean, in order.
struct ExitStatus {
  int status;
  const char* meaning;
};
[[nodiscard]] std::span<const ExitStatus> exit_statuses();

}  // namespace portwright::cli
