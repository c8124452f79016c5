#pragma once

#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

/// Reads the table of modules and the includes of a source tree and says where they disagree.
namespace architecture {

/// One row of the table: a module and the modules that it may include.
struct Row {
  std::string module;
  std::vector<std::string> may_include;
};

/// One file of the tree; the path is relative to src/, as in "geometry/window.hpp".
struct SourceFile {
  std::string path;
  std::string text;
};

/// One #include line; `line` counts from 1.
struct Include {
  std::string path;
  int line = 0;
};

/// An outside library with headers heavy enough to be kept in one .cpp of each module named.
struct HeavyLibrary {
  std::string header;  ///< how its include begins, as in "nlohmann/"
  std::set<std::string> modules;
};

/// Rows of the table, ground first; text from '#' to the end of a line is a comment.
std::vector<Row> parse_layers(std::string_view text);

/// All #include lines, with either kind of bracket, outside // comments.
std::vector<Include> includes_of(std::string_view text);

/// Faults of the table itself: a row twice, a row that names a module not nearer the ground.
std::vector<std::string> table_faults(const std::vector<Row>& rows);

/// Faults of the tree against the table: an include that is not listed, a folder without a row, a row without files.
std::vector<std::string> include_faults(const std::vector<Row>& rows, const std::vector<SourceFile>& files);

/// Faults of heavy headers: in a header of ours, in a module that does not own the library, in a second .cpp.
std::vector<std::string> heavy_faults(const std::vector<HeavyLibrary>& libraries, const std::vector<SourceFile>& files);

}  // namespace architecture
