#include "sheet/heat_map.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "draw/lettering.hpp"
#include "sheet/bore_view.hpp"
#include "sheet/chart.hpp"

namespace portwright::sheet {
namespace {

using chart::ChartPage;
using draw::Point;
using draw::Role;

constexpr double deg = std::numbers::pi / 180.0, turn = 2.0 * std::numbers::pi;
constexpr double left_edge = 8.0, right_edge = chart::page_width - 8.0;
constexpr double fins_below = 4.0, ticks_below = 8.5, words_below = 20.0;  // the map's lower edge [mm]
constexpr int most_levels = 12;

/// A field on ascending places, its ends carried on to the edges of the map.
struct Field {
  std::vector<double> x, y, values;
};

Field field_of(const HeatMapInput& in, const BoreView& view) {
  std::vector<std::pair<double, int>> columns;
  for (int c = 0; c < in.around; ++c) columns.emplace_back(view.x((c + 0.5) * turn / in.around), c);
  std::sort(columns.begin(), columns.end());
  columns.insert(columns.begin(), {columns.back().first - view.width, columns.back().second});
  columns.emplace_back(columns[1].first + view.width, columns[1].second);
  std::vector<std::pair<double, int>> rows = {{view.y(0.0), 0}};
  for (int r = 0; r < in.rows; ++r) rows.emplace_back(view.y((r + 0.5) * in.height / in.rows), r);
  rows.emplace_back(view.y(in.height), in.rows - 1);
  Field out;
  for (const auto& [x, column] : columns) out.x.push_back(x);
  for (const auto& [y, row] : rows) {
    out.y.push_back(y);
    for (const auto& [x, column] : columns)
      out.values.push_back(in.over_mean[static_cast<std::size_t>(row * in.around + column)]);
  }
  return out;
}

/// One piece of a level within a cell.
struct Piece {
  Point from, to;
  bool used = false;
};

void cell_pieces(const std::vector<double>& x, const std::vector<double>& y, const std::vector<double>& field,
                 double level, std::size_t i, std::size_t j, std::vector<Piece>& out) {
  const std::size_t n = x.size();
  const double v[4] = {field[j * n + i], field[j * n + i + 1], field[(j + 1) * n + i + 1], field[(j + 1) * n + i]};
  const Point corner[4] = {{x[i], y[j]}, {x[i + 1], y[j]}, {x[i + 1], y[j + 1]}, {x[i], y[j + 1]}};
  Point met[4];
  int count = 0;
  for (int s = 0; s < 4; ++s) {
    const double a = v[s], b = v[(s + 1) % 4];
    if ((a > level) == (b > level)) continue;
    met[count] = corner[s] + ((level - a) / (b - a)) * (corner[(s + 1) % 4] - corner[s]);
    ++count;
  }
  if (count == 2) out.push_back({met[0], met[1]});
  if (count != 4) return;
  const bool first_stands_apart = (v[0] > level) != (0.25 * (v[0] + v[1] + v[2] + v[3]) > level);
  // Sides in order: upper, right, lower, left.
  if (first_stands_apart)
    out.insert(out.end(), {Piece{met[0], met[3]}, Piece{met[1], met[2]}});
  else
    out.insert(out.end(), {Piece{met[0], met[1]}, Piece{met[2], met[3]}});
}

bool same(Point a, Point b) { return std::abs(a.x - b.x) < 1e-7 && std::abs(a.y - b.y) < 1e-7; }

/// Goes on from the end of a chain as long as a piece joins it.
void grow(std::vector<Piece>& pieces, std::vector<Point>& chain) {
  for (bool grew = true; grew;) {
    grew = false;
    for (Piece& piece : pieces) {
      if (piece.used || (!same(piece.from, chain.back()) && !same(piece.to, chain.back()))) continue;
      chain.push_back(same(piece.from, chain.back()) ? piece.to : piece.from);
      piece.used = grew = true;
    }
  }
}

double length_of(const std::vector<Point>& line) {
  double sum = 0.0;
  for (std::size_t i = 1; i < line.size(); ++i) sum += std::hypot(line[i].x - line[i - 1].x, line[i].y - line[i - 1].y);
  return sum;
}

constexpr double ranks[] = {0.1, 0.3, 0.5, 0.7, 0.9};

class HeatPage {
 public:
  explicit HeatPage(const HeatMapInput& input) : in_(input) {
    view_.left = left_edge;
    view_.width = right_edge - left_edge;
    view_.bore = *input.engine->bore;
    view_.seam = seam_of(*input.engine, nullptr);
    view_.top = chart::head_height(aside()) + 6.0;
    bottom_ = view_.y(input.height);
  }

  draw::Canvas drawn() {
    const std::string sentence = heat_map_sentence(in_);
    page_.canvas = draw::Canvas(chart::page_width, bottom_ + words_below + chart::sentence_height(sentence) - 1);
    page_.canvas.title = in_.saw + ", where it runs hot at " + chart::number(in_.rpm) + " rpm";
    page_.canvas.description = sentence;
    chart::draw_head(page_, in_.saw, aside(), chart::number(in_.rpm) + " rpm");
    page_.canvas.letter({left_edge, view_.top - 2.0},
                        in_.mean ? "temperature of the bore's wall" : "how much of the bore's wall is cooler",
                        {Role::reason, chart::figure_height, draw::Anchor::start, 0, false, 0, 0});
    draw_windows();
    draw_levels();
    draw_frame();
    chart::draw_sentence(page_, bottom_ + words_below, sentence);
    return std::move(page_.canvas);
  }

 private:
  [[nodiscard]] std::string aside() const {
    return in_.state + (in_.state.empty() || in_.plan.empty() ? "" : ", ") + in_.plan;
  }

  void draw_windows() {
    windows_ = placed_windows(*in_.engine, view_);
    for (const Placed& window : windows_) {
      const WindowLook look = look_of(*in_.engine, window.entry);
      page_.canvas.tint(window.area, look.role);
      page_.canvas.stroke(window.area, {look.role, draw::weight::visible});
      page_.taken.add(window.box);
    }
  }

  /// Whether a place lies in a window, where no wall is to be hot.
  [[nodiscard]] bool in_window(Point p) const {
    return std::any_of(windows_.begin(), windows_.end(), [&](const Placed& window) {
      std::vector<std::vector<Point>> rings;
      for (const draw::Path& path : window.area) rings.push_back(draw::flattened(path, 0.05));
      return p.x > window.box.left && p.x < window.box.right && p.y > window.box.top && p.y < window.box.bottom &&
             draw::is_inside(p, rings);
    });
  }

  /// A line's parts that lie on metal.
  [[nodiscard]] std::vector<std::vector<Point>> on_metal(const std::vector<Point>& line) const {
    std::vector<std::vector<Point>> out(1);
    for (std::size_t i = 1; i < line.size(); ++i) {
      if (in_window(0.5 * (line[i - 1] + line[i]))) {
        if (!out.back().empty()) out.emplace_back();
        continue;
      }
      if (out.back().empty()) out.back().push_back(line[i - 1]);
      out.back().push_back(line[i]);
    }
    std::erase_if(out, [](const auto& part) { return part.size() < 2; });
    return out;
  }

  void draw_levels() {
    const Field field = field_of(in_, view_);
    page_.canvas.clip({draw::rectangle(view_.left, view_.top, view_.width, bottom_ - view_.top)});
    std::vector<std::pair<std::string, std::vector<Point>>> longest;
    for (const HeatLevel& level : heat_levels(in_)) {
      std::vector<Point> best;
      for (const auto& line : level_lines(field.x, field.y, field.values, level.over_mean))
        for (const auto& part : on_metal(line)) {
          page_.canvas.stroke(draw::polyline(part),
                              {Role::ink, level.upper ? draw::weight::visible : draw::weight::fine,
                               level.upper ? draw::Dash::solid : draw::Dash::hidden});
          if (length_of(part) > length_of(best)) best = part;
        }
      if (length_of(best) > 8.0) longest.emplace_back(level.text, best);
    }
    page_.canvas.end_clip();
    for (const auto& [text, line] : longest) label(text, line);
    mark_hottest();
  }

  void label(const std::string& text, const std::vector<Point>& line) {
    std::vector<Point> wanted;
    for (const double share : {0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9}) {
      const Point p = line[static_cast<std::size_t>(share * static_cast<double>(line.size() - 1))];
      if (p.x > left_edge + 5.0 && p.x < right_edge - 5.0) wanted.push_back({p.x, p.y + 0.5 * chart::figure_height});
    }
    if (wanted.empty()) return;
    chart::place(page_, wanted, text, {Role::ink, chart::figure_height, draw::Anchor::middle, 0, false, 1.2, 0}, false);
  }

  void mark_hottest() {
    std::size_t best = 0;
    for (std::size_t i = 0; i < in_.over_mean.size(); ++i)
      if (in_.over_mean[i] > in_.over_mean[best]) best = i;
    const int column = static_cast<int>(best) % in_.around, row = static_cast<int>(best) / in_.around;
    const Point at{view_.x((column + 0.5) * turn / in_.around), view_.y((row + 0.5) * in_.height / in_.rows)};
    page_.canvas.group("hottest", "Hottest place of the bore");
    page_.canvas.stroke(draw::circle(at, 1.6), {Role::stop, draw::weight::edge});
    page_.canvas.stroke(draw::line({at.x - 2.6, at.y}, {at.x + 2.6, at.y}), {Role::stop, draw::weight::visible});
    page_.canvas.stroke(draw::line({at.x, at.y - 2.6}, {at.x, at.y + 2.6}), {Role::stop, draw::weight::visible});
    page_.canvas.end_group();
  }

  void draw_frame() {
    page_.canvas.stroke(draw::rectangle(view_.left, view_.top, view_.width, bottom_ - view_.top),
                        {Role::ink, draw::weight::visible});
    for (const HeatArc& arc : in_.fins) draw_fins(arc);
    page_.canvas.letter({left_edge - 1.0, bottom_ + fins_below + 1.2}, "fins",
                        {Role::reason, chart::figure_height, draw::Anchor::end, 0, false, 0, 0});
    for (int angle = -90; angle <= 180; angle += 90) {
      const double x = view_.x(angle * deg);
      page_.canvas.stroke(draw::line({x, bottom_}, {x, bottom_ + 1.5}), {Role::ink, draw::weight::fine});
      page_.canvas.letter({x, bottom_ + ticks_below + chart::figure_height},
                          angle == 0 ? "exhaust, 0 deg" : chart::number(angle),
                          {Role::ink, chart::figure_height, draw::Anchor::middle, 0, false, 0, 0});
    }
  }

  /// A bar of short strokes under the arc that has fins; it may go over the seam.
  void draw_fins(const HeatArc& arc) {
    std::vector<draw::Path> strokes;
    const double y = bottom_ + fins_below;
    const int count = std::max(2, static_cast<int>((arc.to - arc.from) / (4.0 * deg)));
    for (int k = 0; k <= count; ++k) {
      const double x = view_.x(arc.from + (arc.to - arc.from) * k / count);
      strokes.push_back(draw::line({x, y - 1.2}, {x, y + 1.2}));
    }
    page_.canvas.stroke(std::move(strokes), {Role::metal, draw::weight::visible});
  }

  const HeatMapInput& in_;
  BoreView view_;
  double bottom_ = 0.0;
  ChartPage page_;
  std::vector<Placed> windows_;
};

}  // namespace

std::vector<std::vector<Point>> level_lines(const std::vector<double>& x, const std::vector<double>& y,
                                            const std::vector<double>& field, double level) {
  std::vector<Piece> pieces;
  for (std::size_t j = 0; j + 1 < y.size(); ++j)
    for (std::size_t i = 0; i + 1 < x.size(); ++i) cell_pieces(x, y, field, level, i, j, pieces);
  std::vector<std::vector<Point>> out;
  for (Piece& piece : pieces) {
    if (piece.used) continue;
    piece.used = true;
    std::vector<Point> chain = {piece.from, piece.to};
    grow(pieces, chain);
    std::reverse(chain.begin(), chain.end());
    grow(pieces, chain);
    out.push_back(std::move(chain));
  }
  return out;
}

std::vector<HeatLevel> heat_levels(const HeatMapInput& input) {
  std::vector<HeatLevel> out;
  std::vector<double> sorted = input.over_mean;
  std::sort(sorted.begin(), sorted.end());
  if (!input.mean) {
    for (const double share : ranks) {
      const auto at = static_cast<std::size_t>(share * static_cast<double>(sorted.size() - 1));
      out.push_back({sorted[at], chart::number(100.0 * share) + " %", share >= 0.5});
    }
    return out;
  }
  const double mean = *input.mean;
  const chart::Scale scale = chart::scale_over(sorted.front() + mean, sorted.back() + mean, most_levels);
  for (double T = scale.low; T <= scale.high + 1e-9; T += scale.step)
    out.push_back({T - mean, chart::number(T) + " \u00B0C", T > mean});
  return out;
}

std::string heat_map_sentence(const HeatMapInput& input) {
  std::string out = "The bore unrolled, seen from inside, plug end up, under the middles of what is assumed. ";
  out += input.mean ? "Lines of equal temperature, brought to the one spot that was read."
                    : "Lines by rank, no temperatures: each has so much of the wall on its cooler side.";
  if (!input.hottest.empty())
    out += " Hottest: " + input.hottest + ", " +
           (input.hottest_range == "not told apart" ? "not told apart from the mean" : input.hottest_range) + ".";
  return out;
}

base::Result<draw::Canvas> draw_heat_map(const HeatMapInput& input) {
  if (input.engine == nullptr || !input.engine->bore || input.around < 3 || input.rows < 3 ||
      input.over_mean.size() != static_cast<std::size_t>(input.around * input.rows))
    return base::fail(base::ErrorCode::not_found, "There is no field of heat to draw.");
  return HeatPage(input).drawn();
}

base::Result<std::string> heat_map_svg(const HeatMapInput& input, draw::SvgOptions options) {
  if (options.theme == nullptr) options.theme = &draw::theme_paper();
  return draw_heat_map(input).map([&](const draw::Canvas& canvas) { return draw::to_svg(canvas, options); });
}

}  // namespace portwright::sheet
