#pragma once
// The words of a command line, sorted by the table of commands.

#include <map>
#include <string>
#include <vector>

#include "base/error.hpp"
#include "cli/commands.hpp"

namespace portwright::cli {

struct Words {
  const Command* command = nullptr;
  std::vector<std::string> arguments;          ///< one for each Argument given
  std::map<std::string, std::string> options;  ///< by name, "--cuts"; a flag says "yes"

  [[nodiscard]] bool has(const std::string& option) const { return options.count(option) > 0; }
  [[nodiscard]] std::string value(const std::string& option, const std::string& otherwise = {}) const {
    const auto found = options.find(option);
    return found == options.end() ? otherwise : found->second;
  }
  [[nodiscard]] std::string argument(std::size_t place) const {
    return place < arguments.size() ? arguments[place] : std::string();
  }
};

/// Sorts words; the first is the command's name. Errors: usage, with what was most likely meant.
[[nodiscard]] base::Result<Words> parse_words(const std::vector<std::string>& words);

}  // namespace portwright::cli
