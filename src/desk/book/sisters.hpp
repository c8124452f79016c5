#pragma once
// The saws of one model. Inside the module only.

#include <string>
#include <vector>

#include "desk/book/shelf.hpp"

namespace portwright::desk {

/// Saws whose model has the same letters and digits, in the order of their names, each with its newest readings.
/// `asked` may be a saw of the model. Errors: not_found, with the nearest model.
struct Sisters {
  std::string model;
  std::vector<ShelfSaw> saws;
};
[[nodiscard]] base::Result<Sisters> sisters_of(Shelf& shelf, const std::string& asked);

}  // namespace portwright::desk
