#include "architecture/layers.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

// The reader of the table and the includes, on made-up trees: that it finds what it should, and nothing else.
namespace {

using architecture::heavy_faults;
using architecture::HeavyLibrary;
using architecture::include_faults;
using architecture::parse_layers;
using architecture::SourceFile;
using architecture::table_faults;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

constexpr const char* table = "# ground to face\nbase :\nmiddle: base\nface : base   # not middle\n";

std::vector<SourceFile> sound_tree() {
  return {{"base/a.hpp", "#include <vector>\n"},
          {"middle/b.hpp", "#pragma once\n#include \"base/a.hpp\"\n#include \"middle/c.hpp\"\n"},
          {"face/d.cpp", "#include \"base/a.hpp\"\n#include <fmt/format.h>\n"}};
}

std::vector<std::string> faults_with(const SourceFile& extra) {
  auto files = sound_tree();
  files.push_back(extra);
  return include_faults(parse_layers(table), files);
}

TEST(layers, a_sound_table_and_tree_have_no_fault) {
  EXPECT_THAT(table_faults(parse_layers(table)), IsEmpty());
  EXPECT_THAT(include_faults(parse_layers(table), sound_tree()), IsEmpty());
}

TEST(layers, comments_and_blanks_of_the_table_are_not_rows) {
  const auto rows = parse_layers(table);
  ASSERT_EQ(rows.size(), 3u);
  EXPECT_EQ(rows[1].module, "middle");
  EXPECT_THAT(rows[2].may_include, ElementsAre("base"));
}

TEST(layers, an_include_that_climbs_is_a_fault_with_its_line) {
  EXPECT_THAT(faults_with({"base/e.hpp", "\n#include \"middle/b.hpp\"\n"}),
              ElementsAre("base/e.hpp:2: base may not include middle"));
}

TEST(layers, an_include_that_falls_but_is_not_listed_is_a_fault) {
  EXPECT_THAT(faults_with({"face/e.cpp", "#include \"middle/b.hpp\"\n"}),
              ElementsAre(HasSubstr("face may not include middle")));
}

TEST(layers, angle_brackets_and_odd_spacing_hide_nothing) {
  EXPECT_THAT(faults_with({"base/e.hpp", "  #  include <middle/b.hpp>\n"}),
              ElementsAre(HasSubstr("base may not include middle")));
}

TEST(layers, an_include_in_a_comment_is_none) {
  EXPECT_THAT(faults_with({"base/e.hpp", "// #include \"middle/b.hpp\"\n"}), IsEmpty());
}

TEST(layers, an_include_not_written_from_the_root_is_a_fault) {
  EXPECT_THAT(faults_with({"base/e.cpp", "#include \"e.hpp\"\n"}), ElementsAre(HasSubstr("not written from src/")));
  EXPECT_THAT(faults_with({"base/e.cpp", "#include \"../middle/b.hpp\"\n"}),
              ElementsAre(HasSubstr("not written from src/")));
}

TEST(layers, a_folder_without_a_row_is_a_fault_once) {
  auto files = sound_tree();
  files.push_back({"shed/a.hpp", ""});
  files.push_back({"shed/b.hpp", ""});
  EXPECT_THAT(include_faults(parse_layers(table), files), ElementsAre("folder shed/ has no row"));
}

TEST(layers, a_row_without_files_is_a_fault) {
  auto files = sound_tree();
  files.pop_back();
  EXPECT_THAT(include_faults(parse_layers(table), files), ElementsAre("row face has no files"));
}

TEST(layers, a_row_that_lists_itself_or_one_above_is_a_fault) {
  EXPECT_THAT(table_faults(parse_layers("base : face\nface : base\n")), ElementsAre(HasSubstr("base lists face")));
  EXPECT_THAT(table_faults(parse_layers("base : base\n")), ElementsAre(HasSubstr("base lists base")));
  EXPECT_THAT(table_faults(parse_layers("base :\nbase :\n")), ElementsAre("layers: base has two rows"));
}

TEST(layers, a_heavy_header_is_allowed_in_one_cpp_of_its_module_only) {
  const std::vector<HeavyLibrary> heavy = {{"nlohmann/", {"middle"}}};
  const std::string line = "#include <nlohmann/json.hpp>\n";
  EXPECT_THAT(heavy_faults(heavy, {{"middle/a.cpp", line + line}}), IsEmpty());
  EXPECT_THAT(heavy_faults(heavy, {{"middle/a.cpp", line}, {"middle/b.cpp", line}}),
              ElementsAre(HasSubstr("is already in middle/a.cpp")));
  EXPECT_THAT(heavy_faults(heavy, {{"middle/a.hpp", line}}), ElementsAre(HasSubstr("stands in a header")));
  EXPECT_THAT(heavy_faults(heavy, {{"face/a.cpp", line}}), ElementsAre(HasSubstr("is not a library of face")));
}

}  // namespace
