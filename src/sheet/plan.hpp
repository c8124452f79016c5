#pragma once
// A saw before and after its cuts, brought to one view. Inside the module only.

#include <span>
#include <string>
#include <vector>

#include "base/error.hpp"
#include "cuts/cut.hpp"
#include "draw/marks.hpp"
#include "geometry/engine.hpp"
#include "study/finding.hpp"

namespace portwright::sheet {

/// Engines of a cut list, and how the cylinder moved on its way through it.
struct Plan {
  std::span<const geometry::Engine> after;
  std::span<const cuts::Cut> cuts;

  [[nodiscard]] bool has_cuts() const { return !cuts.empty(); }
  [[nodiscard]] const geometry::Engine& last() const { return after.back(); }
  /// The engine to hold the last against: the first, or the one after the last change of cylinder or bore.
  [[nodiscard]] const geometry::Engine& stock() const { return after[stock_index()]; }
  [[nodiscard]] std::size_t stock_index() const;
  /// How far the cylinder's metal lies lower against the crown edge's TDC place in the last engine than in the stock
  /// [m], by gasket, base, crown edge or piston.
  [[nodiscard]] double cylinder_shift() const;
  /// How much came off the base face on the way from cut `from` to the last [m].
  [[nodiscard]] double base_taken(std::size_t from) const;
  /// Number of the first cut on a port, from 1; 0 for none.
  [[nodiscard]] int first_cut_on(std::size_t entry) const;
};

/// Errors: impossible, when the numbers of engines and cuts do not belong together.
[[nodiscard]] base::Result<Plan> plan_of(std::span<const geometry::Engine> after, std::span<const cuts::Cut> cuts);

/// Whether a port's window, edges or size differ between two engines, the cylinder's shift taken off.
[[nodiscard]] bool is_changed(const geometry::Port& stock, const geometry::Port& now, double shift);

/// Word and shape of a finding's state.
[[nodiscard]] std::string finding_word(const study::Finding& finding);
[[nodiscard]] draw::Finding finding_shape(const study::Finding& finding);

/// Names of the readings that a set waits for, with commas; at most three, then how many more.
[[nodiscard]] std::string waits_text(const base::Needs& needs, const std::vector<std::string>& names);

}  // namespace portwright::sheet
