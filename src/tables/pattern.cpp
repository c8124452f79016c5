#include "tables/pattern.hpp"

namespace portwright::tables {
namespace {

// The text up to the next point; what follows the point stays in `rest`.
std::string_view next_part(std::string_view& rest) {
  const std::size_t point = rest.find('.');
  const std::string_view part = rest.substr(0, point);
  rest = point == std::string_view::npos ? std::string_view{} : rest.substr(point + 1);
  return part;
}

}  // namespace

bool matches(std::string_view pattern, std::string_view id, std::string_view kind) {
  while (!pattern.empty() && !id.empty()) {
    const std::string_view wanted = next_part(pattern);
    const std::string_view part = next_part(id);
    const std::size_t bracket = wanted.find('[');
    if (bracket != std::string_view::npos) {
      if (part != wanted.substr(0, bracket) || wanted.back() != ']') return false;
      if (kind.empty() || wanted.substr(bracket + 1, wanted.size() - bracket - 2) != kind) return false;
      if (id.empty()) return false;
      next_part(id);  // the name, which may be any
    } else if (wanted != "*" && wanted != part) {
      return false;
    }
  }
  return pattern.empty() && id.empty();
}

}  // namespace portwright::tables
