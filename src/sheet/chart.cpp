#include "sheet/chart.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "base/number_text.hpp"
#include "draw/lettering.hpp"
#include "draw/table.hpp"
#include "draw/words.hpp"

namespace portwright::sheet::chart {
namespace {

using draw::Role;

const draw::Stroke axis_pen{Role::ink, draw::weight::dimension, draw::Dash::solid, false};
const draw::Stroke grid_pen{Role::rule, draw::weight::fine, draw::Dash::solid, false};
constexpr double tick = 1.2;  // [mm]

double whole_step(double span, int steps) {
  const double raw = span / std::max(steps, 1), power = std::pow(10.0, std::floor(std::log10(raw)));
  for (const double by : {1.0, 2.0, 5.0})
    if (by * power >= raw * (1 - 1e-9)) return by * power;
  return 10.0 * power;
}

std::vector<double> ticks_of(const Scale& scale) {
  std::vector<double> out;
  const int count = static_cast<int>(std::floor((scale.high - scale.low) / scale.step + 1e-6));
  const double first = std::ceil(scale.low / scale.step - 1e-6) * scale.step;
  for (int i = 0; i <= count; ++i)
    if (first + i * scale.step <= scale.high + 1e-6 * scale.step) out.push_back(first + i * scale.step);
  return out;
}

// Slopes at the points, cut down where the line would overshoot.
std::vector<double> slopes(const std::vector<draw::Point>& p) {
  const std::size_t n = p.size();
  std::vector<double> chord(n - 1), slope(n);
  for (std::size_t i = 0; i + 1 < n; ++i) chord[i] = (p[i + 1].y - p[i].y) / (p[i + 1].x - p[i].x);
  slope.front() = chord.front(), slope.back() = chord.back();
  for (std::size_t i = 1; i + 1 < n; ++i)
    slope[i] = chord[i - 1] * chord[i] <= 0 ? 0.0 : 2 * chord[i - 1] * chord[i] / (chord[i - 1] + chord[i]);
  return slope;
}

}  // namespace

Scale scale_over(double low, double high, int steps) {
  if (!std::isfinite(low) || !std::isfinite(high)) low = 0.0, high = 1.0;
  if (high - low < 1e-9 * std::max({1e-3, std::abs(low), std::abs(high)})) high = low + std::max(1e-3, std::abs(low));
  Scale out;
  out.step = whole_step(high - low, steps);
  for (;; out.step = whole_step(1.01 * out.step, 1)) {
    out.low = std::floor(low / out.step + 1e-9) * out.step;
    out.high = std::ceil(high / out.step - 1e-9) * out.step;
    if (out.high - out.low <= (steps + 1e-6) * out.step) break;
  }
  out.decimals = std::clamp(static_cast<int>(std::ceil(-std::log10(out.step) - 1e-9)), 0, 4);
  return out;
}

double Panel::at_x(double value) const { return box.left + box.width() * (value - x.low) / (x.high - x.low); }
double Panel::at_y(double value) const { return box.bottom - box.height() * (value - y.low) / (y.high - y.low); }

void draw_upright_scale(ChartPage& page, const Panel& panel, const std::string& name) {
  const draw::Point top{panel.box.left, panel.box.top}, bottom{panel.box.left, panel.box.bottom};
  page.canvas.stroke(draw::line(top, bottom), axis_pen);
  keep_off(page.taken, {top, bottom});
  for (const double value : ticks_of(panel.y)) {
    const double y = panel.at_y(value);
    page.canvas.stroke(draw::line({panel.box.left, y}, {panel.box.right, y}), grid_pen);
    page.canvas.stroke(draw::line({panel.box.left - tick, y}, {panel.box.left, y}), axis_pen);
    place(page, {{panel.box.left - tick - 0.8, y + figure_height / 2}}, number(value, panel.y.decimals),
          {Role::reason, figure_height, draw::Anchor::end, 0, false, 0, 0});
  }
  place(page, {{margin, panel.box.top - 2.6}}, name, {Role::ink, figure_height, draw::Anchor::start, 0, false, 0, 0});
}

void draw_level_scale(ChartPage& page, const Panel& panel, const std::string& unit, bool with_numbers) {
  const double y = panel.box.bottom, base = y + tick + 1.2 + figure_height;
  page.canvas.stroke(draw::line({panel.box.left, y}, {panel.box.right, y}), axis_pen);
  const double unit_from = panel.box.right + 10.0;
  double last = -1e9;
  for (const double value : ticks_of(panel.x)) {
    const double x = panel.at_x(value);
    const std::string text = number(value, panel.x.decimals);
    const double half = draw::lettering_width(text, figure_height) / 2;
    const bool fits = x - half > last + 2.2 && x + half < unit_from;
    page.canvas.stroke(draw::line({x, y}, {x, y + (fits ? tick : tick / 2)}), axis_pen);
    if (!with_numbers || !fits) continue;
    place(page, {{x, base}}, text, {Role::reason, figure_height, draw::Anchor::middle, 0, false, 0, 0});
    last = x + half;
  }
  if (with_numbers)
    place(page, {{page_width - margin, base}}, unit, {Role::reason, figure_height, draw::Anchor::end, 0, false, 0, 0});
}

void draw_head(ChartPage& page, const std::string& saw, const std::string& aside, const std::string& at_right) {
  const double room = page_width - 2 * margin - draw::lettering_width(at_right, figure_height) - 4;
  const std::string name = draw::fitted(saw, 4.4, room, true);
  page.canvas.words({margin, 7.5}, name, {Role::ink, 4.4, draw::Anchor::start, 0, true, 0, 0});
  if (!at_right.empty())
    page.canvas.letter({page_width - margin, 7.5}, at_right,
                       {Role::ink, figure_height, draw::Anchor::end, 0, false, 0, 0});
  if (!aside.empty())
    page.canvas.words({margin, 12.5}, draw::fitted(aside, 3.3, page_width - 2 * margin),
                      {Role::reason, 3.3, draw::Anchor::start, 0, false, 0, 0});
}

double head_height(const std::string& aside) { return aside.empty() ? 11.0 : 15.0; }

double sentence_height(const std::string& text, bool bold) {
  if (text.empty()) return 0.0;
  return words_line * static_cast<double>(draw::wrapped(text, words_size, page_width - 2 * margin, bold).size());
}

double draw_sentence(ChartPage& page, double y, const std::string& text, bool bold) {
  if (text.empty()) return y;
  draw::draw_paragraph(page.canvas, {margin, y}, text, {Role::ink, words_size, draw::Anchor::start, 0, bold, 0, 0},
                       page_width - 2 * margin, words_line);
  return y + sentence_height(text, bold);
}

bool place(ChartPage& page, const std::vector<draw::Point>& wanted, const std::string& text, draw::TextStyle style,
           bool must) {
  const double wide = draw::lettering_width(text, style.size);
  const double share = style.anchor == draw::Anchor::start ? 0.0 : style.anchor == draw::Anchor::end ? 1.0 : 0.5;
  const auto box_at = [&](draw::Point p) {
    const double left = p.x - share * wide;
    return draw::Box{left - 0.4, p.y - style.size - 0.4, left + wide + 0.4, p.y + 0.28 * style.size + 0.2};
  };
  auto spot = std::find_if(wanted.begin(), wanted.end(), [&](draw::Point p) {
    const draw::Box b = box_at(p);
    return b.left >= 0.5 && b.right <= page_width - 0.5 && page.taken.is_free(b);
  });
  if (spot == wanted.end() && !must) return false;
  if (spot == wanted.end()) spot = wanted.begin();
  page.taken.add(box_at(*spot));
  page.canvas.letter(*spot, text, style);
  return true;
}

void keep_off(Taken& taken, const std::vector<draw::Point>& line, double half) {
  for (std::size_t i = 0; i + 1 < line.size(); ++i) {
    const draw::Point a = line[i], b = line[i + 1];
    const double long_side = std::max(std::abs(b.x - a.x), std::abs(b.y - a.y));
    const int parts = std::clamp(static_cast<int>(std::ceil(long_side / 1.5)), 1, 200);
    for (int k = 0; k < parts; ++k) {
      const double s = static_cast<double>(k) / parts, t = static_cast<double>(k + 1) / parts;
      const draw::Point p = a + s * (b - a), q = a + t * (b - a);
      taken.add(
          {std::min(p.x, q.x) - half, std::min(p.y, q.y) - half, std::max(p.x, q.x) + half, std::max(p.y, q.y) + half});
    }
  }
}

std::vector<draw::Point> smooth(const std::vector<draw::Point>& points, int pieces) {
  if (points.size() < 3) return points;
  const std::vector<double> slope = slopes(points);
  std::vector<draw::Point> out{points.front()};
  for (std::size_t i = 0; i + 1 < points.size(); ++i) {
    const draw::Point a = points[i], b = points[i + 1];
    const double h = b.x - a.x;
    for (int k = 1; k <= pieces; ++k) {
      const double t = static_cast<double>(k) / pieces, t2 = t * t, t3 = t2 * t;
      out.push_back({a.x + t * h, (2 * t3 - 3 * t2 + 1) * a.y + (t3 - 2 * t2 + t) * h * slope[i] +
                                      (3 * t2 - 2 * t3) * b.y + (t3 - t2) * h * slope[i + 1]});
    }
  }
  return out;
}

std::vector<double> apart(const std::vector<double>& wanted, double gap, double low, double high) {
  std::vector<std::size_t> order(wanted.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](auto a, auto b) { return wanted[a] < wanted[b]; });
  std::vector<double> out(wanted.size());
  double floor = low;
  for (const std::size_t i : order) floor = (out[i] = std::max(wanted[i], floor)) + gap;
  double roof = high;
  for (auto it = order.rbegin(); it != order.rend(); ++it) roof = (out[*it] = std::min(out[*it], roof)) - gap;
  return out;
}

std::string number(double value, int decimals) { return base::number_text(value, decimals); }

std::string brief(double value) {
  const double size = std::abs(value);
  if (size < 1e-9) return "0";
  const int digits = 2 - static_cast<int>(std::floor(std::log10(size)));
  return number(value, std::clamp(digits, 0, 2));
}

std::string listed(const std::vector<std::string>& words) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i)
    text += (i == 0 ? "" : i + 1 == words.size() ? " and " : ", ") + words[i];
  return text;
}

}  // namespace portwright::sheet::chart
