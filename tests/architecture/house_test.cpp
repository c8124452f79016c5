#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "architecture/layers.hpp"
#include "architecture/sources.hpp"
#include "architecture/tree.hpp"

// The tree itself, held against src/layers.txt and docs/references.bib.
namespace {

using ::testing::IsEmpty;
using ::testing::SizeIs;

std::vector<architecture::Row> read_table() {
  return architecture::parse_layers(architecture::read_file("src/layers.txt"));
}

// Which module owns which heavy library, and so may have it in one .cpp.
const std::vector<architecture::HeavyLibrary> heavy_libraries = {
    {"nlohmann/", {"wire"}},         {"CLI/", {"cli"}},           {"toml++/", {"tables", "saw"}},
    {"polyclipping/", {"geometry"}}, {"hpdf", {"draw"}},          {"qrcodegen/", {"draw"}},
    {"boost/asio", {"server"}},      {"boost/beast", {"server"}}, {"jpeglib", {"picture"}},
    {"png.h", {"picture"}},          {"nlopt", {"seek"}},
};

TEST(house, table_and_tree_are_found) {
  EXPECT_GE(read_table().size(), 2u);
  EXPECT_GE(architecture::read_tree("src").size(), 2u);
}

TEST(house, every_row_lists_only_modules_nearer_the_ground) {
  EXPECT_THAT(architecture::table_faults(read_table()), IsEmpty());
}

TEST(house, every_include_is_listed_and_every_folder_and_row_have_each_other) {
  EXPECT_THAT(architecture::include_faults(read_table(), architecture::read_tree("src")), IsEmpty());
}

TEST(house, every_heavy_header_stays_in_one_cpp_of_its_own_module) {
  EXPECT_THAT(architecture::heavy_faults(heavy_libraries, architecture::read_tree("src")), IsEmpty());
}

TEST(house, every_source_cited_in_the_code_is_listed_once) {
  const auto list = architecture::bib_keys(architecture::read_file("docs/references.bib"));
  const std::set<std::string> keys(list.begin(), list.end());
  EXPECT_THAT(keys, SizeIs(list.size()));
  EXPECT_GE(keys.size(), 20u);
  EXPECT_THAT(architecture::citation_faults(keys, architecture::read_tree("src")), IsEmpty());
}

}  // namespace
