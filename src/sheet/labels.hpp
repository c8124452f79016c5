#pragma once
// Names and texts that a sheet carries beside the numbers of an engine.

#include <string>
#include <vector>

namespace portwright::geometry {
struct Survey;
}

namespace portwright::sheet {

struct Labels {
  std::string saw;                 ///< "Larch 70"
  std::string state;               ///< "as received"
  std::string plan;                ///< what the cuts are called: "cuts 1 to 5"; empty without cuts
  std::string read;                ///< when and how it was read; may be empty
  std::vector<std::string> ports;  ///< by entry of Engine::ports: "exhaust", "primary", "primary, twin"
  std::vector<std::string> needs;  ///< path of each reading that something may wait for, as geometry::Survey::needs
};

/// Port names and needs of a survey; saw, state and the rest are the caller's.
[[nodiscard]] Labels labels_of(const geometry::Survey& survey);

}  // namespace portwright::sheet
