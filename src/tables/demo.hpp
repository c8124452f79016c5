#pragma once
// The demo workshop of data/demo: invented saws and what was done with them.

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace portwright::tables {

struct DemoSaw {
  std::string file;       ///< "alder-60.saw.toml"
  std::string_view text;  ///< of the saw file
};

/// One thing that was done.
struct DemoDeed {
  std::string saw;                           ///< its name
  std::string act;                           ///< note | wood | failure | plan | done | accept | borrow | set
  std::map<std::string, std::string> words;  ///< the rest of the row, as typed
  [[nodiscard]] std::string word(const std::string& key) const {
    const auto found = words.find(key);
    return found == words.end() ? "" : found->second;
  }
};

[[nodiscard]] std::vector<DemoSaw> demo_saws();
[[nodiscard]] std::vector<DemoDeed> demo_deeds();

}  // namespace portwright::tables
