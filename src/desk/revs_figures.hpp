#pragma once
// Figures, findings, rungs and sentences of the bottom end. Inside the module only.

#include "bottom_end/ladder.hpp"
#include "desk/revs_parts.hpp"
#include "wire/bottom_end_answer.hpp"

namespace portwright::desk {

/// Everything found, stock beside the cut; alike where there are no cuts.
struct RevsFound {
  bottom_end::Sampled now, stock;
  bottom_end::Ladder ladder, stock_ladder;
  bottom_end::Question question;
};

/// bottom_end.*, with stock and change where there are cuts.
[[nodiscard]] std::vector<study::Figure> revs_figures(const RevsSides& sides, const RevsFound& found,
                                                      base::UnitStyle style);
/// The ladder with the marks of this saw: limiter, no-load and in-cut readings.
[[nodiscard]] std::vector<wire::Rung> revs_rungs(const RevsSides& sides, const RevsFound& found, base::UnitStyle style);

/// The words of a figure; `scale` from SI to its unit.
struct FigureWords {
  const char* id;
  const char* unit;
  double scale;
  const char* label;
  const char* formula;
  const char* why;
  const char* source;
};
/// A figure with its words, without a value yet.
[[nodiscard]] study::Figure named_figure(const FigureWords& words);
/// A value with its range as a figure.
[[nodiscard]] study::Figure ranged_figure(const FigureWords& words, const bottom_end::Ranged& value,
                                          base::UnitStyle style);
/// Puts stock and change beside it.
void add_change(study::Figure& figure, double scale, const bottom_end::Ranged& stock, const bottom_end::Ranged& change,
                base::UnitStyle style);

}  // namespace portwright::desk
