#pragma once
// The map's page while it is drawn: where things lie, what is taken, what is left to say. Inside the module only.

#include <optional>
#include <string>
#include <vector>

#include "draw/canvas.hpp"
#include "geometry/skirt_profile.hpp"
#include "sheet/bore_view.hpp"
#include "sheet/map.hpp"
#include "sheet/plan.hpp"

namespace portwright::sheet {

struct MapPage {
  const MapInput& input;
  Plan plan;
  const geometry::Engine& engine;
  BoreView view{};
  draw::Canvas canvas{1, 1};
  std::vector<Placed> windows{};
  std::vector<Placed> stock_windows{};  ///< in the last engine's datum; empty without cuts
  std::optional<geometry::SkirtProfile> skirt{};
  std::optional<double> angle{};  ///< of the crank [rad ATDC]
  std::optional<double> drop{};   ///< of the crown edge [m]
  double top = 0.0;               ///< of the bore, where the head begins [mm]
  double base = 0.0;              ///< base face; the lowest thing drawn of the cylinder where it is not known [mm]
  double bottom = 0.0;            ///< of the piston's picture [mm]
  Taken taken{};
  std::vector<std::string> unknown{};  ///< what is not drawn and why

  [[nodiscard]] bool changed(int entry) const;
  /// Whether a level of a port's edge [m] was no edge of its stock window.
  [[nodiscard]] bool is_moved(double level, int entry) const;
  [[nodiscard]] bool is_widened(int entry) const;
  /// A text where nothing else stands: tries x from the given side inward at a base line y.
  void place_text(const std::string& text, double baseline, draw::TextStyle style, bool from_right);
};

/// Lines of the cylinder: head, walls, base face, TDC place of the crown edge, seam.
void draw_cylinder(MapPage& page);
/// Piston with rings, pegs and piston windows at its place; hidden and open parts of the windows.
void draw_windows_and_piston(MapPage& page);
/// Ring pegs with their places.
void draw_pegs(MapPage& page);
/// Names over the windows and their places round the bore.
void draw_names(MapPage& page);
/// Heights above the base face, left and right; chords; the least wall.
void draw_sizes(MapPage& page);
/// Angle scale and pressed sides under the piston.
void draw_round(MapPage& page);
/// Findings' letters at their places.
void draw_findings(MapPage& page);
/// The picture's sentence, from the same numbers.
[[nodiscard]] std::string map_sentence(const MapPage& page);

/// Number of a height and the like [m] in mm: "36.54".
[[nodiscard]] std::string mm_text(double metres, int decimals = 2);
/// Angle in degrees: "103.0°".
[[nodiscard]] std::string degree_text(double radians, int decimals = 1);
/// Where the crank stands: "at 134° after TDC", "at TDC"; the page must have an angle.
[[nodiscard]] std::string crank_text(const MapPage& page);

}  // namespace portwright::sheet
