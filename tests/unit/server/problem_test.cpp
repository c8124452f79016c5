#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "server/problem.hpp"

namespace {

using namespace portwright;
using namespace portwright::server;
using base::ErrorCode;
using Json = nlohmann::json;

TEST(problem, has_what_rfc_9457_asks_for_and_the_errors) {
  const Response response = problem(base::Errors{{ErrorCode::not_found, "There is no such saw.", "saw", "Look.", {}}});
  EXPECT_EQ(response.status, 404);
  EXPECT_EQ(value_of(response.headers, "Content-Type"), "application/problem+json");
  const Json json = Json::parse(response.body);
  EXPECT_EQ(json.at("status"), 404);
  EXPECT_EQ(json.at("type"), "urn:portwright:not_found");
  EXPECT_EQ(json.at("detail"), "There is no such saw.");
  EXPECT_FALSE(json.at("title").get<std::string>().empty());
  EXPECT_EQ(json.at("errors").at(0).at("code"), "not_found");
  EXPECT_EQ(json.at("errors").at(0).at("hint"), "Look.");
}

TEST(problem, every_kind_of_trouble_has_its_status) {
  EXPECT_EQ(status_of(ErrorCode::not_found), 404);
  EXPECT_EQ(status_of(ErrorCode::conflict), 409);
  EXPECT_EQ(status_of(ErrorCode::busy), 503);
  EXPECT_EQ(status_of(ErrorCode::storage), 507);
  for (const ErrorCode code : {ErrorCode::damaged, ErrorCode::newer, ErrorCode::fault}) EXPECT_EQ(status_of(code), 500);
  for (const ErrorCode code :
       {ErrorCode::usage, ErrorCode::unreadable, ErrorCode::wrong_unit, ErrorCode::out_of_range, ErrorCode::impossible,
        ErrorCode::contradiction, ErrorCode::bad_cut, ErrorCode::unknown_key, ErrorCode::not_a_saw_file})
    EXPECT_EQ(status_of(code), 422);
}

TEST(problem, of_a_conflict_shows_both_values) {
  const base::Errors errors{{ErrorCode::conflict, "Changed since.", "port.exhaust.opens", "", {"98 deg", "99 deg"}}};
  const Json json = Json::parse(conflict_problem(errors, "17").body);
  EXPECT_EQ(json.at("mine"), "98 deg");
  EXPECT_EQ(json.at("theirs"), "99 deg");
  EXPECT_EQ(json.at("revision"), "17");
  EXPECT_EQ(json.at("status"), 409);
}

TEST(problem, of_bytes_that_are_no_utf8_is_json_all_the_same) {
  const Response response = problem(base::Errors{{ErrorCode::usage, "bad \xff\xfe byte", "", "", {}}});
  EXPECT_FALSE(Json::parse(response.body, nullptr, false).is_discarded());
}

TEST(common_headers, close_what_can_be_closed) {
  Response response;
  add_common_headers(response);
  EXPECT_THAT(value_of(response.headers, "Content-Security-Policy"), ::testing::HasSubstr("default-src 'self'"));
  for (const char* closed : {"object-src 'none'", "base-uri 'none'", "form-action 'none'", "frame-ancestors 'none'"})
    EXPECT_THAT(value_of(response.headers, "Content-Security-Policy"), ::testing::HasSubstr(closed));
  EXPECT_EQ(value_of(response.headers, "X-Content-Type-Options"), "nosniff");
  EXPECT_EQ(value_of(response.headers, "Referrer-Policy"), "no-referrer");
  EXPECT_EQ(value_of(response.headers, "Cache-Control"), "no-store");
  EXPECT_EQ(value_of(response.headers, "Access-Control-Allow-Origin"), "");
}

TEST(common_headers, leave_what_a_response_says_itself) {
  Response response;
  response.headers.emplace_back("Cache-Control", "immutable");
  add_common_headers(response);
  EXPECT_EQ(values_of(response.headers, "Cache-Control").size(), 1u);
}

TEST(one_line, keeps_blanks_inside_texts) {
  EXPECT_EQ(one_line("{\n  \"a\": \"x  y\",\n  \"b\": 1\n}\n"), "{\"a\": \"x  y\",\"b\": 1}");
}

}  // namespace
