#pragma once
// The cut sheet: a plan's steps in working order with tool, amount, stop mark, what to read how often, what to expect,
// room for what was read; what to do on assembly; cautions. On the card the steps alone, their numbers large.

#include <string>
#include <vector>

#include "base/error.hpp"
#include "base/number_text.hpp"
#include "draw/canvas.hpp"
#include "plan/work.hpp"
#include "sheet/paper.hpp"

namespace portwright::sheet {

/// A5, to pin up over the bench.
inline constexpr Paper a5{"A5", 148.0, 210.0};

/// A wished figure: stock, asked, and what the cuts so far came to; texts.
struct SheetWish {
  std::string label, stock, asked, reached;
};

/// One cut that is done, beside what was planned for it.
struct SheetDone {
  std::string what, planned, cut, left;
};

struct CutSheetInput {
  const plan::Work& work;
  std::string saw, state;
  std::string plan;  ///< "plan 1 of 3"
  std::vector<SheetWish> wishes{};
  std::vector<SheetDone> done{};     ///< empty before the first cut
  std::vector<std::string> stops{};  ///< what is a stop after the cuts, each a sentence; on top of everything
  std::vector<std::string> notes{};  ///< limits, metal, warnings: each a sentence
  std::vector<std::string> cautions{};
  Paper paper = a4;
  base::UnitStyle style = base::UnitStyle::shop;
  bool by_wish = true;  ///< else the list was decided by hand, and `wishes` are the figures that it moves
};

/// Pages of the sheet; on A5 the card.
[[nodiscard]] draw::Document draw_cut_sheet(const CutSheetInput& input);

}  // namespace portwright::sheet
