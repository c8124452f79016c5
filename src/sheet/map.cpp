#include "sheet/map.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/number_text.hpp"
#include "draw/lettering.hpp"
#include "draw/marks.hpp"
#include "draw/table.hpp"
#include "draw/words.hpp"
#include "sheet/map_page.hpp"

namespace portwright::sheet {
namespace {

using std::numbers::pi;

constexpr double side_margin = 12.0, dimension_step = 5.5, header = 27.0;

/// Heights of edges that get a dimension line, by side of the picture; only to count them.
int edges_of(const geometry::Engine& engine, bool crown_opened) {
  std::vector<double> levels;
  for (const geometry::Port& port : engine.ports) {
    if ((geometry::opened_by(port.kind) == geometry::OpenedBy::crown) != crown_opened) continue;
    for (const geometry::Known& level : {port.roof, port.floor}) {
      const bool is_new =
          level && std::none_of(levels.begin(), levels.end(), [&](double l) { return std::abs(l - *level) < 5e-6; });
      if (is_new) levels.push_back(*level);
    }
  }
  return static_cast<int>(levels.size());
}

std::optional<double> usual_angle(const geometry::Engine& engine) {
  if (!engine.slider) return std::nullopt;
  double first = 10.0;
  for (const geometry::Port& port : engine.ports) {
    if (port.kind == geometry::PortKind::transfer)
      first = std::min(first, geometry::timing(engine, port).opens.value_or(10.0));
  }
  const double bdc = engine.slider->bdc();
  return first < bdc ? std::round(0.5 * (first + bdc) * 180 / pi) * pi / 180 : bdc;
}

void set_piston(MapPage& page) {
  const geometry::Engine& e = page.engine;
  page.angle = page.input.angle ? page.input.angle : usual_angle(e);
  if (e.slider && page.angle) page.drop = e.slider->drop(*page.angle);
  if (!e.slider)
    page.unknown.push_back("the piston at an angle waits for " +
                           waits_text(e.slider_known.needs(), page.input.labels.needs));
  const geometry::Piston& p = e.piston;
  const geometry::Known all = p.skirt_exhaust + p.skirt_intake + p.skirt_side + p.skirt_exhaust_width + e.pin_axis;
  if (all) {
    page.skirt.emplace(
        geometry::SkirtShape{*p.skirt_exhaust, *p.skirt_side, *p.skirt_intake, *p.skirt_exhaust_width, *e.pin_axis},
        *e.bore);
  } else {
    page.unknown.push_back("the skirt's edge waits for " + waits_text(all.needs(), page.input.labels.needs));
  }
}

/// Levels of the frame, in mm below the crown edge's TDC place.
void set_frame(MapPage& page, double left, double first_y) {
  const geometry::Engine& e = page.engine;
  page.view.left = left;
  page.view.bore = *e.bore;
  page.view.width = 1000 * pi * *e.bore;
  page.view.seam = seam_of(e, page.plan.has_cuts() ? &page.plan.stock() : nullptr);
  page.top = first_y;
  page.view.top = first_y + 1000 * std::clamp(e.squish.value_or(0.0009), 0.0004, 0.004);
  double lowest = 1000 * e.stroke.value_or(0.0);
  for (const geometry::Port& port : e.ports) lowest = std::max(lowest, 1000 * port.floor.value_or(0.0) + 4);
  page.base = page.view.top + (e.crown_at_tdc ? 1000 * *e.crown_at_tdc : lowest + 8);
  double skirt = 0.0;
  if (page.skirt) {
    const auto reach = page.skirt->reach(0.0, page.skirt->circumference());
    skirt = 1000 * (reach.greatest + e.stroke.value_or(0.0));
  }
  page.bottom = std::max(page.base + 8.0, page.view.top + skirt + 2.0);
}

void place_windows(MapPage& page) {
  page.windows = placed_windows(page.engine, page.view);
  for (const Placed& w : page.windows) page.taken.add(w.box);
  for (std::size_t i = 0; i < page.engine.ports.size(); ++i) {
    const geometry::Port& port = page.engine.ports[i];
    const geometry::Known all = port.centre + port.window_known;
    const std::string name = i < page.input.labels.ports.size() ? page.input.labels.ports[i] : "a port";
    if (!all)
      page.unknown.push_back(name + " waits for " + waits_text(all.needs(), page.input.labels.needs));
    else if (port.window.empty())
      page.unknown.push_back(name + " has a shape that cannot be");
  }
  if (!page.plan.has_cuts()) return;
  BoreView stock_view = page.view;
  stock_view.top += 1000 * page.plan.cylinder_shift();
  if (page.plan.stock().bore) page.stock_windows = placed_windows(page.plan.stock(), stock_view);
}

void draw_header(MapPage& page) {
  const Labels& l = page.input.labels;
  const double x = page.view.left;
  std::string place = "1 : 1";
  if (page.angle && page.drop) place = "crank " + crank_text(page) + ", 1 : 1";
  page.canvas.letter({page.view.right(), 9}, place, {draw::Role::ink, 2.6, draw::Anchor::end, 0, false, 0, 0});
  const double room = page.view.width - draw::lettering_width(place, 2.6) - 6;
  const std::string name = draw::fitted(l.saw, 4.6, room, true);
  const double wide = draw::words_width(name, 4.6, true) + 3;
  page.canvas.words({x, 9}, name, {draw::Role::ink, 4.6, draw::Anchor::start, 0, true, 0, 0});
  const std::string what = l.state + (l.state.empty() || l.plan.empty() ? "" : ", ") + l.plan;
  if (room - wide > 12) {
    page.canvas.words({x + wide, 9}, draw::fitted(what, 3.3, room - wide),
                      {draw::Role::reason, 3.3, draw::Anchor::start, 0, false, 0, 0});
  }
}

/// A line of words under the picture.
struct Said {
  std::string text;
  double size = 3.4, line = 5.0;
  draw::Role role = draw::Role::ink;
  const study::Finding* finding = nullptr;  ///< its shape stands before it
};

/// The sentence, the findings that do not hold, and what is not drawn.
std::vector<Said> said_of(const MapPage& page) {
  std::vector<Said> said{{map_sentence(page)}};
  for (const study::Finding& f : page.input.findings) {
    if (f.state != study::State::ok) said.push_back({finding_word(f) + ". " + f.text, 3.0, 4.6, draw::Role::ink, &f});
  }
  for (const std::string& one : page.unknown) said.push_back({"Not drawn: " + one + ".", 3.0, 4.4, draw::Role::reason});
  return said;
}

constexpr double finding_indent = 7.0;

double height_of(const Said& one, double width) {
  const auto lines = draw::wrapped(one.text, one.size, one.finding != nullptr ? width - finding_indent : width).size();
  return one.line * static_cast<double>(lines) + (one.finding != nullptr ? 1.0 : 0.0);
}

void draw_said(MapPage& page, double y) {
  page.canvas.description = map_sentence(page);
  char letter = 'A';
  for (const Said& one : said_of(page)) {
    const double indent = one.finding != nullptr ? finding_indent : 0.0;
    if (one.finding != nullptr) {
      draw::draw_finding(page.canvas, {page.view.left + 2.6, y - 1.0}, finding_shape(*one.finding),
                         std::string(1, letter), 4.0);
      if (letter < 'Z') ++letter;
    }
    draw::draw_paragraph(page.canvas, {page.view.left + indent, y}, one.text,
                         {one.role, one.size, draw::Anchor::start, 0, false, 0, 0}, page.view.width - indent, one.line);
    y += height_of(one, page.view.width);
  }
}

/// Height that the words under the picture take [mm].
double text_height(const MapPage& page) {
  double height = 0.0;
  for (const Said& one : said_of(page)) height += height_of(one, page.view.width);
  return height;
}

}  // namespace

std::string mm_text(double metres, int decimals) { return base::number_text(1000 * metres, decimals); }

std::string degree_text(double radians, int decimals) { return base::number_text(radians * 180 / pi, decimals) + "°"; }

std::string crank_text(const MapPage& page) {
  const double deg = *page.angle * 180 / pi;
  if (std::abs(std::remainder(deg, 360)) < 0.05) return "at TDC";
  if (std::abs(*page.angle - page.engine.slider->bdc()) < 1e-3) return "at BDC";
  const bool whole = std::abs(deg - std::round(deg)) < 0.005;
  return "at " + degree_text(*page.angle, whole ? 0 : 1) + " after TDC";
}

bool MapPage::changed(int entry) const {
  if (!plan.has_cuts()) return false;
  const auto i = static_cast<std::size_t>(entry);
  const geometry::Engine& stock = plan.stock();
  return i < stock.ports.size() && is_changed(stock.ports[i], engine.ports[i], plan.cylinder_shift());
}

bool MapPage::is_moved(double level, int entry) const {
  if (!changed(entry)) return false;
  const geometry::Port& stock = plan.stock().ports[static_cast<std::size_t>(entry)];
  const auto lies_at = [&](const geometry::Known& edge) {
    return edge && std::abs(*edge + plan.cylinder_shift() - level) < 5e-6;
  };
  return !lies_at(stock.roof) && !lies_at(stock.floor);
}

bool MapPage::is_widened(int entry) const {
  if (!changed(entry)) return false;
  const auto i = static_cast<std::size_t>(entry);
  const geometry::Known grown = engine.ports[i].width - plan.stock().ports[i].width;
  return grown && std::abs(*grown) > 5e-6;
}

void MapPage::place_text(const std::string& text, double baseline, draw::TextStyle style, bool from_right) {
  const double width = draw::lettering_width(text, style.size), gap = 2.0;
  std::vector<draw::Box> wanted;
  for (int k = 0; k <= 40; ++k) {
    const double step = (view.width - width - 2 * gap) * k / 40.0;
    const double x = from_right ? view.right() - gap - width - step : view.left + gap + step;
    wanted.push_back({x, baseline - style.size - 0.4, x + width, baseline + 0.4});
  }
  const draw::Box box = taken.take_first_free(wanted);
  style.anchor = draw::Anchor::start;
  canvas.letter({box.left, baseline}, text, style);
}

base::Result<draw::Document> draw_map(const MapInput& input) {
  const auto plan = plan_of(input.after, input.cuts);
  if (!plan) return tl::unexpected(plan.error());
  const geometry::Engine& engine = plan->last();
  if (!engine.bore) {
    return base::fail(base::ErrorCode::not_found,
                      "the map waits for " + waits_text(engine.bore.needs(), input.labels.needs), "crank.bore",
                      "a bore lets the wall be unrolled");
  }
  MapPage page{input, *plan, engine};
  set_piston(page);
  const double left = side_margin + dimension_step * (1 + edges_of(engine, true)),
               right = side_margin + dimension_step * edges_of(engine, false);
  set_frame(page, left + 3, header + 3);
  place_windows(page);
  const double words_at = page.bottom + 24;
  page.canvas = draw::Canvas(page.view.right() + right + 3, words_at + text_height(page) + 3);
  page.canvas.title = input.labels.saw + ", bore unrolled";
  draw_header(page);
  draw_names(page);
  draw_cylinder(page);
  draw_windows_and_piston(page);
  draw_sizes(page);
  draw_pegs(page);
  draw_round(page);
  draw_findings(page);
  draw_said(page, words_at);
  return draw::Document{page.canvas.title, input.labels.state, {std::move(page.canvas)}};
}

}  // namespace portwright::sheet
