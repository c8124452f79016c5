#include "sheet/revs_picture.hpp"

#include <algorithm>
#include <cmath>

#include "draw/lettering.hpp"
#include "sheet/chart.hpp"

namespace portwright::sheet {
namespace {

using chart::ChartPage;
using chart::Panel;
using draw::Point;
using draw::Role;

constexpr double left_edge = 14.0, right_edge = 80.0;  // of the panels over the turn [mm]
constexpr double rung_height = 8.6, ladder_left = 6.0, ladder_right = 102.0;
constexpr double load_height = 46.0, thrust_height = 32.0, wall_height = 24.0, between = 13.0;
constexpr double gap_of_labels = 3.6;

/// The page while it is drawn.
class RevsPage {
 public:
  explicit RevsPage(const RevsInput& input) : in_(input) {}

  draw::Canvas drawn() {
    set_panels();
    const double words_at = (wall_.box.bottom > 0.0 ? wall_ : thrust_).box.bottom + 14;
    page_.canvas = draw::Canvas(chart::page_width, words_at + chart::sentence_height(in_.sentence) - 1);
    page_.canvas.title = in_.saw + ", what the bottom end bears";
    page_.canvas.description = in_.sentence;
    chart::draw_head(page_, in_.saw, aside(), chart::number(in_.free_rpm) + " rpm free");
    draw_ladder();
    draw_panel(load_, in_.loads, "load, N");
    draw_panel(thrust_, in_.thrust, "side thrust, N");
    if (!in_.wall.empty()) draw_panel(wall_, in_.wall, "wall left under the skirt, %");
    chart::draw_level_scale(page_, in_.wall.empty() ? thrust_ : wall_, "deg ATDC", true);
    chart::draw_sentence(page_, words_at, in_.sentence);
    return std::move(page_.canvas);
  }

 private:
  [[nodiscard]] std::string aside() const {
    return in_.state + (in_.state.empty() || in_.plan.empty() ? "" : ", ") + in_.plan;
  }

  [[nodiscard]] static chart::Scale scale_of(const std::vector<TurnLine>& lines, int steps) {
    double low = 0.0, high = 0.0;
    for (const TurnLine& line : lines)
      for (const std::vector<double>* values : {&line.now, &line.stock})
        for (const double v : *values) low = std::min(low, v), high = std::max(high, v);
    return chart::scale_over(low, high, steps);
  }

  void set_panels() {
    double low = in_.free_rpm, high = in_.free_rpm;
    for (const LadderRung& rung : in_.rungs)
      for (const double v : {rung.free, rung.cut, rung.low, rung.high, rung.stock})
        if (v > 0.0) low = std::min(low, v), high = std::max(high, v);
    if (in_.cut_rpm > 0.0) low = std::min(low, in_.cut_rpm);
    double y = chart::head_height(aside()) + 8;
    const double ladder_end = y + rung_height * static_cast<double>(in_.rungs.size()) + 1.5;
    ladder_ = {{ladder_left, y, ladder_right, ladder_end}, chart::scale_over(low, high, 6), {0.0, 1.0, 1.0, 0}};
    y = ladder_end + 20;
    const chart::Scale turn{0.0, 360.0, 60.0, 0};
    const auto next = [&](double height, const chart::Scale& scale) {
      const Panel panel{{left_edge, y, right_edge, y + height}, turn, scale};
      y += height + between;
      return panel;
    };
    load_ = next(load_height, scale_of(in_.loads, 6));
    thrust_ = next(thrust_height, scale_of(in_.thrust, 5));
    if (!in_.wall.empty()) wall_ = next(wall_height, {0.0, 100.0, 25.0, 0});
  }

  static draw::TextStyle lettering(Role role, draw::Anchor anchor = draw::Anchor::start) {
    return {role, chart::figure_height, anchor, 0, false, 0, 0};
  }

  // Rungs one under the other over one scale of speed; the speeds looked at run through all of them.
  void draw_ladder() {
    page_.canvas.group("ladder", "limits of speed, free and in the cut");
    draw_speeds();
    double base = ladder_.box.top;
    for (const LadderRung& rung : in_.rungs) {
      base += rung_height;
      draw_rung(rung, base - 1.6);
    }
    chart::draw_level_scale(page_, ladder_, "", true);
    const double key = ladder_.box.bottom + 10.5;
    mark_free({ladder_left + 1.2, key - 1.0}, true);
    place(page_, {{ladder_left + 4, key}}, "free, hard", lettering(Role::reason));
    mark_free({ladder_left + 28, key - 1.0}, false);
    place(page_, {{ladder_left + 31, key}}, "free, note", lettering(Role::reason));
    mark_cut({ladder_left + 55, key - 1.0});
    place(page_, {{ladder_left + 58, key}}, "in the cut", lettering(Role::reason));
    place(page_, {{ladder_right, key}}, "rpm", lettering(Role::ink, draw::Anchor::end));
    page_.canvas.end_group();
  }

  // Names stand over their lines; beside each other where the lines stand close.
  void draw_speeds() {
    constexpr double close = 10.0;
    const bool both = in_.cut_rpm > 0.0;
    const double apart = both ? ladder_.at_x(in_.free_rpm) - ladder_.at_x(in_.cut_rpm) : close;
    const bool near = std::abs(apart) < close;
    const auto anchor = [&](bool left) {
      return !near ? draw::Anchor::middle : left ? draw::Anchor::end : draw::Anchor::start;
    };
    draw_speed(in_.free_rpm, "free", anchor(apart < 0.0));
    if (both) draw_speed(in_.cut_rpm, "cut", anchor(apart >= 0.0));
  }

  void draw_speed(double rpm, const char* name, draw::Anchor anchor) {
    const double x = ladder_.at_x(rpm);
    const double beside = anchor == draw::Anchor::end ? -0.6 : anchor == draw::Anchor::start ? 0.6 : 0.0;
    page_.canvas.stroke(draw::line({x, ladder_.box.top - 1.2}, {x, ladder_.box.bottom}),
                        {Role::ink, draw::weight::dimension, draw::Dash::hidden, false});
    page_.canvas.letter({x + beside, ladder_.box.top - 2.0}, name, lettering(Role::ink, anchor));
  }

  void draw_rung(const LadderRung& rung, double y) {
    page_.canvas.stroke(draw::line({ladder_.box.left, y}, {ladder_.box.right, y}),
                        {Role::rule, draw::weight::fine, draw::Dash::solid, false});
    if (rung.low > 0.0 && rung.high > rung.low)
      page_.canvas.stroke(draw::line({ladder_.at_x(rung.low), y}, {ladder_.at_x(rung.high), y}),
                          {rung.hard ? Role::ink : Role::reason, 0.7, draw::Dash::solid, false});
    if (rung.stock > 0.0) {
      const double x = ladder_.at_x(rung.stock);
      page_.canvas.stroke(draw::line({x, y - 2.4}, {x, y + 1.2}), {Role::stock, draw::weight::edge});
    }
    if (rung.cut > 0.0) mark_cut({ladder_.at_x(rung.cut), y});
    if (rung.free > 0.0) mark_free({ladder_.at_x(rung.free), y}, rung.hard);
    const double at = rung.free > 0.0 ? rung.free : rung.cut;
    const std::string text = rung.name + ", " + chart::number(10.0 * std::round(at / 10.0));
    const double wide = draw::lettering_width(text, chart::figure_height);
    const double x = std::clamp(ladder_.at_x(at) - 0.5 * wide, ladder_.box.left, ladder_.box.right - wide);
    page_.canvas.letter(
        {x, y - 2.9}, text,
        {rung.hard ? Role::ink : Role::reason, chart::figure_height, draw::Anchor::start, 0, false, 1.2, 0});
  }

  void mark_free(Point at, bool hard) {
    const double r = 1.1;
    const auto diamond = draw::polyline({{at.x, at.y - r}, {at.x + r, at.y}, {at.x, at.y + r}, {at.x - r, at.y}}, true);
    page_.canvas.fill({diamond}, hard ? Role::ink : Role::ground);
    page_.canvas.stroke(diamond, {Role::ink, draw::weight::visible});
  }
  void mark_cut(Point at) {
    page_.canvas.stroke(draw::line({at.x - 1, at.y - 1}, {at.x + 1, at.y + 1}), {Role::ink, draw::weight::visible});
    page_.canvas.stroke(draw::line({at.x - 1, at.y + 1}, {at.x + 1, at.y - 1}), {Role::ink, draw::weight::visible});
  }

  void draw_panel(const Panel& panel, const std::vector<TurnLine>& lines, const char* name) {
    page_.canvas.group(name, std::string(name) + " over the turn");
    chart::draw_upright_scale(page_, panel, name);
    chart::draw_level_scale(page_, panel, "", false);
    if (panel.y.low < 0.0)
      page_.canvas.stroke(draw::line({panel.box.left, panel.at_y(0.0)}, {panel.box.right, panel.at_y(0.0)}),
                          {Role::ink, draw::weight::dimension, draw::Dash::solid, false});
    for (const TurnLine& line : lines) draw_line(panel, line.stock, Role::stock, line.dash, draw::weight::visible);
    for (const TurnLine& line : lines) draw_line(panel, line.now, line.role, line.dash, 0.4);
    draw_labels(panel, lines);
    page_.canvas.end_group();
  }

  void draw_line(const Panel& panel, const std::vector<double>& values, Role role, draw::Dash dash, double weight) {
    std::vector<Point> points;
    for (std::size_t i = 0; i < std::min(values.size(), in_.angles.size()); ++i)
      points.push_back(panel.at(in_.angles[i], values[i]));
    if (points.size() < 2) return;
    page_.canvas.stroke(draw::polyline(points), {role, weight, dash});
  }

  // At the turn's end, moved apart in order.
  void draw_labels(const Panel& panel, const std::vector<TurnLine>& lines) {
    std::vector<std::pair<double, const TurnLine*>> order;
    for (const TurnLine& line : lines)
      if (!line.name.empty() && !line.now.empty()) order.emplace_back(panel.at_y(line.now.back()), &line);
    std::sort(order.begin(), order.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    std::vector<double> wanted;
    for (const auto& [y, line] : order) wanted.push_back(y + 1.0);
    const auto set = chart::apart(wanted, gap_of_labels, panel.box.top + 2, panel.box.bottom);
    for (std::size_t i = 0; i < order.size(); ++i)
      page_.canvas.letter({panel.box.right + 2.0, set[i]}, order[i].second->name, lettering(order[i].second->role));
  }

  const RevsInput& in_;
  ChartPage page_;
  Panel ladder_, load_, thrust_, wall_;
};

}  // namespace

base::Result<draw::Canvas> draw_revs(const RevsInput& input) {
  if (input.angles.size() < 3 || input.rungs.empty())
    return base::fail(base::ErrorCode::not_found, "There is nothing to draw of this bottom end.", "",
                      "Read bore and stroke.");
  return RevsPage(input).drawn();
}

base::Result<std::string> revs_svg(const RevsInput& input, draw::SvgOptions options) {
  if (options.theme == nullptr) options.theme = &draw::theme_paper();
  return draw_revs(input).map([&](const draw::Canvas& canvas) { return draw::to_svg(canvas, options); });
}

}  // namespace portwright::sheet
