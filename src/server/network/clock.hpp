#pragma once
// Time as the network side counts it.

#include <cstdint>
#include <functional>

namespace portwright::server {

/// Seconds from some start; they also pass while the machine sleeps, and nobody sets them.
using Clock = std::function<std::int64_t()>;

[[nodiscard]] Clock usual_clock();

/// Seconds since 1970, UTC, as the system has them.
[[nodiscard]] std::int64_t wall_seconds();

}  // namespace portwright::server
