#pragma once
// The unrolled bore with the piston at a crank angle: the picture of what a saw is, at true scale.

#include <optional>
#include <span>

#include "base/error.hpp"
#include "draw/canvas.hpp"
#include "geometry/engine.hpp"
#include "sheet/labels.hpp"
#include "study/finding.hpp"

namespace portwright::sheet {

struct MapInput {
  const geometry::Engine& engine;            ///< what is drawn: the saw, or the saw after its cuts
  const geometry::Engine* stock = nullptr;   ///< the saw before its cuts; null without cuts
  Labels labels{};
  std::span<const study::Finding> findings{};
  std::optional<double> angle{};  ///< of the crank [rad ATDC]; none: halfway from the first transfer's opening to BDC, else BDC
};

/// One page, as large as the bore asks for, 1 : 1. Seen from inside the bore, plug end up; angles grow to the right, the seam at 225 deg.
/// What is not known is left out and named below the picture. Errors: not_found (the bore is not known: nothing can be unrolled).
[[nodiscard]] base::Result<draw::Document> draw_map(const MapInput& input);

}  // namespace portwright::sheet
