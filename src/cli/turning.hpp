#pragma once
// The commands that turn the engine: they take seconds, tell how far they are, and can be stopped.

#include "cli/words.hpp"

namespace portwright::cli {

/// Status of a command that was stopped: what was ready is printed.
inline constexpr int exit_stopped = 8;

int run_curve(const Words& words);
int run_crank(const Words& words);
int run_airflow(const Words& words);
int run_heat(const Words& words);
int run_revs(const Words& words);
int run_chain(const Words& words);

}  // namespace portwright::cli
