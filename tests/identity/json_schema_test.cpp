#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "identity/json_schema_check.hpp"
#include "unit/cli/program.hpp"
#include "wire/batch.hpp"
#include "wire/json.hpp"

// The JSON that comes out of the program against the schemas that are published in docs/schema.
namespace {

using namespace portwright;
using json_schema::Json;
using program::run;
using ::testing::IsEmpty;
namespace fs = std::filesystem;

const fs::path kept = fs::path(PORTWRIGHT_SOURCE_DIR) / "docs/schema";

Json published(const std::string& name) {
  return Json::parse(program::read_file(kept / (name + ".json")), nullptr, false);
}

void expect_published(const std::vector<std::string>& words) {
  const auto ran = run(words);
  const Json answer = Json::parse(ran.out, nullptr, false);
  ASSERT_FALSE(answer.is_discarded()) << words[0] << ": " << ran.out.substr(0, 300) << ran.err;
  const std::string schema_name = answer.at("schema").get<std::string>();
  const std::string name = schema_name.substr(11, schema_name.rfind(' ') - 11);
  const Json schema = published(name);
  ASSERT_TRUE(schema.is_object()) << name;
  EXPECT_THAT(json_schema::faults(schema, answer), IsEmpty()) << words[0];
  std::vector<std::string> extra;
  json_schema::unpublished(schema, schema, answer, "answer", extra);
  EXPECT_THAT(extra, IsEmpty()) << words[0];
}

TEST(json_schema, the_kept_files_are_those_of_the_table_of_shapes) {
  std::vector<std::string> names{"openapi.json"};  // looked at by tests/unit/server
  std::vector<wire::Schema> all = wire::schemas();
  for (const wire::Schema& ask : wire::ask_schemas()) all.push_back(ask);
  for (const wire::Schema& line : wire::batch_schemas()) all.push_back(line);
  for (const wire::Schema& schema : all) {
    EXPECT_EQ(program::read_file(kept / (schema.name + ".json")), schema.text)
        << "portwright schema --write docs/schema";
    names.push_back(schema.name + ".json");
  }
  for (const auto& entry : fs::directory_iterator(kept))
    EXPECT_THAT(names, ::testing::Contains(entry.path().filename().string()));
}

TEST(json_schema, every_command_answers_in_its_published_shape) {
  const program::Folder folder;
  const std::string saw = folder.file("larch.saw.toml", program::larch);
  const std::string bad = folder.file("bad.saw.toml", program::replaced(program::larch, "\"36.0 mm\"", "\"36 cc\""));
  const auto out = [&](const char* name) { return (folder.path() / name).string(); };
  for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{
           {"study", saw},
           {"study", saw, "--cuts", "gasket out; roof exhaust +0.5 mm; widen exhaust +1 mm", "--units", "metric"},
           {"study", bad},
           {"why", saw, "timing.blowdown"},
           {"why", saw, "skirt.cover_exhaust", "--cuts", "base -0.5 mm"},
           {"check", saw},
           {"check", bad},
           {"compare", saw, "--cuts-b", "base -0.5 mm"},
           {"compare", saw, bad},
           {"edge", saw, "exhaust"},
           {"edge", saw, "exhaust", "--at", "98 deg", "--cuts", "base -0.5 mm"},
           {"plan", saw, "--wish", "exhaust at 101 deg; squish 0.7 mm; trapped ratio as stock"},
           {"plan", saw, "--wish", "exhaust at 101 deg", "--done", "widen exhaust +0.5 mm"},
           {"plan", saw, "--wish", "squish 0.2 mm; exhaust 99 deg"},
           {"sheet", saw, "--wish", "exhaust at 101 deg", "-o", out("c.pdf")},
           {"bore", saw},
           {"bore", saw, "--cuts", "gasket out; roof exhaust +0.5 mm"},
           {"bore", bad},
           {"form", saw},
           {"form", bad},
           {"steps", saw},
           {"steps", saw, "--cuts", "gasket out; roof exhaust +0.5 mm; widen exhaust +1 mm left"},
           {"steps", saw, "--cuts", "sand exhaust"},
           {"drawing", "solderr"},
           {"units", "47 thou"},
           {"new", "Alder", "-o", out("a.saw.toml")},
           {"map", saw, "-o", out("m.svg")},
           {"template", saw, "-o", out("t.pdf")},
           {"measuring-sheet", "-o", out("s.pdf")},
           {"study", out("nothing")},
           {"study", saw, "--cuts", "sand exhaust"},
           {"nonsense"}}) {
    std::vector<std::string> asked = words;
    asked.push_back("--json");
    expect_published(asked);
  }
}

TEST(json_schema, every_sample_answers_in_the_published_shape) {
  ASSERT_FALSE(program::samples().empty());
  for (const fs::path& sample : program::samples()) {
    expect_published({"study", sample.string(), "--json"});
    expect_published({"check", sample.string(), "--json"});
    expect_published({"bore", sample.string(), "--json"});
    expect_published({"form", sample.string(), "--json"});
  }
}

TEST(json_schema, an_answer_comes_back_through_the_reader_as_it_was) {
  const auto ran = run({"study", "-", "--json", "--cuts", "base -0.5 mm"}, program::larch);
  const auto answer = wire::from_json<wire::StudyAnswer>(ran.out);
  ASSERT_TRUE(answer) << answer.error().message;
  EXPECT_EQ(wire::to_json(*answer), ran.out);
}

TEST(json_schema, the_check_itself_sees_what_is_wrong) {
  const Json schema = published("units");
  ASSERT_TRUE(schema.is_object());
  Json answer = Json::parse(run({"units", "47 thou", "--json"}).out);
  EXPECT_THAT(json_schema::faults(schema, answer), IsEmpty());
  answer["si_value"] = "much";
  answer.erase("kind");
  EXPECT_EQ(json_schema::faults(schema, answer).size(), 2u);
}

}  // namespace
