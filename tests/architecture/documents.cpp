#include "architecture/documents.hpp"

#include <cctype>
#include <regex>
#include <sstream>

namespace architecture {
namespace {

bool starts(const std::string& text, const char* beginning) { return text.rfind(beginning, 0) == 0; }

// The document with its fenced blocks blanked, so that nothing in them is taken for a link or a heading.
std::string prose(std::string document) {
  for (const Block& block : fenced_blocks(document))
    document.replace(block.at, block.text.size(), block.text.size(), '\n');
  return document;
}

}  // namespace

std::vector<Block> fenced_blocks(const std::string& document) {
  std::vector<Block> blocks;
  std::istringstream in(document);
  std::string line;
  std::size_t at = 0, number = 0;
  bool open = false;
  while (std::getline(in, line)) {
    ++number;
    const std::size_t next = at + line.size() + 1;
    if (starts(line, "```")) {
      if (!open) blocks.push_back({line.substr(3), "", next, number});
      open = !open;
    } else if (open) {
      blocks.back().text += line + '\n';
    }
    at = next;
  }
  return blocks;
}

std::vector<Command> console_commands(const std::string& block) {
  std::vector<Command> commands;
  std::istringstream in(block);
  std::string line;
  bool typing = false;
  while (std::getline(in, line)) {
    if (starts(line, "$ ")) {
      commands.push_back({line.substr(2), ""});
      typing = true;
    } else if (typing && starts(line, "> ")) {
      commands.back().line += '\n' + line.substr(2);
    } else if (!commands.empty()) {
      commands.back().printed += line + '\n';
      typing = false;
    }
  }
  for (Command& command : commands) command.printed = trimmed_end(command.printed);
  return commands;
}

std::string console_block(const std::vector<Command>& commands) {
  std::string text;
  for (const Command& command : commands) {
    if (!text.empty()) text += '\n';
    text += "$ " + std::regex_replace(command.line, std::regex("\n"), "\n> ") + '\n';
    if (!command.printed.empty()) text += command.printed + '\n';
  }
  return text;
}

std::string file_name(const Block& block) {
  static const std::regex first_line(R"(^# ([a-z0-9_-]+(\.[a-z]+)+)\n)");
  std::smatch match;
  return std::regex_search(block.text, match, first_line) ? match[1].str() : std::string();
}

std::vector<std::string> local_links(const std::string& document) {
  static const std::regex link(R"(\]\(([^)\s]+)\)|src="([^"]+)\")");
  const std::string text = prose(document);
  std::vector<std::string> targets;
  for (std::sregex_iterator it(text.begin(), text.end(), link), end; it != end; ++it) {
    const std::string target = (*it)[1].matched ? (*it)[1].str() : (*it)[2].str();
    if (target.find("://") == std::string::npos) targets.push_back(target);
  }
  return targets;
}

std::vector<std::string> anchors(const std::string& document) {
  std::vector<std::string> all;
  std::istringstream in(prose(document));
  std::string line;
  while (std::getline(in, line)) {
    if (!starts(line, "#")) continue;
    std::string anchor;
    for (const char c : line.substr(line.find_first_not_of("# "))) {
      const auto byte = static_cast<unsigned char>(c);
      if (c == ' ')
        anchor += '-';
      else if (std::isalnum(byte) || c == '-' || c == '_')
        anchor += static_cast<char>(std::tolower(byte));
    }
    all.push_back(anchor);
  }
  return all;
}

std::string trimmed_end(std::string text) {
  text.erase(text.find_last_not_of(" \n") + 1);
  return text;
}

}  // namespace architecture
