#include "architecture/sources.hpp"

#include <regex>

namespace architecture {
namespace {

using Matches = std::regex_iterator<std::string_view::const_iterator>;

}  // namespace

std::vector<std::string> bib_keys(std::string_view bib) {
  static const std::regex entry(R"((?:^|\n)@[a-z]+\{([^,\s]+),)");
  std::vector<std::string> keys;
  for (Matches match(bib.begin(), bib.end(), entry), end; match != end; ++match) keys.push_back((*match)[1].str());
  return keys;
}

std::vector<std::string> citation_faults(const std::set<std::string>& keys, const std::vector<SourceFile>& files) {
  static const std::regex citation(R"(@source\{\s*([^,}\s]*))");
  std::vector<std::string> faults;
  for (const SourceFile& file : files) {
    const std::string_view text = file.text;
    for (Matches match(text.begin(), text.end(), citation), end; match != end; ++match) {
      const std::string key = (*match)[1].str();
      if (key != "practice" && key != "memory" && keys.count(key) == 0)
        faults.push_back(file.path + ": no source \"" + key + "\" in docs/references.bib");
    }
  }
  return faults;
}

}  // namespace architecture
