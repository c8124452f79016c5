// Photos through the book: taken in from files, carried to another book and back, and nothing that is none.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>

#include "desk/book.hpp"
#include "desk/book/carried.hpp"
#include "desk/book/parcel.hpp"
#include "unit/cli/program.hpp"
#include "unit/support/photo.hpp"

namespace {

using namespace portwright;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::SizeIs;
namespace fs = std::filesystem;

class photos : public ::testing::Test {
 protected:
  void SetUp() override {
    setenv("XDG_STATE_HOME", place("state").c_str(), 1);
    setenv("PORTWRIGHT_AUTHOR", "ann", 1);
    ASSERT_TRUE(desk::book_new({book, "Larch 70", "", {}}));
  }
  [[nodiscard]] std::string place(const std::string& name) const { return (folder.path() / name).string(); }
  [[nodiscard]] std::string other() const { return place("o/book.portwright"); }
  std::string file(const std::string& name, const std::string& bytes) const {
    program::write_file(fs::path(place(name)), bytes);
    return place(name);
  }
  std::string add(int seed, int width = 64, int height = 48) const {
    const auto bytes = photo_test::jpeg(width, height, seed);
    const auto done = desk::book_photo({book, "larch", bytes, "photo " + std::to_string(seed), {}});
    EXPECT_TRUE(done) << done.error().front().message;
    return done ? done->added.front() : "";
  }
  static std::string hash_of(const std::string& which) {
    const auto verified = desk::book_verify({which, {}});
    EXPECT_TRUE(verified && verified->head.errors.empty());
    return verified ? verified->hash : "";
  }
  program::Folder folder;
  std::string book = (folder.path() / "b" / "book.portwright").string();
};

TEST_F(photos, from_files_all_or_none_and_each_once) {
  const std::string one = file("one.jpg", photo_test::jpeg()), two = file("two.png", photo_test::jpeg(64, 48, 2));
  const std::string none = file("three.jpg", "hello"), cut = file("four.jpg", photo_test::jpeg().substr(0, 400));
  const auto refused = desk::book_photo_files({book, "larch", {one, none, cut, place("missing.jpg")}, "", {}});
  ASSERT_FALSE(refused);
  EXPECT_THAT(refused.error(), SizeIs(3)) << "everything that is wrong, at once";
  EXPECT_THAT(refused.error()[0].message, HasSubstr("three.jpg"));
  EXPECT_THAT(desk::book_photos({book, "larch", {}})->photos, IsEmpty());
  const auto added = desk::book_photo_files({book, "larch", {one, two, one}, "as found", {}});
  ASSERT_TRUE(added) << added.error().front().message;
  ASSERT_THAT(added->photos, SizeIs(3));
  EXPECT_EQ(added->photos[0].id, added->photos[2].id);
  EXPECT_THAT(added->head.notices, SizeIs(1));
  const auto all = desk::book_photos({book, "larch", {}});
  ASSERT_THAT(all->photos, SizeIs(2));
  EXPECT_EQ(all->photos[0].name, "as found");
  EXPECT_EQ(all->photos[0].taken, "2026:05:03 14:02:11");
}

TEST_F(photos, exported_wiped_and_imported_the_book_is_the_same) {
  const std::string id = add(1, 3000, 2000);
  (void)add(2);
  ASSERT_TRUE(desk::book_hide_photo({book, add(3), {}}));
  const std::string before = hash_of(book);
  const auto picture = desk::book_picture({book, id, false, ""});
  ASSERT_TRUE(picture);
  const auto exported = desk::book_export({book, place("out"), ""});
  ASSERT_TRUE(exported) << exported.error().front().message;
  EXPECT_EQ(exported->blobs, 6);
  EXPECT_THAT(program::read_file(place("out/photos.csv")),
              AllOf(HasSubstr("\"photo 1\",\"blobs/" + picture->hash + ".jpg\""), HasSubstr("2026:05:03 14:02:11")));
  EXPECT_EQ(program::read_file(place("out/records.csv")).find("photo"), std::string::npos);
  EXPECT_EQ(program::read_file(place("out/blobs/" + picture->hash + ".jpg")), picture->bytes);
  fs::remove_all(fs::path(book).parent_path());
  fs::remove_all(place("state"));
  const auto taken = desk::book_import({book, place("out"), true});
  ASSERT_TRUE(taken && taken->done) << taken.error().front().message;
  EXPECT_EQ(hash_of(book), before);
  EXPECT_EQ(desk::book_picture({book, id, false, ""})->bytes, picture->bytes);
  EXPECT_THAT(desk::book_photos({book, "larch", {}})->photos, SizeIs(2));
}

TEST_F(photos, thirty_go_with_their_saw_in_one_file) {
  for (int i = 0; i < 30; ++i) (void)add(i, 600, 400);
  const auto exported = desk::book_export_saw({book, place("larch.saw"), "larch"});
  ASSERT_TRUE(exported) << exported.error().front().message;
  EXPECT_EQ(exported->blobs, 60);
  ASSERT_TRUE(desk::book_new({other(), "Another", "", {}}));
  const auto taken = desk::book_import({other(), place("larch.saw"), true});
  ASSERT_TRUE(taken && taken->done) << taken.error().front().message;
  const auto here = desk::book_photos({book, "larch", {}}), there = desk::book_photos({other(), "larch", {}});
  ASSERT_THAT(there->photos, SizeIs(30));
  for (std::size_t i = 0; i < 30; ++i) {
    EXPECT_EQ(there->photos[i].id, here->photos[i].id);
    const auto a = desk::book_picture({book, here->photos[i].id, i % 2 == 0, ""});
    const auto b = desk::book_picture({other(), here->photos[i].id, i % 2 == 0, ""});
    EXPECT_TRUE(a && b && a->bytes == b->bytes && a->hash == b->hash);
  }
  EXPECT_THAT(desk::book_verify({other(), {}})->head.errors, IsEmpty());
}

TEST_F(photos, a_saws_file_that_was_spoilt_is_refused_whole) {
  (void)add(1);
  ASSERT_TRUE(desk::book_export_saw({book, place("larch.saw"), "larch"}));
  const std::string whole = program::read_file(place("larch.saw"));
  EXPECT_TRUE(desk::parcel_from(whole));
  const auto spoilt = [&](const std::string& from, const std::string& to) {
    return program::replaced(whole, from, to);
  };
  for (const std::string& text :
       {spoilt("\"base64\":\"/9j/", "\"base64\":\"/9k/"), spoilt("\"base64\":\"/9j/", "\"base64\":\"*9j/"),
        spoilt("image/jpeg", "text/html"), spoilt("\"files\":\"2\"", "\"files\":\"3\""),
        spoilt("\"files\":\"2\"", "\"files\":\"1\""), spoilt("\"files\":\"2\"", "\"files\":\"-2\""),
        spoilt("\"documents\":\"3\"", "\"documents\":\"99999999999\""), whole + "more\n",
        whole.substr(0, whole.size() / 2)}) {
    program::write_file(fs::path(place("spoilt.saw")), text);
    const auto taken = desk::book_import({other(), place("spoilt.saw"), true});
    ASSERT_FALSE(taken) << text.substr(0, 200);
    EXPECT_EQ(base::exit_status(taken.error().front().code), 4) << taken.error().front().message;
  }
}

TEST_F(photos, a_saws_file_of_the_first_format_is_still_read) {
  const std::string bytes = photo_test::jpeg();
  const std::string hash = book::hash_of(bytes);
  const std::string text = R"({"blobs":{"b000001":{"base64":")" + desk::to_base64(bytes) +
                           R"(","type":"image/jpeg"}},"documents":{"d000001":{"body":{"name":"Fir 50"},"id":"fir50",)" +
                           R"("kind":"saw"},"d000002":{"belongs_to":"fir50","body":{"picture":"blob:)" + hash +
                           R"("},"id":"photo1","kind":"photo"}},"format":"portwright saw parcel 1"})" + "\n";
  program::write_file(fs::path(place("fir.saw")), text);
  const auto taken = desk::book_import({book, place("fir.saw"), true});
  ASSERT_TRUE(taken && taken->done) << taken.error().front().message;
  EXPECT_EQ(desk::book_picture({book, "photo1", false, ""})->bytes, bytes);
}

TEST_F(photos, what_an_import_calls_a_photo_is_given_only_when_it_is_a_jpeg) {
  const std::string page = "<html><script>alert(1)</script>";
  const std::string hash = book::hash_of(page);
  const std::string text = R"({"blobs":{"b000001":{"base64":")" + desk::to_base64(page) +
                           R"(","type":"image/jpeg"}},"documents":{"d000001":{"body":{"name":"Fir 50"},"id":"fir50",)" +
                           R"("kind":"saw"},"d000002":{"belongs_to":"fir50","body":{"picture":"blob:)" + hash +
                           R"("},"id":"photo1","kind":"photo"}},"format":"portwright saw parcel 1"})" + "\n";
  program::write_file(fs::path(place("fir.saw")), text);
  ASSERT_TRUE(desk::book_import({book, place("fir.saw"), true}));
  const auto given = desk::book_picture({book, "photo1", false, ""});
  ASSERT_FALSE(given);
  EXPECT_EQ(given.error().code, base::ErrorCode::damaged);
  EXPECT_EQ(desk::book_picture({book, "photo1", true, ""}).error().code, base::ErrorCode::not_found) << "no small one";
}

TEST_F(photos, a_folder_brings_no_other_kinds_of_file) {
  (void)add(1);
  ASSERT_TRUE(desk::book_export({book, place("out"), ""}));
  const std::string page = "<html>";
  program::write_file(fs::path(place("out/blobs/" + book::hash_of(page) + ".html")), page);
  const auto taken = desk::book_import({other(), place("out"), true});
  ASSERT_FALSE(taken);
  EXPECT_EQ(taken.error().front().code, base::ErrorCode::damaged);
  EXPECT_FALSE(fs::exists(other()));
}

}  // namespace
