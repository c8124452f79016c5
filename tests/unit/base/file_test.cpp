#include "base/file.hpp"

#include <gtest/gtest.h>
#include <sys/stat.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>

namespace portwright::base {
namespace {

namespace fs = std::filesystem;

class File : public testing::Test {
 protected:
  void SetUp() override {
    char name[] = "/tmp/portwright-file-XXXXXX";
    folder_ = ::mkdtemp(name);
  }
  void TearDown() override { fs::remove_all(folder_); }
  std::string path(const char* name) const { return folder_ + "/" + name; }
  std::size_t count() const {
    return static_cast<std::size_t>(std::distance(fs::directory_iterator(folder_), fs::directory_iterator{}));
  }
  std::string folder_;
};

TEST_F(File, what_is_written_is_read_back) {
  const std::string bytes("a\0b\xff\n", 5);
  ASSERT_TRUE(write_file_atomic(path("x"), bytes));
  EXPECT_EQ(read_file(path("x"), 100).value(), bytes);
  EXPECT_EQ(count(), 1U);
}

TEST_F(File, a_new_version_takes_the_place_of_the_old_and_keeps_its_rights) {
  ASSERT_TRUE(write_file_atomic(path("x"), "old"));
  ::chmod(path("x").c_str(), 0640);
  ASSERT_TRUE(write_file_atomic(path("x"), "new"));
  EXPECT_EQ(read_file(path("x"), 100).value(), "new");
  struct stat info {};
  ASSERT_EQ(::stat(path("x").c_str(), &info), 0);
  EXPECT_EQ(info.st_mode & 0777, 0640U);
  EXPECT_EQ(count(), 1U);
}

TEST_F(File, a_private_file_is_its_owners_alone_whatever_it_was) {
  const auto rights = [&] {
    struct stat info {};
    return ::stat(path("x").c_str(), &info) == 0 ? info.st_mode & 0777 : 0;
  };
  ASSERT_TRUE(write_file_private(path("x"), "old"));
  EXPECT_EQ(rights(), 0600U);
  ::chmod(path("x").c_str(), 0644);
  ASSERT_TRUE(write_file_private(path("x"), "new"));
  EXPECT_EQ(rights(), 0600U);
  EXPECT_EQ(read_file(path("x"), 100).value(), "new");
  EXPECT_EQ(count(), 1U);
}

TEST_F(File, a_missing_folder_is_a_storage_error_and_leaves_nothing) {
  EXPECT_EQ(write_file_atomic(path("none/x"), "text").error().code, ErrorCode::storage);
  EXPECT_EQ(count(), 0U);
}

TEST_F(File, a_folder_is_not_written_over) {
  fs::create_directory(path("d"));
  EXPECT_EQ(write_file_atomic(path("d"), "text").error().code, ErrorCode::storage);
  EXPECT_TRUE(fs::is_directory(path("d")));
  EXPECT_EQ(count(), 1U);
}

TEST_F(File, a_place_that_takes_no_files_is_a_storage_error) {
  EXPECT_EQ(write_file_atomic("/proc/self/x", "text").error().code, ErrorCode::storage);
}

TEST_F(File, reading_tells_missing_too_long_and_folder_apart) {
  EXPECT_EQ(read_file(path("none"), 10).error().code, ErrorCode::not_found);
  ASSERT_TRUE(write_file_atomic(path("x"), "12345678901"));
  EXPECT_EQ(read_file(path("x"), 10).error().code, ErrorCode::not_a_saw_file);
  EXPECT_EQ(read_file(path("x"), 11).value().size(), 11U);
  EXPECT_EQ(read_file(folder_, 10).error().code, ErrorCode::not_a_saw_file);
}

TEST_F(File, an_endless_file_stops_at_the_cap) {
  EXPECT_EQ(read_file("/dev/zero", 1000).error().code, ErrorCode::not_a_saw_file);
}

}  // namespace
}  // namespace portwright::base
