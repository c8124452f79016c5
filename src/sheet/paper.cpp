#include "sheet/paper.hpp"

#include <algorithm>
#include <string>

namespace portwright::sheet {

std::optional<Paper> find_paper(std::string_view name) {
  std::string lower(name);
  std::transform(lower.begin(), lower.end(), lower.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
  if (lower == "a4") return a4;
  if (lower == "letter") return letter;
  return std::nullopt;
}

}  // namespace portwright::sheet
