#include <string>

#include "cli/manual.hpp"

namespace portwright::cli {
namespace {

std::string joined(const std::vector<std::string_view>& words) {
  std::string out;
  for (const std::string_view word : words) out += (out.empty() ? "" : " ") + std::string(word);
  return out;
}

std::vector<Option> options_of(const Command& command) {
  std::vector<Option> all = command.options;
  all.insert(all.end(), common_options().begin(), common_options().end());
  return all;
}

std::string command_words() {
  std::string out = "help";
  for (const Command& command : commands())
    if (!command.hidden && stands_first(command)) out += ' ' + std::string(command.name);
  return out;
}

std::string member_words(const Command& group) {
  std::string out;
  for (const Command* command : members_of(group)) out += (out.empty() ? "" : " ") + std::string(last_word(*command));
  return out;
}

// A pattern of a shell's case; a name of two words in quotes.
std::string pattern_of(const Command& command) {
  const std::string name(command.name);
  return stands_first(command) ? name : '"' + name + '"';
}

// Where the second word of a command is due, and the two taken together as its name.
std::string bash_groups() {
  std::string out;
  for (const Command& group : commands())
    if (group.group)
      out += "    " + std::string(group.name) +
             ")\n      if [ \"$COMP_CWORD\" = 2 ]; then\n        COMPREPLY=( $(compgen -W \"" + member_words(group) +
             " --help\" -- \"$cur\") )\n        return\n      fi\n      name=\"$name ${COMP_WORDS[2]}\" ;;\n";
  return out.empty() ? out : "  case $name in\n" + out + "  esac\n";
}

// How bash offers what may follow an option.
std::string bash_offer(Offers offers, const std::vector<std::string_view>& choices) {
  if (offers == Offers::files) return "COMPREPLY=( $(compgen -f -- \"$cur\") )";
  if (offers == Offers::words) return "COMPREPLY=( $(compgen -W \"" + joined(choices) + "\" -- \"$cur\") )";
  return "COMPREPLY=()";
}

// Text inside single quotes of a shell, and inside the brackets of a zsh description.
std::string quoted(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '\'')
      out += "'\\''";
    else if (c == '[' || c == ']' || c == ':')
      out += std::string("\\") + c;
    else
      out += c;
  }
  return out;
}

std::string zsh_groups() {
  std::string out;
  for (const Command& group : commands()) {
    if (!group.group) continue;
    out += "    " + std::string(group.name) + ")\n      local -a members\n      members=(\n";
    for (const Command* command : members_of(group))
      out += "        '" + std::string(last_word(*command)) + ':' + quoted(command->summary) + "'\n";
    out +=
        "      )\n      if (( CURRENT == 2 )); then\n        _describe command members\n        return\n      fi\n"
        "      command=\"$command ${words[2]}\"\n      shift words\n      (( CURRENT-- )) ;;\n";
  }
  return out.empty() ? out : "  case $command in\n" + out + "  esac\n";
}

std::string zsh_offer(Offers offers, const std::vector<std::string_view>& choices) {
  if (offers == Offers::files) return "_files";
  if (offers == Offers::words) return '(' + joined(choices) + ')';
  return " ";
}

std::string zsh_option(const Option& option) {
  std::string out = "'";
  if (!option.letter.empty())
    out = '{' + std::string(option.letter) + ',' + std::string(option.name) + "}'";
  else
    out += option.name;
  out += '[' + quoted(option.doc) + ']';
  if (!option.value.empty()) out += ':' + quoted(option.value) + ':' + zsh_offer(option.offers, option.choices);
  return out + '\'';
}

}  // namespace

std::string bash_completion() {
  std::string out = "# bash completion of portwright; made by: portwright completion bash\n_portwright() {\n";
  out +=
      "  local cur=${COMP_WORDS[COMP_CWORD]} prev=${COMP_WORDS[COMP_CWORD-1]} name=${COMP_WORDS[1]}\n  if [ "
      "\"$COMP_CWORD\" = 1 ]; then\n";
  out += "    COMPREPLY=( $(compgen -W \"" + command_words() +
         " --help --version\" -- \"$cur\") )\n    return\n  fi\n" + bash_groups() + "  case $name in\n";
  for (const Command& command : commands()) {
    if (command.hidden || command.group) continue;
    std::string names, after;
    for (const Option& option : options_of(command)) {
      names += (names.empty() ? "" : " ") + std::string(option.name);
      if (option.value.empty()) continue;
      const std::string letter = option.letter.empty() ? "" : '|' + std::string(option.letter);
      after += "        " + std::string(option.name) + letter + ") " + bash_offer(option.offers, option.choices) +
               "; return ;;\n";
    }
    out += "    " + pattern_of(command) + ")\n      case $prev in\n" + after + "      esac\n";
    out += "      case $cur in\n        -*) COMPREPLY=( $(compgen -W \"" + names + "\" -- \"$cur\") ) ;;\n        *) ";
    const bool takes = !command.arguments.empty();
    out += (takes ? bash_offer(command.arguments.front().offers, command.arguments.front().choices) : "COMPREPLY=()") +
           " ;;\n      esac ;;\n";
  }
  return out + "  esac\n}\ncomplete -o filenames -F _portwright portwright\n";
}

std::string zsh_completion() {
  std::string out =
      "#compdef portwright\n# zsh completion of portwright; made by: portwright completion zsh\n_portwright() {\n  "
      "local -a commands\n  commands=(\n";
  for (const Command& command : commands())
    if (!command.hidden && stands_first(command))
      out += "    '" + std::string(command.name) + ':' + quoted(command.summary) + "'\n";
  out +=
      "  )\n  if (( CURRENT == 2 )); then\n    _describe command commands\n    return\n  fi\n  local "
      "command=${words[2]}\n  shift words\n  (( CURRENT-- ))\n" +
      zsh_groups() + "  case $command in\n";
  for (const Command& command : commands()) {
    if (command.hidden || command.group) continue;
    out += "    " + pattern_of(command) + ")\n      _arguments";
    for (const Option& option : options_of(command)) out += " \\\n        " + zsh_option(option);
    for (const Argument& argument : command.arguments) {
      const std::string place = argument.many || argument.several ? "*" : "";
      out += " \\\n        '" + place + (argument.required || argument.many || argument.several ? ":" : "::") +
             quoted(argument.name) + ':' + zsh_offer(argument.offers, argument.choices) + '\'';
    }
    out += " ;;\n";
  }
  return out +
         "  esac\n}\nif [ \"$funcstack[1]\" = \"_portwright\" ]; then _portwright \"$@\"; else compdef _portwright "
         "portwright; fi\n";
}

}  // namespace portwright::cli
