#pragma once

#include <string>
#include <vector>

#include "architecture/layers.hpp"

namespace architecture {

/// The whole text of a file of the repository; `path` is relative to its root.
std::string read_file(const std::string& path);

/// Every C++ file under a folder of the repository, sorted; paths are relative to that folder.
std::vector<SourceFile> read_tree(const std::string& folder);

}  // namespace architecture
