#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>

#include "server/page_files.hpp"

namespace {

using namespace portwright::server;
using ::testing::HasSubstr;

const std::array<PageFile, 3> files{{{"index.html", "text/html; charset=utf-8", "plain index", "packed index"},
                                     {"assets/index-1a2b.js", "text/javascript", "", "packed script"},
                                     {"mark.svg", "image/svg+xml", "<svg/>", ""}}};

Request get(const std::string& target, const std::string& accepts) {
  return {"GET", target, {{"Accept-Encoding", accepts}}, ""};
}

TEST(page_files, are_sent_packed_to_who_takes_it) {
  const Response response = page_file(files, get("/", "br, gzip;q=0.8"));
  EXPECT_EQ(response.status, 200);
  EXPECT_EQ(response.body, "packed index");
  EXPECT_EQ(value_of(response.headers, "Content-Encoding"), "gzip");
  EXPECT_EQ(value_of(response.headers, "Vary"), "Accept-Encoding");
}

TEST(page_files, are_sent_as_they_are_to_others) {
  for (const char* accepts : {"", "br", "gzip;q=0"}) {
    const Response response = page_file(files, get("/", accepts));
    EXPECT_EQ(response.body, "plain index") << accepts;
    EXPECT_EQ(value_of(response.headers, "Content-Encoding"), "") << accepts;
  }
  EXPECT_EQ(page_file(files, get("/assets/index-1a2b.js", "br")).status, 406);
}

TEST(page_files, named_by_their_hash_stay_in_the_browser_and_the_index_does_not) {
  EXPECT_THAT(value_of(page_file(files, get("/assets/index-1a2b.js", "gzip")).headers, "Cache-Control"),
              HasSubstr("immutable"));
  EXPECT_EQ(value_of(page_file(files, get("/", "gzip")).headers, "Cache-Control"), "");
}

TEST(page_files, that_are_not_there_are_not_found) {
  EXPECT_EQ(page_file(files, get("/assets/other.js", "gzip")).status, 404);
  EXPECT_EQ(page_file(files, get("/index.htm", "gzip")).status, 404);
  EXPECT_EQ(page_file(files, get("/mark.svg?x=1", "")).body, "<svg/>");
}

TEST(page_files, without_a_page_say_so_in_one) {
  const Response response = page_file({}, get("/", "gzip"));
  EXPECT_EQ(response.status, 200);
  EXPECT_THAT(response.body, HasSubstr("without its page"));
  EXPECT_EQ(page_file({}, get("/assets/x.js", "gzip")).status, 404);
}

}  // namespace
