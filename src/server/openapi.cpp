#include "server/openapi.hpp"

#include "server/routes.hpp"
#include "wire/openapi.hpp"

namespace portwright::server {

const std::string& openapi() {
  static const std::string text = wire::openapi_text(operations());
  return text;
}

}  // namespace portwright::server
