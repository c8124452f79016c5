#include "server/network/clock.hpp"

#include <ctime>

namespace portwright::server {
namespace {

std::int64_t seconds_of(clockid_t clock) {
  timespec now{};
  clock_gettime(clock, &now);
  return now.tv_sec;
}

}  // namespace

Clock usual_clock() {
  return [] { return seconds_of(CLOCK_BOOTTIME); };
}

std::int64_t wall_seconds() { return seconds_of(CLOCK_REALTIME); }

}  // namespace portwright::server
