#pragma once
// Text and keys as TOML has them. Inside the module only.

#include <string>
#include <string_view>

namespace portwright::saw {

/// In double quotes, escaped. Bytes that are not UTF-8 become U+FFFD: nothing else could be read back.
[[nodiscard]] std::string toml_text(std::string_view text);

/// Bare where TOML allows it, else in quotes.
[[nodiscard]] std::string toml_key(std::string_view key);

}  // namespace portwright::saw
