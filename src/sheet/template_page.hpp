#pragma once
// The template while it is drawn: its numbers, and the pieces a page is filled with. Inside the module only.

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "draw/canvas.hpp"
#include "sheet/bore_view.hpp"
#include "sheet/cut_rows.hpp"
#include "sheet/paper_template.hpp"
#include "sheet/plan.hpp"

namespace portwright::sheet {

/// The strip's sizes [mm].
struct Strip {
  double length = 0.0;  ///< round the wall, from the left edge to the thick line
  double height = 0.0;  ///< from the base face up
  double bore = 0.0;    ///< as it is after the cuts
  double tab = 10.0;    ///< beyond the thick line
  double whole() const { return length + tab; }
};

/// Windows of the strip as they are now, where to stop, and as wanted.
struct StripWindow {
  Placed wanted;
  std::optional<Placed> now;  ///< only where a cut changes it
  std::optional<Placed> stop;
  int cut = 0;                             ///< number of the first cut on it, 0 for none
  double roof = 0.0, floor = 0.0;          ///< heights wanted [mm]
  double now_roof = 0.0, now_floor = 0.0;  ///< heights now, above the base face as it will be [mm]
  double chord = 0.0;                      ///< wanted [mm]
  double now_chord = 0.0;
};

struct TemplateJob {
  const TemplateInput& input;
  Plan plan;
  Strip strip{};
  std::vector<CutRow> rows{};

  [[nodiscard]] const geometry::Engine& engine() const { return plan.last(); }
  /// View with the strip's left edge and base face at a place on the page.
  [[nodiscard]] BoreView view(double left, double base) const;
  [[nodiscard]] std::vector<StripWindow> windows(const BoreView& view) const;
};

/// Margins of the page [mm].
namespace margin {
inline constexpr double left = 14.0, right = 14.0, top = 13.0, bottom = 10.0;
inline constexpr double bar_column = 26.0;  ///< at the right edge, for the bar along the page
}  // namespace margin

/// Draws the strip with its left edge at x and the base face at y, whatever of it a clip leaves.
void draw_strip(draw::Canvas& canvas, const TemplateJob& job, double left, double base);

/// Circles that show changed edges enlarged; returns how many were drawn. Takes `detail_height` of the page.
inline constexpr double detail_height = 43.0;
int draw_details(draw::Canvas& canvas, const TemplateJob& job, draw::Point at, int most);

}  // namespace portwright::sheet
