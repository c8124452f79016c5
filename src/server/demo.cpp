#include "server/demo.hpp"

#include "desk/demo.hpp"

namespace portwright::server {

MakeDemo demo_maker() { return desk::make_demo_book; }

}  // namespace portwright::server
