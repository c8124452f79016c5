#include <gmock/gmock.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <map>
#include <set>

#include "faults/book_failing_vfs.hpp"
#include "unit/book/workshop.hpp"

// A disk that fails at any moment: every call of SQLite to the file system once made to fail, in turn. What was
// acknowledged is there, what was refused is not, the book is sound, and the answer is a clear one.
namespace book_test {
namespace {

using testing::AnyOf;
using testing::IsEmpty;

#ifdef PORTWRIGHT_SANITIZED
constexpr int sparse = 5;
#else
constexpr int sparse = 1;
#endif

/// Every call fails in turn; of the longer troubles every fifth, unless PORTWRIGHT_BOOK_EVERY asks for all.
int stride_of(Trouble trouble) {
  if (std::getenv("PORTWRIGHT_BOOK_EVERY") != nullptr) return 1;
  return trouble == Trouble::once ? sparse : 5 * sparse;
}

struct Outcome {
  std::map<std::string, bool> acts;  // by token: acknowledged
  int refused = 0;
  void note(const base::Error& error, const char* what) {
    ++refused;
    EXPECT_THAT(error.code, AnyOf(base::ErrorCode::storage, base::ErrorCode::busy))
        << what << ": " << base::code_name(error.code) << ": " << error.message;
    EXPECT_FALSE(error.message.empty());
  }
  void act(book::Book& book, book::Deed deed, const std::string& token) {
    deed.token = token;
    const auto done = book.act(deed);
    acts[token] = done.has_value();
    if (!done) note(done.error(), token.c_str());
  }
  template <class T>
  void see(const base::Result<T>& answer, const char* what) {
    if (!answer && answer.error().code != base::ErrorCode::not_found) note(answer.error(), what);
  }
};

/// A working day at the bench.
Outcome work(const book::Place& place) {
  Outcome out;
  auto opened = book::Book::open(place);
  if (!opened) {
    out.note(opened.error(), "open");
    return out;
  }
  book::Book& book = *opened;
  out.act(book, adding("new1", R"({"name":"Cherry","note":")" + std::string(9000, 'c') + "\"}"), "add");
  const auto undone = book.undo("undo");
  out.acts["undo"] = undone.has_value();
  out.see(undone, "undo");
  out.see(book.redo("redo"), "redo");
  const auto seen = book.get("saw1");
  out.see(seen, "get");
  if (seen) out.act(book, setting("saw1", "note", R"("seen")", seen->revision), "set");
  auto photo = adding("photo1", R"({"name":"rubbing"})", "", "photo");
  photo.blobs.push_back({std::string(30000, 'b'), "image/png"});
  out.act(book, photo, "photo");
  out.see(book.find("alder"), "find");
  out.see(book.back_up(), "backup");
  out.act(book, adding("new2", R"({"name":"Damson"})"), "last");
  return out;
}

/// The first minute with a new book.
Outcome begin(const book::Place& place) {
  Outcome out;
  auto opened = book::Book::open(place);
  if (opened)
    out.act(*opened, adding("new1", R"({"name":"Cherry"})"), "add");
  else
    out.note(opened.error(), "open");
  return out;
}

void make_book(const book::Place& place) {
  auto book = taken(book::Book::open(place));
  for (int i = 0; i < 3; ++i)
    taken(book.act(adding("saw" + std::to_string(i), R"({"name":"Alder","note":")" + std::string(2000, 'a') + "\"}")));
}

/// The book after trouble, seen through a file system that works.
void expect_sound(book::Place place, const Outcome& outcome, Trouble trouble, int n) {
  place.vfs.clear();
  auto opened = book::Book::open(place);
  ASSERT_TRUE(opened.has_value()) << n << ": " << opened.error().message;
  EXPECT_FALSE(opened->alarm().has_value()) << n;
  EXPECT_THAT(taken(opened->verify()).faults, IsEmpty()) << n;
  std::set<std::string> kept;
  for (const auto& action : taken(opened->journal({}))) EXPECT_TRUE(kept.insert(action.token).second) << n;
  for (const auto& [token, acknowledged] : outcome.acts) {
    if (acknowledged) {
      EXPECT_TRUE(kept.contains(token)) << n << ": lost: " << token;
    } else if (trouble == Trouble::once) {
      EXPECT_FALSE(kept.contains(token)) << n << ": refused, and there: " << token;
    }
  }
  if (trouble == Trouble::once) {
    EXPECT_LE(outcome.refused, 1) << n << ": one call failed";
  }
}

void fail_everywhere(Trouble trouble, bool fresh) {
  const auto do_work = fresh ? begin : work;
  const Folder folder;
  book::Place place = place_in(folder);
  place.clock = {};
  place.vfs = "failing";
  place.backs_up = false;  // one is asked for
  fail_at(0, Trouble::none);
  if (!fresh) make_book(place);
  fs::create_directories(folder / "books");
  fs::copy(folder / "books", folder / "kept", fs::copy_options::recursive);
  const auto again = [&] {
    fs::remove_all(folder / "books");
    fs::copy(folder / "kept", folder / "books", fs::copy_options::recursive);
    fs::remove_all(folder / "state");
  };
  fail_at(1 << 30, trouble);  // only counted
  const Outcome whole = do_work(place);
  const int calls = calls_made();
  EXPECT_EQ(whole.refused, 0);
  ASSERT_GT(calls, 50);
  int failed = 0;
  const int stride = stride_of(trouble);
  for (int n = 1; n <= calls; n += stride) {
    again();
    fail_at(n, trouble);
    const Outcome outcome = do_work(place);
    failed += has_failed() ? 1 : 0;
    fail_at(0, Trouble::none);
    expect_sound(place, outcome, trouble, n);
    if (testing::Test::HasFatalFailure()) return;
  }
  EXPECT_GT(failed * stride, calls * 9 / 10);
  std::printf("%d of %d calls failed in turn\n", failed, calls);
}

TEST(disk, an_error_at_any_one_call_is_a_clear_answer_and_costs_at_most_that_one_act) {
  fail_everywhere(Trouble::once, false);
}

TEST(disk, that_fails_for_good_from_any_call_on_loses_nothing_acknowledged) {
  fail_everywhere(Trouble::for_good, false);
}

TEST(disk, that_is_full_from_any_write_on_loses_nothing_acknowledged) { fail_everywhere(Trouble::disk_full, false); }

TEST(disk, that_fails_while_a_book_is_made_leaves_none_or_a_whole_one) {
  fail_everywhere(Trouble::once, true);
  fail_everywhere(Trouble::for_good, true);
}

/// Runs `body` as an ordinary user when this is root: rights do not stop root.
void as_ordinary_user(const std::function<int()>& body) {
  const pid_t process = fork();
  if (process == 0) {
    if (geteuid() == 0 && (setgid(65534) != 0 || setuid(65534) != 0)) _exit(90);
    _exit(body());
  }
  int status = 0;
  waitpid(process, &status, 0);
  ASSERT_TRUE(WIFEXITED(status));
  EXPECT_EQ(WEXITSTATUS(status), 0);
}

TEST(disk, a_folder_that_takes_no_files_is_said_so_in_a_sentence) {
  const Folder folder;
  const book::Place place = place_in(folder);
  make_book(place);
  fs::permissions(folder / "books", fs::perms(0555));
  for (const auto& entry : fs::directory_iterator(folder / "books"))
    if (entry.is_regular_file()) fs::permissions(entry.path(), fs::perms(0444));
  fs::permissions(folder.path(), fs::perms(0555));  // also for its owner
  as_ordinary_user([&] {
    const auto opened = book::Book::open(place);
    if (opened) return 1;
    if (opened.error().code != base::ErrorCode::storage) return 2;
    if (opened.error().hint.find("writable") == std::string::npos) return 3;
    book::Place elsewhere = place;
    elsewhere.path = folder / "none/books/book.portwright";
    const auto made = book::Book::open(elsewhere);
    if (made || made.error().code != base::ErrorCode::storage) return 4;
    book::Place reading = place;
    reading.read_only = true;
    auto read = book::Book::open(reading);
    if (!read) return read.error().code == base::ErrorCode::storage ? 0 : 5;
    return read->get("saw1") ? 0 : 6;
  });
  fs::permissions(folder.path(), fs::perms(0755));
  fs::permissions(folder / "books", fs::perms(0755));
}

TEST(disk, a_book_opened_for_reading_only_reads_and_refuses_to_act) {
  const Folder folder;
  book::Place place = place_in(folder);
  make_book(place);
  place.read_only = true;
  auto book = taken(book::Book::open(place));
  EXPECT_TRUE(book.get("saw1").has_value());
  EXPECT_EQ(book.act(adding("x", "{}")).error().code, base::ErrorCode::storage);
  EXPECT_EQ(book.undo().error().code, base::ErrorCode::storage);
  EXPECT_THAT(taken(book.verify()).faults, IsEmpty());
  place.path += "2";
  EXPECT_EQ(book::Book::open(place).error().code, base::ErrorCode::not_found);
}

}  // namespace
}  // namespace book_test
