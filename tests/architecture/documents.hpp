#pragma once
// What stands in a Markdown document that can be held against the tree and the program: fenced blocks, commands with
// what they print, links.

#include <string>
#include <vector>

namespace architecture {

struct Block {
  std::string language;  ///< the word after the fence
  std::string text;      ///< without its fences
  std::size_t at = 0;    ///< of `text` in the document [bytes]
  std::size_t line = 0;  ///< of the first fence, from 1
};

/// Blocks between ``` fences, in order.
std::vector<Block> fenced_blocks(const std::string& document);

struct Command {
  std::string line;     ///< as typed after "$ "; further lines that begin with "> " go on with it
  std::string printed;  ///< up to the next command, without blank lines at its end
};

/// Commands of a console block and what the document says they print.
std::vector<Command> console_commands(const std::string& block);

/// The same block with what the commands print now.
std::string console_block(const std::vector<Command>& commands);

/// Name that the first line of a block gives it as a comment: "# five.saw.toml"; empty: none.
std::string file_name(const Block& block);

/// Targets of links and pictures outside fenced blocks that point into the tree, as written.
std::vector<std::string> local_links(const std::string& document);

/// Anchors of the headings, as a reader of Markdown makes them: small letters, blanks as hyphens, other marks dropped.
std::vector<std::string> anchors(const std::string& document);

/// Text without blanks and line ends at its end.
std::string trimmed_end(std::string text);

}  // namespace architecture
