#pragma once
// The page of the measuring sheet that a rubbing is photographed on: a square of known size in a black frame.

#include "draw/canvas.hpp"
#include "sheet/paper.hpp"

namespace portwright::sheet {

/// The frame as drawn [mm]: side of the white inside, and thickness of the black about it.
inline constexpr double rubbing_square = 120.0, rubbing_frame = 5.0;

/// White inside of the frame on the page [mm].
[[nodiscard]] draw::Box rubbing_inside(const Paper& paper);

/// The page with its words; nothing is printed inside the square.
[[nodiscard]] draw::Canvas draw_rubbing_page(const Paper& paper);

}  // namespace portwright::sheet
