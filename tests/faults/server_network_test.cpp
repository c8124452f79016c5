// The network side of the server on real sockets. 127.0.0.2 stands for an address in the workshop's network, 127.0.0.1
// for a neighbour's; where this machine stands in a network, its own address is tried, too.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <atomic>
#include <filesystem>
#include <mutex>
#include <nlohmann/json.hpp>
#include <thread>

#include "desk/book.hpp"
#include "faults/wire.hpp"
#include "server/app.hpp"
#include "server/listen.hpp"
#include "unit/support/larch_text.hpp"

namespace {

using namespace portwright;
using namespace portwright::server;
using faults::Wire;
using ::testing::HasSubstr;
using ::testing::StartsWith;
using Json = nlohmann::json;
namespace fs = std::filesystem;

const OwnAddress stand_in{"lo", "127.0.0.2", 29};  // neighbours: 127.0.0.1 to 127.0.0.6
const std::string neighbour = "127.0.0.3", stranger = "127.0.0.77";

class server_network : public testing::Test {
 protected:
  void SetUp() override {
    std::string pattern = (fs::temp_directory_path() / "portwright-network-XXXXXX").string();
    folder_ = mkdtemp(pattern.data());
    begin({stand_in});
  }
  void TearDown() override {
    end();
    std::error_code ignored;
    fs::remove_all(folder_, ignored);
  }
  void begin(const std::vector<OwnAddress>& at) {
    move_to(at);
    app_ = std::make_unique<App>(AppSetting{(folder_ / "book.portwright").string(),
                                            {},
                                            {},
                                            [this] { return now_.load(); },
                                            [this] {
                                              const std::lock_guard hold(guard_);
                                              return here_;
                                            }});
    ASSERT_TRUE(app_->start());
    Limits limits;
    limits.look_ms = 50;
    limits.idle_ms = 5000;
    limits.ping_ms = 100;
    auto bound = Server::bind(*app_, 0, limits);
    ASSERT_TRUE(bound) << bound.error().message;
    server_ = std::make_unique<Server>(std::move(*bound));
    std::atomic<bool> started = false;
    thread_ = std::thread([&] { server_->run(false, [&] { started = true; }); });
    while (!started) std::this_thread::sleep_for(std::chrono::milliseconds(1));
  }
  void end() {
    if (thread_.joinable()) {
      server_->stop();
      thread_.join();
    }
    server_.reset();
    app_.reset();
  }
  void move_to(const std::vector<OwnAddress>& at) {
    const std::lock_guard hold(guard_);
    here_ = at;
  }

  /// One request as a browser at `own` sends it; with an origin of its own when asked.
  [[nodiscard]] std::string request(const std::string& method, const std::string& path, const std::string& body,
                                    const std::string& host, const std::string& origin = "",
                                    const std::string& cookie = "") const {
    std::string out = method + ' ' + path + " HTTP/1.1\r\nHost: " + host + "\r\n";
    const std::string of = cookie.empty() ? cookie_ : cookie;
    if (!of.empty()) out += "Cookie: " + of + "\r\n";
    if (method == "POST")
      out += "Origin: " + (origin.empty() ? "http://" + host : origin) +
             "\r\nContent-Type: application/json\r\nX-Portwright: 1\r\nContent-Length: " + std::to_string(body.size()) +
             "\r\n";
    return out + "\r\n" + body;
  }
  [[nodiscard]] std::string host(const std::string& address = stand_in.address) const {
    return address + ':' + std::to_string(server_->port());
  }
  [[nodiscard]] std::string said(const std::string& bytes, const std::string& to = stand_in.address,
                                 const std::string& from = neighbour) const {
    const Wire wire(server_->port(), to, from);
    if (!wire.connected() || !wire.send(bytes)) return "no connection";
    return wire.response();
  }
  /// Switches on, pairs, and keeps the cookie; gives the answer.
  std::string pair(const std::string& to = stand_in.address, const std::string& from = neighbour) {
    const auto on = app_->visitors().switch_network(true);
    EXPECT_TRUE(on) << on.error().message;
    EXPECT_TRUE(app_->visitors().invite());
    const Json body{{"code", app_->visitors().told().invitation->digits}, {"name", "phone"}};
    const std::string answer = said(request("POST", "/api/pair", body.dump(), host(to)), to, from);
    const std::size_t at = answer.find("portwright_");
    if (at != std::string::npos) cookie_ = answer.substr(at, answer.find(';', at) - at);
    return answer;
  }
  [[nodiscard]] std::string bench() const { return said(request("POST", "/api/ask/bench", "{}", host())); }
  [[nodiscard]] bool connects(const std::string& to, const std::string& from = "") const {
    return Wire(server_->port(), to, from).connected();
  }

  fs::path folder_;
  std::atomic<std::int64_t> now_ = 1000;
  std::mutex guard_;
  std::vector<OwnAddress> here_;
  std::unique_ptr<App> app_;
  std::unique_ptr<Server> server_;
  std::thread thread_;
  std::string cookie_;
};

TEST_F(server_network, listens_nowhere_but_on_loopback_until_it_is_switched_on) {
  EXPECT_FALSE(connects(stand_in.address));
  EXPECT_TRUE(connects("127.0.0.1"));
  EXPECT_THAT(pair(), StartsWith("HTTP/1.1 200"));
  EXPECT_THAT(bench(), StartsWith("HTTP/1.1 200"));
  EXPECT_FALSE(connects("127.0.0.4")) << "nor on other addresses of the machine then";
}

TEST_F(server_network, off_closes_the_listener_the_connections_and_the_streams) {
  (void)pair();
  const Wire stream(server_->port(), stand_in.address, neighbour), idle(server_->port(), stand_in.address, neighbour);
  const Wire own(server_->port());
  ASSERT_TRUE(stream.send(request("GET", "/api/events", "", host())));
  ASSERT_THAT(stream.until("event: hello"), StartsWith("HTTP/1.1 200"));
  ASSERT_TRUE(idle.send(request("POST", "/api/ask/bench", "{}", host())));
  ASSERT_THAT(idle.response(), StartsWith("HTTP/1.1 200"));
  ASSERT_TRUE(app_->visitors().switch_network(false));
  EXPECT_TRUE(stream.closes(1000));
  EXPECT_TRUE(idle.closes(1000));
  EXPECT_FALSE(connects(stand_in.address));
  EXPECT_FALSE(own.closes(200)) << "the machine's own stay";
  ASSERT_TRUE(app_->visitors().switch_network(true));
  EXPECT_THAT(bench(), StartsWith("HTTP/1.1 200")) << "and it can be switched on again";
}

TEST_F(server_network, goes_off_by_itself_when_its_time_is_over) {
  (void)pair();
  const Wire stream(server_->port(), stand_in.address, neighbour);
  ASSERT_TRUE(stream.send(request("GET", "/api/events", "", host())));
  ASSERT_THAT(stream.until("event: hello"), StartsWith("HTTP/1.1 200"));
  now_ += NetworkSwitch::lasts;
  EXPECT_TRUE(stream.closes(2000));
  EXPECT_FALSE(connects(stand_in.address));
}

TEST_F(server_network, gives_no_word_to_who_is_no_neighbour) {
  (void)pair();
  const Wire far(server_->port(), stand_in.address, stranger);
  (void)far.send(request("POST", "/api/ask/bench", "{}", host()));
  EXPECT_EQ(far.until("", 1000), "");
  EXPECT_TRUE(far.closes(1000));
  EXPECT_THAT(bench(), StartsWith("HTTP/1.1 200"));
}

TEST_F(server_network, refuses_names_that_merely_lead_here) {
  (void)pair();
  for (const std::string& name : {std::string("evil.example"), std::string("localhost"), std::string("127.0.0.1"),
                                  std::string("bench.local"), std::string("127.0.0.4")})
    EXPECT_THAT(said(request("POST", "/api/ask/bench", "{}", host(name))), StartsWith("HTTP/1.1 403")) << name;
  EXPECT_THAT(said(request("GET", "/", "", host("evil.example"))), StartsWith("HTTP/1.1 403"));
  EXPECT_THAT(said(request("POST", "/api/ask/bench", "{}", host()), "127.0.0.1", ""), StartsWith("HTTP/1.1 403"))
      << "nor does the network's name count on loopback";
}

TEST_F(server_network, refuses_what_other_sites_send) {
  (void)pair();
  for (const std::string& origin :
       {std::string("http://evil.example"), std::string("null"), "http://127.0.0.1:" + std::to_string(server_->port()),
        std::string("http://127.0.0.2"), "https://" + host()})
    EXPECT_THAT(said(request("POST", "/api/do/note", "{}", host(), origin)), StartsWith("HTTP/1.1 403")) << origin;
}

TEST_F(server_network, takes_no_cookie_of_the_machine_and_none_that_is_revoked) {
  const std::string address = app_->address();
  const std::string token = Json{{"token", address.substr(address.find("token=") + 6)}}.dump();
  EXPECT_FALSE(connects(stand_in.address));
  (void)pair();
  const std::string phone = cookie_;
  EXPECT_THAT(said(request("POST", "/api/enter", token, host())), StartsWith("HTTP/1.1 403"));
  const std::string entered = said(request("POST", "/api/enter", token, host("127.0.0.1")), "127.0.0.1", "");
  ASSERT_THAT(entered, StartsWith("HTTP/1.1 200"));
  const std::size_t at = entered.find("portwright_");
  const std::string machine = entered.substr(at, entered.find(';', at) - at);
  EXPECT_THAT(said(request("POST", "/api/ask/bench", "{}", host(), "", machine)), StartsWith("HTTP/1.1 401"));
  EXPECT_THAT(said(request("POST", "/api/ask/bench", "{}", host("127.0.0.1"), "", phone), "127.0.0.1", ""),
              StartsWith("HTTP/1.1 401"));
  const Wire stream(server_->port(), stand_in.address, neighbour);
  ASSERT_TRUE(stream.send(request("GET", "/api/events", "", host())));
  ASSERT_THAT(stream.until("event: hello"), StartsWith("HTTP/1.1 200"));
  EXPECT_THAT(said(request("POST", "/api/do/revoke", "{\"device\":1}", host())), StartsWith("HTTP/1.1 403"));
  EXPECT_THAT(
      said(request("POST", "/api/do/revoke", "{\"device\":1}", host("127.0.0.1"), "", machine), "127.0.0.1", ""),
      StartsWith("HTTP/1.1 200"));
  EXPECT_TRUE(stream.closes(1000));
  EXPECT_THAT(bench(), StartsWith("HTTP/1.1 401"));
}

TEST_F(server_network, is_switched_from_the_page_and_answers_what_it_listens_on) {
  const std::string address = app_->address(), local = host("127.0.0.1");
  const std::string token = Json{{"token", address.substr(address.find("token=") + 6)}}.dump();
  const std::string entered = said(request("POST", "/api/enter", token, local), "127.0.0.1", "");
  const std::size_t at = entered.find("portwright_");
  cookie_ = entered.substr(at, entered.find(';', at) - at);
  const std::string on = said(request("POST", "/api/do/network", "{\"on\":true}", local), "127.0.0.1", "");
  ASSERT_THAT(on, StartsWith("HTTP/1.1 200"));
  EXPECT_THAT(on, HasSubstr("http://" + host() + "/"));
  EXPECT_TRUE(connects(stand_in.address)) << "listened on before it was said";
  EXPECT_THAT(said(request("POST", "/api/do/network", "{\"on\":false}", local), "127.0.0.1", ""),
              HasSubstr("\"on\": false"));
  EXPECT_FALSE(connects(stand_in.address));
}

TEST_F(server_network, follows_an_address_that_changes_and_no_other_network) {
  (void)pair();
  const OwnAddress later{"lo", "127.0.0.4", 29}, elsewhere{"lo", "127.0.0.9", 29};
  const auto soon = [&](const std::string& to, bool wanted) {
    for (int i = 0; i < 100 && connects(to) != wanted; ++i) std::this_thread::sleep_for(std::chrono::milliseconds(20));
    return connects(to) == wanted;
  };
  const Wire idle(server_->port(), stand_in.address, neighbour);
  move_to({later});
  EXPECT_TRUE(soon(later.address, true));
  EXPECT_TRUE(soon(stand_in.address, false));
  EXPECT_TRUE(idle.closes(1000));
  move_to({elsewhere});
  EXPECT_TRUE(soon(later.address, false));
  EXPECT_FALSE(connects(elsewhere.address));
  move_to({stand_in});
  EXPECT_TRUE(soon(stand_in.address, true));
  move_to({elsewhere});
  now_ += NetworkSwitch::patience;
  EXPECT_TRUE(soon(stand_in.address, false));
  for (int i = 0; i < 100 && app_->visitors().is_on(); ++i) std::this_thread::sleep_for(std::chrono::milliseconds(20));
  EXPECT_FALSE(app_->visitors().is_on());
}

TEST_F(server_network, says_that_a_port_is_taken_there_and_stays_off) {
  const Wire taken(0);
  const int other = ::socket(AF_INET, SOCK_STREAM, 0);
  sockaddr_in at{};
  at.sin_family = AF_INET;
  at.sin_port = htons(server_->port());
  at.sin_addr.s_addr = inet_addr(stand_in.address.c_str());
  ASSERT_EQ(::bind(other, reinterpret_cast<sockaddr*>(&at), sizeof at), 0);
  ASSERT_EQ(::listen(other, 1), 0);
  const auto on = app_->visitors().switch_network(true);
  ASSERT_FALSE(on);
  EXPECT_EQ(on.error().code, base::ErrorCode::busy);
  EXPECT_FALSE(app_->visitors().is_on());
  ::close(other);
}

TEST_F(server_network, leaves_the_machine_its_room_in_a_crowd_of_neighbours) {
  (void)pair();
  const std::string half = "POST /api/ask/bench HTTP/1.1\r\nHost: ";
  std::vector<Wire> crowd;
  for (int i = 0; i < 20; ++i) {
    crowd.emplace_back(server_->port(), stand_in.address, "127.0.0.5");
    (void)crowd.back().send(half);
  }
  std::this_thread::sleep_for(std::chrono::milliseconds(100));
  int open = 0;
  for (const Wire& wire : crowd) open += wire.closes(5) ? 0 : 1;
  EXPECT_LE(open, 20);
  EXPECT_THAT(Wire(server_->port(), stand_in.address, "127.0.0.5").until("\r\n\r\n", 2000), StartsWith("HTTP/1.1 503"))
      << "sixteen of one address";
  EXPECT_THAT(bench(), StartsWith("HTTP/1.1 200")) << "another neighbour has his own";
  for (const char* from : {"127.0.0.4", "127.0.0.6"})
    for (int i = 0; i < 16; ++i) {
      crowd.emplace_back(server_->port(), stand_in.address, from);
      (void)crowd.back().send(half);
    }
  std::this_thread::sleep_for(std::chrono::milliseconds(100));
  EXPECT_THAT(said(request("GET", "/", "", host("127.0.0.1")), "127.0.0.1", ""), StartsWith("HTTP/1.1 200"))
      << "the machine itself always comes in";
}

TEST_F(server_network, takes_less_at_a_time_from_a_neighbour) {
  (void)pair();
  const std::string full = "{\"saw\":\"x\",\"text\":\"" + std::string(64 << 10, 'x') + "\"}";
  EXPECT_THAT(said(request("POST", "/api/do/note", full, host())), StartsWith("HTTP/1.1 413"));
  EXPECT_THAT(bench(), StartsWith("HTTP/1.1 200"));
}

TEST_F(server_network, outlives_being_switched_on_and_off_while_devices_ask) {
  (void)pair();
  std::atomic<bool> done = false;
  std::thread devices([&] {
    while (!done) {
      const Wire wire(server_->port(), stand_in.address, neighbour);
      if (!wire.connected()) continue;
      (void)wire.send(request("GET", "/api/events", "", host()));
      (void)wire.until("event: hello", 20);
    }
  });
  for (int i = 0; i < 30; ++i) {
    EXPECT_TRUE(app_->visitors().switch_network(i % 2 == 0));
    std::this_thread::sleep_for(std::chrono::milliseconds(10));
  }
  done = true;
  devices.join();
  ASSERT_TRUE(app_->visitors().switch_network(true));
  EXPECT_THAT(bench(), StartsWith("HTTP/1.1 200"));
}

TEST_F(server_network, answers_at_this_machines_own_address) {
  const std::vector<OwnAddress> real = own_addresses();
  if (real.empty()) GTEST_SKIP() << "this machine stands in no network";
  end();
  begin(real);
  const std::string own = real.front().address;
  EXPECT_FALSE(connects(own));
  EXPECT_THAT(pair(own, own), StartsWith("HTTP/1.1 200"));
  EXPECT_THAT(said(request("POST", "/api/ask/bench", "{}", host(own)), own, own), StartsWith("HTTP/1.1 200"));
  EXPECT_THAT(said(request("POST", "/api/do/backup", "{}", host(own)), own, own), StartsWith("HTTP/1.1 403"));
  ASSERT_TRUE(app_->visitors().switch_network(false));
  EXPECT_FALSE(connects(own));
}

}  // namespace
