#include "sheet/curve_picture.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>

#include "draw/lettering.hpp"
#include "sheet/chart.hpp"

namespace portwright::sheet {
namespace {

using chart::ChartPage;
using chart::Panel;
using draw::Point;
using draw::Role;

constexpr double left_edge = 14.0, right_edge = 92.0;  // of the panels [mm]
constexpr double power_height = 46.0, torque_height = 38.0, change_height = 24.0, between = 10.0;
constexpr double beside = 1.0;  // stock's range stands this far before its speed, the what-if's behind it [mm]

using Value = double CurvePoint::*;

std::vector<Point> line_of(const Panel& panel, const CurveSide& side, Value value) {
  std::vector<Point> out;
  for (const CurvePoint& p : side.points) out.push_back(panel.at(p.rpm, p.*value));
  return chart::smooth(out);
}

const CurvePoint* peak(const CurveSide& side, Value value) {
  const auto it = std::max_element(side.points.begin(), side.points.end(),
                                   [&](const auto& a, const auto& b) { return a.*value < b.*value; });
  return it == side.points.end() ? nullptr : &*it;
}

/// The range nearest to a speed, if it lies within 300 rpm of it.
const CurveBand* band_near(const std::vector<CurveBand>& bands, double rpm) {
  constexpr double reach = 300.0;
  const auto it = std::min_element(bands.begin(), bands.end(), [&](const auto& a, const auto& b) {
    return std::abs(a.rpm - rpm) < std::abs(b.rpm - rpm);
  });
  return it == bands.end() || std::abs(it->rpm - rpm) > reach ? nullptr : &*it;
}

std::string headline(const CurveInput& input);
std::string remainder(const CurveInput& input);

/// What a page is drawn from, and where its panels lie.
class CurvePage {
 public:
  explicit CurvePage(const CurveInput& input) : in_(input), has_cuts_(input.stock.has_value()) {}

  draw::Canvas drawn() {
    const std::string first = headline(in_), rest = remainder(in_);
    set_panels(chart::head_height(aside()) + 8);
    const double words_at = last().box.bottom + 13;
    page_.canvas = draw::Canvas(chart::page_width,
                                words_at + chart::sentence_height(first, true) + chart::sentence_height(rest) - 1);
    page_.canvas.title = in_.saw + ", power and torque over speed";
    page_.canvas.description = curve_sentence(in_);
    chart::draw_head(page_, in_.saw, aside(), has_cuts_ ? "what if" : "");
    draw_scales();
    draw_panel(power_, "power", &CurvePoint::power_kw, &CurveSide::power_kw);
    draw_panel(torque_, "torque", &CurvePoint::torque_nm, &CurveSide::torque_nm);
    if (has_changes()) draw_changes();
    chart::draw_sentence(page_, chart::draw_sentence(page_, words_at, first, true), rest);
    return std::move(page_.canvas);
  }

 private:
  [[nodiscard]] bool has_changes() const { return has_cuts_ && !in_.changes.empty(); }
  [[nodiscard]] const Panel& last() const { return has_changes() ? change_ : torque_; }
  [[nodiscard]] std::string aside() const {
    return in_.state + (in_.state.empty() || in_.plan.empty() ? "" : ", ") + in_.plan;
  }
  [[nodiscard]] std::string size() const { return in_.anchored ? "" : ": order of size"; }

  template <class F>
  void each_side(F&& visit) const {
    if (has_cuts_) visit(*in_.stock);
    visit(in_.now);
  }

  [[nodiscard]] chart::Scale scale_of(Value value, std::vector<CurveBand> CurveSide::*bands, int steps) const {
    double low = 0.0, high = 0.0;
    each_side([&](const CurveSide& side) {
      for (const CurvePoint& p : side.points) low = std::min(low, p.*value), high = std::max(high, p.*value);
      for (const CurveBand& b : side.*bands) low = std::min(low, b.low), high = std::max(high, b.high);
    });
    return chart::scale_over(low, high, steps);
  }

  [[nodiscard]] chart::Scale speeds() const {
    double low = 1e9, high = 0.0;
    each_side([&](const CurveSide& side) {
      for (const CurvePoint& p : side.points) low = std::min(low, p.rpm), high = std::max(high, p.rpm);
    });
    for (const CurveBand& b : in_.now.power_kw) low = std::min(low, b.rpm), high = std::max(high, b.rpm);
    chart::Scale out = chart::scale_over(low, high, 8);
    out.low = std::max(out.low, low - 0.5 * out.step), out.high = std::min(out.high, high + 0.5 * out.step);
    return out;
  }

  void set_panels(double top) {
    const chart::Scale x = speeds();
    power_ = {
        {left_edge, top, right_edge, top + power_height}, x, scale_of(&CurvePoint::power_kw, &CurveSide::power_kw, 5)};
    const double second = power_.box.bottom + between;
    torque_ = {{left_edge, second, right_edge, second + torque_height},
               x,
               scale_of(&CurvePoint::torque_nm, &CurveSide::torque_nm, 4)};
    const double third = torque_.box.bottom + between;
    double low = 0.0, high = 0.0;
    for (const CurveChange& c : in_.changes) low = std::min(low, c.low_kw), high = std::max(high, c.high_kw);
    change_ = {{left_edge, third, right_edge, third + change_height}, x, chart::scale_over(low, high, 4)};
  }

  void draw_scales() {
    const bool three = has_changes();
    draw_upright_scale(page_, power_, "power, kW" + size());
    draw_upright_scale(page_, torque_, "torque, N m" + size());
    if (three) draw_upright_scale(page_, change_, "change in power, kW");
    draw_level_scale(page_, power_, "rpm", false);
    draw_level_scale(page_, torque_, "rpm", !three);
    if (three) draw_level_scale(page_, change_, "rpm", true);
    draw_rated();
  }

  void draw_rated() {
    if (in_.rated_rpm <= power_.x.low || in_.rated_rpm >= power_.x.high) return;
    const double x = power_.at_x(in_.rated_rpm), y = power_.box.top - 2.6;
    chart::keep_off(page_.taken, {{x, power_.box.top}, {x, last().box.bottom}});
    page_.canvas.stroke(draw::line({x, power_.box.top - 1.6}, {x, last().box.bottom}),
                        {Role::ink, draw::weight::dimension, draw::Dash::centre, false});
    const std::string text = "rated " + chart::number(in_.rated_rpm);
    const double half = draw::lettering_width(text, chart::figure_height) / 2;
    std::vector<Point> wanted;
    for (double aside = 0.0; aside < 60; aside += 1.0) wanted.push_back({x + aside, y});
    for (double aside = 0.0; aside < 60; aside += 1.0) wanted.push_back({x - aside, y});
    std::erase_if(wanted, [&](Point p) { return std::abs(p.x - x) > half; });
    place(page_, wanted, text, {Role::ink, chart::figure_height, draw::Anchor::middle, 0, false, 0, 0});
  }

  void draw_panel(const Panel& panel, const char* id, Value value, std::vector<CurveBand> CurveSide::*bands) {
    page_.canvas.group(id, std::string(id) + " over speed");
    if (has_cuts_) draw_bands(panel, (*in_.stock).*bands, Role::stock, -beside);
    draw_bands(panel, in_.now.*bands, has_cuts_ ? Role::marking_blue : Role::ink, has_cuts_ ? beside : 0.0);
    if (has_cuts_) draw_line(panel, *in_.stock, value, Role::stock, draw::weight::visible);
    draw_line(panel, in_.now, value, has_cuts_ ? Role::marking_blue : Role::ink, draw::weight::edge);
    label_ends(panel, value);
    if (has_cuts_) mark_points(panel, *in_.stock, value, Role::stock);
    mark_points(panel, in_.now, value, Role::ink);
    page_.canvas.end_group();
  }

  // Ranges at a few speeds are bars; at many, a ribbon.
  void draw_bands(const Panel& panel, const std::vector<CurveBand>& bands, Role role, double shift) {
    constexpr std::size_t most_bars = 4;
    if (bands.size() > most_bars) return draw_ribbon(panel, bands, role);
    for (const CurveBand& band : bands) {
      const double x = panel.at_x(band.rpm) + shift, y1 = panel.at_y(band.high), y2 = panel.at_y(band.low);
      draw_bar(x, y1, y2, role);
    }
  }

  void draw_ribbon(const Panel& panel, const std::vector<CurveBand>& bands, Role role) {
    std::vector<Point> upper, lower;
    for (const CurveBand& band : bands) {
      upper.push_back(panel.at(band.rpm, band.high));
      lower.push_back(panel.at(band.rpm, band.low));
    }
    upper = chart::smooth(upper), lower = chart::smooth(lower);
    std::vector<Point> round = upper;
    round.insert(round.end(), lower.rbegin(), lower.rend());
    page_.canvas.tint({draw::polyline(round, true)}, role);
    const draw::Stroke pen{role, draw::weight::fine, draw::Dash::solid, true};
    page_.canvas.stroke({draw::polyline(upper), draw::polyline(lower)}, pen);
  }

  void draw_bar(double x, double y1, double y2, Role role) {
    constexpr double half = 0.9;
    page_.canvas.tint({draw::rectangle(x - half, y1, 2 * half, y2 - y1)}, role);
    page_.canvas.stroke({draw::line({x, y1}, {x, y2}), draw::line({x - half, y1}, {x + half, y1}),
                         draw::line({x - half, y2}, {x + half, y2})},
                        {role, draw::weight::dimension, draw::Dash::solid, false});
    page_.taken.add({x - half, y1, x + half, y2});
  }

  void draw_line(const Panel& panel, const CurveSide& side, Value value, Role role, double weight) {
    const auto points = line_of(panel, side, value);
    if (points.size() > 1) page_.canvas.stroke(draw::polyline(points), {role, weight, draw::Dash::solid, true});
    chart::keep_off(page_.taken, points, 0.4);
    for (const CurvePoint& p : side.points)
      page_.canvas.fill({draw::circle(panel.at(p.rpm, p.*value), 0.9 * weight)}, role);
  }

  // "what if" and "stock" where the lines end, kept apart.
  void label_ends(const Panel& panel, Value value) {
    if (!has_cuts_ || in_.now.points.empty() || in_.stock->points.empty()) return;
    const CurvePoint &now = in_.now.points.back(), &stock = in_.stock->points.back();
    const auto y =
        chart::apart({panel.at_y(now.*value), panel.at_y(stock.*value)}, 4.0, panel.box.top + 1, panel.box.bottom - 1);
    const double half = chart::figure_height / 2;
    place(page_, {{end_x(panel), y[0] + half}}, "what if", lettering(Role::marking_blue));
    place(page_, {{end_x(panel), y[1] + half}}, "stock", lettering(Role::stock));
  }
  [[nodiscard]] double end_x(const Panel& panel) const {
    return std::max(panel.at_x(in_.now.points.back().rpm), panel.at_x(in_.stock->points.back().rpm)) + 2.6;
  }
  static draw::TextStyle lettering(Role role) {
    return {role, chart::figure_height, draw::Anchor::start, 0, false, 0, 0};
  }

  // A diamond at every point that is not stable; its word once for neighbours that share it.
  void mark_points(const Panel& panel, const CurveSide& side, Value value, Role role) {
    std::string before = "stable";
    for (const CurvePoint& p : side.points) {
      const Point at = panel.at(p.rpm, p.*value);
      if (p.settled != "stable") draw_diamond(at, role);
      if (p.settled != "stable" && p.settled != before) draw_mark_word(at, p.settled, role);
      before = p.settled;
    }
  }

  void draw_diamond(Point at, Role role) {
    constexpr double half = 1.3;
    const draw::Path shape =
        draw::polyline({{at.x, at.y - half}, {at.x + half, at.y}, {at.x, at.y + half}, {at.x - half, at.y}}, true);
    page_.canvas.fill({shape}, Role::ground);
    page_.canvas.stroke(shape, {role, draw::weight::visible, draw::Dash::solid, false});
    page_.taken.add({at.x - half, at.y - half, at.x + half, at.y + half});
  }

  void draw_mark_word(Point at, const std::string& word, Role role) {
    const double half = draw::lettering_width(word, chart::figure_height) / 2;
    std::vector<Point> wanted;
    for (double rise = 2.4; rise < 22; rise += 1.2)
      for (const double aside : {0.0, half, -half})
        for (const double y : {at.y - rise, at.y + rise + chart::figure_height}) wanted.push_back({at.x + aside, y});
    draw::TextStyle style = lettering(role);
    style.anchor = draw::Anchor::middle;
    place(page_, wanted, word, style, false);
  }

  void draw_changes() {
    page_.canvas.group("change", "change in power from stock");
    const double zero = change_.at_y(0.0);
    page_.canvas.stroke(draw::line({left_edge, zero}, {right_edge, zero}),
                        {Role::stock, draw::weight::visible, draw::Dash::solid, false});
    chart::keep_off(page_.taken, {{left_edge, zero}, {right_edge, zero}});
    for (const CurveChange& c : in_.changes) {
      const Role role = c.told_apart() ? Role::marking_blue : Role::ink;
      const double x = change_.at_x(c.rpm);
      draw_bar(x, change_.at_y(c.high_kw), change_.at_y(c.low_kw), role);
      page_.canvas.fill({draw::circle({x, change_.at_y(c.mean_kw)}, 0.7)}, role);
    }
    for (const CurveChange& c : in_.changes) draw_change_word(c);
    page_.canvas.end_group();
  }

  void draw_change_word(const CurveChange& c) {
    const std::string text =
        c.told_apart() ? (c.mean_kw > 0 ? "+" : "") + chart::number(c.mean_kw, 2) : "not told apart";
    const double x = change_.at_x(c.rpm), half = draw::lettering_width(text, chart::figure_height) / 2;
    const double over = change_.at_y(c.high_kw) - 1.2, under = change_.at_y(c.low_kw) + 1.2 + chart::figure_height;
    std::vector<Point> wanted;
    for (const double aside : {0.0, -0.5, 0.5, -1.0, 1.0})
      for (double by = 0.0; by < 20; by += 1.0)
        for (const double y : {over - by, under + by})
          if (y - chart::figure_height > change_.box.top - 1 && y < change_.box.bottom - 0.5)
            wanted.push_back({x + aside * (half + 1.5), y});
    draw::TextStyle style = lettering(c.told_apart() ? Role::marking_blue : Role::ink);
    style.anchor = draw::Anchor::middle;
    style.halo = 1.0;
    if (!wanted.empty()) place(page_, wanted, text, style, false);
  }

  const CurveInput& in_;
  bool has_cuts_;
  ChartPage page_{};
  Panel power_{}, torque_{}, change_{};
};

/// A stretch of speeds where the what-if is stronger, weaker or alike.
struct Stretch {
  int sign = 0;
  double from = 0.0, to = 0.0;
};

/// Stretches over the speeds that both sides have; crossings lie where the straight line between two speeds says.
std::vector<Stretch> stretches_of(const CurveInput& input) {
  std::vector<Stretch> out;
  const CurvePoint* top = peak(*input.stock, &CurvePoint::power_kw);
  const double alike = 0.003 * (top == nullptr ? 0.0 : std::abs(top->power_kw));
  double last_rpm = 0.0, last = 0.0;
  for (const CurvePoint& now : input.now.points) {
    const auto stock = std::find_if(input.stock->points.begin(), input.stock->points.end(),
                                    [&](const auto& p) { return std::abs(p.rpm - now.rpm) < 0.5; });
    if (stock == input.stock->points.end()) continue;
    const double gain = now.power_kw - stock->power_kw;
    const int sign = std::abs(gain) <= alike ? 0 : gain > 0 ? 1 : -1;
    double border = now.rpm;
    if (!out.empty() && out.back().sign * sign < 0) border = last_rpm + (now.rpm - last_rpm) * last / (last - gain);
    if (out.empty() || out.back().sign != sign) {
      if (!out.empty()) out.back().to = border;
      out.push_back({sign, border, now.rpm});
    }
    out.back().to = now.rpm;
    last_rpm = now.rpm, last = gain;
  }
  return out;
}

std::string hundred(double rpm) { return chart::number(100 * std::round(rpm / 100)); }

std::string place_text(const Stretch& s, bool first, bool last) {
  if (first && last) return "at every speed";
  if (first) return "up to " + hundred(s.to);
  if (last) return "above " + hundred(s.from);
  return "from " + hundred(s.from) + " to " + hundred(s.to);
}

std::string stronger_text(const CurveInput& input) {
  const auto all = stretches_of(input);
  std::vector<std::string> said;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const char* word = all[i].sign > 0 ? "stronger " : all[i].sign < 0 ? "weaker " : "alike ";
    said.push_back(word + place_text(all[i], i == 0, i + 1 == all.size()));
  }
  if (said.empty()) return "";
  std::string text = chart::listed(said) + (all.size() == 1 ? "" : " rpm") + ", by the middle of the assumptions. ";
  text.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(text.front())));
  return text;
}

std::string told_text(const CurveInput& input) {
  std::vector<std::string> told, not_told;
  for (const CurveChange& c : input.changes) {
    if (c.told_apart())
      told.push_back(chart::number(c.rpm) + " rpm (" + (c.low_kw > 0 ? "+" : "") + chart::number(c.low_kw, 2) + " to " +
                     (c.high_kw > 0 ? "+" : "") + chart::number(c.high_kw, 2) + " kW)");
    else
      not_told.push_back(chart::number(c.rpm));
  }
  std::string text;
  if (!told.empty()) text += "Told apart from stock at " + chart::listed(told) + ". ";
  if (!not_told.empty()) text += "Not told apart at " + chart::listed(not_told) + " rpm. ";
  return text;
}

/// "9 500 rpm", "4 500 rpm or below" at the first speed, "12 000 rpm or above" at the last.
std::string peak_speed(const CurveSide& side, const CurvePoint& point) {
  const bool is_first = &point == &side.points.front(), is_last = &point == &side.points.back();
  return chart::number(point.rpm) + " rpm" + (is_first == is_last ? "" : is_first ? " or below" : " or above");
}

std::string peak_text(const CurveInput& input) {
  const CurvePoint *power = peak(input.now, &CurvePoint::power_kw), *torque = peak(input.now, &CurvePoint::torque_nm);
  if (power == nullptr || power->power_kw <= 0.0) return "No speed gives power. ";
  return "Most power at " + peak_speed(input.now, *power) + ", most torque at " + peak_speed(input.now, *torque) + ". ";
}

std::string size_text(const CurveInput& input) {
  const CurveBand* band = band_near(input.now.power_kw, input.rated_rpm);
  const std::string range = band == nullptr ? ""
                                            : chart::number(band->low, 1) + " to " + chart::number(band->high, 1) +
                                                  " kW at " + chart::number(band->rpm) + " rpm";
  if (input.anchored) return range.empty() ? "" : "Set by the stock power that was read: " + range + ". ";
  return "The height of the curve is an order of size" + (range.empty() ? "" : ", " + range) +
         "; its shape says more. ";
}

std::string unsettled_text(const CurveInput& input) {
  std::vector<std::string> said;
  for (const CurvePoint& p : input.now.points)
    if (p.settled != "stable") said.push_back(chart::number(p.rpm) + " (" + p.settled + ")");
  if (said.size() > 4)
    return chart::number(static_cast<double>(said.size())) + " speeds do not repeat turn by turn: the diamonds. ";
  return said.empty() ? "" : "Does not repeat turn by turn at " + chart::listed(said) + " rpm. ";
}

std::string headline(const CurveInput& input) {
  std::string text = input.stock ? stronger_text(input) : peak_text(input);
  if (text.empty()) text = peak_text(input);
  text.pop_back();
  return text;
}

std::string remainder(const CurveInput& input) {
  std::string text;
  if (input.stock) text += told_text(input) + peak_text(input);
  text += size_text(input) + unsettled_text(input);
  if (input.stock) text += "Grey is stock, blue is what the cuts want. ";
  if (!text.empty()) text.pop_back();
  return text;
}

}  // namespace

std::string curve_sentence(const CurveInput& input) { return headline(input) + ' ' + remainder(input); }

base::Result<draw::Canvas> draw_curve(const CurveInput& input) {
  if (input.now.points.empty())
    return base::fail(base::ErrorCode::not_found, "There is no speed to draw.", "", "Let it reach one speed at least.");
  return CurvePage(input).drawn();
}

base::Result<std::string> curve_svg(const CurveInput& input, draw::SvgOptions options) {
  if (options.theme == nullptr) options.theme = &draw::theme_paper();
  return draw_curve(input).map([&](const draw::Canvas& canvas) { return draw::to_svg(canvas, options); });
}

}  // namespace portwright::sheet
