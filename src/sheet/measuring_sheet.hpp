#pragma once
// A blank sheet to take to the bench: readings in the order in which a saw comes apart, each with a drawing of where it
// is taken; its last page is the square that a rubbing is photographed on (sheet/rubbing_page.hpp).

#include "draw/canvas.hpp"
#include "sheet/paper.hpp"

namespace portwright::sheet {

[[nodiscard]] draw::Document draw_measuring_sheet(const Paper& paper = a4);

}  // namespace portwright::sheet
