#include <gmock/gmock.h>
#include <sqlite3.h>

#include <fstream>
#include <iterator>

#include "book/folder.hpp"
#include "book/page_sums.hpp"
#include "unit/book/workshop.hpp"

// verify sees every table that was changed behind the book's back; a whole book goes into an empty one.
namespace book_test {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

class verify : public testing::Test {
 protected:
  verify() {
    auto book = open();
    taken(book.act(adding("saw1", R"({"name":"Alder","model":"A60"})")));
    taken(book.act(adding("note1", R"({"text":"Held its edge in Frost"})", "saw1", "note")));
    book::Deed photo = setting("saw1", "photo", "\"blob:" + book::hash_of("bytes") + "\"", 1);
    photo.blobs.push_back({"bytes", "image/jpeg"});
    taken(book.act(photo));
    taken(book.act(setting("saw1", "note", R"("a")", 3)));
    taken(book.undo());
  }
  book::Book open(const std::string& author = "Ann") { return taken(book::Book::open(place_in(folder, author))); }
  /// Behind the book's back, with sums as they must be.
  void tamper(const std::string& sql) const {
    sqlite3* handle = nullptr;
    ASSERT_EQ(
        sqlite3_open_v2(place_in(folder).path.c_str(), &handle, SQLITE_OPEN_READWRITE, book::page_sum_vfs("").c_str()),
        SQLITE_OK);
    char* said = nullptr;
    EXPECT_EQ(sqlite3_exec(handle, sql.c_str(), nullptr, nullptr, &said), SQLITE_OK) << sql << ": " << said;
    sqlite3_free(said);
    sqlite3_close(handle);
  }
  Folder folder;
};

TEST_F(verify, a_sound_book_has_no_fault_and_is_counted) {
  const auto verified = taken(open().verify());
  EXPECT_THAT(verified.faults, IsEmpty());
  EXPECT_EQ(verified.documents, 2);
  EXPECT_EQ(verified.actions, 5);
  EXPECT_EQ(verified.entries, 5);
  EXPECT_EQ(verified.blobs, 1);
  EXPECT_FALSE(verified.search_mended);
}

TEST_F(verify, sees_every_table_that_was_changed_behind_its_back) {
  const std::string path = place_in(folder).path;
  for (const char* sql : {"UPDATE document SET body = '{\"name\":\"Alder\"}' WHERE id = 'saw1'",
                          "UPDATE document SET title = 'x'",
                          "UPDATE document SET hidden = 1 WHERE id = 'note1'",
                          "UPDATE document SET concealed = 1 WHERE id = 'note1'",
                          "UPDATE document SET revision = 1",
                          "UPDATE document SET author = 'Bea'",
                          "UPDATE document SET changed = '2020'",
                          "UPDATE document SET belongs_to = '' WHERE id = 'note1'",
                          "DELETE FROM document WHERE id = 'note1'",
                          "UPDATE journal SET after = '\"b\"' WHERE sequence = 4",
                          "UPDATE journal SET before = NULL WHERE sequence = 5",
                          "DELETE FROM journal WHERE sequence = 2",
                          "UPDATE action SET label = 'x' WHERE number = 1",
                          "UPDATE action SET author = 'Bea' WHERE number = 2",
                          "UPDATE action SET at = 'x' WHERE number = 3",
                          "UPDATE root SET state = 0 WHERE action = 4",
                          "DELETE FROM root WHERE action = 1",
                          "UPDATE facet SET value = 'B50'",
                          "DELETE FROM facet",
                          "UPDATE blob SET bytes = x'00'",
                          "DELETE FROM blob",
                          "UPDATE standing SET documents = 3",
                          "UPDATE standing SET blobs = 0"}) {
    fs::copy_file(path, folder / "kept", fs::copy_options::overwrite_existing);
    tamper(sql);
    auto opened = book::Book::open(place_in(folder));
    if (opened) {
      EXPECT_THAT(taken(opened->verify()).faults, testing::Not(IsEmpty())) << sql;
    } else {
      EXPECT_EQ(opened.error().code, base::ErrorCode::damaged) << sql;
    }
    opened = tl::unexpected(base::Error{});
    fs::copy_file(folder / "kept", path, fs::copy_options::overwrite_existing);
  }
  EXPECT_THAT(taken(open().verify()).faults, IsEmpty());
}

TEST_F(verify, makes_the_index_of_words_anew_when_it_does_not_agree) {
  tamper("UPDATE search SET words = 'nothing'");
  auto book = open();
  EXPECT_THAT(taken(book.find("frost")), IsEmpty());
  const auto verified = taken(book.verify());
  EXPECT_TRUE(verified.search_mended);
  EXPECT_THAT(verified.faults, IsEmpty());
  EXPECT_THAT(taken(book.find("frost")), SizeIs(1));
  EXPECT_FALSE(taken(book.verify()).search_mended);
  book = open();
}

TEST_F(verify, a_whole_book_goes_into_an_empty_one_and_is_the_same) {
  auto book = open();
  book::Whole whole;
  whole.book = book.id();
  whole.facets = taken(book.facets());
  whole.actions = taken(book.journal({}));
  std::reverse(whole.actions.begin(), whole.actions.end());
  const auto kept = taken(book.blobs());
  whole.blobs = {kept.size(), [&](std::size_t i) -> base::Result<book::NewBlob> {
                   return book::NewBlob{taken(book.blob(kept[i].hash)).bytes, kept[i].type};
                 }};
  const Folder elsewhere;
  auto other = taken(book::Book::open(place_in(elsewhere)));
  EXPECT_EQ(taken(other.fill(whole)).documents, 2);
  EXPECT_EQ(taken(other.hash()), taken(book.hash()));
  EXPECT_EQ(other.id(), book.id());
  EXPECT_EQ(taken(other.get("saw1")).created, taken(book.get("saw1")).created);
  EXPECT_EQ(other.fill(whole).error().code, base::ErrorCode::usage) << "it is not empty any more";
}

TEST_F(verify, what_does_not_hold_leaves_the_empty_book_empty) {
  auto book = open();
  book::Whole whole;
  whole.book = book.id();
  whole.actions = taken(book.journal({}));
  std::reverse(whole.actions.begin(), whole.actions.end());
  const Folder elsewhere;
  auto other = taken(book::Book::open(place_in(elsewhere)));
  const std::string empty = taken(other.hash());
  const auto refused = [&](book::Whole wrong) {
    const auto done = other.fill(wrong);
    ASSERT_FALSE(done.has_value());
    EXPECT_EQ(done.error().code, base::ErrorCode::damaged);
    EXPECT_EQ(taken(other.hash()), empty);
  };
  auto label = whole;
  label.actions[2].label = "other";
  refused(label);
  auto value = whole;
  value.actions[3].entries[0].after = "\"b\"";
  refused(value);
  auto missing = whole;
  missing.actions.erase(missing.actions.begin() + 1);
  refused(missing);
  auto twice = whole;
  twice.actions.push_back(twice.actions.back());
  refused(twice);
  auto stranger = whole;
  stranger.book = "../x";
  refused(stranger);
}

TEST(mount, the_file_system_is_that_of_the_longest_place_above) {
  const std::string text =
      "26 1 254:0 / / rw - ext4 /dev/vda rw\n30 26 0:31 / /home rw - nfs4 server:/home rw\n"
      "31 30 0:32 / /home/ann/usb\\040stick rw shared:1 - vfat /dev/sda rw\n32 26 0:33 / /homes rw - fuse.gvfsd-fuse g "
      "rw\n";
  EXPECT_EQ(book::file_system_of(text, "/var/x"), "ext4");
  EXPECT_EQ(book::file_system_of(text, "/home/ann/books"), "nfs4");
  EXPECT_EQ(book::file_system_of(text, "/home/ann/usb stick/books"), "vfat");
  EXPECT_EQ(book::file_system_of(text, "/homes/x"), "fuse.gvfsd-fuse");
  for (const char* type : {"nfs", "nfs4", "cifs", "smb3", "9p", "fuse.sshfs"})
    EXPECT_TRUE(book::is_network(type)) << type;
  for (const char* type : {"ext4", "btrfs", "xfs", "tmpfs", "overlay", "vfat", "fuse.gvfsd-fuse", ""})
    EXPECT_FALSE(book::is_network(type)) << type;
}

}  // namespace
}  // namespace book_test
