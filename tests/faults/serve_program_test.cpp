// `portwright serve` as a builder starts and ends it.
#include <arpa/inet.h>
#include <fcntl.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <netinet/in.h>
#include <poll.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <csignal>
#include <string>
#include <vector>

#include "unit/cli/program.hpp"

namespace {

using ::testing::HasSubstr;

std::vector<std::string> as_this_user(std::vector<std::string> words) {
  if (geteuid() == 0) words.push_back("--as-root");
  return words;
}

/// The program started, its output read as it comes.
class Started {
 public:
  explicit Started(const std::vector<std::string>& words) {
    std::array<int, 2> pipe{};
    EXPECT_EQ(::pipe(pipe.data()), 0);
    process_ = fork();
    if (process_ == 0) {
      dup2(pipe[1], STDOUT_FILENO);
      dup2(pipe[1], STDERR_FILENO);
      ::close(pipe[0]);
      std::string program = PORTWRIGHT_PROGRAM;
      std::vector<std::string> kept = words;
      std::vector<char*> all{program.data()};
      for (std::string& word : kept) all.push_back(word.data());
      all.push_back(nullptr);
      execv(program.c_str(), all.data());
      _exit(127);
    }
    ::close(pipe[1]);
    out_ = pipe[0];
  }
  Started(const Started&) = delete;
  Started& operator=(const Started&) = delete;
  ~Started() {
    if (process_ > 0) {
      kill(process_, SIGKILL);
      waitpid(process_, nullptr, 0);
    }
    ::close(out_);
  }
  /// What it said until a word came, ten seconds at most.
  const std::string& until(const std::string& word) {
    while (said_.find(word) == std::string::npos) {
      pollfd waiting{out_, POLLIN, 0};
      if (::poll(&waiting, 1, 10'000) <= 0) break;
      std::array<char, 1024> some{};
      const ssize_t got = ::read(out_, some.data(), some.size());
      if (got <= 0) break;
      said_.append(some.data(), static_cast<std::size_t>(got));
    }
    return said_;
  }
  void signal(int number) const { kill(process_, number); }
  int status() {
    int status = 0;
    waitpid(process_, &status, 0);
    process_ = -1;
    return WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status);
  }

 private:
  pid_t process_ = -1;
  int out_ = -1;
  std::string said_;
};

TEST(serve, says_its_address_and_ends_cleanly_by_either_signal) {
  const program::Folder folder;
  for (const int number : {SIGINT, SIGTERM}) {
    Started server(
        as_this_user({"serve", "--no-browser", "--port", "0", "--book", (folder.path() / "b.portwright").string()}));
    EXPECT_THAT(server.until("Ctrl+C"), HasSubstr("http://127.0.0.1:"));
    EXPECT_THAT(server.until("Ctrl+C"), HasSubstr("/#token="));
    server.signal(number);
    EXPECT_THAT(server.until("Ended"), HasSubstr("everything is kept"));
    EXPECT_EQ(server.status(), 0);
  }
}

TEST(serve, says_where_a_phone_comes_in_and_what_to_heed_or_why_it_cannot) {
  const program::Folder folder;
  Started server(as_this_user(
      {"serve", "--no-browser", "--network", "--port", "0", "--book", (folder.path() / "b.portwright").string()}));
  const std::string said = server.until("Ctrl+C");
  EXPECT_THAT(said, HasSubstr("/#token="));
  if (said.find("The network is off") == std::string::npos) {
    EXPECT_THAT(said, HasSubstr("Code for one device"));
    EXPECT_THAT(said, HasSubstr("can be overheard"));
  } else {
    EXPECT_THAT(said, HasSubstr("Join the workshop's network")) << "a machine that stands in none";
  }
  server.signal(SIGTERM);
  EXPECT_THAT(server.until("Ended"), HasSubstr("everything is kept"));
  EXPECT_EQ(server.status(), 0);
}

TEST(serve, ends_with_6_when_the_port_asked_for_is_taken) {
  const program::Folder folder;
  const std::string book = (folder.path() / "b.portwright").string();
  Started first(as_this_user({"serve", "--no-browser", "--port", "0", "--book", book}));
  const std::string said = first.until("/#token=");
  const std::size_t at = said.find("127.0.0.1:") + 10;
  const std::string port = said.substr(at, said.find('/', at) - at);
  const auto second = program::run(as_this_user({"serve", "--no-browser", "--port", port, "--book", book}));
  EXPECT_EQ(second.status, 6);
  EXPECT_THAT(second.err, HasSubstr("is taken"));
}

TEST(serve, is_not_run_as_root_unless_asked_to) {
  const program::Folder folder;
  const std::string book = (folder.path() / "b.portwright").string();
  const std::vector<std::string> words{"serve", "--no-browser", "--port", "0", "--book", book};
  if (geteuid() == 0) {
    const auto refused = program::run(words);
    EXPECT_EQ(refused.status, 2);
    EXPECT_THAT(refused.err, HasSubstr("portwright serve --as-root"));
    EXPECT_FALSE(std::filesystem::exists(book)) << "nothing was begun";
    return;
  }
  Started server(words);
  EXPECT_THAT(server.until("Ctrl+C"), HasSubstr("/#token="));
}

TEST(serve, tells_what_is_no_port) {
  for (const char* port : {"65536", "-1", "x", "80 80", ""})
    EXPECT_EQ(program::run(as_this_user({"serve", "--no-browser", "--port", port})).status, 2) << port;
}

TEST(serve, starts_on_a_damaged_book_and_says_the_way_back) {
  const program::Folder folder;
  const std::string book = (folder.path() / "b.portwright").string();
  ASSERT_EQ(program::run({"book", "add", program::samples().front().string(), "--book", book}).status, 0);
  std::string bytes = program::read_file(book);
  ASSERT_GT(bytes.size(), 9000u);
  for (std::size_t i = 300; i < bytes.size(); ++i) bytes[i] = static_cast<char>(bytes[i] ^ 0x5a);
  std::filesystem::remove(book + "-wal");
  program::write_file(book, bytes);
  Started server(as_this_user({"serve", "--no-browser", "--port", "0", "--book", book}));
  const std::string said = server.until("Ctrl+C ends it");
  EXPECT_THAT(said, HasSubstr("/#token="));
  EXPECT_THAT(said, HasSubstr("The book cannot be read."));
  EXPECT_THAT(said, HasSubstr("portwright book restore '"));
  EXPECT_THAT(said, HasSubstr("--book '" + book));
  server.signal(SIGTERM);
  EXPECT_THAT(server.until("Ended"), HasSubstr("everything is kept"));
  EXPECT_EQ(server.status(), 0);
  EXPECT_EQ(program::read_file(book), bytes) << "nothing was written to it";
}

TEST(serve, tells_of_a_book_that_it_cannot_open) {
  const program::Folder folder;
  const std::string book = folder.file("b.portwright", "this is no book");
  const auto ran = program::run(as_this_user({"serve", "--no-browser", "--port", "0", "--book", book}));
  EXPECT_NE(ran.status, 0);
  EXPECT_FALSE(ran.err.empty());
}

}  // namespace
