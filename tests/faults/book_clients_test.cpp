#include <gmock/gmock.h>
#include <poll.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <map>
#include <random>
#include <set>
#include <thread>

#include "unit/book/workshop.hpp"

// Many programs on one book: nothing acknowledged is lost when they are killed, and no update is lost when they are
// not. Longer runs: PORTWRIGHT_BOOK_KILLS and PORTWRIGHT_BOOK_SECONDS (tools/book_endurance).
namespace book_test {
namespace {

using std::chrono::steady_clock;
using testing::IsEmpty;

#ifdef PORTWRIGHT_SANITIZED
constexpr int default_kills = 30;
#else
constexpr int default_kills = 100;
#endif

int from_environment(const char* name, int otherwise) {
  const char* text = std::getenv(name);
  return text == nullptr ? otherwise : std::atoi(text);
}

/// A deed that must be seen whole or not at all: three documents get the same word.
book::Deed three_at_once(book::Book& book, const std::string& word, const std::string& who) {
  book::Deed deed;
  deed.label = word;
  deed.token = word;
  for (const char* id : {"one", "two", "three"})
    deed.changes.push_back({id, "last." + who, "\"" + word + "\"", taken(book.sequence())});
  return deed;
}

/// What a writer's word is long; the tokens that the book draws for itself are shorter.
constexpr std::size_t word_length = 33;

/// Writes until it is killed; every word that the book acknowledged goes into the pipe, as one write of a fixed length.
[[noreturn]] void write_for_ever(const book::Place& place, int pipe, const std::string& who) {
  try {
    book::Book book = taken(book::Book::open(place));
    for (;;) {
      const std::string word = "w" + book::new_token();
      const auto done = book.act(three_at_once(book, word, who));
      if (!done) continue;  // busy
      if (::write(pipe, word.data(), word.size()) != static_cast<ssize_t>(word.size())) _exit(3);
    }
  } catch (...) {
    _exit(4);
  }
}

class Writer {
 public:
  Writer(const book::Place& place, int pipe, const std::string& who) : process_(fork()) {
    if (process_ == 0) write_for_ever(place, pipe, who);
  }
  Writer(const Writer&) = delete;
  Writer& operator=(const Writer&) = delete;
  ~Writer() { kill_now(); }
  void kill_now() {
    if (process_ <= 0) return;
    ::kill(process_, SIGKILL);
    int status = 0;
    ::waitpid(process_, &status, 0);
    EXPECT_TRUE(WIFSIGNALED(status)) << "a writer gave up by itself: " << WEXITSTATUS(status);
    process_ = -1;
  }

 private:
  pid_t process_;
};

std::set<std::string> words_in(int pipe) {
  std::set<std::string> out;
  pollfd ready{pipe, POLLIN, 0};
  char word[word_length];
  while (::poll(&ready, 1, 0) == 1 && (ready.revents & POLLIN) != 0 && ::read(pipe, word, sizeof word) == sizeof word)
    out.emplace(word, sizeof word);
  return out;
}

/// All acknowledged words are there, once, and every action of the writers is whole.
void expect_whole(const book::Place& place, const std::set<std::string>& acknowledged) {
  book::Book book = taken(book::Book::open(place));
  EXPECT_FALSE(book.alarm().has_value()) << book.alarm()->message;
  EXPECT_THAT(taken(book.verify()).faults, IsEmpty());
  std::map<std::string, int> seen;
  for (const auto& action : taken(book.journal({}))) {
    if (action.token.size() != word_length) continue;
    ++seen[action.token];
    ASSERT_EQ(action.entries.size(), 3u) << action.token;
    for (const auto& entry : action.entries) EXPECT_EQ(entry.after, "\"" + action.token + "\"");
  }
  std::size_t lost = 0;
  for (const std::string& word : acknowledged) lost += seen[word] == 1 ? 0u : 1u;
  EXPECT_EQ(lost, 0u) << "of " << acknowledged.size() << " acknowledged";
  EXPECT_EQ(taken(book.get("one")).body, taken(book.get("two")).body);
  EXPECT_EQ(taken(book.get("one")).body, taken(book.get("three")).body);
}

/// Kills among four writers in one book; returns how much was acknowledged.
std::size_t one_life(int kills, std::mt19937& chance) {
  const Folder folder;
  book::Place place = place_in(folder);
  place.clock = {};
  {
    book::Book book = taken(book::Book::open(place));
    for (const char* id : {"one", "two", "three"}) taken(book.act(adding(id, "{}")));
  }
  int pipe[2];
  if (::pipe(pipe) != 0) throw std::runtime_error("no pipe");
  std::set<std::string> acknowledged;
  const auto wait = [&] { std::this_thread::sleep_for(std::chrono::microseconds(10000 + chance() % 60000)); };
  for (int killed = 0; killed < kills && !testing::Test::HasFailure();) {
    std::vector<std::unique_ptr<Writer>> writers;
    for (int i = 0; i < 4; ++i) writers.push_back(std::make_unique<Writer>(place, pipe[1], "w" + std::to_string(i)));
    for (int i = 0; i < 6; ++i, ++killed) {
      wait();
      const std::size_t which = chance() % writers.size();
      writers[which]->kill_now();
      acknowledged.merge(words_in(pipe[0]));
      writers[which] = std::make_unique<Writer>(place, pipe[1], "w" + std::to_string(which));
    }
    wait();
    ++killed;
    for (auto& writer : writers) writer->kill_now();
    acknowledged.merge(words_in(pipe[0]));
    expect_whole(place, acknowledged);
  }
  ::close(pipe[0]);
  ::close(pipe[1]);
  return acknowledged.size();
}

TEST(clients, killed_at_any_moment_lose_nothing_acknowledged_and_tear_nothing) {
  const int kills = from_environment("PORTWRIGHT_BOOK_KILLS", default_kills);
  std::mt19937 chance(7);
  std::size_t acknowledged = 0;
  for (int killed = 0; killed < kills && !HasFailure(); killed += 50)
    acknowledged += one_life(std::min(50, kills - killed), chance);
  std::printf("%zu acts acknowledged\n", acknowledged);
  EXPECT_GT(acknowledged, static_cast<std::size_t>(kills)) << "the writers hardly wrote";
}

/// Adds one to a number as often as it can; writes how often, and how many conflicts there were, into the pipe.
[[noreturn]] void count_up(const book::Place& place, int pipe, std::chrono::milliseconds time) {
  int tally[3] = {0, 0, 0};
  try {
    book::Book book = taken(book::Book::open(place));
    const auto end = steady_clock::now() + time;
    while (steady_clock::now() < end) {
      const auto seen = taken(book.get("shared"));
      const int number = std::atoi(seen.body.c_str() + seen.body.find(":\"") + 2);
      const auto done = book.act(setting("shared", "number", "\"" + std::to_string(number + 1) + "\"", seen.revision));
      if (done) {
        // Another wrote the very same number meanwhile: nothing was changed, and nothing is counted.
        tally[0] += done->number != 0 ? 1 : 0;
      } else if (done.error().code == base::ErrorCode::conflict) {
        const auto& both = done.error().readings;
        const bool shown =
            both.size() == 2 && both[0] == "\"" + std::to_string(number + 1) + "\"" && both[1] != both[0];
        ++tally[shown ? 1 : 2];
      } else if (done.error().code != base::ErrorCode::busy) {
        _exit(5);
      }
    }
  } catch (...) {
    _exit(4);
  }
  _exit(::write(pipe, tally, sizeof tally) == sizeof tally ? 0 : 3);
}

TEST(clients, ten_that_count_together_lose_no_update_and_show_both_values_of_every_conflict) {
  const Folder folder;
  book::Place place = place_in(folder);
  place.clock = {};
  {
    book::Book book = taken(book::Book::open(place));
    taken(book.act(adding("shared", R"({"number":"0"})")));
  }
  int pipe[2];
  ASSERT_EQ(::pipe(pipe), 0);
  const std::chrono::milliseconds time(1000 * from_environment("PORTWRIGHT_BOOK_SECONDS", 2));
  std::vector<pid_t> processes;
  for (int i = 0; i < 10; ++i) {
    processes.push_back(fork());
    if (processes.back() == 0) count_up(place, pipe[1], time);
  }
  int done = 0, conflicts = 0, dumb = 0;
  for (const pid_t process : processes) {
    int status = 0, tally[3];
    ::waitpid(process, &status, 0);
    ASSERT_TRUE(WIFEXITED(status) && WEXITSTATUS(status) == 0) << status;
    ASSERT_EQ(::read(pipe[0], tally, sizeof tally), static_cast<ssize_t>(sizeof tally));
    done += tally[0];
    conflicts += tally[1];
    dumb += tally[2];
  }
  ::close(pipe[0]);
  ::close(pipe[1]);
  book::Book book = taken(book::Book::open(place));
  EXPECT_EQ(taken(book.get("shared")).body, R"({"number":")" + std::to_string(done) + "\"}");
  EXPECT_GT(done, 20);
  EXPECT_GT(conflicts, 0) << "they never met";
  EXPECT_EQ(dumb, 0) << "conflicts without both values";
  EXPECT_THAT(taken(book.verify()).faults, IsEmpty());
  RecordProperty("updates", done);
  RecordProperty("conflicts", conflicts);
  std::printf("%d updates, %d conflicts shown\n", done, conflicts);
}

}  // namespace
}  // namespace book_test
