#pragma once
// The port template: a strip that is rolled into the bore, at true scale, with what is cut, to where, and where to stop
// and read.

#include <span>

#include "base/error.hpp"
#include "cuts/cut.hpp"
#include "draw/canvas.hpp"
#include "geometry/engine.hpp"
#include "sheet/labels.hpp"
#include "sheet/paper.hpp"
#include "study/finding.hpp"

namespace portwright::sheet {

struct TemplateInput {
  /// The engine before any cut, then after each cut in order: cuts.size() + 1 of them.
  std::span<const geometry::Engine> after;
  std::span<const cuts::Cut> cuts{};
  Labels labels{};
  std::span<const study::Finding> findings{};  ///< after all cuts
  Paper paper = a4;
  Printer printer{};
  double paper_thickness = 0.1;  ///< [mm]
};

/// Pages of the template. The strip is seen from inside the bore, plug end up, print inward; angles grow to the right.
/// It is pi times (bore less paper thickness) long, so that the edges meet when it lies on the wall; the tab beyond
/// proves it. A strip longer than the page goes on in further pieces that overlap and carry marks to join them. Heights
/// count from the base face as it is once the base was cut. Errors: not_found (bore or crown height not known),
/// impossible (printer off by more than 10 %, paper thicker than 1 mm, no engine, or not one engine more than cuts).
[[nodiscard]] base::Result<draw::Document> draw_template(const TemplateInput& input);

}  // namespace portwright::sheet
