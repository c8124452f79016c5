#pragma once
// What the pictures of a running engine share: a page narrow enough for a phone, panels with axes, lines and labels on
// them. Inside the module only.

#include <string>
#include <utility>
#include <vector>

#include "draw/canvas.hpp"
#include "sheet/bore_view.hpp"

namespace portwright::sheet::chart {

/// Width of a page [mm]: at 360 px the least letter still has 8 px.
inline constexpr double page_width = 110.0;
inline constexpr double margin = 4.0;         ///< left and right of everything [mm]
inline constexpr double figure_height = 2.5;  ///< of lettering [mm]
inline constexpr double words_size = 3.5;     ///< of sentences [mm]
inline constexpr double words_line = 5.0;     ///< from line to line [mm]

/// A scale with whole steps.
struct Scale {
  double low = 0.0, high = 1.0, step = 1.0;
  int decimals = 0;  ///< that its ticks need
};
/// The least scale of whole steps (1, 2 or 5 times a power of ten) that holds both ends in at most `steps` steps. What
/// does not differ, or is no number, is given room.
[[nodiscard]] Scale scale_over(double low, double high, int steps);

/// A field to draw in, and its two scales.
struct Panel {
  draw::Box box{};
  Scale x{}, y{};
  [[nodiscard]] double at_x(double value) const;
  [[nodiscard]] double at_y(double value) const;
  [[nodiscard]] draw::Point at(double xv, double yv) const { return {at_x(xv), at_y(yv)}; }
};

/// Page in the making: the canvas and what is taken on it.
struct ChartPage {
  draw::Canvas canvas{page_width, 1.0};
  Taken taken{};
};

/// Upright scale on the left with ticks and numbers, and the panel's name over it.
void draw_upright_scale(ChartPage& page, const Panel& panel, const std::string& name);
/// Level scale under the panel; numbers where they have room, the unit after the last.
void draw_level_scale(ChartPage& page, const Panel& panel, const std::string& unit, bool with_numbers);
/// Name, state and cuts of the saw, and at the right what is shown.
void draw_head(ChartPage& page, const std::string& saw, const std::string& aside, const std::string& at_right);
/// Height that the head takes [mm].
[[nodiscard]] double head_height(const std::string& aside);
/// Sentences in words; returns the y below. The canvas must be high enough.
double draw_sentence(ChartPage& page, double y, const std::string& text, bool bold = false);
[[nodiscard]] double sentence_height(const std::string& text, bool bold = false);

/// Lettering at the first of some places (start of its base line) where it is free.
/// @param must  whether it is set at the first when none is free
bool place(ChartPage& page, const std::vector<draw::Point>& wanted, const std::string& text, draw::TextStyle style,
           bool must = true);
/// Takes the room along a line, so that texts keep off it.
void keep_off(Taken& taken, const std::vector<draw::Point>& line, double half = 0.3);

/// A smooth line through points that never rises or falls where they do not. @source{memory, cubic with harmonic means
/// of the chords as slopes}
[[nodiscard]] std::vector<draw::Point> smooth(const std::vector<draw::Point>& points, int pieces = 8);

/// Places for labels at the end of lines: moved apart, in order, each as near as it can be to where it belongs.
/// @param wanted [mm]  @param gap least distance [mm]
[[nodiscard]] std::vector<double> apart(const std::vector<double>& wanted, double gap, double low, double high);

/// "7 000", typographic.
[[nodiscard]] std::string number(double value, int decimals = 0);
/// Number in three digits at most.
[[nodiscard]] std::string brief(double value);
/// "a, b and c".
[[nodiscard]] std::string listed(const std::vector<std::string>& words);

}  // namespace portwright::sheet::chart
