#pragma once
// The command that turns many points of many cases, lines of JSON in and out.

#include "cli/commands.hpp"
#include "cli/words.hpp"

namespace portwright::cli {

[[nodiscard]] Command batch_command();
int run_batch(const Words& words);

}  // namespace portwright::cli
