#pragma once
// Every field that a saw has room for, by its path, its kind and what was typed into it. Inside the module only.

#include <functional>
#include <string>
#include <vector>

#include "saw/fields.hpp"

namespace portwright::desk {

struct FieldSeen {
  std::string path;     ///< "port.exhaust.opens"
  std::string general;  ///< without names and numbers: "port.opens"
  std::string called;   ///< port, place, or number of ring, window or fins that it belongs to; empty elsewhere
  const saw::Port* port = nullptr;
  std::string kind;  ///< reading | several | pairs | number | flag | words | choice
  std::optional<base::Dimension> dimension{}, second{};
  std::vector<std::string> typed{};
  const saw::Reading* reading = nullptr;
  std::vector<std::string> choices{};
};

/// Calls `each` for every field in the order of the saw file: also for the first ring where there is none yet, and for
/// squish at both ends of the pin.
void see_fields(const saw::Readings& readings, const std::function<void(const FieldSeen&)>& each);

}  // namespace portwright::desk
