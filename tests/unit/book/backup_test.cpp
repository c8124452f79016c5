#include <gmock/gmock.h>
#include <sys/stat.h>

#include <fstream>

#include "book/backups.hpp"
#include "unit/book/workshop.hpp"

// Copies, the way back, and the alarm when a book has less than was seen of it.
namespace book_test {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

class backup : public testing::Test {
 protected:
  book::Book open() { return taken(book::Book::open(place_in(folder))); }
  std::string file(const std::string& ending = {}) const { return place_in(folder).path + ending; }
  Folder folder;
};

TEST_F(backup, the_first_act_makes_one_and_the_hour_passes_before_the_next) {
  auto book = open();
  taken(book.act(adding("saw1", R"({"name":"Alder"})")));
  ASSERT_THAT(book.backups(), SizeIs(1));
  taken(book.act(adding("saw2", R"({"name":"Birch"})")));
  EXPECT_THAT(book.backups(), SizeIs(1));
  EXPECT_THAT(book.take_notices(), IsEmpty());
  EXPECT_EQ(book.backups()[0].sequence, 1);
  const auto where = taken(book.where());
  EXPECT_EQ(where.documents, 2);
  EXPECT_EQ(where.last_backup->at, book.backups()[0].at);
}

TEST_F(backup, one_asked_for_is_opened_and_counted_wherever_it_goes) {
  auto book = open();
  for (int i = 0; i < 30; ++i) taken(book.act(adding("saw" + std::to_string(i), R"({"name":"Alder"})")));
  const auto made = taken(book.back_up(folder / "stick"));
  EXPECT_EQ(made.documents, 30);
  EXPECT_EQ(made.entries, 30);
  EXPECT_THAT(made.path, HasSubstr("stick"));
  EXPECT_EQ(taken(book::check_backup(place_in(folder), made.path)).documents, 30);
}

TEST_F(backup, files_are_for_the_owner_only) {
  auto book = open();
  taken(book.act(adding("saw1", R"({"name":"Alder"})")));
  struct stat info {};
  ASSERT_EQ(::stat(file().c_str(), &info), 0);
  EXPECT_EQ(info.st_mode & 0777, 0600u);
  ASSERT_EQ(::stat(book.backups()[0].path.c_str(), &info), 0);
  EXPECT_EQ(info.st_mode & 0777, 0600u);
  ASSERT_EQ(::stat((folder / "books").c_str(), &info), 0);
  EXPECT_EQ(info.st_mode & 0777, 0700u);
}

TEST_F(backup, ten_latest_a_day_for_thirty_days_and_a_month_each_stay) {
  std::vector<book::Backup> all;
  for (int day = 0; day < 400; ++day)
    for (int hour = 0; hour < 3; ++hour) {
      const std::int64_t at = 1772323200 + day * 86400 + hour * 3600;
      std::time_t time = at;
      char text[40];
      std::strftime(text, sizeof text, "%Y-%m-%dT%H:%M:%SZ", std::gmtime(&time));
      book::Backup one;
      one.at = text;
      one.sequence = at;
      all.insert(all.begin(), one);
    }
  const auto gone = book::to_prune(all, all.front().at);
  std::set<std::string> left, gone_at;
  for (const auto& one : gone) gone_at.insert(one.at);
  for (const auto& one : all)
    if (!gone_at.contains(one.at)) left.insert(one.at);
  for (std::size_t i = 0; i < 10; ++i) EXPECT_TRUE(left.contains(all[i].at));
  for (std::size_t i = 0; i < 90; i += 3) EXPECT_TRUE(left.contains(all[i].at)) << all[i].at;
  EXPECT_TRUE(left.contains("2026-03-31T02:00:00Z"));
  EXPECT_FALSE(left.contains("2026-03-30T02:00:00Z"));
  // Ten latest, of which four are last ones of a day; thirty days; twelve months before those days.
  EXPECT_EQ(left.size(), 10u + 30u - 4u + 12u);
}

TEST_F(backup, restored_puts_the_former_file_aside_and_goes_on_above_its_numbers) {
  std::string copy;
  {
    auto book = open();
    taken(book.act(adding("saw1", R"({"name":"Alder"})")));
    copy = taken(book.back_up(folder / "stick")).path;
    taken(book.act(adding("saw2", R"({"name":"Birch"})")));
    EXPECT_EQ(book::restore(place_in(folder), copy).error().code, base::ErrorCode::busy);
  }
  const auto restored = taken(book::restore(place_in(folder), copy));
  EXPECT_TRUE(fs::exists(restored.aside));
  EXPECT_EQ(restored.verified.documents, 1);
  auto book = open();
  EXPECT_EQ(book.opening(), book::Opening::current);
  EXPECT_FALSE(book.alarm().has_value());
  EXPECT_THAT(taken(book.list({})), SizeIs(1));
  const auto done = taken(book.act(adding("saw3", R"({"name":"Cherry"})")));
  EXPECT_EQ(done.entries[0].sequence, 3);
  EXPECT_THAT(taken(book.verify()).faults, IsEmpty());
}

TEST_F(backup, of_a_book_that_is_gone_is_the_way_back_and_nothing_is_made_in_its_place) {
  {
    auto book = open();
    taken(book.act(adding("saw1", R"({"name":"Alder"})")));
  }
  fs::remove(file());
  const auto gone = book::Book::open(place_in(folder));
  ASSERT_FALSE(gone.has_value());
  EXPECT_EQ(gone.error().code, base::ErrorCode::damaged);
  EXPECT_THAT(gone.error().hint, HasSubstr("backups"));
  EXPECT_FALSE(fs::exists(file()));
  std::ofstream(file()).close();
  EXPECT_EQ(book::Book::open(place_in(folder)).error().code, base::ErrorCode::damaged);
  ASSERT_THAT(gone.error().readings, SizeIs(1));
  taken(book::restore(place_in(folder), gone.error().readings[0]));
  EXPECT_THAT(taken(open().list({})), SizeIs(1));
}

TEST_F(backup, damaged_is_refused_and_the_book_stays) {
  std::string copy;
  {
    auto book = open();
    taken(book.act(adding("saw1", R"({"name":"Alder"})")));
    copy = book.backups()[0].path;
    taken(book.act(adding("saw2", R"({"name":"Birch"})")));
  }
  {
    std::fstream out(copy, std::ios::in | std::ios::out | std::ios::binary);
    out.seekp(5000);
    out.put('\x7f');
  }
  EXPECT_EQ(book::restore(place_in(folder), copy).error().code, base::ErrorCode::damaged);
  EXPECT_THAT(taken(open().list({})), SizeIs(2));
  EXPECT_FALSE(fs::exists(file(".new")));
}

TEST_F(backup, an_older_file_in_the_place_of_the_book_raises_an_alarm_until_it_is_acknowledged) {
  {
    auto book = open();
    taken(book.act(adding("saw1", R"({"name":"Alder"})")));
  }
  fs::copy_file(file(), folder / "older");
  {
    auto book = open();
    for (int i = 0; i < 3; ++i) taken(book.act(adding("more" + std::to_string(i), R"({"name":"Birch"})")));
  }
  fs::copy_file(folder / "older", file(), fs::copy_options::overwrite_existing);
  {
    auto book = open();
    ASSERT_TRUE(book.alarm().has_value());
    EXPECT_EQ(book.alarm()->entries_then, 4);
    EXPECT_EQ(book.alarm()->entries_now, 1);
    EXPECT_THAT(book.alarm()->message, HasSubstr("older"));
    for (int i = 0; i < 9; ++i) taken(book.act(adding("other" + std::to_string(i), R"({"name":"Birch"})")));
  }
  // Grown beyond what was seen, but with another history.
  auto book = open();
  ASSERT_TRUE(book.alarm().has_value());
  EXPECT_THAT(book.alarm()->message, HasSubstr("history"));
  taken(book.act(adding("last", R"({"name":"Birch"})")));
  ASSERT_TRUE(book.acknowledge().has_value());
  EXPECT_FALSE(open().alarm().has_value());
}

TEST_F(backup, the_tally_elsewhere_remembers_when_the_whole_folder_is_older) {
  {
    auto book = open();
    taken(book.act(adding("saw1", R"({"name":"Alder"})")));
  }
  fs::copy(folder / "books", folder / "older", fs::copy_options::recursive);
  {
    auto book = open();
    taken(book.act(adding("saw2", R"({"name":"Birch"})")));
  }
  fs::remove_all(folder / "books");
  fs::rename(folder / "older", folder / "books");
  EXPECT_TRUE(open().alarm().has_value());
}

TEST_F(backup, a_restore_that_was_cut_off_is_told_and_can_be_done_again) {
  std::string copy;
  {
    auto book = open();
    taken(book.act(adding("saw1", R"({"name":"Alder"})")));
    copy = book.backups()[0].path;
  }
  // The power fails while the copy is written: the book is still in its place.
  fs::copy_file(copy, file(".new"));
  fs::resize_file(file(".new"), 5000);
  EXPECT_EQ(open().opening(), book::Opening::current);
  // It fails when the book has been moved and the copy has not: nothing is made in its place.
  fs::rename(file(), file(".aside-1"));
  const auto gone = book::Book::open(place_in(folder));
  ASSERT_FALSE(gone.has_value());
  EXPECT_EQ(gone.error().code, base::ErrorCode::damaged);
  EXPECT_THAT(gone.error().message, HasSubstr("interrupted"));
  taken(book::restore(place_in(folder), copy));
  EXPECT_THAT(taken(open().list({})), SizeIs(1));
  EXPECT_TRUE(fs::exists(file(".aside-1")));
}

TEST_F(backup, old_ones_go_when_a_new_one_is_made) {
  auto place = place_in(folder);
  place.backs_up = false;
  auto book = taken(book::Book::open(place));
  taken(book.act(adding("saw1", R"({"name":"Alder"})")));
  fs::create_directories(folder / "books/backups");
  // Twenty copies of one hour of one day long ago.
  for (int i = 10; i < 30; ++i)
    std::ofstream((folder / "books/backups/book.portwright.000000000000.20250301T1010") + std::to_string(i) +
                  "Z.backup")
        .close();
  EXPECT_THAT(book.backups(), SizeIs(20));
  taken(book.back_up());
  EXPECT_THAT(book.backups(), SizeIs(10)) << "ten latest, the last of that day and month among them";
}

TEST_F(backup, what_is_read_in_one_view_is_of_one_moment) {
  auto book = open();
  auto other = open();
  taken(book.act(adding("saw1", R"({"name":"Alder"})")));
  const auto read = book.one_view([&]() -> base::Result<void> {
    const auto before = taken(book.list({}));
    taken(other.act(adding("saw2", R"({"name":"Birch"})")));
    EXPECT_EQ(taken(book.list({})).size(), before.size());
    EXPECT_EQ(taken(book.journal({})).size(), 1u);
    EXPECT_FALSE(book.get("saw2").has_value());
    return {};
  });
  EXPECT_TRUE(read.has_value());
  EXPECT_THAT(taken(book.list({})), SizeIs(2));
  const std::vector<std::string> ids{"saw2", "saw1"};
  EXPECT_EQ(taken(book.get(ids))[0].title, "Birch");
}

}  // namespace
}  // namespace book_test
