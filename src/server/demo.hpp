#pragma once
// The demo workshop: invented saws in a book of their own.

#include "server/book_host.hpp"

namespace portwright::server {

/// What makes the demo book; empty when the program was built without one.
[[nodiscard]] MakeDemo demo_maker();

}  // namespace portwright::server
