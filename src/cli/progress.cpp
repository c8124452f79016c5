#include "cli/progress.hpp"

#include <algorithm>
#include <cmath>
#include <csignal>
#include <iostream>

#include "cli/page.hpp"

namespace portwright::cli {
namespace {

volatile std::sig_atomic_t stop_asked = 0;

// A second signal does what it always does.
extern "C" void ask_to_stop(int signal) {
  stop_asked = 1;
  std::signal(signal, SIG_DFL);
}

std::string left_text(double share, double seconds) {
  constexpr double least_share = 0.02, least_seconds = 1.5;
  if (share < least_share || seconds < least_seconds || share >= 1.0) return {};
  const double rest = std::ceil(seconds * (1.0 - share) / share);
  return rest >= 90.0 ? "about " + std::to_string(std::lround(rest / 60.0)) + " min left"
                      : "about " + std::to_string(std::lround(rest)) + " s left";
}

}  // namespace

StopSignals::StopSignals() {
  stop_asked = 0;
  std::signal(SIGINT, ask_to_stop);
  std::signal(SIGTERM, ask_to_stop);
}

StopSignals::~StopSignals() {
  std::signal(SIGINT, SIG_DFL);
  std::signal(SIGTERM, SIG_DFL);
}

bool StopSignals::asked() { return stop_asked != 0; }

std::string progress_line(double share, const std::string& what, double seconds) {
  constexpr int wide = 22;
  const double part = std::clamp(std::isfinite(share) ? share : 0.0, 0.0, 1.0);
  const int full = static_cast<int>(std::floor(part * wide));
  std::string bar;
  for (int i = 0; i < wide; ++i) bar += i < full ? "\u2501" : "\u2500";
  return "  " + left(what, 26) + ' ' + bar + right(std::to_string(static_cast<int>(100.0 * part)), 4) + " %  " +
         left_text(part, seconds);
}

Progress::~Progress() {
  if (drawn_) std::cerr << "\r\x1b[K" << std::flush;
}

bool Progress::operator()(double share, const std::string& what) {
  const bool stop = StopSignals::asked();
  const std::lock_guard lock(guard_);
  const auto now = Clock::now();
  constexpr auto pause = std::chrono::milliseconds(100);
  if (!shown_ || now - last_ < pause || stop) return stop;
  last_ = now;
  const double seconds = std::chrono::duration<double>(now - began_).count();
  std::cerr << "\r\x1b[K" << progress_line(share, what, seconds) << std::flush;
  drawn_ = true;
  return stop;
}

}  // namespace portwright::cli
