#pragma once
// One page as a list of things drawn on it, at true scale. Writers (draw/svg.hpp, draw/pdf.hpp) turn the same list into
// files.

#include <array>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "draw/hatch.hpp"
#include "draw/shape.hpp"
#include "draw/theme.hpp"

namespace portwright::draw {

/// Line weights on paper [mm].
namespace weight {
inline constexpr double edge = 0.5;        ///< what is here now, wanted
inline constexpr double visible = 0.25;    ///< visible edge, stock, stop mark
inline constexpr double dimension = 0.18;  ///< dimension, centre, hidden edge
inline constexpr double fine = 0.13;       ///< extension, leader, hatch
}  // namespace weight

/// Dash patterns; lengths in draw/canvas.cpp.
enum class Dash { solid, stop, hidden, centre, dotted };
/// Lengths on and off in turn [mm]; unused places are 0.
[[nodiscard]] std::array<double, 4> dash_lengths(Dash dash);

struct Stroke {
  Role role = Role::ink;
  double weight = weight::visible;  ///< [mm]
  Dash dash = Dash::solid;
  bool round = true;  ///< round ends and joints; else butt ends and mitred corners
};

enum class Anchor { start, middle, end };

/// How text stands on the page.
struct TextStyle {
  Role role = Role::ink;
  double size = 2.5;  ///< [mm]: height of a capital in lettering; size of the em in words
  Anchor anchor = Anchor::start;
  double angle = 0.0;   ///< [deg], clockwise on paper; -90 reads upward
  bool bold = false;    ///< words only
  double halo = 0.0;    ///< width of the ground-coloured band round the letters [mm]
  double weight = 0.0;  ///< lettering only [mm]; 0 takes a twelfth of the height, not under 0.13
};

struct StrokeItem {
  std::vector<Path> paths{};
  Stroke stroke{};
};
struct FillItem {
  Area area{};
  Role role = Role::ink;
  bool tint = false;  ///< thinned into the ground by the theme
};
/// Drawn single-stroke lettering: figures and names on the drawing.
struct LetteringItem {
  Point at{};  ///< start, middle or end of the base line, as the anchor says
  std::string text{};
  TextStyle style{};
};
/// Words in a text face, in any language.
struct WordsItem {
  Point at{};
  std::string text{};
  TextStyle style{};
};
/// Until the matching ClipEnd nothing shows outside the area.
struct ClipBegin {
  Area area{};
};
struct ClipEnd {};
/// A named part of the drawing: `id` for the page (letters, digits, dots, hyphens), `title` for a person.
struct GroupBegin {
  std::string id{};
  std::string title{};
};
struct GroupEnd {};

using Item = std::variant<StrokeItem, FillItem, LetteringItem, WordsItem, ClipBegin, ClipEnd, GroupBegin, GroupEnd>;

/// One page.
class Canvas {
 public:
  /// Size of the page [mm].
  Canvas(double width, double height) : width_(width), height_(height) {}

  double width() const { return width_; }
  double height() const { return height_; }
  const std::vector<Item>& items() const { return items_; }

  Canvas& stroke(Path path, Stroke stroke = {});
  Canvas& stroke(std::vector<Path> paths, Stroke stroke);
  Canvas& fill(Area area, Role role = Role::ink);
  /// Filled with the role's colour thinned into the ground; nothing where the theme has no tint.
  Canvas& tint(Area area, Role role);
  /// Hatches as geometry, clipped to the area; see draw/hatch.hpp.
  Canvas& hatch(const Area& area, const HatchStyle& style);
  Canvas& letter(Point at, std::string_view text, TextStyle style = {});
  Canvas& words(Point at, std::string_view text, TextStyle style = {});
  Canvas& clip(Area area);
  Canvas& end_clip();
  Canvas& group(std::string_view id, std::string_view title = {});
  Canvas& end_group();

  std::string title{};        ///< what the picture is
  std::string description{};  ///< its sentence, for who cannot see it
  /// Printer correction [-]: the page is stretched by these about its middle, so that a printer that shrinks prints
  /// true.
  Point correction{1.0, 1.0};
  /// A place on this page after the printer correction [mm].
  Point corrected(Point p) const {
    return {width_ / 2 + correction.x * (p.x - width_ / 2), height_ / 2 + correction.y * (p.y - height_ / 2)};
  }

 private:
  double width_;
  double height_;
  std::vector<Item> items_{};
};

/// Pages of one paper.
struct Document {
  std::string title{};
  std::string subject{};
  std::vector<Canvas> pages{};
};

/// Box a text takes on the page [mm], turned as it stands; lettering by its strokes, words by their face's widths.
struct TextBox {
  std::string text{};
  std::array<Point, 4> corners;
};
/// Every text of a canvas with its box, in order of drawing; those wholly outside a clip do not show and are left out.
[[nodiscard]] std::vector<TextBox> text_boxes(const Canvas& canvas);

}  // namespace portwright::draw
