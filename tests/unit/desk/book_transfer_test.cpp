// Export, import, backup, restore: the same book again, and nothing hostile taken.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>

#include "desk/book.hpp"
#include "desk/book/carried.hpp"
#include "saw/file.hpp"
#include "unit/cli/program.hpp"

namespace {

using namespace portwright;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::SizeIs;
namespace fs = std::filesystem;

class transfer : public ::testing::Test {
 protected:
  void SetUp() override {
    setenv("XDG_STATE_HOME", (folder.path() / "state").c_str(), 1);
    setenv("PORTWRIGHT_AUTHOR", "ann", 1);
    std::vector<std::string> files;
    for (const fs::path& sample : program::samples()) files.push_back(sample.string());
    ASSERT_TRUE(desk::book_add({book, files, ""}));
    ASSERT_TRUE(desk::book_note({book, "larch", "=2+2 is no formula, \"quoted\"\nsecond line"}));
    ASSERT_TRUE(desk::book_note({book, "oak", "to be hidden"}));
    ASSERT_TRUE(desk::book_hide({book, "oak"}));
    ASSERT_TRUE(desk::book_undo({book}));
    ASSERT_TRUE(desk::book_hide({book, "willow"}));
    ASSERT_TRUE(desk::book_export({book, out()}));
  }
  [[nodiscard]] std::string place(const std::string& name) const { return (folder.path() / name).string(); }
  [[nodiscard]] std::string out() const { return place("workshop"); }
  [[nodiscard]] std::string other() const { return place("o/book.portwright"); }
  [[nodiscard]] std::string hash_of(const std::string& which) const {
    const auto verified = desk::book_verify({which});
    EXPECT_TRUE(verified && verified->head.errors.empty());
    return verified ? verified->hash : "";
  }
  void expect_refused() const {
    for (const bool yes : {false, true}) {
      const auto taken = desk::book_import({other(), out(), yes});
      ASSERT_FALSE(taken);
      EXPECT_EQ(base::exit_status(taken.error().front().code), 4) << taken.error().front().message;
      EXPECT_FALSE(fs::exists(other()));
    }
  }
  void spoil(const std::string& file, const std::string& from, const std::string& to) const {
    const std::string text = program::read_file(fs::path(out()) / file);
    ASSERT_NE(text.find(from), std::string::npos) << from;
    program::write_file(fs::path(out()) / file, program::replaced(text, from, to));
  }
  program::Folder folder;
  std::string book = (folder.path() / "b" / "book.portwright").string();
};

TEST_F(transfer, an_empty_book_becomes_the_same_book_by_hash_journal_and_all) {
  const auto looked = desk::book_import({other(), out(), false});
  ASSERT_TRUE(looked) << looked.error().front().message;
  EXPECT_FALSE(looked->done);
  EXPECT_FALSE(fs::exists(other()));
  const auto taken = desk::book_import({other(), out(), true});
  ASSERT_TRUE(taken) << taken.error().front().message;
  EXPECT_TRUE(taken->done && taken->into_empty);
  EXPECT_EQ(hash_of(other()), hash_of(book));
  EXPECT_EQ(taken->hash, hash_of(book));
  EXPECT_EQ(desk::book_list({other()})->hidden, 1);
  ASSERT_TRUE(desk::book_undo({other()}));  // willow's hiding, by its author
  EXPECT_EQ(desk::book_list({other()})->hidden, 0);
}

TEST_F(transfer, the_folder_reads_without_the_program) {
  int saws = 0;
  for (const auto& entry : fs::directory_iterator(fs::path(out()) / "saws")) {
    ++saws;
    EXPECT_TRUE(saw::read_saw_file(entry.path().string())) << entry.path();
  }
  EXPECT_EQ(saws, 8);
  EXPECT_THAT(program::read_file(fs::path(out()) / "README.txt"), HasSubstr("readings.csv"));
  EXPECT_THAT(program::read_file(fs::path(out()) / "readings.csv"), HasSubstr("\"port.exhaust.opens\",\"103 deg\""));
  EXPECT_THAT(program::read_file(fs::path(out()) / "records.csv"), HasSubstr("no formula, \"\"quoted\"\"\nsecond"));
  EXPECT_EQ(desk::csv_cell("=2+2"), "\"'=2+2\"");
  EXPECT_EQ(desk::csv_cell("-0.5 mm \"x\""), "\"'-0.5 mm \"\"x\"\"\"");
}

TEST_F(transfer, nothing_is_written_over) {
  EXPECT_FALSE(desk::book_export({book, out()}));
  const std::string file = folder.file("kept", "kept");
  EXPECT_FALSE(desk::book_export({book, file}));
  EXPECT_FALSE(desk::book_export_saw({book, file, "larch"}));
  EXPECT_EQ(program::read_file(file), "kept");
  for (const auto& entry : fs::directory_iterator(folder.path()))
    EXPECT_EQ(entry.path().string().find(".part-"), std::string::npos) << entry.path();
}

TEST_F(transfer, into_another_book_comes_what_it_does_not_have_and_what_differs_stays_and_is_shown) {
  ASSERT_TRUE(desk::book_import({other(), out(), true}));
  desk::BookSetRequest request;
  request.book = other();
  request.saw = "larch";
  request.field = "casting";
  request.value = "another";
  ASSERT_TRUE(desk::book_set(request));
  ASSERT_TRUE(desk::book_note({book, "larch", "a later note"}));
  ASSERT_TRUE(desk::book_export({book, place("later")}));
  const auto looked = desk::book_import({other(), place("later"), false});
  ASSERT_TRUE(looked) << looked.error().front().message;
  EXPECT_FALSE(looked->done || looked->into_empty);
  EXPECT_EQ(looked->documents, 1);
  ASSERT_THAT(looked->differing, SizeIs(1));
  EXPECT_EQ(looked->differing[0].mine, "another");
  EXPECT_EQ(looked->differing[0].theirs, "L-2, closed transfers");
  const auto taken = desk::book_import({other(), place("later"), true});
  ASSERT_TRUE(taken && taken->done);
  EXPECT_EQ(desk::book_show({other(), "larch"})->saw.casting, "another");
  EXPECT_THAT(desk::book_find({other(), "later note"})->found, SizeIs(1));
  EXPECT_FALSE(desk::book_import({other(), place("later"), true})->done);
}

TEST_F(transfer, one_saw_travels_as_one_file) {
  const std::string file = place("larch.portwright-saw.json");
  ASSERT_TRUE(desk::book_export_saw({book, file, "larch"}));
  const auto taken = desk::book_import({other(), file, true});
  ASSERT_TRUE(taken) << taken.error().front().message;
  EXPECT_EQ(taken->saws, 1);
  const auto here = desk::book_show({book, "larch"}), there = desk::book_show({other(), "larch"});
  ASSERT_TRUE(here && there);
  ASSERT_EQ(here->fields.size(), there->fields.size());
  for (std::size_t i = 0; i < here->fields.size(); ++i) {
    EXPECT_EQ(here->fields[i].path, there->fields[i].path);
    EXPECT_EQ(here->fields[i].typed, there->fields[i].typed);
  }
  EXPECT_EQ(here->records.size(), there->records.size());
  EXPECT_NE(hash_of(other()), "");
}

TEST_F(transfer, a_spoilt_journal_or_document_is_refused_whole) {
  spoil("journal.jsonl", "103 deg", "104 deg");
  expect_refused();
}
TEST_F(transfer, a_line_that_is_no_json_is_refused_whole) {
  spoil("documents.jsonl", "{", "[");
  expect_refused();
}
TEST_F(transfer, a_nul_is_refused_whole) {
  spoil("journal.jsonl", "103 deg", std::string("103\0deg", 7));
  expect_refused();
}
TEST_F(transfer, kept_bytes_that_are_others_are_refused_whole) {
  for (const auto& entry : fs::directory_iterator(fs::path(out()) / "blobs")) {
    program::write_file(entry.path(), "others");
    break;
  }
  expect_refused();
}
TEST_F(transfer, links_are_refused_whole) {
  const fs::path blobs = fs::path(out()) / "blobs";
  fs::create_symlink("/etc/passwd", blobs / "passwd");
  expect_refused();
  fs::remove(blobs / "passwd");
  fs::rename(fs::path(out()) / "journal.jsonl", place("journal.jsonl"));
  fs::create_symlink(place("journal.jsonl"), fs::path(out()) / "journal.jsonl");
  expect_refused();
}
TEST_F(transfer, a_link_in_the_place_of_the_kept_files_is_refused_whole) {
  fs::rename(fs::path(out()) / "blobs", place("elsewhere"));
  fs::create_directory_symlink(place("elsewhere"), fs::path(out()) / "blobs");
  expect_refused();
}
TEST_F(transfer, a_file_longer_than_any_book_is_refused_unread) {
  fs::resize_file(fs::path(out()) / "journal.jsonl", std::uintmax_t{3} << 30U);  // sparse: takes no room
  expect_refused();
}
TEST_F(transfer, ids_that_climb_are_refused_whole) {
  spoil("documents.jsonl", "\"id\":\"", "\"id\":\"../../");
  ASSERT_TRUE(desk::book_note({book, "larch", "used"}));
  const std::string before = hash_of(book);
  const auto taken = desk::book_import({book, out(), true});
  ASSERT_FALSE(taken);
  EXPECT_EQ(taken.error().front().code, base::ErrorCode::damaged);
  EXPECT_EQ(hash_of(book), before);
}
TEST_F(transfer, further_readings_of_a_saw_that_is_here_are_said) {
  ASSERT_TRUE(desk::book_import({other(), out(), true}));
  ASSERT_TRUE(desk::book_add({book, {folder.file("cut.saw.toml", program::larch)}, "larch"}));
  ASSERT_TRUE(desk::book_export({book, place("later")}));
  const auto looked = desk::book_import({other(), place("later"), false});
  ASSERT_TRUE(looked);
  EXPECT_THAT(looked->head.notices, ::testing::Contains(HasSubstr("Larch 70 gets further readings")));
}
TEST_F(transfer, what_is_no_export_is_said_so) {
  EXPECT_EQ(desk::book_import({other(), place("none"), true}).error().front().code, base::ErrorCode::not_found);
  EXPECT_FALSE(desk::book_import({other(), folder.path().string(), true}));
  EXPECT_EQ(desk::book_import({other(), folder.file("x.saw.toml", program::larch), true}).error().front().code,
            base::ErrorCode::unknown_format);
  EXPECT_FALSE(fs::exists(other()));
}

TEST_F(transfer, a_backup_is_counted_and_is_the_way_back) {
  const auto backup = desk::book_backup({book, place("stick")});
  ASSERT_TRUE(backup) << backup.error().front().message;
  const std::string before = hash_of(book);
  ASSERT_TRUE(desk::book_note({book, "larch", "too much"}));
  ASSERT_NE(hash_of(book), before);
  const auto restored = desk::book_restore({book, backup->backup.file});
  ASSERT_TRUE(restored) << restored.error().front().message;
  EXPECT_TRUE(fs::exists(restored->aside));
  EXPECT_EQ(hash_of(book), before);
  EXPECT_FALSE(desk::book_restore({book, place("no-backup")}));
  EXPECT_FALSE(desk::book_restore({book, folder.file("text", "text")}));
  EXPECT_EQ(hash_of(book), before);
}

TEST(base64, every_length_comes_back_and_other_text_is_refused) {
  std::string bytes;
  for (int i = 0; i < 300; ++i) {
    EXPECT_EQ(desk::from_base64(desk::to_base64(bytes)), bytes);
    bytes += static_cast<char>(i * 7);
  }
  EXPECT_EQ(desk::to_base64("foobar"), "Zm9vYmFy");  // RFC 4648, section 10
  EXPECT_EQ(desk::to_base64("foob"), "Zm9vYg==");
  for (const char* text : {"Zg=", "Z===", "Zm9v!", "Zg==Zg==", "=m9v", "Zm=v", "Zme=", "Zh=="})
    EXPECT_FALSE(desk::from_base64(text)) << text;
}

}  // namespace
