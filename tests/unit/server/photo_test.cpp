#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <thread>

#include "desk/book.hpp"
#include "unit/server/app.hpp"
#include "unit/support/photo.hpp"

// Photos through the gate: taken in, given back, refused.
namespace {

using namespace serving;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::SizeIs;
using ::testing::StartsWith;

Request sending(const std::string& query, const std::string& body, const std::string& cookie,
                const std::string& type = "image/jpeg") {
  Request out = post("/api/do/photo?" + query, body, cookie);
  for (auto& [name, value] : out.headers)
    if (name == "Content-Type") value = type;
  return out;
}

struct photo : ::testing::Test {
  Bench bench;
  Response send(const std::string& body, const std::string& more = "", const std::string& type = "image/jpeg") {
    return bench.app.answer(sending("saw=" + bench.saw + more, body, bench.cookie, type));
  }
  std::string added(const Response& response) {
    EXPECT_EQ(response.status, 200) << response.body;
    const Json done = Json::parse(response.body, nullptr, false);
    return done["added"].size() == 1 ? done["added"][0].get<std::string>() : std::string();
  }
  Json shown() { return bench.json("ask/saw", {{"saw", bench.saw}})["photos"]; }
};

TEST_F(photo, comes_in_upright_and_is_shown_with_its_saw) {
  const std::string id = added(send(photo_test::jpeg()));
  const Json photos = shown();
  ASSERT_THAT(photos, SizeIs(1));
  EXPECT_EQ(photos[0]["id"], id);
  EXPECT_EQ(photos[0]["width"], 48) << "held a quarter to the right";
  EXPECT_EQ(photos[0]["height"], 64);
  EXPECT_EQ(photos[0]["taken"], "2026:05:03 14:02:11");
  EXPECT_EQ(bench.json("ask/bench", Json::object())["saws"][0]["photos"], 1);
  EXPECT_THAT(bench.json("ask/saw", {{"saw", bench.saw}})["records"], SizeIs(0));
}

TEST_F(photo, is_given_back_as_pixels_alone_and_once) {
  const std::string id = added(send(photo_test::jpeg(3000, 2000)));
  const Response whole = bench.app.answer(get("/api/photo/" + id, bench.cookie));
  ASSERT_EQ(whole.status, 200);
  EXPECT_EQ(value_of(whole.headers, "Content-Type"), "image/jpeg");
  EXPECT_EQ(value_of(whole.headers, "X-Content-Type-Options"), "nosniff");
  EXPECT_EQ(value_of(whole.headers, "Cache-Control"), "private, no-cache");
  EXPECT_THAT(value_of(whole.headers, "Content-Security-Policy"), HasSubstr("sandbox"));
  const auto head = picture::head_of(whole.body);
  ASSERT_TRUE(head);
  EXPECT_EQ(head->height, 2560);
  for (const char* trace : {"Exif", "2026:05", "N 47"}) EXPECT_EQ(whole.body.find(trace), std::string::npos) << trace;
  const Response small = bench.app.answer(get("/api/photo/" + id + "?size=small", bench.cookie));
  EXPECT_EQ(picture::head_of(small.body).value().height, 480);
  Request again = get("/api/photo/" + id, bench.cookie);
  again.headers.emplace_back("If-None-Match", value_of(whole.headers, "ETag"));
  const Response same = bench.app.answer(again);
  EXPECT_EQ(same.status, 304);
  EXPECT_THAT(same.body, IsEmpty());
  again.target += "?size=small";
  EXPECT_EQ(bench.app.answer(again).status, 200) << "another picture, another mark";
}

TEST_F(photo, is_added_once_however_often_it_is_sent) {
  const std::string first = added(send(photo_test::jpeg(), "&token=abc"));
  // The same token is answered before anything is decoded: these bytes are no picture.
  EXPECT_EQ(added(send("no picture", "&token=abc")), first);
  EXPECT_EQ(added(send(photo_test::jpeg(), "&token=def")), first) << "the very same picture";
  EXPECT_THAT(shown(), SizeIs(1));
  EXPECT_NE(added(send(photo_test::jpeg(64, 48, 1), "&token=ghi")), first);
  EXPECT_THAT(shown(), SizeIs(2));
}

TEST_F(photo, has_words_under_it_and_is_taken_back_and_hidden) {
  const std::string id = added(send(photo_test::jpeg()));
  (void)bench.json("do/caption", {{"photo", id}, {"text", " exhaust as found "}});
  EXPECT_EQ(shown()[0]["name"], "exhaust as found");
  EXPECT_THAT(bench.json("ask/find", {{"text", "exhaust found"}})["found"], SizeIs(1));
  const std::string seen = shown()[0]["revision"];
  (void)bench.json("do/caption", {{"photo", id}, {"text", "after the cut"}, {"client", "one"}});
  const Response conflict =
      bench.ask("do/caption", {{"photo", id}, {"text", "before"}, {"base", seen}, {"client", "two"}});
  EXPECT_EQ(conflict.status, 409) << conflict.body;
  EXPECT_EQ(Json::parse(conflict.body)["theirs"], "after the cut");
  (void)bench.json("do/caption", {{"photo", id}, {"text", ""}});
  EXPECT_EQ(shown()[0]["name"], "");
  (void)bench.json("do/hide-photo", {{"photo", id}});
  EXPECT_THAT(shown(), SizeIs(0));
  EXPECT_EQ(bench.app.answer(get("/api/photo/" + id, bench.cookie)).status, 404);
  (void)bench.json("do/undo", Json::object());
  EXPECT_THAT(shown(), SizeIs(1));
  EXPECT_EQ(bench.app.answer(get("/api/photo/" + id, bench.cookie)).status, 200);
}

TEST_F(photo, a_device_adds_names_and_hides_them) {
  const std::string phone = bench.pair();
  const Response sent =
      bench.app.answer(by_network(sending("saw=" + bench.saw + "&client=tab", photo_test::jpeg(), phone)));
  const std::string id = added(sent);
  EXPECT_EQ(shown()[0]["by"], "phone (device 1)");
  EXPECT_EQ(bench.app.answer(by_network(get("/api/photo/" + id, phone))).status, 200);
  EXPECT_EQ(bench.ask_by(phone, "do/caption", {{"photo", id}, {"text", "from the bench"}}).status, 200);
  EXPECT_EQ(bench.ask_by(phone, "do/hide-photo", {{"photo", id}}).status, 200);
  EXPECT_EQ(bench.ask_by(phone, "do/undo", Json::object()).status, 200) << "and takes back what it did itself";
  EXPECT_THAT(shown(), SizeIs(1));
}

TEST_F(photo, what_is_no_photo_is_refused_in_a_sentence) {
  const std::string jpeg = photo_test::jpeg();
  struct Case {
    std::string what, body, type, query;
    int status;
  };
  const std::string saw = "saw=" + bench.saw;
  for (const Case& one :
       std::vector<Case>{{"text said to be a picture", "hello", "image/jpeg", saw, 422},
                         {"a picture cut short", jpeg.substr(0, jpeg.size() - 30), "image/jpeg", saw, 422},
                         {"nothing", "", "image/jpeg", saw, 422},
                         {"said to be JSON", jpeg, "application/json", saw, 415},
                         {"a form's type", jpeg, "multipart/form-data", saw, 415},
                         {"a form's other type", jpeg, "text/plain", saw, 415},
                         {"two types", jpeg, "image/jpeg, image/png", saw, 415},
                         {"a kind that is not taken", jpeg, "image/svg+xml", saw, 415},
                         {"another kind said than it is", jpeg, "image/png", saw, 200},
                         {"no saw", jpeg, "image/jpeg", "", 422},
                         {"a path for a saw", jpeg, "image/jpeg", "saw=../../etc", 422},
                         {"a saw that is not there", jpeg, "image/jpeg", "saw=zzzzzzzzzz", 404}}) {
    const Response response = bench.app.answer(sending(one.query, one.body, bench.cookie, one.type));
    EXPECT_EQ(response.status, one.status) << one.what << '\n' << response.body;
    if (one.status == 200) continue;
    EXPECT_EQ(value_of(response.headers, "Content-Type"), "application/problem+json") << one.what;
    EXPECT_GT(Json::parse(response.body)["detail"].get<std::string>().size(), 10u) << one.what;
  }
  EXPECT_THAT(shown(), SizeIs(1)) << "the one that was a picture";
}

TEST_F(photo, only_photos_have_an_address) {
  const std::string id = added(send(photo_test::jpeg()));
  const std::string note = bench.json("do/note", {{"saw", bench.saw}, {"text", "a note"}})["added"][0];
  for (const std::string& other : {note, bench.saw, std::string("zzzzzzzzzz")})
    EXPECT_EQ(bench.app.answer(get("/api/photo/" + other, bench.cookie)).status, 404) << other;
  for (const char* path : {"/api/photo/", "/api/photo/a/b",
                           "/api/photo/"
                           "%2e%2e"})
    EXPECT_THAT(bench.app.answer(get(path, bench.cookie)).status, ::testing::AnyOf(400, 404, 422)) << path;
  EXPECT_EQ(bench.app.answer(get("/api/photo/" + id + "?size=large", bench.cookie)).status, 422);
  EXPECT_EQ(bench.app.answer(get("/api/photo/" + id, "")).status, 401);
  EXPECT_EQ(bench.app.answer(post("/api/photo/" + id, "{}", bench.cookie)).status, 405);
  EXPECT_TRUE(bench.app.takes_long(get("/api/photo/" + id, bench.cookie))) << "not in the thread of the sockets";
}

TEST_F(photo, a_device_that_writes_too_much_is_told_before_its_photo_is_read) {
  const std::string phone = bench.pair();
  const Request head = by_network(sending("saw=" + bench.saw, "", phone));
  EXPECT_TRUE(bench.app.takes_picture(head));
  EXPECT_FALSE(bench.app.picture_refused(head));
  for (std::size_t i = 0; i < Visitors::most_deeds; ++i) (void)bench.app.visitors().may_write(1);
  const auto refused = bench.app.picture_refused(head);
  ASSERT_TRUE(refused);
  EXPECT_EQ(refused->status, 429);
  EXPECT_EQ(bench.app.answer(by_network(sending("saw=" + bench.saw, photo_test::jpeg(), phone))).status, 429);
  bench.now += 60;
  EXPECT_FALSE(bench.app.picture_refused(head));
}

}  // namespace
