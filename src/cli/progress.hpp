#pragma once
// How far a long answer is, on standard error where that is a terminal; Ctrl-C asks it to stop.

#include <chrono>
#include <mutex>
#include <string>

namespace portwright::cli {

/// While it lives, SIGINT and SIGTERM ask for a stop instead of ending the program; a second one ends it.
class StopSignals {
 public:
  StopSignals();
  ~StopSignals();
  StopSignals(const StopSignals&) = delete;
  StopSignals& operator=(const StopSignals&) = delete;
  [[nodiscard]] static bool asked();
};

/// One line of progress: what is being done, a bar, the share, how long it will still take.
/// @param share 0..1  @param seconds since the beginning
[[nodiscard]] std::string progress_line(double share, const std::string& what, double seconds);

/// The line kept up to date on a terminal, ten times a second at most, and wiped at the end; silent elsewhere.
class Progress {
 public:
  explicit Progress(bool shown) : shown_(shown) {}
  ~Progress();
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;
  /// Told how far it is; whether to stop.
  bool operator()(double share, const std::string& what);

 private:
  using Clock = std::chrono::steady_clock;
  bool shown_;
  std::mutex guard_{};
  Clock::time_point began_ = Clock::now(), last_{};
  bool drawn_ = false;
};

}  // namespace portwright::cli
