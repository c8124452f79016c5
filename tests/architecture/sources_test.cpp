#include "architecture/sources.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

// The reader of sources and citations, on made-up texts: that it finds what it should, and nothing else.
namespace {

using architecture::bib_keys;
using architecture::citation_faults;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

TEST(sources, keys_are_read_and_comments_are_not) {
  EXPECT_THAT(bib_keys("% @book{no, title}\n@book{one1970, title = {A}}\n@misc{two,\n  note = {@book{x, }}\n}\n"),
              ElementsAre("one1970", "two"));
}

TEST(sources, a_listed_key_practice_and_memory_are_no_faults) {
  EXPECT_THAT(citation_faults({"one1970"}, {{"a.hpp", "@source{one1970, p. 4} @source{practice} @source{memory}"}}),
              IsEmpty());
}

TEST(sources, a_key_that_is_not_listed_is_a_fault_with_its_file) {
  EXPECT_THAT(citation_faults({"one1970"}, {{"a.hpp", "/// @source{one1971, p. 4}"}}),
              ElementsAre("a.hpp: no source \"one1971\" in docs/references.bib"));
  EXPECT_THAT(citation_faults({}, {{"a.hpp", "@source{}"}}), ElementsAre(HasSubstr("no source \"\"")));
}

}  // namespace
