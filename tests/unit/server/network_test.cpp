#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <set>
#include <thread>

#include "server/routes.hpp"
#include "unit/server/app.hpp"

// The phone as second screen: pairing, what a device may and may not, and its way out.
namespace {

using namespace serving;
using ::testing::HasSubstr;
using ::testing::Not;

Json first_action(Bench& bench) { return bench.json("ask/journal", {{"limit", 1}})["actions"][0]; }

// ---- roles

// Whatever deletes, restores, imports, pairs, or opens the house to others. A new route of this kind is added here.
const std::set<std::string> machines_own{
    "/api/ask/network", "/api/ask/verify",         "/api/do/add",    "/api/do/hide",    "/api/do/bring-back",
    "/api/do/own-book", "/api/do/demo-book",       "/api/do/backup", "/api/do/network", "/api/do/invite",
    "/api/do/revoke",   "/api/do/another-browser", "/api/sheet/qr"};

/// A request of the type that the route takes.
Request as_taken(const Route& route, Request request) {
  for (auto& [name, value] : request.headers)
    if (name == "Content-Type" && !route.takes.empty()) value = route.takes.substr(0, route.takes.find(' '));
  return request;
}

TEST(roles, every_route_says_who_may_ask_and_the_machines_own_are_these) {
  std::set<std::string> machine;
  for (const Route& route : routes()) {
    EXPECT_NE(route.needs, Role::nobody) << path_of(route) << " is open to everybody";
    EXPECT_EQ(needed(path_of(route)), route.needs);
    if (route.needs == Role::machine) machine.insert(path_of(route));
  }
  EXPECT_EQ(machine, machines_own);
  std::set<std::string> open;
  for (const Fixed& one : fixed_routes())
    if (one.needs == Role::nobody) open.insert(std::string(one.path));
  EXPECT_EQ(open, (std::set<std::string>{"/api/enter", "/api/pair"}));
}

TEST(roles, a_device_is_refused_whatever_is_the_machines_own_before_its_body_is_read) {
  Bench bench;
  const std::string phone = bench.pair();
  for (const Route& route : routes()) {
    Request request = by_network(as_taken(route, post(path_of(route), "", phone)));
    const auto refused = bench.app.refused(request);
    EXPECT_EQ(refused.has_value(), route.needs == Role::machine) << path_of(route);
    if (route.needs != Role::machine) continue;
    EXPECT_EQ(refused->status, 403) << path_of(route);
    request.body = "{\"saw\":\"" + bench.saw + "\",\"on\":true,\"device\":1}";
    EXPECT_EQ(bench.app.answer(request).status, 403) << path_of(route);
  }
  EXPECT_EQ(bench.json("ask/bench", Json::object())["saws"].size(), 1u) << "nothing was hidden";
  EXPECT_TRUE(bench.app.visitors().is_on());
}

TEST(roles, nobody_gets_anything_below_the_api_by_the_network) {
  Bench bench;
  (void)bench.pair();
  for (const std::string& cookie : {std::string(), std::string(64, '0'), bench.cookie}) {
    for (const Route& route : routes())
      EXPECT_EQ(bench.app.answer(by_network(as_taken(route, post(path_of(route), "{}", cookie)))).status, 401)
          << path_of(route);
    for (const char* path : {"/api/photo/0123456789", "/api/events", "/api/openapi.json", "/api/nothing"})
      EXPECT_EQ(bench.app.answer(by_network(get(path, cookie))).status, 401) << path;
    EXPECT_EQ(bench.app.answer(by_network(post("/api/stop", "{}", cookie))).status, 401);
  }
}

TEST(roles, a_devices_cookie_is_nothing_on_loopback_nor_the_machines_token_by_the_network) {
  Bench bench;
  const std::string phone = bench.pair();
  EXPECT_EQ(bench.app.answer(post("/api/ask/bench", "{}", phone)).status, 401);
  const std::string address = bench.json("do/another-browser", Json::object())["address"];
  const std::string body = Json{{"token", address.substr(address.find("token=") + 6)}}.dump();
  EXPECT_EQ(bench.app.answer(by_network(post("/api/enter", body, phone))).status, 403);
  EXPECT_EQ(bench.app.answer(post("/api/enter", body, "")).status, 200) << "and it is not used up by that";
}

// ---- what a device may

TEST(device, looks_and_adds_under_a_name_of_its_own) {
  Bench bench;
  const std::string phone = bench.pair("bench phone");
  for (const char* what : {"ask/saw", "ask/study", "ask/form", "ask/bore"})
    EXPECT_EQ(bench.ask_by(phone, what, {{"saw", bench.saw}}).status, 200) << what;
  EXPECT_EQ(bench.ask_by(phone, "sheet/map", {{"saw", bench.saw}}).status, 200);
  EXPECT_EQ(bench.ask_by(phone, "do/note", {{"saw", bench.saw}, {"text", "gasket torn"}}).status, 200);
  EXPECT_EQ(first_action(bench)["who"], "bench phone (device 1)");
  EXPECT_EQ(bench.ask_by(phone, "do/wood", {{"saw", bench.saw}, {"times", "12.1 s"}}).status, 200);
  const Response set = bench.ask_by(
      phone, "do/set",
      {{"saw", bench.saw}, {"field", "port.exhaust.opens"}, {"value", "104 deg"}, {"base", bench.revision()}});
  EXPECT_EQ(set.status, 200) << set.body;
}

TEST(device, takes_no_reading_out_by_any_way) {
  Bench bench;
  const std::string phone = bench.pair();
  (void)bench.json("do/set", {{"saw", bench.saw}, {"field", "casting"}, {"value", "A; B"}, {"base", bench.revision()}});
  const auto tries = std::vector<Json>{{{"field", "port.exhaust.opens"}, {"clear", true}},
                                       {{"field", "port.exhaust.opens"}, {"with", ""}, {"note", ""}},
                                       {{"field", "casting"}, {"clear", true}},
                                       {{"field", "casting"}, {"value", "  "}},
                                       {{"field", "port.exhaust.opens"}, {"value", " "}},
                                       {{"field", "muffler.outlets"}, {"value", ";"}},
                                       {{"field", "muffler.outlets"}, {"value", " ; ;"}}};
  (void)bench.json("do/set", {{"saw", bench.saw},
                              {"field", "port.exhaust.opens"},
                              {"with", "wheel"},
                              {"note", "warm"},
                              {"base", bench.revision()}});
  const Json before = bench.json("ask/saw", {{"saw", bench.saw}});
  for (Json body : tries) {
    body.update({{"saw", bench.saw}, {"base", bench.revision()}});
    const Response response = bench.ask_by(phone, "do/set", body);
    EXPECT_TRUE(response.status == 403 || response.status == 422) << body << response.body;
  }
  EXPECT_EQ(bench.json("ask/saw", {{"saw", bench.saw}}), before);
}

TEST(device, takes_back_its_own_deeds_and_nobody_elses) {
  Bench bench;
  const std::string phone = bench.pair("phone");
  (void)bench.json("do/note", {{"saw", bench.saw}, {"text", "the machine's"}});
  EXPECT_EQ(bench.ask_by(phone, "do/undo", Json::object()).status, 404);
  EXPECT_EQ(bench.ask_by(phone, "do/note", {{"saw", bench.saw}, {"text", "the phone's"}}).status, 200);
  const std::string same_name = bench.pair("phone");
  EXPECT_EQ(bench.ask_by(same_name, "do/undo", Json::object()).status, 404) << "another device of that name";
  EXPECT_EQ(bench.ask_by(phone, "do/undo", Json::object()).status, 200);
  const Json saw = bench.json("ask/saw", {{"saw", bench.saw}});
  ASSERT_EQ(std::count_if(saw["records"].begin(), saw["records"].end(),
                          [](const Json& record) { return record["kind"] == "note"; }),
            1);
}

TEST(device, cannot_pass_for_a_window_of_the_machine) {
  Bench bench;
  const std::string phone = bench.pair();
  Json set{{"saw", bench.saw},
           {"field", "port.exhaust.opens"},
           {"value", "104 deg"},
           {"base", bench.revision()},
           {"client", "tab"}};
  ASSERT_EQ(bench.ask("do/set", set).status, 200);
  set["value"] = "101 deg";
  EXPECT_EQ(bench.ask("do/set", set).status, 200) << "what a window itself set is no conflict for it";
  set["value"] = "99 deg";
  EXPECT_EQ(bench.ask_by(phone, "do/set", set).status, 409);
  const Json note{{"saw", bench.saw}, {"text", "once"}, {"token", "t1"}};
  const Json mine = bench.json("do/note", note);
  const Response its = bench.ask_by(phone, "do/note", note);
  ASSERT_EQ(its.status, 200);
  EXPECT_NE(Json::parse(its.body)["action"]["number"], mine["action"]["number"]) << "a deed of its own";
}

TEST(device, has_no_hand_in_jobs_and_events_of_others) {
  Bench bench;
  const std::string phone = bench.pair("phone"), tablet = bench.pair("tablet");
  const Response machine = bench.app.answer(get("/api/events?client=tab", bench.cookie));
  const Response stands = bench.app.answer(by_network(get("/api/events?client=tab", phone)));
  ASSERT_TRUE(stands.stream);
  const std::string hello = stands.stream->take();
  EXPECT_THAT(hello, HasSubstr("\"role\": \"device\""));
  EXPECT_THAT(hello, HasSubstr("\"name\": \"phone\""));
  EXPECT_THAT(machine.stream->take(), HasSubstr("\"role\": \"machine\""));
  const std::string job = bench.json("run/curve", {{"saw", bench.saw}, {"client", "tab"}})["job"];
  for (const std::string& other : {phone, tablet}) {
    EXPECT_EQ(bench.ask_by(other, "ask/job", {{"job", job}}).status, 404);
    EXPECT_EQ(bench.ask_by(other, "stop", {{"job", job}}).status, 404);
  }
  EXPECT_EQ(bench.ask("stop", {{"job", job}}).status, 200);
  (void)bench.json("do/invite", Json::object());
  (void)bench.ask_by("", "pair", {{"code", "1"}, {"name", "x"}});
  EXPECT_THAT(machine.stream->take(), HasSubstr("event: network"));
  const std::string told = stands.stream->take();
  EXPECT_THAT(told, Not(HasSubstr("event: network")));
  EXPECT_THAT(told, Not(HasSubstr(job)));
}

TEST(device, writes_no_faster_than_a_hand) {
  Bench bench;
  const std::string phone = bench.pair("phone"), tablet = bench.pair("tablet");
  const Json body{{"text", "no saw is named"}};
  for (std::size_t i = 0; i < Visitors::most_deeds; ++i)
    EXPECT_NE(bench.ask_by(phone, "do/note", body).status, 429) << i;
  EXPECT_EQ(bench.ask_by(phone, "do/note", body).status, 429);
  EXPECT_EQ(bench.ask_by(phone, "ask/bench", Json::object()).status, 200) << "it may look on";
  EXPECT_NE(bench.ask_by(tablet, "do/note", body).status, 429);
  EXPECT_NE(bench.ask("do/note", body).status, 429);
  bench.now += 60;
  EXPECT_NE(bench.ask_by(phone, "do/note", body).status, 429);
}

TEST(device, opens_eight_streams_and_leaves_the_others_theirs) {
  Bench bench;
  const std::string phone = bench.pair("phone"), tablet = bench.pair("tablet");
  std::vector<Response> open;
  for (int i = 0; i < 8; ++i) {
    open.push_back(bench.app.answer(by_network(get("/api/events", phone))));
    EXPECT_TRUE(open.back().stream) << i;
  }
  EXPECT_EQ(bench.app.answer(by_network(get("/api/events", phone))).status, 429);
  EXPECT_TRUE(bench.app.answer(by_network(get("/api/events", tablet))).stream);
}

// ---- pairing

TEST(pair, gives_a_cookie_that_scripts_cannot_read_and_that_outlives_the_browser) {
  Bench bench;
  (void)bench.json("do/network", {{"on", true}});
  const Json told = bench.json("do/invite", Json::object());
  EXPECT_EQ(told["places"][0]["url"], "http://192.168.1.5:8470/");
  const Json body{{"code", told["invitation"]["digits"]}, {"name", "phone"}};
  const Response paired = bench.app.answer(by_network(post("/api/pair", body.dump(), "")));
  ASSERT_EQ(paired.status, 200) << paired.body;
  const std::string set = value_of(paired.headers, "Set-Cookie");
  for (const char* part : {"portwright_8470=", "HttpOnly", "SameSite=Strict", "Path=/", "Max-Age=7776000"})
    EXPECT_THAT(set, HasSubstr(part));
  EXPECT_EQ(Json::parse(paired.body)["role"], "device");
  EXPECT_EQ(bench.app.answer(by_network(post("/api/pair", body.dump(), ""))).status, 401) << "the code is used";
  EXPECT_FALSE(bench.json("ask/network", Json::object()).contains("invitation"));
}

TEST(pair, says_wrong_and_wait_in_words) {
  Bench bench;
  (void)bench.json("do/network", {{"on", true}});
  const std::string digits = bench.json("do/invite", Json::object())["invitation"]["digits"];
  const auto try_code = [&](const std::string& code) {
    return bench.app.answer(by_network(post("/api/pair", Json{{"code", code}, {"name", "phone"}}.dump(), "")));
  };
  const std::string wrong = digits == "11111111" ? "22222222" : "11111111";
  for (int i = 0; i < 5; ++i) EXPECT_EQ(try_code(wrong).status, 401);
  const Response wait = try_code(digits);
  EXPECT_EQ(wait.status, 429);
  EXPECT_THAT(wait.body, HasSubstr("Wait a minute"));
  const Json told = bench.json("ask/network", Json::object());
  EXPECT_EQ(told["wrong_codes"], 5);
  EXPECT_EQ(told["wrong_from"], phone_address);
  bench.now += 60;
  EXPECT_EQ(try_code(digits).status, 200);
  EXPECT_EQ(bench.app.answer(by_network(post("/api/pair", Json{{"code", digits}, {"name", " "}}.dump(), ""))).status,
            422);
}

TEST(pair, needs_the_network_and_an_invitation) {
  Bench bench;
  EXPECT_EQ(bench.ask("do/invite", Json::object()).status, 422);
  (void)bench.json("do/network", {{"on", true}});
  const std::string digits = bench.json("do/invite", Json::object())["invitation"]["digits"];
  (void)bench.json("do/network", {{"on", false}});
  const std::string body = Json{{"code", digits}, {"name", "phone"}}.dump();
  EXPECT_EQ(bench.app.answer(by_network(post("/api/pair", body, ""))).status, 401);
  (void)bench.json("do/network", {{"on", true}});
  EXPECT_EQ(bench.app.answer(by_network(post("/api/pair", body, ""))).status, 401) << "off made the code void";
}

TEST(pair, can_be_done_by_what_the_camera_reads) {
  Bench bench;
  (void)bench.json("do/network", {{"on", true}});
  EXPECT_EQ(bench.ask("sheet/qr", {{"url", "http://192.168.1.5:8470/"}}).status, 404) << "no code yet";
  (void)bench.json("do/invite", Json::object());
  EXPECT_EQ(bench.ask("sheet/qr", {{"url", "http://evil.example/"}}).status, 404);
  const auto link = bench.app.visitors().link("http://192.168.1.5:8470/");
  ASSERT_TRUE(link);
  ASSERT_THAT(*link, ::testing::StartsWith("http://192.168.1.5:8470/#pair="));
  const Json body{{"code", link->substr(link->find("pair=") + 5)}, {"name", "phone"}};
  EXPECT_EQ(bench.app.answer(by_network(post("/api/pair", body.dump(), ""))).status, 200);
}

// ---- the way out

TEST(network, off_ends_streams_and_jobs_of_devices_and_their_cookies_sleep) {
  Bench bench;
  const std::string phone = bench.pair();
  const Response stands = bench.app.answer(by_network(get("/api/events", phone)));
  const Response mine = bench.app.answer(get("/api/events", bench.cookie));
  const std::string job = Json::parse(bench.ask_by(phone, "run/curve", {{"saw", bench.saw}}).body)["job"];
  EXPECT_EQ(bench.json("do/network", {{"on", false}})["on"], false);
  EXPECT_TRUE(stands.stream->closed());
  EXPECT_FALSE(mine.stream->closed());
  EXPECT_EQ(bench.ask_by(phone, "ask/bench", Json::object()).status, 401);
  EXPECT_EQ(bench.json("do/network", {{"on", true}})["devices"].size(), 1u);
  EXPECT_EQ(bench.ask_by(phone, "ask/bench", Json::object()).status, 200) << "paired is paired";
  for (int i = 0; i < 300; ++i) {
    const Json state = Json::parse(bench.ask_by(phone, "ask/job", {{"job", job}}).body);
    if (state["state"] == "stopped") return;
    std::this_thread::sleep_for(std::chrono::milliseconds(10));
  }
  ADD_FAILURE() << "the job goes on";
}

TEST(network, goes_off_by_itself_and_the_page_is_told_why) {
  Bench bench;
  const std::string phone = bench.pair();
  const Response stands = bench.app.answer(by_network(get("/api/events", phone)));
  bench.now += NetworkSwitch::lasts;
  EXPECT_EQ(bench.ask_by(phone, "ask/bench", Json::object()).status, 401) << "before anybody looked";
  bench.app.visitors().follow();
  EXPECT_TRUE(stands.stream->closed());
  const Json told = bench.json("ask/network", Json::object());
  EXPECT_EQ(told["on"], false);
  EXPECT_THAT(std::string(told["off_because"]), HasSubstr("twelve hours"));
}

TEST(network, revoked_devices_are_out_at_once_and_the_others_stay) {
  Bench bench;
  const std::string phone = bench.pair("phone"), tablet = bench.pair("tablet");
  const Response its = bench.app.answer(by_network(get("/api/events", phone)));
  const Response other = bench.app.answer(by_network(get("/api/events", tablet)));
  EXPECT_EQ(bench.json("ask/network", Json::object())["devices"][0]["here"], true);
  const Json told = bench.json("do/revoke", {{"device", 1}});
  EXPECT_EQ(told["devices"].size(), 1u);
  EXPECT_TRUE(its.stream->closed());
  EXPECT_FALSE(other.stream->closed());
  EXPECT_EQ(bench.ask_by(phone, "ask/bench", Json::object()).status, 401);
  EXPECT_EQ(bench.app.answer(by_network(get("/api/events", phone))).status, 401);
  EXPECT_EQ(bench.ask_by(tablet, "ask/bench", Json::object()).status, 200);
  EXPECT_EQ(bench.ask("do/revoke", {{"device", 1}}).status, 404);
}

TEST(network, devices_are_known_after_a_restart_and_the_switch_is_off) {
  Folder folder;
  const auto setting = [&] {
    return AppSetting{folder.at("book.portwright"),
                      {},
                      {},
                      [] { return std::int64_t{1}; },
                      [] { return std::vector<OwnAddress>{workshop}; }};
  };
  std::string phone;
  {
    App app(setting());
    app.listens_on(port);
    ASSERT_TRUE(app.start());
    ASSERT_TRUE(app.visitors().switch_network(true));
    ASSERT_TRUE(app.visitors().invite());
    const std::string body = Json{{"code", app.visitors().told().invitation->digits}, {"name", "phone"}}.dump();
    phone = value_of(app.answer(by_network(post("/api/pair", body, ""))).headers, "Set-Cookie").substr(16, 64);
  }
  EXPECT_TRUE(fs::exists(folder.at("book.portwright.devices")));
  App app(setting());
  app.listens_on(port);
  ASSERT_TRUE(app.start());
  EXPECT_EQ(app.answer(by_network(post("/api/ask/bench", "{}", phone))).status, 401);
  ASSERT_TRUE(app.visitors().switch_network(true));
  EXPECT_EQ(app.answer(by_network(post("/api/ask/bench", "{}", phone))).status, 200);
}

TEST(network, says_when_there_is_none) {
  Folder folder;
  App app(AppSetting{
      folder.at("book.portwright"), {}, {}, [] { return std::int64_t{1}; }, [] { return std::vector<OwnAddress>(); }});
  ASSERT_TRUE(app.start());
  const auto on = app.visitors().switch_network(true);
  ASSERT_FALSE(on);
  EXPECT_THAT(on.error().message, HasSubstr("no network"));
}

TEST(another_browser, comes_in_without_a_restart_and_both_stay) {
  Bench bench;
  const Json told = bench.json("do/another-browser", Json::object());
  const std::string address = told["address"];
  ASSERT_THAT(address, ::testing::StartsWith("http://127.0.0.1:8470/#token="));
  EXPECT_EQ(told["seconds_left"], 600);
  const Response entered =
      bench.app.answer(post("/api/enter", Json{{"token", address.substr(address.find("token=") + 6)}}.dump(), ""));
  ASSERT_EQ(entered.status, 200);
  const std::string second = value_of(entered.headers, "Set-Cookie").substr(16, 64);
  EXPECT_EQ(bench.app.answer(post("/api/do/hide", Json{{"saw", bench.saw}}.dump(), second)).status, 200);
  EXPECT_EQ(bench.ask("ask/bench", Json::object()).status, 200);
}

}  // namespace
