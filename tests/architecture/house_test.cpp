#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "architecture/layers.hpp"

// The tree itself, held against src/layers.txt.
namespace {

using ::testing::IsEmpty;
namespace fs = std::filesystem;

const fs::path source_root = fs::path(PORTWRIGHT_SOURCE_DIR) / "src";

std::string read_file(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

bool is_source(const fs::path& path) {
  const std::string extension = path.extension().string();
  return extension == ".hpp" || extension == ".cpp" || extension == ".h" || extension == ".inl";
}

std::vector<architecture::SourceFile> read_tree() {
  std::vector<architecture::SourceFile> files;
  for (const auto& entry : fs::recursive_directory_iterator(source_root))
    if (entry.is_regular_file() && is_source(entry.path()))
      files.push_back({fs::relative(entry.path(), source_root).generic_string(), read_file(entry.path())});
  std::sort(files.begin(), files.end(), [](const auto& a, const auto& b) { return a.path < b.path; });
  return files;
}

std::vector<architecture::Row> read_table() { return architecture::parse_layers(read_file(source_root / "layers.txt")); }

// Which module owns which heavy library, and so may have it in one .cpp.
const std::vector<architecture::HeavyLibrary> heavy_libraries = {
    {"nlohmann/", {"wire"}},         {"CLI/", {"cli"}},   {"toml++/", {"tables", "saw"}},
    {"polyclipping/", {"geometry"}}, {"hpdf", {"draw"}},
};

TEST(house, table_and_tree_are_found) {
  EXPECT_GE(read_table().size(), 2u);
  EXPECT_GE(read_tree().size(), 2u);
}

TEST(house, every_row_lists_only_modules_nearer_the_ground) {
  EXPECT_THAT(architecture::table_faults(read_table()), IsEmpty());
}

TEST(house, every_include_is_listed_and_every_folder_and_row_have_each_other) {
  EXPECT_THAT(architecture::include_faults(read_table(), read_tree()), IsEmpty());
}

TEST(house, every_heavy_header_stays_in_one_cpp_of_its_own_module) {
  EXPECT_THAT(architecture::heavy_faults(heavy_libraries, read_tree()), IsEmpty());
}

}  // namespace
