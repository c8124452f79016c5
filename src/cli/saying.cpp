#include "cli/saying.hpp"

#include <unistd.h>

#include <cstdlib>
#include <string_view>

namespace portwright::cli {

bool is_coloured(Stream stream) {
  const char* none = std::getenv("NO_COLOR");
  const char* terminal = std::getenv("TERM");
  const bool dumb = terminal == nullptr || std::string_view(terminal) == "dumb";
  return isatty(stream == Stream::out ? STDOUT_FILENO : STDERR_FILENO) == 1 && !dumb &&
         (none == nullptr || *none == '\0');
}

int say_errors(const base::Errors& errors, bool json) {
  if (json)
    std::cout << wire::to_json(wire::ErrorAnswer{errors});
  else
    std::cerr << errors_text(errors, is_coloured(Stream::error));
  return errors.empty() ? 0 : base::exit_status(errors.front().code);
}

base::UnitStyle style_of(const Words& words) {
  return words.value("--units", "shop") == "metric" ? base::UnitStyle::metric : base::UnitStyle::shop;
}

Setting setting_of(const Words& words) { return {is_coloured(Stream::out), words.has("--all"), style_of(words)}; }

}  // namespace portwright::cli
