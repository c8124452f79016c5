#include "draw/table.hpp"

#include <algorithm>
#include <numeric>

#include "draw/lettering.hpp"
#include "draw/words.hpp"

namespace portwright::draw {
namespace {

constexpr double pad = 1.2;  // inside a cell [mm]
constexpr double least_shrink = 2.0 / 3;

double start_of(const Column& column, double left) {
  switch (column.anchor) {
    case Anchor::start:
      return left + (column.boxed ? pad : 0.0);
    case Anchor::middle:
      return left + column.width / 2;
    case Anchor::end:
      return left + column.width - pad;
  }
  return left;
}

void rule(Canvas& canvas, double left, double right, double y, double w, Role role = Role::ink) {
  canvas.stroke(line({left, y}, {right, y}), {role, w, Dash::solid, false});
}

void draw_row(Canvas& canvas, const Table& table, const std::vector<std::string>& cells, double top) {
  double left = table.at.x;
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    const Column& column = table.columns[i];
    const double room = column.width - pad - (column.boxed ? pad : 0.0);
    const std::string text = i < cells.size() ? cells[i] : std::string{};
    TextStyle style{column.role, table.size, column.anchor, 0.0, false, 0.0, 0.0};
    const Point at{start_of(column, left), top + (table.row_height + table.size) / 2};
    if (column.lettering) {
      draw_fitted_lettering(canvas, at, text, style, room);
    } else {
      style.size = table.size * 1.3;
      draw_fitted_words(canvas, at, text, style, room);
    }
    left += column.width;
  }
}

std::string cut_lettering(const std::string& text, double height, double width) {
  const auto codes = code_points(text);
  std::string cut;
  for (const char32_t c : codes) {
    const std::string longer = cut + to_utf8(c);
    if (lettering_width(longer + "…", height) > width) break;
    cut = longer;
  }
  return cut + "…";
}

}  // namespace

double draw_table(Canvas& canvas, const Table& table) {
  const double width = std::accumulate(table.columns.begin(), table.columns.end(), 0.0,
                                       [](double sum, const Column& c) { return sum + c.width; });
  const double left = table.at.x, right = left + width, head = table.at.y + table.head_height;
  double x = left;
  for (const Column& column : table.columns) {
    const TextStyle style{Role::ink, 2.9, column.anchor, 0.0, false, 0.0, 0.0};
    draw_fitted_words(canvas, {start_of(column, x), head - 1.8}, column.head, style, column.width - pad);
    x += column.width;
  }
  rule(canvas, left, right, head, weight::edge);
  double y = head;
  for (const auto& cells : table.rows) {
    draw_row(canvas, table, cells, y);
    y += table.row_height;
    rule(canvas, left, right, y, &cells == &table.rows.back() ? weight::visible : weight::fine);
  }
  x = left;
  for (const Column& column : table.columns) {
    if (column.boxed) canvas.stroke(line({x, head}, {x, y}), {Role::ink, weight::fine, Dash::solid, false});
    x += column.width;
    if (column.boxed && &column == &table.columns.back()) {
      canvas.stroke(line({x, head}, {x, y}), {Role::ink, weight::fine, Dash::solid, false});
    }
  }
  return y;
}

double draw_title_block(Canvas& canvas, const TitleBlock& block) {
  const Stroke fine{Role::ink, weight::fine, Dash::solid, false};
  double y = block.at.y;
  for (const auto& row : block.rows) {
    const double shares =
        std::accumulate(row.begin(), row.end(), 0.0, [](double s, const BlockCell& c) { return s + c.share; });
    double x = block.at.x;
    for (const BlockCell& cell : row) {
      const double width = block.width * cell.share / shares;
      if (x > block.at.x + 1e-9) canvas.stroke(line({x, y}, {x, y + block.row_height}), fine);
      draw_fitted_words(canvas, {x + 1.4, y + 3.4}, cell.name, {Role::ink, 2.5, Anchor::start, 0.0, false, 0.0, 0.0},
                        width - 2.8);
      draw_fitted_lettering(canvas, {x + 1.8, y + block.row_height - 2.2}, cell.content,
                            {Role::ink, 2.6, Anchor::start, 0.0, false, 0.0, 0.0}, width - 3.2);
      x += width;
    }
    y += block.row_height;
    if (&row != &block.rows.back()) rule(canvas, block.at.x, block.at.x + block.width, y, weight::fine);
  }
  canvas.stroke(rectangle(block.at.x, block.at.y, block.width, y - block.at.y),
                {Role::ink, weight::edge, Dash::solid, false});
  return y;
}

void draw_fitted_lettering(Canvas& canvas, Point at, const std::string& text, TextStyle style, double width) {
  const double wide = lettering_width(text, style.size);
  if (wide > width) style.size *= std::max(least_shrink, width / wide);
  const bool fits = lettering_width(text, style.size) <= width + 1e-6;
  canvas.letter(at, fits ? text : cut_lettering(text, style.size, width), style);
}

void draw_fitted_words(Canvas& canvas, Point at, const std::string& text, TextStyle style, double width) {
  const double wide = words_width(text, style.size, style.bold);
  if (wide > width) style.size *= std::max(least_shrink, width / wide);
  const bool fits = words_width(text, style.size, style.bold) <= width + 1e-6;
  canvas.words(at, fits ? text : fitted(text, style.size, width, style.bold), style);
}

double draw_paragraph(Canvas& canvas, Point at, const std::string& text, const TextStyle& style, double width,
                      double line_height) {
  for (const std::string& one : wrapped(text, style.size, width, style.bold)) {
    canvas.words(at, one, style);
    at.y += line_height;
  }
  return at.y;
}

}  // namespace portwright::draw
