#pragma once
// The command that searches cuts for a wish about the engine.

#include "cli/commands.hpp"
#include "cli/words.hpp"

namespace portwright::cli {

[[nodiscard]] Command seek_command();
int run_seek(const Words& words);

}  // namespace portwright::cli
