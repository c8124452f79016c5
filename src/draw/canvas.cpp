#include "draw/canvas.hpp"

#include <algorithm>
#include <numbers>
#include <optional>

#include "draw/lettering.hpp"
#include "draw/words.hpp"

namespace portwright::draw {
namespace {

constexpr double degree = std::numbers::pi / 180.0;

/// Corners of a text of this width, with the rise and drop of its letters.
TextBox box_of(Point at, const std::string& text, const TextStyle& style, double width, double rise, double drop) {
  const double back = style.anchor == Anchor::start ? 0.0 : style.anchor == Anchor::middle ? width / 2 : width;
  const double left = at.x - back, right = left + width;
  TextBox box{text, {Point{left, at.y - rise}, {right, at.y - rise}, {right, at.y + drop}, {left, at.y + drop}}};
  for (Point& corner : box.corners) corner = turned(corner, at, style.angle * degree);
  return box;
}

std::optional<TextBox> box_of(const Item& item) {
  if (const auto* l = std::get_if<LetteringItem>(&item)) {
    return box_of(l->at, l->text, l->style, lettering_width(l->text, l->style.size), l->style.size,
                  0.3 * l->style.size);
  }
  if (const auto* w = std::get_if<WordsItem>(&item)) {
    const double width = words_width(w->text, w->style.size, w->style.bold);
    return box_of(w->at, w->text, w->style, width, 0.76 * w->style.size, 0.24 * w->style.size);
  }
  return std::nullopt;
}

}  // namespace

std::array<double, 4> dash_lengths(Dash dash) {
  switch (dash) {
    case Dash::solid:
      return {};
    case Dash::stop:
      return {0.7, 0.55, 0, 0};
    case Dash::hidden:
      return {1.0, 0.7, 0, 0};
    case Dash::centre:
      return {3.2, 0.7, 0.45, 0.7};
    case Dash::dotted:
      return {0.25, 0.6, 0, 0};
  }
  return {};
}

Canvas& Canvas::stroke(Path path, Stroke stroke) { return this->stroke(std::vector<Path>{std::move(path)}, stroke); }

Canvas& Canvas::stroke(std::vector<Path> paths, Stroke stroke) {
  std::erase_if(paths, [](const Path& p) { return p.points.size() < 2; });
  if (!paths.empty()) items_.emplace_back(StrokeItem{std::move(paths), stroke});
  return *this;
}

Canvas& Canvas::fill(Area area, Role role) {
  items_.emplace_back(FillItem{std::move(area), role, false});
  return *this;
}

Canvas& Canvas::tint(Area area, Role role) {
  items_.emplace_back(FillItem{std::move(area), role, true});
  return *this;
}

Canvas& Canvas::hatch(const Area& area, const HatchStyle& style) {
  HatchLines lines = hatch_lines(area, style);
  stroke(std::move(lines.strokes), {style.role, style.weight, Dash::solid, false});
  if (!lines.discs.empty()) fill(std::move(lines.discs), style.role);
  return *this;
}

Canvas& Canvas::letter(Point at, std::string_view text, TextStyle style) {
  if (!text.empty()) items_.emplace_back(LetteringItem{at, clean_text(text), style});
  return *this;
}

Canvas& Canvas::words(Point at, std::string_view text, TextStyle style) {
  if (!text.empty()) items_.emplace_back(WordsItem{at, clean_text(text), style});
  return *this;
}

Canvas& Canvas::clip(Area area) {
  items_.emplace_back(ClipBegin{std::move(area)});
  return *this;
}

Canvas& Canvas::end_clip() {
  items_.emplace_back(ClipEnd{});
  return *this;
}

Canvas& Canvas::group(std::string_view id, std::string_view group_title) {
  items_.emplace_back(GroupBegin{std::string(id), clean_text(group_title)});
  return *this;
}

Canvas& Canvas::end_group() {
  items_.emplace_back(GroupEnd{});
  return *this;
}

std::vector<TextBox> text_boxes(const Canvas& canvas) {
  std::vector<TextBox> boxes;
  std::vector<Box> clips;
  const auto is_shown = [&](const TextBox& box) {
    const Box b = bounds(polyline({box.corners.begin(), box.corners.end()}));
    return std::all_of(clips.begin(), clips.end(), [&](const Box& clip) {
      return b.right > clip.left && b.left < clip.right && b.bottom > clip.top && b.top < clip.bottom;
    });
  };
  for (const Item& item : canvas.items()) {
    if (const auto* clip = std::get_if<ClipBegin>(&item)) clips.push_back(bounds(clip->area));
    if (std::holds_alternative<ClipEnd>(item) && !clips.empty()) clips.pop_back();
    auto box = box_of(item);
    if (box && is_shown(*box)) boxes.push_back(std::move(*box));
  }
  return boxes;
}

}  // namespace portwright::draw
