#include "sheet/measuring_drawings.hpp"

namespace portwright::sheet {
namespace {

constexpr NamedDrawing all[] = {
    {"head", "Chamber by liquid", show_head, 5},
    {"wheel", "Degree wheel", show_wheel, 5},
    {"solder", "Squish by solder", show_solder, 3},
    {"section", "Base, gasket, crown", show_section, 5},
    {"window", "A window at the bore's surface", show_window, 5},
    {"round", "Round the bore, seen from the plug", show_round, 4},
    {"piston", "Piston, from the crown edge down", show_piston, 8},
    {"ring", "A ring and its groove", show_ring, 6},
    {"crank", "Crank and case", show_crank, 4},
    {"passage", "Where cylinder and case meet", show_passage, 4},
    {"reed", "Reed block and carburettor", show_reed, 6},
    {"outside", "Before anything is undone", show_outside, 6},
};

}  // namespace

std::span<const NamedDrawing> named_drawings() { return all; }

draw::Canvas draw_alone(const NamedDrawing& drawing, int marked) {
  constexpr double margin = 2.0;
  draw::Canvas canvas(drawing_width + 2 * margin, drawing_height + 2 * margin);
  canvas.title = drawing.title;
  canvas.description = "Where the readings numbered 1 to " + std::to_string(drawing.numbers) + " are taken.";
  drawing.show({canvas, {margin, margin}, 1, marked});
  return canvas;
}

}  // namespace portwright::sheet
