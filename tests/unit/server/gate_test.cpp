#include <gtest/gtest.h>

#include "server/gate.hpp"

// The table of the gate: an ordinary request comes in, and each departure from it is refused with its own status.
namespace {

using namespace portwright::server;

constexpr std::uint16_t port = 8470;
const std::string cookie = "portwright_8470=key";

const std::string own = "192.168.1.5", phone = "192.168.1.23";

/// The machine's cookie on loopback, a device's by the network; each of no use the other way.
Role role_of(const Way& way, const std::string& word) {
  if (!way.by_network()) return word == "key" ? Role::machine : Role::nobody;
  return word == "phone" ? Role::device : Role::nobody;
}

Role needs(const std::string& path) { return path == "/api/do/hide" ? Role::machine : Role::device; }

const Allowed allowed{port, role_of, needs};

Request asking() {
  return {
      "POST",
      "/api/ask/study",
      {{"Host", "127.0.0.1:8470"},
       {"Origin", "http://127.0.0.1:8470"},
       {"Content-Type", "application/json"},
       {"Content-Length", "2"},
       {"X-Portwright", "1"},
       {"Sec-Fetch-Site", "same-origin"},
       {"Cookie", cookie}},
      "{}",
  };
}

Request looking(const std::string& target) {
  return {"GET", target, {{"Host", "localhost:8470"}, {"Sec-Fetch-Site", "none"}, {"Cookie", cookie}}, ""};
}

Request without(Request request, std::string_view name) {
  std::erase_if(request.headers, [&](const auto& header) { return same_word(header.first, name); });
  return request;
}

Request also(Request request, const std::string& name, const std::string& value) {
  request.headers.emplace_back(name, value);
  return request;
}

Request otherwise(Request request, const std::string& name, const std::string& value) {
  return also(without(std::move(request), name), name, value);
}

Request at(Request request, const std::string& target) {
  request.target = target;
  return request;
}

int status(const Request& request) {
  const auto refused = gate(request, allowed);
  return refused ? refused->status : 0;
}

TEST(gate, lets_an_ordinary_request_in) {
  EXPECT_EQ(status(asking()), 0);
  EXPECT_EQ(status(looking("/")), 0);
  EXPECT_EQ(status(looking("/?saw=0123456789&at=what-if&cuts=roof%20exhaust%20%2B0.5%20mm")), 0);
  EXPECT_EQ(status(looking("/api/events?client=a1")), 0);
  EXPECT_EQ(status(looking("/assets/index-1a2b3c.js")), 0);
}

TEST(gate, knows_each_name_of_this_machine) {
  for (const char* name : {"127.0.0.1:8470", "localhost:8470", "[::1]:8470", "LocalHost:8470"}) {
    EXPECT_EQ(status(otherwise(asking(), "Host", name)), 0) << name;
    EXPECT_EQ(status(otherwise(asking(), "Origin", std::string("http://") + name)), 0) << name;
  }
}

TEST(gate, refuses_a_host_that_is_absent_doubled_or_forged) {
  EXPECT_EQ(status(without(asking(), "Host")), 400);
  EXPECT_EQ(status(also(asking(), "Host", "127.0.0.1:8470")), 400);
  EXPECT_EQ(status(also(asking(), "host", "evil.example")), 400);
  for (const char* name : {"evil.example", "evil.example:8470", "127.0.0.1", "127.0.0.1:80", "127.0.0.1:84700", "",
                           "127.0.0.1:8470.evil.example", "localhost.:8470", "0.0.0.0:8470", "127.1:8470"})
    EXPECT_EQ(status(otherwise(asking(), "Host", name)), 403) << name;
}

TEST(gate, refuses_targets_that_are_no_plain_path) {
  for (const char* target : {"http://127.0.0.1:8470/api/ask/study", "*", "", "api/ask/study", "//evil.example/x",
                             "/api//ask/study", "/../etc/passwd", "/assets/../../etc/passwd", "/assets/./x",
                             "/%2e%2e/etc/passwd", "/assets%2fx", "/assets/%2E%2E/x", "/assets\\x", "/assets/%00",
                             "/assets/x;y", "/api/ask/study#x", "/.git/config", "/assets/..x/..", "/caf\xc3\xa9"})
    EXPECT_EQ(status(at(asking(), target)), 400) << target;
  EXPECT_EQ(status(looking("/?x=\x01")), 400);
  EXPECT_EQ(status(looking("/?x=<script>")), 400);
}

TEST(gate, refuses_methods_that_it_does_not_know) {
  for (const char* method : {"PUT", "DELETE", "OPTIONS", "HEAD", "TRACE", "CONNECT", "PATCH", "get", ""}) {
    Request request = asking();
    request.method = method;
    EXPECT_EQ(status(request), 405) << method;
  }
}

TEST(gate, refuses_bodies_of_unknown_or_doubtful_length) {
  EXPECT_EQ(status(also(asking(), "Transfer-Encoding", "chunked")), 411);
  EXPECT_EQ(status(also(asking(), "Transfer-Encoding", "identity")), 411);
  EXPECT_EQ(status(also(looking("/"), "Transfer-Encoding", "chunked")), 411);
  EXPECT_EQ(status(without(asking(), "Content-Length")), 411);
  EXPECT_EQ(status(also(asking(), "Content-Length", "3")), 400);
  EXPECT_EQ(status(also(looking("/"), "Content-Length", "3")), 400);
}

TEST(gate, refuses_what_the_browser_says_comes_from_elsewhere) {
  for (const char* site : {"cross-site", "same-site", "", "anything"}) {
    EXPECT_EQ(status(otherwise(asking(), "Sec-Fetch-Site", site)), 403) << site;
    EXPECT_EQ(status(otherwise(looking("/"), "Sec-Fetch-Site", site)), 403) << site;
  }
  EXPECT_EQ(status(without(asking(), "Sec-Fetch-Site")), 0) << "older browsers and other programs do not say it";
}

TEST(gate, refuses_foreign_and_missing_origins) {
  for (const char* origin : {"http://evil.example", "https://127.0.0.1:8470", "http://127.0.0.1", "null",
                             "http://127.0.0.1:8470.evil.example", "http://127.0.0.1:8470/", ""}) {
    EXPECT_EQ(status(otherwise(asking(), "Origin", origin)), 403) << origin;
    EXPECT_EQ(status(also(looking("/api/events"), "Origin", origin)), 403) << origin;
  }
  EXPECT_EQ(status(without(asking(), "Origin")), 403);
  EXPECT_EQ(status(also(asking(), "Origin", "http://127.0.0.1:8470")), 400);
  EXPECT_EQ(status(also(looking("/api/events"), "Origin", "http://localhost:8470")), 0);
}

TEST(gate, refuses_what_a_form_could_send) {
  for (const char* type : {"text/plain", "application/x-www-form-urlencoded", "multipart/form-data; boundary=x",
                           "application/json; charset=latin1", "application/jsonp", "", "text/plain; application/json"})
    EXPECT_EQ(status(otherwise(asking(), "Content-Type", type)), 415) << type;
  EXPECT_EQ(status(without(asking(), "Content-Type")), 415);
  EXPECT_EQ(status(also(asking(), "Content-Type", "text/plain")), 415);
  EXPECT_EQ(status(otherwise(asking(), "Content-Type", "Application/JSON; charset=UTF-8")), 0);
  EXPECT_EQ(status(also(asking(), "Content-Encoding", "gzip")), 415);
  EXPECT_EQ(status(without(asking(), "X-Portwright")), 403);
  EXPECT_EQ(status(otherwise(asking(), "X-Portwright", "2")), 403);
  EXPECT_EQ(status(also(asking(), "X-Portwright", "1")), 403);
}

TEST(gate, asks_for_the_cookie_everywhere_below_the_api) {
  EXPECT_EQ(status(without(asking(), "Cookie")), 401);
  EXPECT_EQ(status(without(looking("/api/events"), "Cookie")), 401);
  EXPECT_EQ(status(without(looking("/api/openapi.json"), "Cookie")), 401);
  EXPECT_EQ(status(without(looking("/api"), "Cookie")), 401);
  EXPECT_EQ(status(without(looking("/api/enter"), "Cookie")), 401);
  for (const char* wrong : {"portwright_8470=other", "portwright_8470=", "portwright_9000=key", "pw=key",
                            "portwright_8470=key; portwright_8470=other", "xportwright_8470=key"})
    EXPECT_EQ(status(otherwise(asking(), "Cookie", wrong)), 401) << wrong;
  EXPECT_EQ(status(otherwise(asking(), "Cookie", "a=b; portwright_8470=key; c=d")), 0);
}

TEST(gate, lets_the_page_and_the_way_in_pass_without_a_cookie) {
  EXPECT_EQ(status(without(looking("/"), "Cookie")), 0);
  EXPECT_EQ(status(without(looking("/assets/index.js"), "Cookie")), 0);
  EXPECT_EQ(status(without(at(asking(), "/api/enter"), "Cookie")), 0);
  EXPECT_EQ(status(without(without(at(asking(), "/api/enter"), "Cookie"), "X-Portwright")), 403);
}

// ---- by the network

Request by_network(Request request) {
  request.way = {own, phone};
  for (auto& [name, value] : request.headers) {
    if (name == "Host") value = own + ":8470";
    if (name == "Origin") value = "http://" + own + ":8470";
    if (name == "Cookie") value = "portwright_8470=phone";
  }
  return request;
}

TEST(gate, lets_a_paired_device_in_by_the_address_it_came_to) {
  EXPECT_EQ(status(by_network(asking())), 0);
  EXPECT_EQ(status(by_network(looking("/"))), 0);
  EXPECT_EQ(status(without(by_network(asking()), "Sec-Fetch-Site")), 0) << "browsers leave it out over plain http";
}

TEST(gate, knows_no_other_name_by_the_network_whatever_it_leads_to) {
  for (const char* name :
       {"127.0.0.1:8470", "localhost:8470", "[::1]:8470", "evil.example:8470", "bench.local:8470", "192.168.1.5",
        "192.168.1.6:8470", "192.168.1.5:8471", "192.168.1.5.evil.example:8470", "192.168.001.5:8470",
        "3232235781:8470", "0xc0.0xa8.1.5:8470", "[::ffff:192.168.1.5]:8470", ""}) {
    EXPECT_EQ(status(otherwise(by_network(asking()), "Host", name)), 403) << name;
    EXPECT_EQ(status(otherwise(by_network(asking()), "Origin", std::string("http://") + name)), 403) << name;
    EXPECT_EQ(status(otherwise(by_network(looking("/")), "Host", name)), 403) << name;
  }
  EXPECT_EQ(status(otherwise(asking(), "Host", own + ":8470")), 403) << "nor that address on loopback";
}

TEST(gate, takes_no_cookie_of_the_other_way) {
  EXPECT_EQ(status(otherwise(by_network(asking()), "Cookie", "portwright_8470=key")), 401);
  EXPECT_EQ(status(otherwise(asking(), "Cookie", "portwright_8470=phone")), 401);
  EXPECT_EQ(status(without(by_network(looking("/api/events")), "Cookie")), 401);
}

TEST(gate, keeps_the_machines_own_from_devices) {
  EXPECT_EQ(status(at(by_network(asking()), "/api/do/hide")), 403);
  EXPECT_EQ(status(at(asking(), "/api/do/hide")), 0);
  EXPECT_TRUE(gate(by_network(asking()), {port, role_of, {}})) << "without a table of needs nothing is a device's";
}

TEST(gate, has_one_door_on_loopback_and_another_by_the_network) {
  EXPECT_EQ(status(at(by_network(asking()), "/api/enter")), 403);
  EXPECT_EQ(status(without(at(by_network(asking()), "/api/pair"), "Cookie")), 0);
  EXPECT_EQ(status(at(asking(), "/api/pair")), 403);
  EXPECT_EQ(status(otherwise(at(by_network(asking()), "/api/pair"), "Origin", "http://evil.example")), 403);
  EXPECT_EQ(status(without(at(by_network(asking()), "/api/pair"), "X-Portwright")), 403);
}

TEST(gate, takes_pictures_where_the_table_says_so_and_nowhere_else) {
  Allowed pictures = allowed;
  pictures.takes = [](const std::string& path) {
    return path == "/api/do/photo" ? std::string_view("image/jpeg image/png") : std::string_view();
  };
  const auto status = [&](const std::string& path, const std::string& type) {
    const auto refused = gate(otherwise(at(asking(), path), "Content-Type", type), pictures);
    return refused ? refused->status : 200;
  };
  for (const char* type : {"image/jpeg", "image/png", "IMAGE/JPEG", " image/png "})
    EXPECT_EQ(status("/api/do/photo?saw=abc", type), 200) << type;
  for (const char* type : {"application/json", "image/svg+xml", "image/jpeg image/png", "image/jpeg; q=1", "text/plain",
                           "multipart/form-data", "image", ""})
    EXPECT_EQ(status("/api/do/photo?saw=abc", type), 415) << type;
  EXPECT_EQ(status("/api/ask/study", "image/jpeg"), 415);
  EXPECT_EQ(
      gate(without(otherwise(at(asking(), "/api/do/photo"), "Content-Type", "image/jpeg"), "X-Portwright"), pictures)
          ->status,
      403);
  EXPECT_EQ(
      gate(without(otherwise(at(asking(), "/api/do/photo"), "Content-Type", "image/jpeg"), "Origin"), pictures)->status,
      403);
  EXPECT_EQ(
      gate(without(otherwise(at(asking(), "/api/do/photo"), "Content-Type", "image/jpeg"), "Cookie"), pictures)->status,
      401);
}

}  // namespace
