#pragma once
// The one table of commands. Parser, help, man page and completion are all made from it.

#include <span>
#include <string_view>
#include <vector>

namespace portwright::cli {

/// What a completion offers for a value.
enum class Offers { nothing, files, words };

struct Option {
  std::string_view name;                  ///< "--cuts"
  std::string_view letter;                ///< "-o", or empty
  std::string_view value;                 ///< word for its value in help; empty: a flag
  std::string_view doc;                   ///< one sentence, no full stop
  std::vector<std::string_view> choices;  ///< the only values, if there are few
  Offers offers = Offers::nothing;
};

struct Argument {
  std::string_view name;  ///< "FILE"
  bool required = true;
  std::string_view doc;
  Offers offers = Offers::nothing;
  std::vector<std::string_view> choices;
  bool many = false;  ///< takes all words that are left, joined by blanks
};

struct Example {
  std::string_view line;
  std::string_view what;
};

struct Command {
  std::string_view name;
  std::string_view summary;  ///< one line
  std::string_view detail;   ///< a paragraph; may be empty
  std::vector<Argument> arguments;
  std::vector<Option> options;
  std::vector<Example> examples;
  bool hidden = false;  ///< for work on the program itself
};

/// Every command, in the order of the work.
[[nodiscard]] const std::vector<Command>& commands();
/// Options that every command takes.
[[nodiscard]] const std::vector<Option>& common_options();
/// The command of a name, or null.
[[nodiscard]] const Command* find_command(std::string_view name);

}  // namespace portwright::cli
