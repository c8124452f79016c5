// The server on a real socket, treated badly: slow, oversized, malformed, in crowds. Whatever a client does, the server
// answers in HTTP or closes, goes on, and keeps what the book holds.
#include <arpa/inet.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <netinet/in.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <future>
#include <nlohmann/json.hpp>
#include <random>
#include <thread>

#include "desk/book.hpp"
#include "faults/wire.hpp"
#include "server/app.hpp"
#include "server/listen.hpp"
#include "unit/support/larch_text.hpp"
#include "unit/support/photo.hpp"

namespace {

using namespace portwright;
using namespace portwright::server;
using faults::Wire;
using Clock = faults::Ticks;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;
using Json = nlohmann::json;
namespace fs = std::filesystem;

/// A server of its own on a free port, with one saw in its book.
class server_abuse : public testing::Test {
 protected:
  void SetUp() override {
    std::string pattern = (fs::temp_directory_path() / "portwright-abuse-XXXXXX").string();
    folder_ = mkdtemp(pattern.data());
    app_ = std::make_unique<App>(AppSetting{book(), {}, {}});
    ASSERT_TRUE(app_->start());
    auto bound = Server::bind(*app_, 0, limits());
    ASSERT_TRUE(bound) << bound.error().message;
    server_ = std::make_unique<Server>(std::move(*bound));
    thread_ = std::thread([this] { server_->run(false); });
    const std::string address = app_->address();
    const std::string entered =
        said(request("POST", "/api/enter", Json{{"token", address.substr(address.find("token=") + 6)}}.dump()));
    const std::size_t at = entered.find("portwright_");
    ASSERT_NE(at, std::string::npos) << entered;
    cookie_ = entered.substr(at, entered.find(';', at) - at);
    const auto added = desk::book_add({book(), {}, "", {{"larch.saw.toml", bench::larch_text}}, {}});
    ASSERT_TRUE(added);
    saw_ = added->added.front().saw;
  }
  void TearDown() override {
    if (thread_.joinable()) {
      server_->stop();
      thread_.join();
    }
    server_.reset();
    app_.reset();
    std::error_code ignored;
    fs::remove_all(folder_, ignored);
  }

  static Limits limits() {
    Limits out;
    out.request_ms = 400;
    out.picture_ms = 1500;
    out.idle_ms = 1500;
    out.answer_ms = 1000;
    out.ping_ms = 100;
    return out;
  }
  [[nodiscard]] std::string book() const { return (folder_ / "book.portwright").string(); }
  [[nodiscard]] std::string host() const { return "127.0.0.1:" + std::to_string(server_->port()); }
  [[nodiscard]] std::string head(const std::string& method, const std::string& path) const {
    std::string out = method + ' ' + path + " HTTP/1.1\r\nHost: " + host() + "\r\n";
    if (!cookie_.empty()) out += "Cookie: " + cookie_ + "\r\n";
    if (method == "POST")
      out += "Origin: http://" + host() + "\r\nContent-Type: application/json\r\nX-Portwright: 1\r\n";
    return out;
  }
  [[nodiscard]] std::string request(const std::string& method, const std::string& path,
                                    const std::string& body = {}) const {
    return head(method, path) + (method == "POST" ? "Content-Length: " + std::to_string(body.size()) + "\r\n" : "") +
           "\r\n" + body;
  }
  [[nodiscard]] std::string said(const std::string& bytes) const {
    const Wire wire(server_->port());
    (void)wire.send(bytes);
    return wire.response();
  }
  void expect_alive() const {
    EXPECT_THAT(said(request("POST", "/api/ask/bench", "{}")),
                AllOf(StartsWith("HTTP/1.1 200"), HasSubstr("Larch 70")));
  }

  fs::path folder_;
  std::unique_ptr<App> app_;
  std::unique_ptr<Server> server_;
  std::thread thread_;
  std::string cookie_, saw_;
};

TEST_F(server_abuse, answers_requests_one_after_the_other_and_in_one_go) {
  const Wire wire(server_->port());
  for (int i = 0; i < 3; ++i) {
    ASSERT_TRUE(wire.send(request("POST", "/api/ask/bench", "{}")));
    EXPECT_THAT(wire.response(), StartsWith("HTTP/1.1 200"));
  }
  const std::string one = request("POST", "/api/ask/units", "{\"text\":\"47 thou\"}");
  ASSERT_TRUE(wire.send(one + one));
  EXPECT_THAT(wire.response(), StartsWith("HTTP/1.1 200"));
  EXPECT_THAT(wire.response(), StartsWith("HTTP/1.1 200"));
}

TEST_F(server_abuse, cuts_off_who_sends_a_head_or_a_body_too_slowly) {
  const Wire slow_head(server_->port()), slow_body(server_->port());
  const std::string whole = request("POST", "/api/ask/bench", "{}");
  const auto began = Clock::now();
  for (std::size_t i = 0; i < 12 && slow_head.send(whole.substr(i, 1)); ++i) {
    if (i == 0) (void)slow_body.send(whole.substr(0, whole.size() - 1));
    std::this_thread::sleep_for(std::chrono::milliseconds(50));
  }
  EXPECT_TRUE(slow_head.closes(2000));
  EXPECT_TRUE(slow_body.closes(2000));
  EXPECT_LT(Clock::now() - began, std::chrono::seconds(3));
  expect_alive();
}

TEST_F(server_abuse, lets_idle_connections_go) {
  const Wire idle(server_->port());
  EXPECT_FALSE(idle.closes(500));
  EXPECT_TRUE(idle.closes(4000));
}

TEST_F(server_abuse, refuses_a_head_that_is_too_long) {
  const std::string answer = said(head("GET", "/") + "X-Long: " + std::string(20'000, 'x') + "\r\n\r\n");
  EXPECT_THAT(answer, StartsWith("HTTP/1.1 431"));
  EXPECT_THAT(said("GET /" + std::string(20'000, 'x') + " HTTP/1.1\r\n\r\n"), StartsWith("HTTP/1.1 431"));
  expect_alive();
}

TEST_F(server_abuse, refuses_a_body_that_is_too_long_before_it_comes) {
  EXPECT_THAT(said(head("POST", "/api/do/add") + "Content-Length: 1048577\r\n\r\n"), StartsWith("HTTP/1.1 413"));
  EXPECT_THAT(said(head("POST", "/api/do/add") + "Content-Length: 99999999999999999999\r\n\r\n"),
              AnyOf(StartsWith("HTTP/1.1 413"), StartsWith("HTTP/1.1 400")));
  const std::string full = "{\"text\":\"" + std::string((std::size_t{1} << 20U) - 20, 'x') + "\"}";
  EXPECT_THAT(said(request("POST", "/api/do/add", full)), StartsWith("HTTP/1.1 422")) << "as long as it may be";
  expect_alive();
}

TEST_F(server_abuse, refuses_bodies_of_unknown_length) {
  EXPECT_THAT(said(head("POST", "/api/ask/bench") + "Transfer-Encoding: chunked\r\n\r\n2\r\n{}\r\n0\r\n\r\n"),
              StartsWith("HTTP/1.1 411"));
  EXPECT_THAT(said(head("POST", "/api/ask/bench") + "\r\n{}"), StartsWith("HTTP/1.1 411"));
  // Two lengths, or a length and parts: one request for one reader and two for another.
  EXPECT_THAT(said(head("POST", "/api/ask/bench") + "Content-Length: 2\r\nContent-Length: 3\r\n\r\n{}"),
              StartsWith("HTTP/1.1 400"));
  EXPECT_THAT(said(head("POST", "/api/ask/bench") +
                   "Content-Length: 2\r\nTransfer-Encoding: chunked\r\n\r\n2\r\n{}\r\n0\r\n\r\n"),
              AnyOf(StartsWith("HTTP/1.1 411"), StartsWith("HTTP/1.1 400")));
  expect_alive();
}

TEST_F(server_abuse, answers_what_is_no_http_by_400_or_not_at_all) {
  for (const std::string& bytes :
       {std::string("\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03", 11), std::string("\r\n\r\n\r\n"),
        std::string("GET / HTTP/9.9\r\n\r\n"), std::string("GET\r\n\r\n"), std::string("GET / HTTP/1.1\nHost: x\n\n"),
        std::string("GET / HTTP/1.1\r\nHost\r\n\r\n"), std::string("GET / HTTP/1.1\r\n Host: x\r\n\r\n"),
        std::string("G\0T / HTTP/1.1\r\n\r\n", 18), std::string(2000, '\xff'),
        std::string("GET / HTTP/1.0\r\nHost: 127.0.0.1\r\n\r\n")}) {
    const Wire wire(server_->port());
    (void)wire.send(bytes);
    const std::string answer = wire.until("\r\n\r\n", 1500);
    if (!answer.empty()) {
      EXPECT_THAT(answer, AnyOf(StartsWith("HTTP/1.1 4"), StartsWith("HTTP/1.1 5"))) << bytes;
    }
  }
  expect_alive();
}

TEST_F(server_abuse, outlives_two_hundred_spoilt_requests) {
  std::mt19937 dice(20260301);
  const auto any = [&](std::size_t below) { return std::uniform_int_distribution<std::size_t>(0, below - 1)(dice); };
  const std::vector<std::string> sound{
      request("POST", "/api/ask/study", Json{{"saw", saw_}, {"cuts", "roof exhaust +0.5 mm"}}.dump()),
      request("POST", "/api/ask/units", "{\"text\":\"47 thou\"}"), request("GET", "/"),
      request("POST", "/api/do/note", Json{{"saw", saw_}, {"text", "spoilt"}}.dump())};
  for (int i = 0; i < 200; ++i) {
    std::string bytes = sound[any(sound.size())];
    for (std::size_t hits = 1 + any(4); hits > 0; --hits) {
      const std::size_t at = any(bytes.size());
      switch (any(4)) {
        case 0:
          bytes[at] = static_cast<char>(any(256));
          break;
        case 1:
          bytes.erase(at, 1 + any(20));
          break;
        case 2:
          bytes.insert(at, bytes.substr(any(bytes.size()), any(40)));
          break;
        default:
          bytes.resize(at + 1);
      }
    }
    const Wire wire(server_->port());
    ASSERT_TRUE(wire.connected());
    (void)wire.send(bytes);
    const std::string answer = wire.until("\r\n\r\n", 60);
    if (!answer.empty()) {
      EXPECT_THAT(answer, StartsWith("HTTP/1.1 ")) << bytes;
    }
  }
  expect_alive();
  const auto sound_book = desk::book_verify({book(), {}});
  ASSERT_TRUE(sound_book);
  EXPECT_TRUE(sound_book->head.errors.empty());
}

TEST_F(server_abuse, serves_on_in_a_crowd_of_seventy) {
  std::vector<Wire> crowd;
  for (int i = 0; i < 70; ++i) crowd.emplace_back(server_->port());
  std::this_thread::sleep_for(std::chrono::milliseconds(100));
  int open = 0;
  for (const Wire& wire : crowd) open += wire.closes(5) ? 0 : 1;
  EXPECT_LE(open, 64);
  expect_alive();
  EXPECT_THAT((crowd.back().send(request("POST", "/api/ask/bench", "{}")), crowd.back().response()),
              StartsWith("HTTP/1.1 200"))
      << "those that came last stand";
}

TEST_F(server_abuse, refuses_more_when_every_connection_is_at_work) {
  std::vector<Wire> crowd;
  const std::string half = head("POST", "/api/ask/bench");
  for (int i = 0; i < 64; ++i) {
    crowd.emplace_back(server_->port());
    ASSERT_TRUE(crowd.back().send(half));
  }
  std::this_thread::sleep_for(std::chrono::milliseconds(100));
  const Wire more(server_->port());
  EXPECT_THAT(more.until("\r\n\r\n", 2000), StartsWith("HTTP/1.1 503"));
  std::this_thread::sleep_for(std::chrono::milliseconds(600));
  expect_alive();
}

TEST_F(server_abuse, lets_an_event_reader_go_that_never_reads) {
  const Wire deaf(server_->port()), hears(server_->port());
  ASSERT_TRUE(deaf.send(request("GET", "/api/events?client=deaf")));
  ASSERT_TRUE(hears.send(request("GET", "/api/events?client=hears")));
  EXPECT_THAT(hears.until("event: hello"), StartsWith("HTTP/1.1 200"));
  const auto began = Clock::now();
  for (int i = 0; i < 20; ++i) {
    const auto note = desk::book_note({book(), saw_, "note " + std::to_string(i), {}});
    ASSERT_TRUE(note);
  }
  EXPECT_THAT(hears.until("event: book"), HasSubstr("\"last\""));
  expect_alive();
  EXPECT_LT(Clock::now() - began, std::chrono::seconds(20));
}

TEST_F(server_abuse, pings_and_opens_eight_streams_at_most) {
  std::vector<Wire> streams;
  for (int i = 0; i < 8; ++i) {
    streams.emplace_back(server_->port());
    ASSERT_TRUE(streams.back().send(request("GET", "/api/events")));
    EXPECT_THAT(streams.back().until("event: hello"), HasSubstr("text/event-stream"));
  }
  EXPECT_THAT(said(request("GET", "/api/events")), StartsWith("HTTP/1.1 429"));
  EXPECT_THAT(streams.front().until("\n: "), HasSubstr(": still here"));
  streams.pop_back();
  std::this_thread::sleep_for(std::chrono::milliseconds(200));
  const Wire again(server_->port());
  ASSERT_TRUE(again.send(request("GET", "/api/events")));
  EXPECT_THAT(again.until("event: hello"), StartsWith("HTTP/1.1 200")) << "a window that was closed makes room";
}

TEST_F(server_abuse, says_goodbye_when_it_ends) {
  const Wire listens(server_->port());
  ASSERT_TRUE(listens.send(request("GET", "/api/events")));
  ASSERT_THAT(listens.until("event: hello"), StartsWith("HTTP/1.1 200"));
  server_->stop();
  thread_.join();
  EXPECT_THAT(listens.until("event: bye"), HasSubstr("event: bye"));
  EXPECT_TRUE(listens.closes());
}

// A timer that has run out already when the end comes must not begin anew: here both run out while the end is asked
// for.
TEST_F(server_abuse, ends_however_its_timers_stand) {
  Limits hurried = limits();
  hurried.ping_ms = 1;
  hurried.look_ms = 1;
  for (int i = 0; i < 3; ++i) {
    auto bound = Server::bind(*app_, 0, hurried);
    ASSERT_TRUE(bound);
    std::promise<void> ended;
    std::thread serving([&] {
      bound->run(false, [&] {
        std::this_thread::sleep_for(std::chrono::milliseconds(20));
        bound->stop();
      });
      ended.set_value();
    });
    if (ended.get_future().wait_for(std::chrono::seconds(20)) != std::future_status::ready) {
      std::fputs("the server does not end\n", stderr);
      std::_Exit(1);
    }
    serving.join();
  }
}

/// The head of a photo on its way.
std::string photo_head(const std::string& head, std::size_t length, const std::string& type = "image/jpeg") {
  std::string out = head;
  const std::string json = "Content-Type: application/json\r\n";
  out.replace(out.find(json), json.size(), "Content-Type: " + type + "\r\n");
  return out + "Content-Length: " + std::to_string(length) + "\r\n\r\n";
}

TEST_F(server_abuse, takes_a_photo_longer_than_any_other_body_and_gives_it_back) {
  const std::string photo = photo_test::jpeg(2200, 1600);
  ASSERT_GT(photo.size(), std::size_t{1} << 20U) << "longer than JSON may be";
  const std::string done =
      said(photo_head(head("POST", "/api/do/photo?saw=" + saw_ + "&token=a"), photo.size()) + photo);
  ASSERT_THAT(done, StartsWith("HTTP/1.1 200"));
  const std::string id = Json::parse(done.substr(done.find("\r\n\r\n") + 4))["added"][0];
  const std::string given = said(request("GET", "/api/photo/" + id));
  EXPECT_THAT(given, AllOf(StartsWith("HTTP/1.1 200"), HasSubstr("image/jpeg"), HasSubstr("ETag")));
  const std::size_t mark = given.find("ETag: ") + 6;
  const std::string etag = given.substr(mark, given.find('\r', mark) - mark);
  const Wire wire(server_->port());
  ASSERT_TRUE(wire.send(head("GET", "/api/photo/" + id) + "If-None-Match: " + etag + "\r\n\r\n"));
  EXPECT_THAT(wire.until("\r\n\r\n"), AllOf(StartsWith("HTTP/1.1 304"), Not(HasSubstr("Content-Length"))));
  ASSERT_TRUE(wire.send(request("POST", "/api/ask/bench", "{}"))) << "the connection goes on";
  EXPECT_THAT(wire.response(), StartsWith("HTTP/1.1 200"));
}

TEST_F(server_abuse, refuses_photos_that_are_none_before_they_are_read) {
  const std::string to = "/api/do/photo?saw=" + saw_;
  EXPECT_THAT(said(photo_head(head("POST", to), (std::size_t{24} << 20U) + 1)), StartsWith("HTTP/1.1 413"));
  EXPECT_THAT(said(photo_head(head("POST", to), 1000, "text/plain")), StartsWith("HTTP/1.1 415"));
  EXPECT_THAT(said(photo_head(head("POST", to), 1000, "application/x-www-form-urlencoded")),
              StartsWith("HTTP/1.1 415"));
  EXPECT_THAT(said(photo_head(head("POST", "/api/do/note"), std::size_t{2} << 20U)), StartsWith("HTTP/1.1 415"));
  EXPECT_THAT(said(head("POST", "/api/do/note") + "Content-Length: 2000000\r\n\r\n"), StartsWith("HTTP/1.1 413"));
  std::string nobody = photo_head(head("POST", to), 1000);
  nobody.erase(nobody.find("Cookie"), nobody.find("Origin") - nobody.find("Cookie"));
  EXPECT_THAT(said(nobody), StartsWith("HTTP/1.1 401"));
  EXPECT_THAT(said(photo_head(head("POST", to), 5) + "hello"), StartsWith("HTTP/1.1 422"));
  expect_alive();
}

TEST_F(server_abuse, a_refusal_of_a_long_photo_is_read_by_who_sends_it_all_first) {
  const std::string photo(std::size_t{8} << 20U, 'x');
  const Wire wire(server_->port());
  ASSERT_TRUE(wire.send(photo_head(head("POST", "/api/do/photo?saw=" + saw_), photo.size(), "text/plain") + photo));
  EXPECT_THAT(wire.response(), StartsWith("HTTP/1.1 415"));
  expect_alive();
}

TEST_F(server_abuse, takes_two_photos_at_a_time_and_each_place_comes_back) {
  const std::string photo = photo_test::jpeg();
  const std::string bytes = photo_head(head("POST", "/api/do/photo?saw=" + saw_), photo.size());
  for (int round = 0; round < 3; ++round) {
    auto first = std::make_unique<Wire>(server_->port()), second = std::make_unique<Wire>(server_->port());
    ASSERT_TRUE(first->send(bytes) && second->send(bytes));
    std::this_thread::sleep_for(std::chrono::milliseconds(200));
    EXPECT_THAT(said(bytes), StartsWith("HTTP/1.1 503")) << "a third one";
    expect_alive();
    first.reset();  // one goes away, the other one ends
    ASSERT_TRUE(second->send(photo));
    EXPECT_THAT(second->response(), StartsWith("HTTP/1.1 200"));
    std::this_thread::sleep_for(std::chrono::milliseconds(200));
    EXPECT_THAT(said(bytes + photo), StartsWith("HTTP/1.1 200"));
  }
}

TEST_F(server_abuse, cuts_off_a_photo_that_comes_too_slowly_and_gives_it_its_own_time) {
  const std::string photo = photo_test::jpeg();
  const Wire slow(server_->port()), dead(server_->port());
  const std::string bytes = photo_head(head("POST", "/api/do/photo?saw=" + saw_), photo.size()) + photo;
  ASSERT_TRUE(dead.send(bytes.substr(0, bytes.size() - 1)));
  // Longer than a request of the other kind may take.
  for (std::size_t i = 0; i < 7; ++i) {
    ASSERT_TRUE(slow.send(bytes.substr(i * bytes.size() / 7, (i + 1) * bytes.size() / 7 - i * bytes.size() / 7)));
    std::this_thread::sleep_for(std::chrono::milliseconds(100));
  }
  EXPECT_THAT(slow.response(), StartsWith("HTTP/1.1 200"));
  EXPECT_TRUE(dead.closes(3000));
  expect_alive();
}

TEST_F(server_abuse, tells_that_a_port_is_taken) {
  App other(AppSetting{book(), {}, {}});
  const auto bound = Server::bind(other, server_->port(), limits());
  ASSERT_FALSE(bound);
  EXPECT_EQ(bound.error().code, base::ErrorCode::busy);
}

TEST_F(server_abuse, answers_on_both_loopback_addresses_and_on_no_other) {
  const int socket = ::socket(AF_INET6, SOCK_STREAM, 0);
  sockaddr_in6 at{};
  at.sin6_family = AF_INET6;
  at.sin6_port = htons(server_->port());
  at.sin6_addr = in6addr_loopback;
  if (socket >= 0 && fs::exists("/proc/net/if_inet6")) {
    EXPECT_EQ(::connect(socket, reinterpret_cast<sockaddr*>(&at), sizeof at), 0);
  }
  if (socket >= 0) ::close(socket);
  const int elsewhere = ::socket(AF_INET, SOCK_STREAM, 0);
  sockaddr_in any{};
  any.sin_family = AF_INET;
  any.sin_port = htons(server_->port());
  any.sin_addr.s_addr = inet_addr("127.0.0.2");
  EXPECT_NE(::connect(elsewhere, reinterpret_cast<sockaddr*>(&any), sizeof any), 0);
  ::close(elsewhere);
}

}  // namespace
