#pragma once

namespace portwright::bench {

/// How often this program has asked for memory so far.
long allocations();

}  // namespace portwright::bench
