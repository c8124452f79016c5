#pragma once
// How far the readings' errors move the amounts of a way: what would have to be cut on a saw that the readings may as
// well have come from. Inside the module only.

#include <optional>
#include <vector>

#include "plan/ways.hpp"

namespace portwright::plan {

/// One way whose amounts are asked about.
struct Asked {
  const Task& task;
  const Amounts& amounts;                      ///< that meet the goals
  std::shared_ptr<const cuts::Prepared> list;  ///< all its cuts, with gasket and what is done
  std::vector<bool> as_stock;                  ///< of each goal: it is what the same saw has as it is
};

/// The saw as each of the study's samples has it.
[[nodiscard]] std::vector<geometry::Engine> sampled_engines(const geometry::Survey& survey, int count);

/// Half-width of the central 95 % of each amount [m] over the samples, the same cuts meeting the same goals and leaning
/// on the same bounds in each of them. None where a move is not used, lies at its own end, or where what is asked does
/// not settle it in at least half of the samples.
[[nodiscard]] std::vector<std::optional<double>> half_widths(const Asked& asked, const geometry::Engine& stock,
                                                             const std::vector<geometry::Engine>& samples);

}  // namespace portwright::plan
