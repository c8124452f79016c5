#pragma once

#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "architecture/layers.hpp"

/// Reads the list of sources and the places that cite it.
namespace architecture {

/// Keys of the entries of a .bib file, in its order.
std::vector<std::string> bib_keys(std::string_view bib);

/// Faults of the citations `@source{KEY...}`: a key that is neither in `keys` nor practice nor memory.
std::vector<std::string> citation_faults(const std::set<std::string>& keys, const std::vector<SourceFile>& files);

}  // namespace architecture
