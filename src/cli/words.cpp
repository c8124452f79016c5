#include "cli/words.hpp"

#include <CLI/CLI.hpp>
#include <algorithm>

#include "desk/nearest.hpp"

namespace portwright::cli {
namespace {

using base::ErrorCode;

std::vector<std::string> command_names() {
  std::vector<std::string> names = {"help"};
  for (const Command& command : commands())
    if (!command.hidden && stands_first(command)) names.emplace_back(command.name);
  return names;
}

std::vector<std::string> member_names(const Command& group) {
  std::vector<std::string> names;
  for (const Command* command : members_of(group)) names.emplace_back(last_word(*command));
  return names;
}

std::vector<const Option*> options_of(const Command& command) {
  std::vector<const Option*> all;
  for (const Option& option : command.options) all.push_back(&option);
  for (const Option& option : common_options()) all.push_back(&option);
  return all;
}

std::vector<std::string> option_names(const Command& command) {
  std::vector<std::string> names;
  for (const Option* option : options_of(command)) names.emplace_back(option->name);
  return names;
}

std::string help_hint(const Command& command) {
  return "portwright " + std::string(command.name) + " --help shows how.";
}

tl::unexpected<base::Error> misuse(std::string message, std::string hint) {
  return tl::unexpected(base::Error{ErrorCode::usage, std::move(message), {}, std::move(hint), {}});
}

std::string or_hint(std::string suggestion, const Command& command) {
  return suggestion.empty() ? help_hint(command) : suggestion;
}

// An unknown word left over by the parser.
tl::unexpected<base::Error> unknown_word(const std::string& word, const Command& command) {
  const std::string name = word.substr(0, word.find('='));
  if (name.size() > 1 && name[0] == '-')
    return misuse("\u201C" + name + "\u201D is no option of " + std::string(command.name) + '.',
                  or_hint(desk::did_you_mean(name, option_names(command)), command));
  return misuse("\u201C" + word + "\u201D is one word too many.", help_hint(command));
}

base::Result<void> check_choice(const Option& option, const std::string& value, const Command& command) {
  if (option.choices.empty()) return {};
  const std::vector<std::string> known(option.choices.begin(), option.choices.end());
  if (std::find(known.begin(), known.end(), value) != known.end()) return {};
  std::string list;
  for (const std::string& choice : known) list += (list.empty() ? "" : " or ") + choice;
  return misuse(std::string(option.name) + " takes " + list + ", not \u201C" + value + "\u201D.",
                or_hint(desk::did_you_mean(value, known), command));
}

base::Result<void> place_arguments(Words& words, std::vector<std::string> given) {
  const Command& command = *words.command;
  for (const Argument& argument : command.arguments) {
    if (given.empty()) {
      if (argument.required)
        return misuse(
            std::string(command.name) + " needs " + std::string(argument.name) + ": " + std::string(argument.doc) + '.',
            help_hint(command));
      return {};
    }
    std::string text = given.front();
    given.erase(given.begin());
    for (; argument.many && !given.empty(); given.erase(given.begin())) text += ' ' + given.front();
    for (; argument.several && !given.empty(); given.erase(given.begin())) {
      words.arguments.push_back(std::move(text));
      text = given.front();
    }
    const Option as_option{argument.name, {}, {}, {}, argument.choices, Offers::words};
    if (auto fits = check_choice(as_option, text, command); !fits) return fits;
    words.arguments.push_back(std::move(text));
  }
  if (!given.empty()) return unknown_word(given.front(), command);
  return {};
}

// A word that begins with a minus and a digit is a value, "-.5 mm" too. The parser is kept from seeing an option in it
// by a mark before it that no hand types.
constexpr char mark = '\x01';

bool is_value(const std::string& word) {
  return word.size() > 1 && word[0] == '-' && ((word[1] >= '0' && word[1] <= '9') || word[1] == '.');
}

std::string unmarked(std::string word) {
  if (!word.empty() && word[0] == mark) word.erase(0, 1);
  return word;
}

// Takes what stands behind "--" off: words as they are, whatever they begin with.
std::vector<std::string> behind_dashes(std::vector<std::string>& rest) {
  const auto dashes = std::find(rest.begin(), rest.end(), "--");
  std::vector<std::string> behind(dashes == rest.end() ? dashes : dashes + 1, rest.end());
  rest.erase(dashes, rest.end());
  return behind;
}

base::Result<Words> parse_with(const Command& command, std::vector<std::string> rest) {
  const std::vector<std::string> behind = behind_dashes(rest);
  for (std::string& word : rest)
    if (is_value(word)) word.insert(word.begin(), mark);
  CLI::App app;
  app.set_help_flag();
  app.allow_extras();
  std::vector<std::string> given;
  app.add_option("words", given);
  std::map<std::string, std::string> values;
  std::map<std::string, bool> flags;
  for (const Option* option : options_of(command)) {
    const std::string name(option->name),
        names = option->letter.empty() ? name : std::string(option->letter) + ',' + name;
    if (option->value.empty())
      app.add_flag(names, flags[name]);
    else
      app.add_option(names, values[name]);
  }
  std::reverse(rest.begin(), rest.end());  // the parser takes words from the back
  try {
    app.parse(std::move(rest));
  } catch (const CLI::ParseError& error) {
    const std::string what = error.what(), name = what.substr(0, what.find(':'));
    if (app.get_option_no_throw(name) == nullptr) return misuse(what, help_hint(command));
    const bool twice = app.get_option_no_throw(name)->count() > 1;
    return misuse(name + (twice ? " stands twice." : " needs a value."), help_hint(command));
  }
  if (const auto left = app.remaining(); !left.empty()) return unknown_word(unmarked(left.front()), command);
  for (std::string& word : given) word = unmarked(std::move(word));
  given.insert(given.end(), behind.begin(), behind.end());
  for (auto& [name, value] : values) value = unmarked(std::move(value));
  Words words{&command, {}, {}};
  for (const Option* option : options_of(command)) {
    const std::string name(option->name);
    if (option->value.empty() ? flags[name] : app.get_option(name)->count() > 0)
      words.options[name] = option->value.empty() ? "yes" : values[name];
    if (!option->value.empty() && words.has(name))
      if (auto fits = check_choice(*option, values[name], command); !fits) return tl::unexpected(fits.error());
  }
  if (words.has("--help")) return words;
  if (auto placed = place_arguments(words, std::move(given)); !placed) return tl::unexpected(placed.error());
  return words;
}

// "book lst": a group, and a word that is none of its commands.
tl::unexpected<base::Error> unknown_member(const Command& group, const std::string& word) {
  const std::string name(group.name);
  const std::string nearest = desk::nearest(word, member_names(group));
  return misuse("\u201C" + word + "\u201D is no command of " + name + '.',
                nearest.empty() ? help_hint(group) : "Did you mean " + name + ' ' + nearest + '?');
}

}  // namespace

base::Result<Words> parse_words(const std::vector<std::string>& words) {
  const Named named = find_command(words);
  const std::vector<std::string> rest(words.begin() + static_cast<std::ptrdiff_t>(named.words), words.end());
  if (named.command && named.command->group && !rest.empty() && !rest.front().starts_with('-'))
    return unknown_member(*named.command, rest.front());
  if (named.command) return parse_with(*named.command, rest);
  const std::string name = words.empty() ? "" : words.front();
  const std::string suggestion = desk::did_you_mean(name, command_names());
  const std::string kind = name.rfind('-', 0) == 0 ? "option" : "command";
  return misuse("\u201C" + name + "\u201D is no " + kind + " of portwright.",
                suggestion.empty() ? "portwright --help lists the commands." : suggestion);
}

}  // namespace portwright::cli
