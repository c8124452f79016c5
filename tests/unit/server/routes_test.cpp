#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>
#include <fstream>
#include <functional>
#include <map>
#include <set>

#include "desk/book.hpp"
#include "identity/json_schema_check.hpp"
#include "server/openapi.hpp"
#include "server/routes.hpp"
#include "support/drawn_rubbing.hpp"
#include "unit/server/app.hpp"
#include "unit/support/photo.hpp"
#include "wire/json.hpp"

// Every route answers an ordinary ask with what the table promises.
namespace {

using namespace serving;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

Json schema_named(std::string_view name) {
  static const std::array<std::vector<wire::Schema>, 2> lists = {wire::schemas(), wire::ask_schemas()};
  for (const std::vector<wire::Schema>& list : lists)
    for (const wire::Schema& schema : list)
      if (schema.name == name) return Json::parse(schema.text);
  return nullptr;
}

const std::string stopping = "roof exhaust +6 mm; base -1.2 mm";

/// The saw once more, under another name.
std::string another_text() {
  std::string text = bench::larch_text;
  text.replace(text.find("Larch 70"), 8, "Larch 70 C");
  return "model = \"larch 70\"\n" + text;
}

/// A figure that one finding of the what-if alone is about, and that is not held.
std::string finding(Bench& bench) {
  std::map<std::string, int> count;
  const Json study = bench.json("ask/study", {{"saw", bench.saw}, {"cuts", stopping}});
  for (const Json& one : study["findings"])
    if (one["state"] != "ok") ++count[one["figure"]];
  for (const auto& [figure, times] : count)
    if (times == 1) return figure;
  return "none";
}

/// The first drawing that the form of a saw names.
std::string drawing_name(Bench& bench) {
  const Json form = bench.json("ask/form", {{"saw", bench.saw}});
  for (const Json& group : form["groups"])
    for (const Json& field : group["fields"])
      if (field["drawing"] != "") return field["drawing"];
  return "none";
}

/// A photo as a phone sends it.
Response send_photo(Bench& bench, const std::string& query, const std::string& body) {
  Request request = post("/api/do/photo?" + query, body, bench.cookie);
  for (auto& [name, value] : request.headers)
    if (name == "Content-Type") value = "image/jpeg";
  return bench.app.answer(request);
}

/// The saw's photo, added where it has none in sight.
std::string photo_of(Bench& bench) {
  const Json shown = bench.json("ask/saw", {{"saw", bench.saw}});
  if (!shown["photos"].empty()) return shown["photos"][0]["id"];
  const Json done = Json::parse(send_photo(bench, "saw=" + bench.saw, photo_test::jpeg()).body);
  return done["added"][0];
}

/// A photo of the saw that a window can be measured on, added once.
std::string rubbing_photo_of(Bench& bench) {
  testing_support::DrawnSheet sheet;
  sheet.window.height = 10.95;  // as far apart as the saw's readings have roof and floor
  const picture::Grey grey = testing_support::photo_of(sheet, testing_support::Shot{.quality = 0});
  picture::Picture drawn{grey.width, grey.height, {}};
  for (const std::uint8_t level : grey.light) drawn.rgb.insert(drawn.rgb.end(), {level, level, level});
  const Json done = Json::parse(send_photo(bench, "saw=" + bench.saw, *picture::to_jpeg(drawn, 90)).body);
  return done["added"][0];
}

/// An ordinary body for a route, in the order of the table.
Json ordinary(Bench& bench, const Route& route, const std::string& job) {
  const std::string name(route.name), saw = bench.saw;
  const std::string path = path_of(route);
  if (route.kind == Kind::act) {
    const Json base{{"token", path}, {"client", "tab"}};
    Json body = base;
    if (name == "add") body["text"] = another_text();
    if (name == "new") body.update({{"name", "Fresh 50"}});
    if (name == "set")
      body.update({{"saw", saw}, {"field", "port.exhaust.opens"}, {"value", "104 deg"}, {"base", bench.revision()}});
    if (name == "note" || name == "failure") body.update({{"saw", saw}, {"text", "a text"}});
    if (name == "result") body.update({{"saw", saw}, {"title", "as it came"}});
    if (name == "wood") body.update({{"saw", saw}, {"times", "12.1 s; 12.4 s"}});
    if (name == "cut") body.update({{"saw", saw}, {"cuts", "roof exhaust +0.5 mm"}});
    if (name == "accept")
      body.update({{"saw", saw}, {"finding", finding(bench)}, {"reason", "read twice"}, {"cuts", stopping}});
    if (name == "borrow") body.update({{"sister", saw}, {"name", "Larch 70 B"}});
    if (name == "caption" || name == "hide-photo") body["photo"] = photo_of(bench);
    if (name == "caption") body["text"] = "as found";
    if (name == "rubbing")
      body.update({{"saw", saw},
                   {"photo", rubbing_photo_of(bench)},
                   {"port", "exhaust"},
                   {"across", "120 mm"},
                   {"down", "120 mm"},
                   {"taped", true}});
    if (name == "hide" || name == "bring-back") body["saw"] = saw;
    if (name == "network") body["on"] = true;
    if (name == "revoke") {
      (void)bench.pair();
      body["device"] = 1;
    }
    return body;
  }
  Json body = Json::object();
  if (name == "units" || name == "find") return {{"text", name == "units" ? "47 thou" : "larch"}};
  if (name == "sisters") return {{"model", "larch 70"}};
  if (name == "job") return {{"job", job}};
  if (name == "drawing") return {{"name", drawing_name(bench)}};
  if (name == "rubbing") return {{"photo", photo_of(bench)}};
  if (name == "qr") return {{"url", bench.json("do/invite", Json::object())["places"][0]["url"]}};
  if (name == "network" || name == "measuring" || name == "bench" || name == "journal" || name == "where" ||
      name == "verify")
    return body;
  body["saw"] = saw;
  if (name == "why") body["figure"] = "timing.blowdown";
  if (name == "seek") body.update({{"wish", "most power"}, {"free", "widen exhaust"}});
  if (name == "edge") body["port"] = "exhaust";
  if (name == "plan" || (name == "cuts" && route.kind == Kind::sheet)) body["wish"] = "exhaust at 101 deg";
  if (name == "compare") body["cuts_b"] = "roof exhaust +0.5 mm";
  return body;
}

TEST(routes, have_names_of_their_own_and_schemas_that_there_are) {
  std::set<std::string> paths;
  for (const Route& route : routes()) {
    EXPECT_TRUE(paths.insert(path_of(route)).second) << route.name;
    EXPECT_EQ(schema_named(route.ask).is_object(), route.takes.empty()) << route.ask;
    if (route.kind != Kind::sheet) {
      EXPECT_TRUE(schema_named(route.answer).is_object()) << route.answer;
    }
    EXPECT_EQ(find_route(path_of(route)), &route);
  }
  EXPECT_EQ(find_route("/api/ask/nothing"), nullptr);
  EXPECT_EQ(find_route("/api/do/study"), nullptr);
}

TEST(routes, answer_an_ordinary_ask_with_what_the_table_promises) {
  Bench bench;
  ASSERT_EQ(
      bench.ask("do/set", {{"saw", bench.saw}, {"field", "model"}, {"value", "larch 70"}, {"base", bench.revision()}})
          .status,
      200);
  (void)bench.json("do/add", {{"text", another_text()}});
  const std::string job = bench.json("run/crank", {{"saw", bench.saw}})["job"];
  for (const Route& route : routes()) {
    if (route.name == "demo-book") continue;  // this server has none
    const Response response =
        route.takes.empty() ? bench.ask(path_of(route).substr(5), ordinary(bench, route, job))
                            : send_photo(bench, "saw=" + bench.saw + "&token=once&client=tab", photo_test::jpeg());
    ASSERT_EQ(response.status, 200) << path_of(route) << '\n' << response.body;
    EXPECT_EQ(value_of(response.headers, "X-Portwright-Epoch"), "1");
    if (route.kind == Kind::sheet) {
      EXPECT_EQ(value_of(response.headers, "Content-Type"), route.answer);
      EXPECT_THAT(value_of(response.headers, "Content-Security-Policy"), HasSubstr("sandbox"));
      EXPECT_GT(response.body.size(), 300u);
      continue;
    }
    EXPECT_EQ(value_of(response.headers, "Content-Type"), "application/json");
    const Json answer = Json::parse(response.body, nullptr, false);
    const Json schema = schema_named(route.kind == Kind::run ? "started" : route.answer);
    EXPECT_THAT(json_schema::faults(schema, answer), IsEmpty()) << path_of(route);
  }
}

TEST(routes, refuse_keys_that_they_do_not_have_and_name_them) {
  Bench bench(false);
  for (const Route& route : routes()) {
    Json body{{"saw", "0123456789"}, {"file", "/etc/passwd"}};
    const Response response = bench.ask(path_of(route).substr(5), body);
    EXPECT_EQ(response.status, route.takes.empty() ? 422 : 415) << path_of(route) << response.body;
  }
  const Response response = bench.ask("ask/where", {{"book", "/etc/passwd"}});
  EXPECT_EQ(response.status, 422);
  EXPECT_EQ(Json::parse(response.body)["errors"][0]["code"], "unknown_key");
  EXPECT_THAT(response.body, HasSubstr("book"));
}

TEST(routes, refuse_bodies_that_are_no_such_document) {
  Bench bench(false);
  for (const char* body :
       {"", "[]", "null", "3", "{", "{\"saw\":3}", "{\"saw\":null}", "{\"saw\":\"\xff\"}", "not json"}) {
    const Response response = bench.app.answer(post("/api/ask/study", body, bench.cookie));
    EXPECT_EQ(response.status, 422) << body;
    EXPECT_EQ(value_of(response.headers, "Content-Type"), "application/problem+json") << body;
  }
}

TEST(routes, take_ids_and_never_paths) {
  Bench bench;
  for (const char* id : {"/etc/passwd", "../book", "book:x", "", "a/b", "a b", "a.saw.toml", "\u0000"})
    for (const char* route : {"ask/study", "ask/saw", "ask/check", "run/crank", "sheet/map", "do/hide"}) {
      const Response response = bench.ask(route, {{"saw", id}});
      EXPECT_TRUE(response.status == 422 || response.status == 404) << route << id << response.status;
    }
  EXPECT_EQ(bench.ask("ask/study", {{"saw", "zzzzzzzzzz"}}).status, 404);
}

TEST(routes, refuse_cuts_that_name_a_file_everywhere) {
  Bench bench;
  const std::string file = bench.folder.at("secret.svg");
  std::ofstream(file) << "<svg/>";
  for (const std::string& cuts : std::vector<std::string>{
           "outline exhaust to " + file, "roof exhaust +0.5 mm; outline exhaust to x.svg", "muffler to x.saw.toml"})
    for (const char* route : {"ask/study", "ask/why", "ask/edge", "ask/compare", "run/airflow", "run/crank", "run/revs",
                              "run/heat", "run/chain", "sheet/map", "sheet/template", "do/cut", "do/accept"}) {
      Json body{{"saw", bench.saw}, {"cuts", cuts}};
      if (route == std::string("ask/why")) body["figure"] = "timing.blowdown";
      if (route == std::string("ask/edge")) body["port"] = "exhaust";
      if (route == std::string("do/accept")) body.update({{"finding", "x"}, {"reason", "y"}});
      const Response response = bench.ask(route, body);
      EXPECT_EQ(response.status, 422) << route << ' ' << cuts << ' ' << response.body;
      EXPECT_THAT(response.body, HasSubstr("names a file")) << route;
    }
  EXPECT_EQ(bench.ask("ask/compare", {{"saw", bench.saw}, {"cuts_b", "muffler to x.saw.toml"}}).status, 422);
  for (const Json& step : {Json{{"act", "outline exhaust"}, {"words", file}}, Json{{"act", "muffler"}, {"words", "x"}},
                           Json{{"act", "outline exhaust to x.svg"}}}) {
    const Response response = bench.ask("ask/steps", {{"saw", bench.saw}, {"steps", Json::array({step})}});
    EXPECT_EQ(response.status, 422) << step << response.body;
    EXPECT_THAT(response.body, HasSubstr("names a file")) << step;
  }
}

TEST(routes, refuse_a_stored_list_that_names_a_file) {
  Bench bench;
  const std::string other = bench.folder.at("muffler.saw.toml");
  std::ofstream(other) << bench::larch_text;
  const std::string path = bench.folder.at("book.portwright");
  const auto kept = desk::book_cut({path, bench.saw, "muffler to " + other, "", false});
  ASSERT_TRUE(kept) << kept.error().front().message;
  const Response response = bench.ask("do/cut", {{"saw", bench.saw}, {"cuts", kept->added.front()}, {"done", true}});
  EXPECT_EQ(response.status, 422);
  EXPECT_THAT(response.body, HasSubstr("names a file"));
}

TEST(routes, bring_a_done_list_up_to_date) {
  Bench bench;
  Json cut{{"saw", bench.saw}, {"cuts", "roof exhaust +0.6 mm"}, {"done", true}, {"planned", "roof exhaust +0.5 mm"}};
  const Json kept = bench.json("do/cut", cut);
  cut["list"] = kept["added"][0];
  cut["cuts"] = "roof exhaust +0.6 mm; widen exhaust +0.4 mm";
  const Json again = bench.json("do/cut", cut);
  EXPECT_TRUE(again["added"].empty());
  cut["list"] = "0123456789abcdef";
  EXPECT_EQ(bench.ask("do/cut", cut).status, 404);
  cut["list"] = "../x";
  EXPECT_EQ(bench.ask("do/cut", cut).status, 422);
  cut["list"] = "";
  cut["planned"] = "outline exhaust to x.svg";
  EXPECT_THAT(bench.ask("do/cut", cut).body, HasSubstr("names a file"));
}

TEST(routes, give_a_script_in_a_name_back_as_text_of_json_alone) {
  Bench bench;
  const std::string name = "<script>alert(1)</script><img src=x onerror=alert(2)>";
  Json set{{"saw", bench.saw}, {"field", "name"}, {"value", name}, {"base", bench.revision()}};
  ASSERT_EQ(bench.ask("do/set", set).status, 200);
  const Response list = bench.ask("ask/bench", Json::object());
  EXPECT_EQ(value_of(list.headers, "Content-Type"), "application/json");
  EXPECT_EQ(value_of(list.headers, "X-Content-Type-Options"), "nosniff");
  EXPECT_EQ(Json::parse(list.body)["saws"][0]["name"], name);
  const Response map = bench.ask("sheet/map", {{"saw", bench.saw}});
  ASSERT_EQ(map.status, 200);
  EXPECT_THAT(map.body, Not(HasSubstr("<script")));
  EXPECT_THAT(map.body, Not(HasSubstr("<img")));
}

TEST(openapi, lists_exactly_what_is_answered) {
  const Json document = Json::parse(openapi());
  EXPECT_EQ(document["openapi"], "3.1.0");
  std::set<std::string> listed,
      answered{"/api/enter", "/api/pair", "/api/events", "/api/openapi.json", "/api/stop", "/api/photo/{photo}"};
  for (const auto& [path, operation] : document["paths"].items()) listed.insert(path);
  for (const Route& route : routes()) answered.insert(path_of(route));
  EXPECT_EQ(listed, answered);
}

TEST(openapi, every_reference_leads_to_a_schema) {
  const Json document = Json::parse(openapi());
  const Json& schemas = document["components"]["schemas"];
  std::size_t references = 0;
  const std::function<void(const Json&)> look = [&](const Json& part) {
    if (part.is_object() && part.contains("$ref") && part["$ref"].is_string()) {
      const std::string to = part["$ref"];
      ++references;
      ASSERT_TRUE(to.starts_with("#/components/schemas/")) << to;
      EXPECT_TRUE(schemas.contains(to.substr(21))) << to;
    }
    if (part.is_structured())
      for (const Json& inner : part) look(inner);
  };
  look(document);
  EXPECT_GT(references, 100u);
}

TEST(openapi, is_kept_as_it_is_printed) {
  std::ifstream in(fs::path(PORTWRIGHT_SOURCE_DIR) / "docs/schema/openapi.json", std::ios::binary);
  const std::string kept{std::istreambuf_iterator<char>(in), {}};
  EXPECT_TRUE(kept == openapi()) << "portwright schema --write docs/schema";
}

}  // namespace
