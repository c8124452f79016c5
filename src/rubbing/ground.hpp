#pragma once
// The inside of the square looked at from straight above, with the uneven light taken out. For finding what there is to
// measure, not for measuring. Inside the module only.

#include <vector>

#include "rubbing/camera.hpp"
#include "rubbing/light.hpp"

namespace portwright::rubbing {

inline constexpr double cell = 0.25;      ///< [mm as drawn]
inline constexpr double cell_rim = 1.25;  ///< left out along the ring [mm as drawn]

/// Square cells, row after row from the roof's side; light against that of bare paper at the same place, about 0..1.
struct Ground {
  int size = 0;  ///< cells in a row, and rows
  std::vector<float> level{};
  [[nodiscard]] float at(int x, int y) const { return level[index(x, y)]; }
  [[nodiscard]] std::size_t index(int x, int y) const {
    return static_cast<std::size_t>(y) * static_cast<std::size_t>(size) + static_cast<std::size_t>(x);
  }
  /// Middle of a cell on the sheet [mm as drawn].
  [[nodiscard]] Point middle(std::size_t i) const {
    const auto n = static_cast<std::size_t>(size);
    return {cell_rim + cell * (static_cast<double>(i % n) + 0.5), cell_rim + cell * (static_cast<double>(i / n) + 0.5)};
  }
  /// Cell at a place of the sheet; the nearest where there is none.
  [[nodiscard]] std::size_t cell_at(Point sheet) const;
};

[[nodiscard]] Ground ground_of(const Light& light, const Camera& camera);

}  // namespace portwright::rubbing
