#include "book/tree.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

// The tree: one canonical form, no path that shifts, nothing taken silently that cannot be kept.
namespace {

using namespace portwright;
using book::parse_tree;
using testing::HasSubstr;

std::string canonical(const std::string& json) {
  const auto tree = parse_tree(json);
  EXPECT_TRUE(tree.has_value()) << json << ": " << (tree ? "" : tree.error().message);
  return tree ? book::print(*tree) : std::string{};
}

TEST(tree, is_printed_in_one_form_only) {
  EXPECT_EQ(canonical(" { \"b\" : \"2\" , \"a\" : [ \"x\" , \"y\" ] , \"c\" : true } "),
            R"({"a":["x","y"],"b":"2","c":true})");
  EXPECT_EQ(canonical(R"({"a":"\u00e9\ud83d\ude00\/\"\\\n\u0001"})"),
            "{\"a\":\"\u00e9\U0001F600/\\\"\\\\\\n\\u0001\"}");
  EXPECT_EQ(canonical(R"({"a":{"b":{}},"c":[]})"), R"({"c":[]})");
  EXPECT_EQ(canonical("{}"), "{}");
  EXPECT_EQ(canonical(R"("a leaf")"), R"("a leaf")");
}

TEST(tree, refuses_what_it_cannot_keep) {
  for (const char* json : {"",
                           "{",
                           "}",
                           "{\"a\"}",
                           "{\"a\":}",
                           "{\"a\":1}",
                           "{\"a\":-0.5}",
                           "{\"a\":null}",
                           "{\"a\":\"1\",}",
                           "{\"a\":\"1\"\"b\":\"2\"}",
                           "{\"a\":\"1\",\"a\":\"2\"}",
                           "{\"A\":\"1\"}",
                           "{\"a.b\":\"1\"}",
                           "{\"\":\"1\"}",
                           "{\"a b\":\"1\"}",
                           "{\"a\":[\"1\",2]}",
                           "{\"a\":[[\"1\"]]}",
                           "{\"a\":\"\\u0000\"}",
                           "{\"a\":\"\\ud800\"}",
                           "{\"a\":\"\\udc00x\"}",
                           "{\"a\":\"\\x\"}",
                           "{\"a\":\"\xC0\xAF\"}",
                           "{\"a\":\"\xED\xA0\x80\"}",
                           "{\"a\":\"\xFF\"}",
                           "{\"a\":\"\n\"}",
                           "{\"a\":\"1",
                           "{\"a\":\"1\"} x",
                           "tru",
                           "truefalse",
                           "[\"a\" \"b\"]",
                           "{a:\"1\"}",
                           "{'a':'1'}",
                           "// c\n{}"})
    EXPECT_FALSE(parse_tree(json).has_value()) << json;
  EXPECT_FALSE(parse_tree(std::string("{\"a\":\"\0\"}", 9)).has_value());
}

TEST(tree, goes_sixteen_branches_deep_and_no_deeper) {
  std::string json = "\"x\"";
  for (int i = 0; i < 16; ++i) json = "{\"a\":" + json + "}";
  EXPECT_TRUE(parse_tree(json).has_value());
  EXPECT_THAT(parse_tree("{\"a\":" + json + "}").error().message, HasSubstr("deeper"));
  EXPECT_FALSE(parse_tree(std::string(100000, '[')).has_value());
  std::string open;
  for (int i = 0; i < 100000; ++i) open += "{\"a\":";
  EXPECT_FALSE(parse_tree(open).has_value());
}

TEST(tree, sets_and_removes_by_path_and_keeps_no_empty_branch) {
  auto tree = *parse_tree("{}");
  EXPECT_TRUE(book::set(tree, "port.p1.opens", *parse_tree("\"101\"")).has_value());
  EXPECT_TRUE(book::set(tree, "port.p2", *parse_tree(R"({"opens":"120","width":"30"})")).has_value());
  EXPECT_EQ(book::print(tree), R"({"port":{"p1":{"opens":"101"},"p2":{"opens":"120","width":"30"}}})");
  book::remove(tree, "port.p1.opens");
  EXPECT_EQ(book::print(tree), R"({"port":{"p2":{"opens":"120","width":"30"}}})");
  book::remove(tree, "port.p3.opens");
  book::remove(tree, "port.p2.opens.more");
  EXPECT_TRUE(book::set(tree, "port.p2", *parse_tree("{}")).has_value());
  EXPECT_EQ(book::print(tree), "{}");
}

TEST(tree, is_not_changed_by_a_set_that_is_refused) {
  auto tree = *parse_tree(R"({"a":"text","l":["x"],"f":false})");
  const std::string before = book::print(tree);
  for (const char* path : {"a.b", "l.b", "f.b.c.d"})
    EXPECT_FALSE(book::set(tree, path, *parse_tree("\"1\"")).has_value()) << path;
  EXPECT_FALSE(
      book::set(tree, "a1.a2.a3.a4.a5.a6.a7.a8.a9.a10.a11.a12.a13.a14.a15", *parse_tree(R"({"x":{"y":"1"}})")));
  EXPECT_EQ(book::print(tree), before);
}

TEST(tree, paths_overlap_with_themselves_what_lies_above_and_below) {
  EXPECT_TRUE(book::overlap("a.b", "a.b"));
  EXPECT_TRUE(book::overlap("a", "a.b.c"));
  EXPECT_TRUE(book::overlap("a.b.c", "a"));
  EXPECT_TRUE(book::overlap("", "a"));
  EXPECT_TRUE(book::overlap("#hidden", "a.b"));
  EXPECT_FALSE(book::overlap("a", "ab"));
  EXPECT_FALSE(book::overlap("a.b", "a.c"));
  EXPECT_FALSE(book::overlap("a.b", "a.b1.c"));
}

TEST(tree, paths_are_names_joined_by_dots) {
  EXPECT_TRUE(book::is_path("a"));
  EXPECT_TRUE(book::is_path("a_1.b.9"));
  for (const char* path : {"", ".", "a.", ".a", "a..b", "A", "a-b", "#hidden", "a/b", "a b"})
    EXPECT_FALSE(book::is_path(path)) << path;
}

}  // namespace
