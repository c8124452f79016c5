#pragma once
// The command that measures a window on the photo of its rubbing.

#include "cli/commands.hpp"
#include "cli/words.hpp"

namespace portwright::cli {

[[nodiscard]] Command rubbing_command();
int run_rubbing(const Words& words);

}  // namespace portwright::cli
