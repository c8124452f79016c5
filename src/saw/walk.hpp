#pragma once
// Every field of a saw as a flat list of paths, for whoever needs all of them and not one.

#include <functional>
#include <optional>
#include <string>

#include "saw/readings.hpp"

namespace portwright::saw {

struct FieldAt {
  std::string path;  ///< `port.exhaust.opens`, `piston.ring.1.peg`; a pair's halves end in `.first` and `.second`
  std::string kind;  ///< of the port it belongs to; empty elsewhere
  std::optional<base::Dimension> dimension;  ///< of a quantity, a count for plain numbers; none for words and flags
  bool taken = false;
};

/// Calls `each` for every field there is room for: all of the saw's own, and those of the ports, rings, windows and
/// fins in it.
void for_each_field(const Readings& readings, const std::function<void(const FieldAt&)>& each);

}  // namespace portwright::saw
