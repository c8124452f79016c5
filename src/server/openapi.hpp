#pragma once
// The API described for another program.

#include <string>

namespace portwright::server {

/// OpenAPI 3.1, printed from the table of routes and the tables of shapes.
[[nodiscard]] const std::string& openapi();

}  // namespace portwright::server
