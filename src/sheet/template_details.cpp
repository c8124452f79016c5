// Changed edges enlarged: what a line 0.3 mm beside another cannot show at true scale.
#include <algorithm>
#include <cmath>

#include "base/number_text.hpp"
#include "draw/marks.hpp"
#include "draw/words.hpp"
#include "sheet/template_page.hpp"

namespace portwright::sheet {
namespace {

using draw::Dash;
using draw::Role;

constexpr double radius = 17.0;  // of a detail circle [mm]

/// One corner of a window to be shown larger.
struct Detail {
  const StripWindow* window = nullptr;
  bool roof = true;       ///< the roof's right corner, else the floor's
  double change = 0.0;    ///< of the edge [mm], up
  double widening = 0.0;  ///< of the side [mm]
  double greatest() const { return std::max(std::abs(change), std::abs(widening)); }
};

std::vector<Detail> details_of(const std::vector<StripWindow>& windows) {
  std::vector<Detail> found;
  std::vector<int> entries;
  for (const StripWindow& w : windows) {
    if (!w.now || std::count(entries.begin(), entries.end(), w.wanted.entry) > 0) continue;
    entries.push_back(w.wanted.entry);
    const double wider = w.wanted.box.right - w.now->box.right;
    const double roof = w.roof - w.now_roof, floor = w.floor - w.now_floor;
    if (std::abs(roof) > 0.005 || std::abs(wider) > 0.005) found.push_back({&w, true, roof, wider});
    if (std::abs(floor) > 0.005) found.push_back({&w, false, floor, wider});
  }
  return found;
}

double enlargement(double change) {
  for (const double f : {10.0, 8.0, 5.0, 4.0, 3.0}) {
    if (change * f <= 8.0) return f;
  }
  return 2.0;
}

/// The corner's middle on the wanted outline [mm on the strip].
draw::Point corner_of(const Detail& d) {
  const draw::Box& b = d.window->wanted.box;
  const geometry::Port& port = *d.window->wanted.port;
  const geometry::Known corner = d.roof ? port.corner_roof : port.corner_floor;
  const double r = std::min({1000 * corner.value_or(0.003), b.width() / 2, b.height() / 2});
  const double in = r * (1 - 0.70710678);
  return {b.right - in - 0.2 * r, d.roof ? b.top + in : b.bottom - in};
}

/// The point of an outline within the circle that is nearest to a place beside it.
draw::Point nearest_in_circle(const draw::Area& area, draw::Point centre, draw::Point to) {
  draw::Point best = centre;
  double least = 1e9;
  for (const draw::Path& path : area) {
    const auto points = draw::flattened(path, 0.02);
    for (std::size_t i = 0; i + 1 < points.size(); ++i) {
      for (int k = 0; k < 8; ++k) {
        const draw::Point p = points[i] + k / 8.0 * (points[i + 1] - points[i]);
        if (std::hypot(p.x - centre.x, p.y - centre.y) > radius - 2.5) continue;
        const double far = std::hypot(p.x - to.x, p.y - to.y);
        if (far < least) least = far, best = p;
      }
    }
  }
  return best;
}

class DetailDrawer {
 public:
  DetailDrawer(draw::Canvas& canvas, const Detail& detail, draw::Point centre)
      : c_(canvas), d_(detail), centre_(centre), factor_(enlargement(detail.greatest())) {
    const draw::Point corner = corner_of(detail);
    where_ = {factor_, {centre.x - factor_ * corner.x, centre.y - factor_ * corner.y}, false};
    wanted_ = draw::placed(detail.window->wanted.area, where_);
    now_ = draw::placed(detail.window->now->area, where_);
    if (detail.window->stop) stop_ = draw::placed(detail.window->stop->area, where_);
  }

  void draw(const std::string& caption) {
    const draw::Path ring = draw::circle(centre_, radius);
    c_.clip({ring});
    draw::Area both = wanted_;
    both.insert(both.end(), now_.begin(), now_.end());
    c_.hatch(both, {draw::Hatch::metal_to_go, Role::marking_blue, 0.1, 0.75, {}});
    c_.stroke(now_, {Role::stock, draw::weight::visible, Dash::hidden, false});
    if (!stop_.empty()) c_.stroke(stop_, {Role::marking_blue, draw::weight::visible, Dash::stop, false});
    c_.stroke(wanted_, {Role::ink, draw::weight::edge, Dash::solid, true});
    c_.end_clip();
    c_.stroke(ring, {Role::ink, draw::weight::dimension, Dash::solid, true});
    leaders();
    size();
    c_.letter({centre_.x, centre_.y + radius + 4.2}, caption + ", " + base::number_text(factor_, 0) + " times",
              {Role::ink, 2.4, draw::Anchor::middle, 0, false, 0, 0});
  }

 private:
  void leader(const draw::Area& area, double dy, const std::string& text) {
    if (area.empty()) return;
    const draw::Point label{centre_.x + radius + 2.0, centre_.y + dy};
    draw::draw_leader(c_, nearest_in_circle(area, centre_, label), label, text,
                      {Role::ink, 2.2, draw::Anchor::start, 0, false, 0, 0});
  }

  void leaders() {
    const double sign = d_.roof ? 1.0 : -1.0;
    leader(wanted_, -11.0 * sign, "wanted");
    leader(stop_, -4.0 * sign, "stop");
    leader(now_, 3.0 * sign, "now");
  }

  /// How far the edge moves, on its level part; else how far the side moves.
  void size() {
    const draw::Box wanted = draw::bounds(wanted_), now = draw::bounds(now_);
    draw::DimensionStyle style;
    style.height = 2.2;
    style.text_outside = true;
    if (std::abs(d_.change) > 0.005) {
      const double from = d_.roof ? now.top : now.bottom, to = d_.roof ? wanted.top : wanted.bottom;
      draw::draw_dimension_upright(c_, from, to, centre_.x - 0.62 * radius, base::number_text(std::abs(d_.change), 2),
                                   style);
    } else {
      draw::draw_dimension_level(c_, now.right, wanted.right, centre_.y + 0.62 * radius,
                                 base::number_text(std::abs(d_.widening), 2), style);
    }
  }

  draw::Canvas& c_;
  const Detail& d_;
  draw::Point centre_;
  double factor_;
  draw::Placement where_{};
  draw::Area wanted_, now_, stop_;
};

}  // namespace

int draw_details(draw::Canvas& canvas, const TemplateJob& job, draw::Point at, int most) {
  const auto windows = job.windows(job.view(0.0, 0.0));
  auto details = details_of(windows);
  std::stable_sort(details.begin(), details.end(), [](const Detail& a, const Detail& b) {
    return std::lround(100 * std::abs(a.change)) > std::lround(100 * std::abs(b.change));
  });
  const int count = std::min(most, static_cast<int>(details.size()));
  for (int k = 0; k < count; ++k) {
    const Detail& d = details[static_cast<std::size_t>(k)];
    const auto i = static_cast<std::size_t>(d.window->wanted.entry);
    const std::string name = i < job.input.labels.ports.size() ? job.input.labels.ports[i] : "port";
    const std::string caption =
        std::string(1, static_cast<char>('X' + k)) + ", " + name + (d.roof ? " roof" : " floor");
    DetailDrawer(canvas, d, {at.x + radius + 58.0 * k, at.y + radius}).draw(caption);
  }
  return count;
}

}  // namespace portwright::sheet
