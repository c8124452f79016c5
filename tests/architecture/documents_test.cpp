#include "architecture/documents.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

// The readers of documents, tried on made-up ones.
namespace architecture {
namespace {

using ::testing::ElementsAre;
using ::testing::SizeIs;

const std::string made_up =
    "# A page, and more\n[here](other.md#part) ![](pictures/a.svg) [there](https://example.org)\n"
    "```console\n$ one --two\nfirst\n\nsecond\n\n$ three \\\n> four\n```\n"
    "```toml\n# small.saw.toml\nname = \"[x](y)\"\n```\n## Next part\n";

TEST(documents, blocks_are_found_with_their_language_and_place) {
  const auto blocks = fenced_blocks(made_up);
  ASSERT_THAT(blocks, SizeIs(2));
  EXPECT_EQ(blocks[0].language, "console");
  EXPECT_EQ(blocks[0].line, 3u);
  EXPECT_EQ(made_up.substr(blocks[1].at, blocks[1].text.size()), blocks[1].text);
  EXPECT_EQ(file_name(blocks[1]), "small.saw.toml");
  EXPECT_EQ(file_name(blocks[0]), "");
}

TEST(documents, a_command_owns_what_is_printed_up_to_the_next) {
  const auto commands = console_commands(fenced_blocks(made_up)[0].text);
  ASSERT_THAT(commands, SizeIs(2));
  EXPECT_EQ(commands[0].line, "one --two");
  EXPECT_EQ(commands[0].printed, "first\n\nsecond");
  EXPECT_EQ(commands[1].line, "three \\\nfour");
  EXPECT_EQ(commands[1].printed, "");
}

TEST(documents, a_block_written_back_reads_the_same) {
  const std::string block = fenced_blocks(made_up)[0].text;
  EXPECT_EQ(console_block(console_commands(block)), block);
}

TEST(documents, links_into_the_tree_are_found_outside_blocks_only) {
  EXPECT_THAT(local_links(made_up), ElementsAre("other.md#part", "pictures/a.svg"));
}

TEST(documents, headings_become_anchors) { EXPECT_THAT(anchors(made_up), ElementsAre("a-page-and-more", "next-part")); }

}  // namespace
}  // namespace architecture
