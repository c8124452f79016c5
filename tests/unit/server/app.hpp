#pragma once
// A server without its socket over a book of its own, and requests as the page sends them.

#include <gtest/gtest.h>

#include <filesystem>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>

#include "server/app.hpp"
#include "unit/support/larch_text.hpp"

namespace serving {

using namespace portwright;
using namespace portwright::server;
using Json = nlohmann::json;
namespace fs = std::filesystem;

constexpr std::uint16_t port = 8470;

/// A folder of its own for one test, gone afterwards.
class Folder {
 public:
  Folder() {
    std::string pattern = (fs::temp_directory_path() / "portwright-server-XXXXXX").string();
    path_ = mkdtemp(pattern.data());
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  ~Folder() {
    std::error_code ignored;
    fs::remove_all(path_, ignored);
  }
  [[nodiscard]] std::string at(const std::string& name) const { return (path_ / name).string(); }

 private:
  fs::path path_;
};

inline Request post(const std::string& path, const std::string& body, const std::string& cookie) {
  return {"POST",
          path,
          {{"Host", "127.0.0.1:8470"},
           {"Origin", "http://127.0.0.1:8470"},
           {"Content-Type", "application/json"},
           {"Content-Length", std::to_string(body.size())},
           {"X-Portwright", "1"},
           {"Sec-Fetch-Site", "same-origin"},
           {"Cookie", "portwright_8470=" + cookie}},
          body};
}

inline Request get(const std::string& path, const std::string& cookie) {
  return {"GET", path, {{"Host", "127.0.0.1:8470"}, {"Cookie", "portwright_8470=" + cookie}}, ""};
}

inline const OwnAddress workshop{"wlan0", "192.168.1.5", 24};
inline constexpr const char* phone_address = "192.168.1.23";

/// A request as it comes by the workshop's network.
inline Request by_network(Request request) {
  request.way = {workshop.address, phone_address};
  for (auto& [name, value] : request.headers) {
    if (name == "Host") value = workshop.address + ":8470";
    if (name == "Origin") value = "http://" + workshop.address + ":8470";
  }
  return request;
}

/// The server with its door open and, when asked for, one saw in its book.
class Bench {
 public:
  explicit Bench(bool with_saw = true)
      : app(AppSetting{folder.at("book.portwright"),
                       {},
                       {},
                       [this] { return now; },
                       [] { return std::vector<OwnAddress>{workshop}; }}) {
    app.listens_on(port);
    EXPECT_TRUE(app.start());
    const std::string address = app.address();
    const Response entered =
        app.answer(post("/api/enter", Json{{"token", address.substr(address.find("token=") + 6)}}.dump(), ""));
    const std::string set = value_of(entered.headers, "Set-Cookie");
    cookie = set.substr(set.find('=') + 1, set.find(';') - set.find('=') - 1);
    if (with_saw) saw = json("do/add", {{"text", bench::larch_text}, {"name", "larch.saw.toml"}})["added"][0]["saw"];
  }
  Response ask(const std::string& what, const Json& body) {
    return app.answer(post("/api/" + what, body.dump(), cookie));
  }
  /// The answer of a request that must succeed.
  Json json(const std::string& what, const Json& body) {
    const Response response = ask(what, body);
    EXPECT_EQ(response.status, 200) << what << ' ' << response.body;
    return Json::parse(response.body, nullptr, false);
  }
  std::string revision() { return json("ask/saw", {{"saw", saw}})["revision"]; }

  /// Pairs a device, the network switched on where it is off; gives its cookie.
  std::string pair(const std::string& name = "phone") {
    if (!app.visitors().is_on()) (void)json("do/network", {{"on", true}});
    const std::string digits = json("do/invite", Json::object())["invitation"]["digits"];
    const Response paired =
        app.answer(by_network(post("/api/pair", Json{{"code", digits}, {"name", name}}.dump(), "")));
    EXPECT_EQ(paired.status, 200) << paired.body;
    return value_of(paired.headers, "Set-Cookie").substr(16, 64);
  }
  Response ask_by(const std::string& device, const std::string& what, const Json& body) {
    return app.answer(by_network(post("/api/" + what, body.dump(), device)));
  }

  std::int64_t now = 1000;  // of the network's clock
  Folder folder;
  App app;
  std::string cookie, saw;
};

}  // namespace serving
