#include "server/demo.hpp"

namespace portwright::server {

MakeDemo demo_maker() { return {}; }

}  // namespace portwright::server
