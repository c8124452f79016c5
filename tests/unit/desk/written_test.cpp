// What a written answer may take the place of.
#include "desk/written.hpp"

#include <gtest/gtest.h>
#include <sys/stat.h>

#include "unit/desk/turning_samples.hpp"

namespace {

using namespace portwright;
using namespace turning_samples;

TEST(written, a_saw_file_is_never_written_over_by_a_drawing) {
  const Folder folder;
  const std::string saw = folder.file("mine.saw.toml", "name = \"Mine\"\n");
  const auto done = desk::put(saw, "%PDF-1.7 ...");
  ASSERT_FALSE(done);
  EXPECT_EQ(done.error().code, base::ErrorCode::storage);
  EXPECT_EQ(text_of(saw), "name = \"Mine\"\n");
}

TEST(written, a_drawing_takes_the_place_of_an_older_one) {
  const Folder folder;
  const std::string sheet = folder.at("sheet.pdf");
  ASSERT_TRUE(desk::put(sheet, "%PDF-1.7 one"));
  ASSERT_TRUE(desk::put(sheet, "%PDF-1.7 two"));
  EXPECT_EQ(text_of(sheet), "%PDF-1.7 two");
  const std::string empty = folder.file("empty", "");
  EXPECT_TRUE(desk::put(empty, "<svg/>"));
}

TEST(written, a_device_is_written_to_and_stays_what_it_is) {
  ASSERT_TRUE(desk::put("/dev/null", "<svg/>"));
  struct stat there {};
  ASSERT_EQ(stat("/dev/null", &there), 0);
  EXPECT_TRUE(S_ISCHR(there.st_mode));
}

}  // namespace
