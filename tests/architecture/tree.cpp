#include "architecture/tree.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>

namespace architecture {
namespace {

namespace fs = std::filesystem;

const fs::path repository = PORTWRIGHT_SOURCE_DIR;

std::string slurp(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

bool is_source(const fs::path& path) {
  const std::string extension = path.extension().string();
  return extension == ".hpp" || extension == ".cpp" || extension == ".h" || extension == ".inl";
}

}  // namespace

std::string read_file(const std::string& path) { return slurp(repository / path); }

std::vector<SourceFile> read_tree(const std::string& folder) {
  const fs::path root = repository / folder;
  std::vector<SourceFile> files;
  for (const auto& entry : fs::recursive_directory_iterator(root))
    if (entry.is_regular_file() && is_source(entry.path()))
      files.push_back({fs::relative(entry.path(), root).generic_string(), slurp(entry.path())});
  std::sort(files.begin(), files.end(), [](const auto& a, const auto& b) { return a.path < b.path; });
  return files;
}

}  // namespace architecture
