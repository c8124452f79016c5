#include "sheet/trace_picture.hpp"

#include <algorithm>
#include <cmath>

#include "draw/lettering.hpp"
#include "draw/marks.hpp"
#include "sheet/chart.hpp"

namespace portwright::sheet {
namespace {

using chart::ChartPage;
using chart::Panel;
using draw::Point;
using draw::Role;

constexpr double left_edge = 14.0, right_edge = 88.0;  // of the panels [mm]
constexpr double strip_height = 5.0, strip_gap = 1.8, pressure_height = 40.0, case_height = 32.0, flow_height = 40.0,
                 between = 10.0;
constexpr double least_area = 1e-4;  // that counts as open [cm2]

using Value = double TraceRow::*;

Role role_of(TraceKind kind) {
  return kind == TraceKind::exhaust ? Role::exhaust : kind == TraceKind::intake ? Role::intake : Role::transfers;
}

/// One line of a panel.
struct Curve {
  Value value;
  const char* name;
  Role role;
};
constexpr Curve by_cylinder[] = {{&TraceRow::exhaust, "exhaust duct", Role::exhaust},
                                 {&TraceRow::cylinder, "cylinder", Role::ink}};
constexpr Curve by_case[] = {{&TraceRow::tract, "intake tract", Role::intake},
                             {&TraceRow::crankcase, "case", Role::transfers}};
constexpr Curve flows[] = {{&TraceRow::out, "exhaust", Role::exhaust},
                           {&TraceRow::transfers, "transfers", Role::transfers},
                           {&TraceRow::intake, "intake", Role::intake}};

bool is_flow(const Curve& curve) {
  return std::any_of(std::begin(flows), std::end(flows), [&](const Curve& c) { return c.value == curve.value; });
}

/// Angles where a window opens and closes within the trace [deg ATDC, not wrapped]; a change between two instants lies
/// halfway.
struct Edge {
  double angle;
  bool opens;
};
std::vector<Edge> edges_of(const TraceSide& side, const TraceWindow& window) {
  std::vector<Edge> out;
  const std::size_t n = std::min(side.rows.size(), window.area.size());
  for (std::size_t i = 1; i < n; ++i) {
    const bool before = window.area[i - 1] > least_area, now = window.area[i] > least_area;
    if (before != now) out.push_back({0.5 * (side.rows[i - 1].angle + side.rows[i].angle), now});
  }
  return out;
}

double wrapped_turn(double angle) {
  const double rest = std::fmod(angle, 360.0);
  return rest < 0 ? rest + 360.0 : rest;
}

constexpr double never = 1e9;

const TraceRow& row_at(const TraceSide& side, double angle) {
  return *std::min_element(side.rows.begin(), side.rows.end(), [&](const auto& a, const auto& b) {
    return std::abs(a.angle - angle) < std::abs(b.angle - angle);
  });
}

/// The first opening of a kind in the trace; `never` when there is none.
double first_opening(const TraceSide& side, TraceKind kind) {
  double first = never;
  for (const TraceWindow& window : side.windows) {
    if (window.kind != kind) continue;
    for (const Edge& edge : edges_of(side, window))
      if (edge.opens) first = std::min(first, edge.angle);
  }
  return first;
}

/// The same turn, its angles rising from a start; instants that lie on each other after that are left out.
TraceSide turned_to(const TraceSide& side, double start) {
  std::vector<std::pair<double, std::size_t>> order;
  for (std::size_t i = 0; i < side.rows.size(); ++i)
    order.emplace_back(start + wrapped_turn(side.rows[i].angle - start), i);
  std::stable_sort(order.begin(), order.end());
  TraceSide out;
  for (const TraceWindow& window : side.windows) out.windows.push_back({window.name, window.kind, {}});
  for (const auto& [angle, i] : order) {
    if (!out.rows.empty() && angle - out.rows.back().angle < 1e-9) continue;
    out.rows.push_back(side.rows[i]);
    out.rows.back().angle = angle;
    for (std::size_t w = 0; w < side.windows.size(); ++w)
      if (side.windows[w].area.size() == side.rows.size()) out.windows[w].area.push_back(side.windows[w].area[i]);
  }
  return out;
}

TraceInput turned(TraceInput input) {
  if (input.now.rows.empty()) return input;
  const double start = input.now.rows.front().angle;
  input.now = turned_to(input.now, start);
  input.stock = turned_to(input.stock, start);
  return input;
}

/// The page while it is drawn.
class TracePage {
 public:
  explicit TracePage(const TraceInput& input) : in_(input), has_cuts_(!input.stock.rows.empty()) {
    x_ = {input.now.rows.front().angle, input.now.rows.front().angle + 360.0, 60.0, 0};
  }

  draw::Canvas drawn() {
    const std::string sentence = trace_sentence(in_);
    set_panels();
    const double words_at = flow_.box.bottom + 13;
    page_.canvas = draw::Canvas(chart::page_width, words_at + chart::sentence_height(sentence) - 1);
    page_.canvas.title = in_.saw + ", one turn at " + chart::number(in_.rpm) + " rpm";
    page_.canvas.description = sentence;
    chart::draw_head(page_, in_.saw, aside(), chart::number(in_.rpm) + " rpm");
    draw_strips();
    draw_panel(cylinder_, "pressure, bar", by_cylinder, true);
    draw_panel(case_, "pressure, bar", by_case, false);
    draw_panel(flow_, "flow, mg a degree", flows, false);
    draw_angles();
    chart::draw_sentence(page_, words_at, sentence);
    return std::move(page_.canvas);
  }

 private:
  [[nodiscard]] std::string aside() const {
    return in_.state + (in_.state.empty() || in_.plan.empty() ? "" : ", ") + in_.plan;
  }

  template <std::size_t N>
  [[nodiscard]] chart::Scale scale_of(const Curve (&curves)[N], int steps, double low, double high) const {
    for (const TraceSide* side : {&in_.stock, &in_.now})
      for (const TraceRow& row : side->rows)
        for (const Curve& c : curves) low = std::min(low, row.*c.value), high = std::max(high, row.*c.value);
    return chart::scale_over(low, high, steps);
  }

  /// The cylinder's scale holds what the exhaust and the case reach and where it stands when the transfers open; its
  /// peak is written instead.
  [[nodiscard]] chart::Scale clipped_scale() const {
    double low = 1.0, high = 1.2;
    for (const TraceSide* side : {&in_.stock, &in_.now}) {
      for (const TraceRow& row : side->rows) {
        low = std::min({low, row.exhaust, row.cylinder});
        high = std::max({high, row.exhaust, row.crankcase});
      }
      const double opens = first_opening(*side, TraceKind::transfers);
      if (opens < never) high = std::max(high, std::min(row_at(*side, opens).cylinder, 2.0 * high));
    }
    return chart::scale_over(low, low + 1.15 * (high - low), 7);
  }

  void set_panels() {
    double y = chart::head_height(aside()) + 5;
    strips_at_ = y;
    y += static_cast<double>(in_.now.windows.size()) * (strip_height + strip_gap) + 11;
    const auto next = [&](double height, const chart::Scale& scale) {
      const Panel panel{{left_edge, y, right_edge, y + height}, x_, scale};
      y += height + between;
      return panel;
    };
    cylinder_ = next(pressure_height, clipped_scale());
    case_ = next(case_height, scale_of(by_case, 4, 0.9, 1.1));
    flow_ = next(flow_height, scale_of(flows, 5, 0.0, 0.0));
  }

  [[nodiscard]] double at_x(double angle) const { return cylinder_.at_x(angle); }

  // Open areas as humps on their base lines, all at one scale; the name at the right.
  void draw_strips() {
    double greatest = 1e-9;
    for (const TraceSide* side : {&in_.stock, &in_.now})
      for (const TraceWindow& w : side->windows)
        for (const double a : w.area) greatest = std::max(greatest, a);
    double base = strips_at_;
    for (std::size_t i = 0; i < in_.now.windows.size(); ++i) {
      base += strip_height + strip_gap;
      const TraceWindow& window = in_.now.windows[i];
      page_.canvas.group("open-" + std::to_string(i + 1), window.name + ", area open");
      for (const auto& hump : humps(in_.now, window, base, greatest))
        page_.canvas.tint({draw::polyline(hump, true)}, role_of(window.kind));
      if (i < in_.stock.windows.size())
        draw_humps(humps(in_.stock, in_.stock.windows[i], base, greatest), Role::stock, draw::weight::visible);
      draw_humps(humps(in_.now, window, base, greatest), role_of(window.kind), 0.35);
      page_.canvas.stroke(draw::line({left_edge, base}, {right_edge, base}),
                          {Role::ink, draw::weight::fine, draw::Dash::solid, false});
      place(page_, {{right_edge + 3.2, base - 0.4}}, fitted_name(window.name), lettering(role_of(window.kind)));
      draw_edges(window, base);
      page_.canvas.end_group();
    }
  }

  static std::string fitted_name(const std::string& name) {
    constexpr double room = chart::page_width - right_edge - 3.2 - 1.5;
    std::string out = name;
    while (out.size() > 1 && draw::lettering_width(out + ".", chart::figure_height) > room) out.pop_back();
    return out.size() == name.size() ? out : out + ".";
  }

  void draw_humps(const std::vector<std::vector<Point>>& humps, Role role, double weight) {
    for (const auto& hump : humps) page_.canvas.stroke(draw::polyline(hump), {role, weight});
  }

  /// Stretches where a window stands open, from base line to base line.
  [[nodiscard]] std::vector<std::vector<Point>> humps(const TraceSide& side, const TraceWindow& window, double base,
                                                      double greatest) const {
    std::vector<std::vector<Point>> out;
    const std::size_t n = std::min(side.rows.size(), window.area.size());
    bool open = false;
    for (std::size_t i = 0; i < n; ++i) {
      const double x = at_x(side.rows[i].angle);
      const bool now = window.area[i] > least_area;
      if (now && !open) out.push_back({{i > 0 ? at_x(side.rows[i - 1].angle) : x, base}});
      if (now) out.back().push_back({x, base - strip_height * window.area[i] / greatest});
      if (open && (!now || i + 1 == n)) out.back().push_back({x, base});
      open = now;
    }
    std::erase_if(out, [](const auto& hump) { return hump.size() < 3; });
    return out;
  }

  // Where it opens and closes: a tick through its strip, the angle beside it where there is room.
  void draw_edges(const TraceWindow& window, double base) {
    for (const Edge& edge : edges_of(in_.now, window)) {
      const double x = at_x(edge.angle);
      const Role role = role_of(window.kind);
      page_.canvas.stroke(draw::line({x, base - strip_height}, {x, base + 1.0}), {role, draw::weight::dimension});
      draw::TextStyle style = lettering(Role::reason);
      style.size = 2.2;
      style.anchor = edge.opens ? draw::Anchor::end : draw::Anchor::start;
      place(page_, {{x + (edge.opens ? -0.9 : 0.9), base - 1.2}}, chart::number(wrapped_turn(edge.angle)), style,
            false);
    }
  }

  static draw::TextStyle lettering(Role role) {
    return {role, chart::figure_height, draw::Anchor::start, 0, false, 0, 0};
  }

  template <std::size_t N>
  void draw_panel(const Panel& panel, const char* name, const Curve (&curves)[N], bool clipped) {
    page_.canvas.group(curves[N - 1].name, std::string(curves[0].name) + " and others, " + name);
    draw_upright_scale(page_, panel, name);
    chart::keep_off(page_.taken, {{left_edge, panel.box.bottom}, {right_edge, panel.box.bottom}});
    draw_openings(panel);
    page_.canvas.clip({draw::rectangle(left_edge, panel.box.top, right_edge - left_edge, panel.box.height())});
    for (const Curve& c : curves) draw_line(panel, in_.stock, c, Role::stock, draw::weight::visible);
    for (const Curve& c : curves) draw_line(panel, in_.now, c, c.role, has_cuts_ ? draw::weight::edge : 0.4);
    page_.canvas.end_clip();
    if (clipped) write_peak(panel);
    for (std::size_t i = N; i-- > 0;) label_line(panel, curves, curves[i]);
    page_.canvas.end_group();
  }

  // First opening and last closing of each kind, through the panel.
  void draw_openings(const Panel& panel) {
    for (const TraceWindow& window : in_.now.windows)
      for (const Edge& edge : edges_of(in_.now, window))
        page_.canvas.stroke(draw::line({at_x(edge.angle), panel.box.top}, {at_x(edge.angle), panel.box.bottom}),
                            {role_of(window.kind), draw::weight::fine, draw::Dash::hidden, false});
  }

  [[nodiscard]] std::vector<Point> line_of(const Panel& panel, const TraceSide& side, Value value) const {
    std::vector<Point> out;
    for (const TraceRow& row : side.rows) {
      const Point p{at_x(row.angle), std::max(panel.at_y(row.*value), panel.box.top - 5)};
      const bool is_near = !out.empty() && std::abs(p.x - out.back().x) < 0.12 && &row != &side.rows.back();
      if (!is_near) out.push_back(p);
    }
    return out;
  }

  void draw_line(const Panel& panel, const TraceSide& side, const Curve& curve, Role role, double weight) {
    const auto line = line_of(panel, side, curve.value);
    if (line.size() < 2) return;
    page_.canvas.stroke(draw::polyline(line), {role, weight});
    chart::keep_off(page_.taken, line, 0.3);
  }

  void write_peak(const Panel& panel) {
    const auto top = std::max_element(in_.now.rows.begin(), in_.now.rows.end(),
                                      [](const auto& a, const auto& b) { return a.cylinder < b.cylinder; });
    if (top->cylinder <= panel.y.high) return;
    const double x = at_x(top->angle), y = panel.box.top;
    page_.canvas.stroke(draw::line({x, y + 5}, {x, y + 1}), {Role::ink, draw::weight::dimension});
    draw::draw_arrow(page_.canvas, {x, y + 0.4}, {0, -1});
    page_.taken.add({x - 0.8, y, x + 0.8, y + 5});
    const std::string text = "to " + chart::number(top->cylinder, top->cylinder < 10 ? 1 : 0) + " bar";
    const double wide = draw::lettering_width(text, chart::figure_height);
    std::vector<Point> wanted;
    for (const double at : {x + 1.6, x - 1.6 - wide}) wanted.push_back({at, y + 3.5});
    for (double by = 8.6; by < 20; by += 1.5)
      for (const double at : {x - wide / 2, x - 0.3 * wide, x - 0.7 * wide}) wanted.push_back({at, y + by});
    place(page_, wanted, text, lettering(Role::ink), false);
  }

  /// Indices of a line's points: pressures farthest from every other line first, flows at their greatest first.
  template <std::size_t N>
  [[nodiscard]] std::vector<std::size_t> lonely(const Panel& panel, const Curve (&curves)[N], const Curve& of) const {
    std::vector<std::pair<double, std::size_t>> by;
    for (std::size_t i = 0; i < in_.now.rows.size(); i += 2) {
      const TraceRow& row = in_.now.rows[i];
      double nearest = 1e9;
      for (const Curve& c : curves)
        if (c.value != of.value)
          nearest = std::min(nearest, std::abs(panel.at_y(row.*c.value) - panel.at_y(row.*of.value)));
      const double own = std::abs(panel.at_y(row.*of.value) - panel.at_y(0.0));
      by.emplace_back(-std::round(is_flow(of) ? own : nearest), i);
    }
    std::stable_sort(by.begin(), by.end());
    std::vector<std::size_t> out;
    for (const auto& [distance, i] : by) out.push_back(i);
    return out;
  }

  // The name beside its line, where the line stands farthest from the others.
  template <std::size_t N>
  void label_line(const Panel& panel, const Curve (&curves)[N], const Curve& curve) {
    const double wide = draw::lettering_width(curve.name, chart::figure_height);
    std::vector<Point> wanted;
    for (const std::size_t i : lonely(panel, curves, curve)) {
      const Point p = panel.at(in_.now.rows[i].angle, in_.now.rows[i].*curve.value);
      for (const double off : {1.0, 2.2, 3.6})
        for (const double y : {p.y - off, p.y + off + chart::figure_height})
          for (const double left : {p.x - wide / 2, p.x + 1.0, p.x - 1.0 - wide}) {
            const bool inside = left > left_edge + 0.6 && left + wide < right_edge &&
                                y - chart::figure_height > panel.box.top + 0.6 && y < panel.box.bottom - 1 &&
                                p.y > panel.box.top;
            if (inside) wanted.push_back({left, y});
          }
    }
    draw::TextStyle style = lettering(curve.role);
    style.halo = 0.9;
    if (!wanted.empty()) place(page_, wanted, curve.name, style, false);
  }

  // Degrees after TDC under the last panel, dead centres by name and as lines through all panels.
  void draw_angles() {
    const double base = flow_.box.bottom + 1.2 + 1.2 + chart::figure_height;
    for (const Panel* panel : {&cylinder_, &case_, &flow_})
      page_.canvas.stroke(draw::line({left_edge, panel->box.bottom}, {right_edge, panel->box.bottom}),
                          {Role::ink, draw::weight::dimension, draw::Dash::solid, false});
    for (double angle = std::ceil(x_.low / 60.0) * 60.0; angle <= x_.high + 1e-6; angle += 60.0) {
      const double turn = wrapped_turn(angle + 1e-9), x = at_x(angle);
      for (const Panel* panel : {&cylinder_, &case_, &flow_})
        page_.canvas.stroke(draw::line({x, panel->box.bottom}, {x, panel->box.bottom + 1.2}),
                            {Role::ink, draw::weight::dimension, draw::Dash::solid, false});
      const std::string text = turn < 0.5 ? "TDC" : std::abs(turn - 180) < 0.5 ? "BDC" : chart::number(turn);
      draw::TextStyle style = lettering(text.size() == 3 && text.back() == 'C' ? Role::ink : Role::reason);
      style.anchor = draw::Anchor::middle;
      place(page_, {{x, base}}, text, style, false);
    }
    draw::TextStyle style = lettering(Role::reason);
    style.anchor = draw::Anchor::end;
    place(page_, {{chart::page_width - chart::margin, base}}, "deg", style);
  }

  const TraceInput& in_;
  bool has_cuts_;
  chart::Scale x_{};
  double strips_at_ = 0.0;
  ChartPage page_{};
  Panel cylinder_{}, case_{}, flow_{};
};

/// Backward part of a flow over the turn [mg] and its forward part.
std::pair<double, double> parts_of(const TraceSide& side, Value flow) {
  double back = 0.0, forward = 0.0;
  for (std::size_t i = 1; i < side.rows.size(); ++i) {
    const double mass =
        0.5 * (side.rows[i].*flow + side.rows[i - 1].*flow) * (side.rows[i].angle - side.rows[i - 1].angle);
    (mass < 0 ? back : forward) += std::abs(mass);
  }
  return {back, forward};
}

std::string back_text(const TraceSide& side, Value flow, const char* who, const char* where) {
  const auto [back, forward] = parts_of(side, flow);
  if (forward <= 0.0 || back < 0.005 * forward) return "";
  return std::string(who) + " gives " + chart::number(100 * back / forward, 0) + " % back " + where + ". ";
}

std::string transfer_text(const TraceSide& side) {
  const double opens = first_opening(side, TraceKind::transfers);
  if (opens >= never) return "";
  const TraceRow& row = row_at(side, opens);
  std::string text = "When the transfers open the cylinder stands at " + chart::number(row.cylinder, 2) +
                     " bar against " + chart::number(row.crankcase, 2) + " in the case: ";
  if (row.cylinder <= row.crankcase) return text + "the charge goes in at once. ";
  const auto even = std::find_if(side.rows.begin(), side.rows.end(),
                                 [&](const TraceRow& r) { return r.angle > opens && r.cylinder <= r.crankcase; });
  if (even == side.rows.end()) return text + "it stays above. ";
  return text + "they are even " + chart::number(std::max(1.0, std::round(even->angle - opens)), 0) + " deg later. ";
}

}  // namespace

std::string trace_sentence(const TraceInput& given) {
  const TraceInput input = turned(given);
  std::string text = transfer_text(input.now);
  text += back_text(input.now, &TraceRow::transfers, "The cylinder", "into the transfers");
  text += back_text(input.now, &TraceRow::intake, "The case", "into the intake");
  text += back_text(input.now, &TraceRow::out, "The exhaust", "to the cylinder");
  if (!input.stock.rows.empty()) text += "Grey is stock. ";
  if (text.empty()) text = "One turn of the crank. ";
  text.pop_back();
  return text;
}

base::Result<draw::Canvas> draw_trace(const TraceInput& input) {
  if (input.now.rows.size() < 3)
    return base::fail(base::ErrorCode::not_found, "There is no turn to draw.", "", "Let it reach one speed at least.");
  const TraceInput from_start = turned(input);
  if (from_start.now.rows.size() < 3) return base::fail(base::ErrorCode::not_found, "The instants do not make a turn.");
  return TracePage(from_start).drawn();
}

base::Result<std::string> trace_svg(const TraceInput& input, draw::SvgOptions options) {
  if (options.theme == nullptr) options.theme = &draw::theme_paper();
  return draw_trace(input).map([&](const draw::Canvas& canvas) { return draw::to_svg(canvas, options); });
}

}  // namespace portwright::sheet
