#pragma once
// The one table of commands. Parser, help, man page and completion are all made from it.

#include <span>
#include <string>
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
  bool many = false;     ///< takes all words that are left, joined by blanks
  bool several = false;  ///< takes all words that are left, each one of its own
};

struct Example {
  std::string_view line;
  std::string_view what;
};

struct Command {
  std::string_view name;     ///< one word, or two: "book add"
  std::string_view summary;  ///< one line
  std::string_view detail;   ///< a paragraph; may be empty
  std::vector<Argument> arguments;
  std::vector<Option> options;
  std::vector<Example> examples;
  bool hidden = false;  ///< for work on the program itself
  bool group = false;   ///< a word that commands of two words begin with; by itself it tells of them
};

/// Every command, in the order of the work.
[[nodiscard]] const std::vector<Command>& commands();
/// Options that every command takes.
[[nodiscard]] const std::vector<Option>& common_options();
/// The commands of the book, the word for their group first.
[[nodiscard]] std::vector<Command> book_commands();
/// Hidden commands that give what a drawing on a screen is made from.
[[nodiscard]] std::vector<Command> page_commands();
/// The command of a name, or null.
[[nodiscard]] const Command* find_command(std::string_view name);

/// The command that a line of words begins with: two words are tried, then one.
struct Named {
  const Command* command = nullptr;  ///< null: none begins so
  std::size_t words = 0;             ///< that its name takes
};
[[nodiscard]] Named find_command(std::span<const std::string> words);

/// Whether a command belongs to a group: "book add" to "book".
[[nodiscard]] bool belongs(const Command& command, const Command& group);
/// The commands of a group, in the table's order.
[[nodiscard]] std::vector<const Command*> members_of(const Command& group);
/// A name of one word, or the word of a group: what stands in the first place of a line.
[[nodiscard]] bool stands_first(const Command& command);
/// The last word of a name: "add".
[[nodiscard]] std::string_view last_word(const Command& command);

}  // namespace portwright::cli
