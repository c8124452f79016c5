// What the commands of the book print, with ids and moments taken out. After a change that was looked at,
// PORTWRIGHT_GOLDEN=write renews the kept texts.
#include <gtest/gtest.h>

#include <cstdlib>
#include <regex>

#include "unit/cli/program.hpp"

namespace {

namespace fs = std::filesystem;
const fs::path root = PORTWRIGHT_SOURCE_DIR;

std::string plain(std::string text, const fs::path& folder) {
  for (std::size_t at; (at = text.find(folder.string())) != std::string::npos;)
    text.replace(at, folder.string().size(), "FOLDER");
  text = std::regex_replace(text, std::regex("[0-9]{4}-[0-9]{2}-[0-9]{2} [0-9]{2}:[0-9]{2}"), "2026-01-01 00:00");
  text = std::regex_replace(text, std::regex("\\(ann, [0-9-]{10}\\)"), "(ann, 2026-01-01)");
  return std::regex_replace(text, std::regex("\\b[0-7][0-9a-hjkmnp-tv-z]{9}\\b"), "0000000000");
}

TEST(book_text, what_the_commands_of_the_book_print_has_not_moved) {
  const program::Folder folder;
  const std::string environment =
      "PORTWRIGHT_AUTHOR=ann PORTWRIGHT_BOOK=" + program::quoted((folder.path() / "b/book.portwright").string()) +
      " XDG_STATE_HOME=" + program::quoted((folder.path() / "state").string());
  const auto sample = [](const char* name) { return (root / "data/samples" / name).string(); };
  std::string text;
  for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{
           {"book"},
           {"book", "add", sample("hornbeam-66-a.saw.toml"), sample("hornbeam-66-b.saw.toml"),
            sample("willow-64.saw.toml")},
           {"book", "list"},
           {"book", "set", "hornbeam-66-a", "port.exhaust.opens", "104.5 deg", "--again"},
           {"book", "set", "willow", "crank.stroke", "36 cc"},
           {"book", "set", "willow", "crank.strok", "36 mm"},
           {"book", "show", "willow"},
           {"book", "undo"},
           {"book", "sisters", "Hornbeam 66"},
           {"book", "borrow", "hornbeam-66-a", "Hornbeam 66 C"},
           {"book", "note", "willow", "the gasket was torn"},
           {"book", "wood", "willow", "--wood", "oak 40 cm", "--times", "12.1 s; 12.4 s", "--felt", "pulls well"},
           {"book", "failure", "willow", "top ring caught", "--where", "exhaust, left corner"},
           {"book", "cut", "willow", "gasket out"},
           {"book", "accept", "willow", "gauge.compression", "--reason", "a tired saw"},
           {"book", "show", "willow"},
           {"book", "find", "gasket tor"},
           {"book", "hide", "willow"},
           {"book", "list"},
           {"book", "journal", "--last", "5"}}) {
    const auto ran = program::run(words, "", environment);
    text += '$';
    for (const std::string& word : words) text += ' ' + word;
    text += "  -> " + std::to_string(ran.status) + '\n' + ran.out + ran.err + '\n';
  }
  for (std::size_t at; (at = text.find(root.string())) != std::string::npos;)
    text.replace(at, root.string().size() + 1, "");
  text = plain(text, folder.path());
  const fs::path kept = root / "tests/golden/cli_book.txt";
  const char* mode = std::getenv("PORTWRIGHT_GOLDEN");
  if (mode != nullptr && std::string(mode) == "write") program::write_file(kept, text);
  EXPECT_EQ(text, program::read_file(kept));
}

}  // namespace
