#pragma once
// The unrolled bore with the piston at a crank angle: the picture of what a saw is, at true scale.

#include <optional>
#include <span>

#include "base/error.hpp"
#include "cuts/cut.hpp"
#include "draw/canvas.hpp"
#include "geometry/engine.hpp"
#include "sheet/labels.hpp"
#include "study/finding.hpp"

namespace portwright::sheet {

struct MapInput {
  /// The engine before any cut, then after each cut in order: cuts.size() + 1 of them. The last is drawn, the first is
  /// its stock.
  std::span<const geometry::Engine> after;
  std::span<const cuts::Cut> cuts{};
  Labels labels{};
  std::span<const study::Finding> findings{};  ///< after all cuts
  std::optional<double>
      angle{};  ///< of the crank [rad ATDC]; none: halfway from the first transfer's opening to BDC, else BDC
};

/// One page, as large as the bore asks for, 1 : 1. Seen from inside the bore, plug end up; angles grow to the right,
/// the seam at 225 deg. What is not known is left out and named below the picture. Errors: not_found (the bore is not
/// known: nothing can be unrolled), impossible (not one engine more than cuts).
[[nodiscard]] base::Result<draw::Document> draw_map(const MapInput& input);

}  // namespace portwright::sheet
