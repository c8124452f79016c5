// Wishes over the server: ways, refusals as sentences, the cut sheet as a PDF.
#include <gmock/gmock.h>

#include "unit/server/app.hpp"

namespace {

using namespace serving;
using testing::HasSubstr;
using testing::StartsWith;

TEST(plan_routes, tell_every_way_and_draw_one_as_a_sheet) {
  Bench bench;
  const Json ask{{"saw", bench.saw}, {"wish", "exhaust at 101 deg"}};
  const Json plan = bench.json("ask/plan", ask);
  ASSERT_FALSE(plan["plans"].empty());
  EXPECT_THAT(std::string(plan["plans"][0]["cuts"]), HasSubstr("roof exhaust"));
  for (const char* paper : {"A4", "Letter", "A5"}) {
    Json sheet = ask;
    sheet["paper"] = paper;
    const Response drawn = bench.ask("sheet/cuts", sheet);
    EXPECT_EQ(drawn.status, 200) << paper << drawn.body;
    EXPECT_THAT(drawn.body, StartsWith("%PDF-")) << paper;
    EXPECT_EQ(value_of(drawn.headers, "Content-Type"), "application/pdf");
  }
  EXPECT_EQ(bench.ask_by(bench.pair(), "ask/plan", ask).status, 200) << "a phone plans, too";
}

TEST(plan_routes, draw_a_list_decided_by_hand) {
  Bench bench;
  const Response drawn = bench.ask("sheet/cuts", {{"saw", bench.saw}, {"cuts", "roof exhaust +0.5 mm"}});
  EXPECT_EQ(drawn.status, 200) << drawn.body;
  EXPECT_THAT(drawn.body, StartsWith("%PDF-"));
  const auto refused = [&](Json more) {
    Json ask{{"saw", bench.saw}};
    ask.update(more);
    const Response response = bench.ask("sheet/cuts", ask);
    EXPECT_GE(response.status, 400) << ask;
    EXPECT_LT(response.status, 500) << ask;
    return response.body;
  };
  EXPECT_THAT(refused({{"cuts", "outline exhaust to x.svg"}}), HasSubstr("names a file"));
  EXPECT_THAT(refused({{"cuts", "roof exhaust +0.5 mm"}, {"wish", "exhaust at 101 deg"}}), HasSubstr("at once"));
  EXPECT_THAT(refused(Json::object()), HasSubstr("wish"));
}

TEST(plan_routes, say_what_cannot_be_had) {
  Bench bench;
  const auto refused = [&](const char* route, Json more) {
    Json ask{{"saw", bench.saw}, {"wish", "exhaust at 101 deg"}};
    ask.update(more);
    const Response response = bench.ask(route, ask);
    EXPECT_GE(response.status, 400) << route << more;
    EXPECT_LT(response.status, 500) << route << more << response.body;
    EXPECT_EQ(value_of(response.headers, "Content-Type"), "application/problem+json");
    return response.body;
  };
  for (const char* route : {"ask/plan", "sheet/cuts"}) {
    EXPECT_THAT(refused(route, {{"wish", ""}}), HasSubstr("detail"));
    EXPECT_THAT(refused(route, {{"wish", "cheese at 3 deg"}}), HasSubstr("cheese"));
    EXPECT_THAT(refused(route, {{"done", "outline exhaust to x.svg"}}), HasSubstr("names a file"));
    (void)refused(route, {{"step", "-1 mm"}});
    (void)refused(route, {{"chance", "120 %"}});
    (void)refused(route, {{"gaskets", "thick"}});
    (void)refused(route, {{"wish", "exhaust at 101 deg; exhaust at 99 deg"}});
  }
  (void)refused("sheet/cuts", {{"way", 99}});
  (void)refused("sheet/cuts", {{"paper", "A3"}});
  (void)refused("sheet/cuts", {{"band", "0.01 deg"}});
}

}  // namespace
