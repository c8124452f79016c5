// Answers of a turning engine against their published schemas.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "desk/heat.hpp"
#include "desk/revs.hpp"
#include "desk/run.hpp"
#include "desk/seek.hpp"
#include "identity/json_schema_check.hpp"
#include "unit/cli/program.hpp"
#include "wire/json.hpp"

namespace {

using namespace portwright;
using json_schema::Json;
using ::testing::IsEmpty;
namespace fs = std::filesystem;

const fs::path root = PORTWRIGHT_SOURCE_DIR;
const std::string alder = (root / "data/samples/alder-60.saw.toml").string();

template <class A>
void expect_published(const base::ResultAll<A>& answer, const char* name) {
  ASSERT_TRUE(answer) << (answer ? "" : answer.error().front().message);
  const Json json = Json::parse(wire::to_json(*answer));
  EXPECT_EQ(json.at("schema"), std::string("portwright ") + name + " 1");
  const Json schema = Json::parse(program::read_file(root / "docs/schema" / (std::string(name) + ".json")));
  EXPECT_THAT(json_schema::faults(schema, json), IsEmpty()) << name;
  std::vector<std::string> extra;
  json_schema::unpublished(schema, schema, json, "answer", extra);
  EXPECT_THAT(extra, IsEmpty()) << name;
}

TEST(run_schema, a_run_with_cuts_answers_in_its_published_shape) {
  desk::RunRequest request;
  request.file = alder;
  request.cuts = "outlets to 2.5 cm2";
  request.speeds = "9000";
  request.bands = false;
  expect_published(desk::run(request), "run");
}

TEST(run_schema, a_stopped_run_answers_in_the_same_shape) {
  desk::RunRequest request;
  request.file = alder;
  expect_published(desk::run(request, [](double, const std::string&) { return true; }), "run");
}

TEST(run_schema, gauge_and_airflow_answer_in_their_published_shapes) {
  expect_published(desk::crank({alder, ""}), "crank");
  expect_published(desk::airflow({alder, "", "9000", ""}), "airflow");
}

TEST(run_schema, heat_answers_in_its_published_shape) {
  desk::HeatRequest request;
  request.file = PORTWRIGHT_SOURCE_DIR "/data/samples/larch-70.saw.toml";
  request.cuts = "widen exhaust +1 mm";
  request.members = 2;
  expect_published(desk::heat(request), "heat");
}

TEST(run_schema, bottom_end_and_chain_answer_in_their_published_shapes) {
  expect_published(desk::revs({alder, "widen exhaust +1 mm", "9000", ""}), "revs");
  desk::ChainRequest request;
  request.file = alder;
  request.cuts = "outlets to 2.5 cm2";
  request.members = 2;
  expect_published(desk::chain(request), "chain");
}

TEST(run_schema, a_search_answers_in_its_published_shape) {
  desk::SeekRequest request;
  request.file = alder;
  request.wishes = "most power";
  request.free = "widen exhaust";
  request.lists = 4;
  request.members = 2;
  expect_published(desk::seek(request), "seek");
}

TEST(run_schema, one_saw_answers_the_same_bits_twice) {
  desk::RunRequest request;
  request.file = alder;
  request.speeds = "9000";
  request.bands = false;
  EXPECT_EQ(wire::to_json(desk::run(request).value()), wire::to_json(desk::run(request).value()));
}

}  // namespace
