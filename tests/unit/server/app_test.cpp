#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <chrono>
#include <fstream>
#include <thread>

#include "desk/book.hpp"
#include "unit/server/app.hpp"

// The server without its socket: entering, writing, conflicts, events, books.
namespace {

using namespace serving;
using ::testing::HasSubstr;

/// What a stream tells until a word comes, two seconds at most.
std::string told_until(Stream& stream, const std::string& word) {
  std::string out;
  for (int i = 0; i < 200 && out.find(word) == std::string::npos; ++i) {
    out += stream.take();
    std::this_thread::sleep_for(std::chrono::milliseconds(10));
  }
  return out;
}

TEST(app, lets_one_browser_in_by_the_address_and_once) {
  Folder folder;
  App app(AppSetting{folder.at("book.portwright"), {}, {}});
  app.listens_on(port);
  ASSERT_TRUE(app.start());
  const std::string address = app.address();
  ASSERT_THAT(address, ::testing::StartsWith("http://127.0.0.1:8470/#token="));
  const std::string body = Json{{"token", address.substr(address.find("token=") + 6)}}.dump();
  EXPECT_EQ(app.answer(post("/api/enter", "{\"token\":\"wrong\"}", "")).status, 401);
  const Response entered = app.answer(post("/api/enter", body, ""));
  ASSERT_EQ(entered.status, 200);
  const std::string set = value_of(entered.headers, "Set-Cookie");
  for (const char* part : {"portwright_8470=", "HttpOnly", "SameSite=Strict", "Path=/"})
    EXPECT_THAT(set, HasSubstr(part));
  EXPECT_EQ(app.answer(post("/api/enter", body, "")).status, 401) << "the token is used";
  EXPECT_EQ(app.answer(post("/api/ask/bench", "{}", "")).status, 401);
  EXPECT_EQ(app.answer(post("/api/ask/bench", "{}", set.substr(16, 64))).status, 200);
}

TEST(app, changes_nothing_by_get) {
  Bench bench;
  const std::string before = bench.revision();
  for (const char* path : {"/api/do/undo", "/api/do/own-book", "/api/ask/bench", "/api/run/crank", "/api/enter",
                           "/api/stop", "/api/sheet/map"})
    EXPECT_EQ(bench.app.answer(get(path, bench.cookie)).status, 405) << path;
  EXPECT_EQ(bench.app.answer(post("/", "{}", bench.cookie)).status, 405);
  EXPECT_EQ(bench.app.answer(get("/api/nothing", bench.cookie)).status, 404);
  EXPECT_EQ(bench.app.answer(get("/nothing", bench.cookie)).status, 404);
  EXPECT_EQ(bench.ask("ask/nothing", Json::object()).status, 404);
  EXPECT_EQ(bench.revision(), before);
}

TEST(app, tells_of_a_write_at_once_and_of_other_programs_soon) {
  Bench bench;
  const Response stands = bench.app.answer(get("/api/events?client=tab", bench.cookie));
  ASSERT_TRUE(stands.stream);
  EXPECT_EQ(value_of(stands.headers, "Content-Type"), "text/event-stream");
  EXPECT_THAT(told_until(*stands.stream, "hello"), HasSubstr("\"epoch\": 1"));
  (void)bench.json("do/note", {{"saw", bench.saw}, {"text", "gasket torn"}});
  EXPECT_THAT(told_until(*stands.stream, "event: book"), HasSubstr("\"last\""));
  ASSERT_TRUE(desk::book_note({bench.folder.at("book.portwright"), bench.saw, "by another program"}));
  EXPECT_THAT(told_until(*stands.stream, "event: book"), HasSubstr("\"last\""));
}

TEST(app, asks_a_change_of_a_reading_for_what_was_seen) {
  Bench bench;
  Json set{{"saw", bench.saw}, {"field", "port.exhaust.opens"}, {"value", "104 deg"}};
  EXPECT_EQ(bench.ask("do/set", set).status, 428);
  set["base"] = "x";
  EXPECT_EQ(bench.ask("do/set", set).status, 422);
  set.erase("base");
  Request request = post("/api/do/set", set.dump(), bench.cookie);
  request.headers.emplace_back("If-Match", '"' + bench.revision() + '"');
  const Response response = bench.app.answer(request);
  ASSERT_EQ(response.status, 200) << response.body;
  EXPECT_EQ(Json::parse(response.body)["revision"], bench.revision());
}

TEST(app, shows_both_values_when_two_tabs_change_one_reading) {
  Bench bench;
  const std::string seen = bench.revision();
  Json set{{"saw", bench.saw}, {"field", "port.exhaust.opens"}, {"value", "104 deg"}, {"base", seen}, {"client", "a"}};
  ASSERT_EQ(bench.ask("do/set", set).status, 200);
  set.update({{"value", "101 deg"}, {"client", "b"}});
  const Response response = bench.ask("do/set", set);
  ASSERT_EQ(response.status, 409) << response.body;
  const Json problem = Json::parse(response.body);
  EXPECT_EQ(problem["mine"], "101 deg");
  EXPECT_EQ(problem["theirs"], "104 deg");
  EXPECT_EQ(problem["errors"][0]["path"], "port.exhaust.opens");
  EXPECT_EQ(problem["revision"], bench.revision());
  set["base"] = problem["revision"];
  EXPECT_EQ(bench.ask("do/set", set).status, 200) << "seen and written again";
}

TEST(app, lets_two_tabs_change_different_readings) {
  Bench bench;
  const std::string seen = bench.revision();
  EXPECT_EQ(bench
                .ask("do/set", {{"saw", bench.saw},
                                {"field", "port.exhaust.opens"},
                                {"value", "104 deg"},
                                {"base", seen},
                                {"client", "a"}})
                .status,
            200);
  EXPECT_EQ(bench
                .ask("do/set", {{"saw", bench.saw},
                                {"field", "port.exhaust.width"},
                                {"value", "29 mm"},
                                {"base", seen},
                                {"client", "b"}})
                .status,
            200);
  EXPECT_EQ(
      bench.ask("do/set", {{"saw", bench.saw}, {"field", "name"}, {"value", "Larch"}, {"base", seen}, {"client", "a"}})
          .status,
      200);
}

TEST(app, does_a_write_once_however_often_it_is_sent) {
  Bench bench;
  const Json note{{"saw", bench.saw}, {"text", "once"}, {"token", "t1"}, {"client", "a"}};
  const Json first = bench.json("do/note", note), again = bench.json("do/note", note);
  EXPECT_EQ(first["action"]["number"], again["action"]["number"]);
  int notes = 0;
  const Json saw = bench.json("ask/saw", {{"saw", bench.saw}});
  for (const Json& record : saw["records"]) notes += record["kind"] == "note";
  EXPECT_EQ(notes, 1);
  const Json set{{"saw", bench.saw},   {"field", "port.exhaust.opens"},
                 {"value", "104 deg"}, {"base", bench.revision()},
                 {"token", "t2"},      {"client", "a"}};
  const Json done = bench.json("do/set", set);
  EXPECT_EQ(done["action"]["number"], bench.json("do/set", set)["action"]["number"]);
  const Json text{{"text", bench::larch_text}, {"name", "x.saw.toml"}, {"token", "t3"}};
  (void)bench.json("do/borrow", {{"sister", bench.saw}, {"name", "B"}, {"token", "t4"}});
  (void)bench.json("do/borrow", {{"sister", bench.saw}, {"name", "B"}, {"token", "t4"}});
  EXPECT_EQ(bench.json("ask/bench", Json::object())["saws"].size(), 2u);
}

TEST(app, undoes_and_does_again) {
  Bench bench;
  const auto opens = [&] {
    const Json saw = bench.json("ask/saw", {{"saw", bench.saw}});
    for (const Json& field : saw["fields"])
      if (field["path"] == "port.exhaust.opens") return field["typed"][0].get<std::string>();
    return std::string();
  };
  (void)bench.json(
      "do/set",
      {{"saw", bench.saw}, {"field", "port.exhaust.opens"}, {"value", "104 deg"}, {"base", bench.revision()}});
  (void)bench.json("do/undo", Json::object());
  EXPECT_EQ(opens(), "103 deg");
  (void)bench.json("do/redo", Json::object());
  EXPECT_EQ(opens(), "104 deg");
}

TEST(app, keeps_what_cannot_be_read_as_typed_and_says_so) {
  Bench bench;
  const Json answer = bench.json(
      "do/set", {{"saw", bench.saw}, {"field", "port.exhaust.opens"}, {"value", "soon"}, {"base", bench.revision()}});
  EXPECT_EQ(answer["errors"][0]["path"], "port.exhaust.opens");
}

TEST(app, begins_a_saw_with_nothing_read) {
  Bench bench(false);
  const Json made = bench.json("do/new", {{"name", "Rowan 50"}, {"model", "rowan"}, {"token", "n1"}});
  const std::string id = made["saw"];
  EXPECT_EQ(made["name"], "Rowan 50");
  const Json saw = bench.json("ask/saw", {{"saw", id}});
  EXPECT_EQ(saw["saw"]["name"], "Rowan 50");
  EXPECT_EQ(saw["saw"]["model"], "rowan");
  EXPECT_EQ(saw["sets"].size(), 1u);
  EXPECT_EQ(saw["revision"], made["revision"]);
  EXPECT_EQ(bench.ask("do/set", {{"saw", id}, {"field", "crank.bore"}, {"value", "44 mm"}, {"base", made["revision"]}})
                .status,
            200);
  EXPECT_EQ(bench.ask("do/new", {{"name", "  "}}).status, 422);
}

TEST(app, refuses_what_speaks_of_another_book) {
  Folder folder;
  setenv("XDG_DATA_HOME", folder.at("data").c_str(), 1);
  unsetenv("PORTWRIGHT_BOOK");
  App app(AppSetting{"", [](const std::string& path) { return desk::book_begin({path, {}}); }, {}});
  app.listens_on(port);
  ASSERT_TRUE(app.start());
  EXPECT_THAT(app.book(), HasSubstr("/demo/"));
  const std::string address = app.address();
  const Response entered =
      app.answer(post("/api/enter", Json{{"token", address.substr(address.find("token=") + 6)}}.dump(), ""));
  EXPECT_EQ(Json::parse(entered.body)["demo"], true);
  const std::string cookie = value_of(entered.headers, "Set-Cookie").substr(16, 64);
  const auto ask = [&](const std::string& path, const std::string& epoch) {
    Request request = post(path, "{}", cookie);
    request.headers.emplace_back("X-Portwright-Epoch", epoch);
    return app.answer(request);
  };
  EXPECT_EQ(ask("/api/ask/bench", "1").status, 200);
  const Response own = ask("/api/do/own-book", "1");
  ASSERT_EQ(own.status, 200) << own.body;
  EXPECT_EQ(Json::parse(own.body)["epoch"], 2);
  EXPECT_EQ(Json::parse(own.body)["demo"], false);
  EXPECT_EQ(value_of(own.headers, "X-Portwright-Epoch"), "2");
  for (const char* old : {"1", "3", "x", ""}) EXPECT_EQ(ask("/api/ask/bench", old).status, 409) << old;
  EXPECT_EQ(ask("/api/ask/bench", "2").status, 200);
  EXPECT_EQ(ask("/api/do/demo-book", "2").status, 200);
  EXPECT_EQ(ask("/api/ask/bench", "3").status, 200);
  unsetenv("XDG_DATA_HOME");
}

TEST(app, starts_and_stops_jobs_and_tells_how_far_they_are) {
  Bench bench;
  const Response stands = bench.app.answer(get("/api/events?client=tab", bench.cookie));
  const std::string job = bench.json("run/crank", {{"saw", bench.saw}, {"client", "tab"}})["job"];
  EXPECT_EQ(bench.json("ask/job", {{"job", job}})["name"], "crank");
  const Response stopped = bench.ask("stop", {{"job", job}});
  EXPECT_TRUE(stopped.status == 200 || stopped.status == 404);
  EXPECT_THAT(told_until(*stands.stream, "event: done"), HasSubstr(job));
  EXPECT_EQ(bench.ask("stop", {{"job", "j0"}}).status, 404);
}

TEST(app, goes_on_when_its_book_cannot_be_opened_at_a_moment) {
  Bench bench;
  fs::remove(bench.folder.at("book.portwright"));
  fs::remove(bench.folder.at("book.portwright.tally"));
  const Response response = bench.ask("ask/bench", Json::object());
  EXPECT_GE(response.status, 400);
  EXPECT_EQ(value_of(response.headers, "Content-Type"), "application/problem+json");
  EXPECT_EQ(bench.ask("ask/units", {{"text", "1 mm"}}).status, 200);
}

TEST(app, stands_on_a_damaged_book_says_so_to_every_question_and_where_it_is) {
  Folder folder;
  const std::string book = folder.at("book.portwright");
  {
    App sound(AppSetting{book, {}, {}});
    ASSERT_TRUE(sound.start());
    EXPECT_FALSE(sound.book_trouble());
    ASSERT_TRUE(desk::book_new({book, "Larch 70", "", {}}));  // its first change makes a backup
  }
  fs::remove(book + "-wal");
  {
    std::fstream file(book, std::ios::in | std::ios::out | std::ios::binary);
    file.seekp(300);
    file << std::string(fs::file_size(book) - 300, 'x');
  }
  App app(AppSetting{book, {}, {}});
  app.listens_on(port);
  ASSERT_TRUE(app.start());
  ASSERT_TRUE(app.book_trouble());
  EXPECT_EQ(app.book_trouble()->code, base::ErrorCode::damaged);
  const std::string address = app.address();
  const Response entered =
      app.answer(post("/api/enter", Json{{"token", address.substr(address.find("token=") + 6)}}.dump(), ""));
  ASSERT_EQ(entered.status, 200);
  const std::string set = value_of(entered.headers, "Set-Cookie");
  const std::string cookie = set.substr(set.find('=') + 1, set.find(';') - set.find('=') - 1);
  for (const char* path : {"/api/ask/bench", "/api/ask/journal", "/api/do/new"}) {
    const Response response = app.answer(post(path, path[5] == 'd' ? R"({"name":"x"})" : "{}", cookie));
    EXPECT_EQ(response.status, 500) << path << response.body;
    EXPECT_EQ(Json::parse(response.body)["type"], "urn:portwright:damaged") << path;
  }
  const Json where = Json::parse(app.answer(post("/api/ask/where", "{}", cookie)).body);
  EXPECT_EQ(where["book"], book);
  EXPECT_EQ(where["there"], true);
  EXPECT_EQ(where["errors"][0]["code"], "damaged");
  ASSERT_EQ(where["backups"].size(), 1u);
  EXPECT_EQ(where["backups"][0]["file"], where["errors"][0]["readings"][0]);
  EXPECT_EQ(where["backups"][0]["at"].get<std::string>().size(), 20u);
  EXPECT_GT(where["backups"][0]["bytes"], 4096);
}

}  // namespace
