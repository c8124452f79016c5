#pragma once
// Drawings that show where a reading is taken. Each fills a box 72 x 46 mm and puts numbers where its readings are.

#include <span>
#include <string>
#include <string_view>

#include "draw/canvas.hpp"

namespace portwright::sheet {

inline constexpr double drawing_width = 72.0, drawing_height = 46.0;  // [mm]

/// A drawing's place on the page and the number of its first reading.
struct Spot {
  draw::Canvas& canvas;
  draw::Point at;  ///< top left
  int first = 1;
  int marked = -1;  ///< reading in hand: its number is blue; -1: none

  [[nodiscard]] draw::Point p(double x, double y) const { return {at.x + x, at.y + y}; }
  /// The number of reading k of this drawing, in a ring.
  void number(int k, double x, double y) const;
  /// The same at a place of the page.
  void number_at(int k, draw::Point centre) const;
};

using Drawing = void (*)(const Spot&);

void show_head(const Spot& spot);     ///< volume, filled to, plug thread, plug reach, gauge
void show_wheel(const Spot& spot);    ///< exhaust opens, closes, transfers open, intake opens, closes
void show_solder(const Spot& spot);   ///< exhaust side, intake side, band
void show_section(const Spot& spot);  ///< gasket, crown at TDC, spigot clearance, bore, crown above deck
void show_window(const Spot& spot);   ///< roof, floor, width, roof corner, floor corner
void show_round(const Spot& spot);    ///< centre, pin axis, pressed side, ring peg
void show_piston(const Spot& spot);   ///< skirt exhaust, intake, side, full width, pin below crown, pin, dome, mass
void show_ring(const Spot& spot);     ///< below crown, height, radial, peg, end gap, free gap
void show_crank(const Spot& spot);    ///< stroke, rod, case volume, at
void show_passage(const Spot& spot);  ///< foot, gasket, mouth, ledge
void show_reed(const Spot& spot);     ///< petals, length, width, thickness, stop, venturi
void show_outside(const Spot& spot);  ///< outlet, advance, pitch, teeth, no load, in cut

struct NamedDrawing {
  std::string_view name;
  std::string_view title;
  Drawing show;
  int numbers;  ///< readings that it numbers
};
[[nodiscard]] std::span<const NamedDrawing> named_drawings();

/// One drawing by itself. `marked` as of Spot.
[[nodiscard]] draw::Canvas draw_alone(const NamedDrawing& drawing, int marked);

}  // namespace portwright::sheet
