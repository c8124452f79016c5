// The strip itself: rolled into the bore it lies on the wall, print inward, its lower edge flush with the base face.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/number_text.hpp"
#include "draw/lettering.hpp"
#include "draw/marks.hpp"
#include "draw/ruler.hpp"
#include "sheet/map_page.hpp"
#include "sheet/template_page.hpp"

namespace portwright::sheet {
namespace {

using draw::Anchor;
using draw::Dash;
using draw::Role;
using std::numbers::pi;

constexpr double degree = pi / 180;
constexpr double peg_clear = 2.5;  // wall kept on either side of a ring peg [mm]; common practice, 2 to 3

draw::TextStyle letters(double size, Anchor anchor = Anchor::middle, double angle = 0.0, double halo = 0.0) {
  return {Role::ink, size, anchor, angle, false, halo, 0.0};
}
const draw::Stroke fine{Role::ink, draw::weight::fine, Dash::solid, false};

/// Draws one strip; x and y are the page's, the base face at `base`.
class StripDrawer {
 public:
  StripDrawer(draw::Canvas& canvas, const TemplateJob& job, double left, double base)
      : c_(canvas),
        job_(job),
        left_(left),
        base_(base),
        right_(left + job.strip.length),
        top_(base - job.strip.height),
        view_(job.view(left, base)),
        windows_(job.windows(view_)) {}

  void draw() {
    for (const StripWindow& w : windows_)
      taken_.add({w.wanted.box.left, w.wanted.box.top - 0.5, w.wanted.box.right, w.wanted.box.bottom + 0.5});
    draw_metal();
    draw_frame();
    for (const StripWindow& w : windows_) draw_centre(w);
    draw_crown_line();
    for (const StripWindow& w : windows_) draw_outlines(w);
    draw_names();
    for (const StripWindow& w : windows_) draw_sizes(w);
    draw_pegs();
    draw_balloons();
    name_crown_line();
    draw_round();
    draw_tab();
  }

 private:
  double height_y(double height) const { return base_ - height; }

  void draw_metal() {
    for (const StripWindow& w : windows_) {
      if (!w.now) continue;
      draw::Area both = w.wanted.area;
      both.insert(both.end(), w.now->area.begin(), w.now->area.end());
      c_.hatch(both, {draw::Hatch::metal_to_go, Role::marking_blue, 0.1, 1.0, {}});
    }
  }

  void draw_frame() {
    const draw::Stroke edge{Role::ink, draw::weight::visible, Dash::solid, false};
    c_.stroke(draw::rectangle(left_, top_, job_.strip.whole(), job_.strip.height), edge);
    c_.stroke(draw::line({right_, top_}, {right_, base_}), {Role::ink, draw::weight::edge, Dash::solid, false});
    std::vector<draw::Tick> ticks;
    for (int k = 0; k < static_cast<int>(job_.strip.height); ++k) {
      ticks.push_back({static_cast<double>(k), k % 10 == 0 ? 2.2 : k % 5 == 0 ? 1.6 : 1.0, ""});
      if (k % 10 == 0 && k > 0)
        c_.letter({left_ - 1.0, base_ - k + 1.0}, base::number_text(k, 0), letters(2.1, Anchor::end));
    }
    draw::draw_ticks_upright(c_, {left_, base_}, ticks, false, letters(2.1));
    taken_.add({left_, top_, left_ + 2.5, base_});
  }

  /// Height of the crown edge at BDC, which the piston itself can show [mm]; none when it is not on the strip.
  std::optional<double> crown_height() const {
    const geometry::Engine& e = job_.engine();
    if (!e.stroke) return std::nullopt;
    const double height = 1000 * (*e.crown_at_tdc - *e.stroke);
    if (height <= 3 || height > job_.strip.height - 3) return std::nullopt;
    return height;
  }

  void draw_crown_line() {
    if (const auto height = crown_height())
      c_.stroke(draw::line({left_, height_y(*height)}, {right_, height_y(*height)}), fine);
  }

  void name_crown_line() {
    if (const auto height = crown_height())
      place("crown at BDC " + base::number_text(*height, 2), height_y(*height) + 3.2, 2.1);
  }

  /// A text at a base line where nothing stands; left out where no place is free.
  void place(const std::string& text, double baseline, double size) {
    const double width = draw::lettering_width(text, size);
    for (double x = right_ - width - 2; x > left_ + 7; x -= 2) {
      const draw::Box box{x - 0.8, baseline - size - 0.5, x + width + 0.8, baseline + 0.6};
      if (!taken_.is_free(box)) continue;
      taken_.add(box);
      c_.letter({x, baseline}, text, letters(size, Anchor::start, 0, 1.2));
      return;
    }
  }

  void draw_pegs() {
    int number = 0;
    for (const geometry::Ring& ring : job_.engine().piston.rings) {
      ++number;
      if (!ring.peg) continue;
      const double x = view_.x(*ring.peg);
      c_.stroke(draw::rectangle(x - peg_clear, top_ + 4, 2 * peg_clear, job_.strip.height - 4),
                {Role::ink, draw::weight::dimension, Dash::dotted, false});
      draw::draw_centre_line(c_, {x, top_ + 2}, {x, base_});
      name_peg("peg " + std::to_string(number) + ", " + base::number_text(peg_clear, 1) + " clear", x);
    }
  }

  /// Reads upward beside the peg's strip, on the first side and at the first height that is free.
  void name_peg(const std::string& text, double x) {
    const double length = draw::lettering_width(text, 2.1);
    std::vector<draw::Box> wanted;
    for (double top = top_ + 2; top + length < base_ - 3; top += 2) {
      wanted.push_back({x - peg_clear - 3.4, top, x - peg_clear - 0.6, top + length});
      wanted.push_back({x + peg_clear + 0.6, top, x + peg_clear + 3.4, top + length});
    }
    if (wanted.empty()) return;
    const draw::Box box = taken_.take_first_free(wanted);
    c_.letter({box.right - 0.3, box.bottom}, text, letters(2.1, Anchor::start, -90, 1.0));
  }

  void draw_centre(const StripWindow& w) { draw::draw_centre_line(c_, {w.wanted.x, top_ + 5.6}, {w.wanted.x, base_}); }

  void draw_outlines(const StripWindow& w) {
    if (!w.now) {
      c_.stroke(w.wanted.area, {Role::ink, draw::weight::visible, Dash::solid, true});
      return;
    }
    c_.stroke(w.now->area, {Role::stock, draw::weight::dimension, Dash::hidden, false});
    if (w.stop) c_.stroke(w.stop->area, {Role::marking_blue, draw::weight::fine, Dash::stop, false});
    c_.stroke(w.wanted.area, {Role::ink, draw::weight::edge, Dash::solid, true});
  }

  void draw_names() {
    double ends[2] = {left_, left_};
    for (const StripWindow& w : windows_) {
      const auto i = static_cast<std::size_t>(w.wanted.entry);
      const std::string name = i < job_.input.labels.ports.size() ? job_.input.labels.ports[i] : "port";
      const double half = draw::lettering_width(name, 2.4) / 2;
      const int row = w.wanted.x - half > ends[0] + 1.2 ? 0 : 1;
      ends[row] = w.wanted.x + half;
      c_.letter({w.wanted.x, top_ + 4.4 + 3.6 * row}, name, letters(2.4, Anchor::middle, 0, 1.2));
      taken_.add({w.wanted.x - half, top_, w.wanted.x + half, top_ + 5 + 3.6 * row});
    }
  }

  /// A changed window gets dimensions from the base face; one that stays its roof in words.
  void draw_sizes(const StripWindow& w) {
    const draw::Box& b = w.wanted.box;
    if (!w.now) {
      const std::string text = "roof " + base::number_text(w.roof, 2);
      const double y = b.bottom + 3.4 < base_ - 1 ? b.bottom + 3.4 : b.top - 1.2;
      c_.letter({w.wanted.x, y}, text, letters(2.1, Anchor::middle, 0, 1.3));
      const double half = draw::lettering_width(text, 2.1) / 2;
      taken_.add({w.wanted.x - half, y - 2.4, w.wanted.x + half, y + 0.6});
      return;
    }
    draw::DimensionStyle style;
    style.height = 2.2;
    style.halo = 1.2;
    const double inner = std::min(b.width() / 5, 8.0);
    draw::draw_dimension_upright(c_, base_, b.top, w.wanted.x - inner, base::number_text(w.roof, 2),
                                 shifted(style, b, base_ - b.top));
    if (base_ - b.bottom > 0.5) draw_floor_height(w, w.wanted.x + inner, style);
    const bool widened = std::abs(w.chord - w.now_chord) > 0.005;
    const double y = b.bottom + 4.6;
    if (!widened || y + 1 > base_) return;
    draw::draw_dimension_level(c_, b.left, b.right, y, "chord " + base::number_text(w.chord, 1), style);
    const std::string paper = base::number_text(b.width(), 1) + " on paper";
    if (y + 4 < base_) c_.letter({w.wanted.x, y + 3.2}, paper, letters(2.1, Anchor::middle, 0, 1.2));
  }

  /// Height of the floor; where it is too low for upright figures they stand level beside the line.
  void draw_floor_height(const StripWindow& w, double x, const draw::DimensionStyle& style) {
    const std::string text = base::number_text(w.floor, 2);
    if (base_ - w.wanted.box.bottom > draw::lettering_width(text, style.height) + 2) {
      draw::draw_dimension_upright(c_, base_, w.wanted.box.bottom, x, text, style);
      return;
    }
    draw::draw_dimension_upright(c_, base_, w.wanted.box.bottom, x, "", style);
    c_.letter({x + 1.0, (base_ + w.wanted.box.bottom) / 2 + style.height / 2}, text,
              letters(style.height, Anchor::start, 0, 1.2));
  }

  /// The text of a long dimension below its window where there is room, not over what is inside it.
  static draw::DimensionStyle shifted(draw::DimensionStyle style, const draw::Box& box, double length) {
    const double below = length - box.height();
    if (below > 10) style.text_shift = (length - below) / 2;
    return style;
  }

  void draw_balloons() {
    for (const StripWindow& w : windows_) {
      if (w.cut == 0) continue;
      const draw::Box& b = w.wanted.box;
      const double radius = std::min(2.5, b.height() / 2 - 1.6);
      if (radius > 1.2) draw::draw_balloon(c_, {w.wanted.x, (b.top + b.bottom) / 2}, std::to_string(w.cut), radius);
    }
  }

  void draw_round() {
    std::vector<draw::Tick> ticks;
    const double seam = view_.seam / degree;
    for (int k = static_cast<int>(std::ceil((seam - 360) / 5)); 5 * k <= seam; ++k) {
      const int at = 5 * k;
      ticks.push_back({job_.strip.length * (1 - (seam - at) / 360), at % 30 == 0 ? 2.4 : at % 15 == 0 ? 1.7 : 1.0, ""});
      if (at % 30 == 0) c_.letter({left_ + ticks.back().at, base_ + 3.6}, base::number_text(at, 0) + "°", letters(2.2));
    }
    draw::draw_ticks_level(c_, {left_, base_}, ticks, true, letters(2.2));
    if (!job_.engine().thrust) return;
    bracket(*job_.engine().thrust, "pressed on the power stroke", base_ + 6.4);
    bracket(*job_.engine().thrust + pi, "pressed on compression", base_ + 6.4);
  }

  void bracket(double middle, const std::string& text, double y) {
    const double x1 = view_.x(middle - pi / 4), x2 = view_.x(middle + pi / 4);
    const draw::Stroke pen{Role::ink, draw::weight::dimension, Dash::solid, false};
    double from = x1, to = x2;
    if (x1 < x2) {
      c_.stroke(draw::line({x1, y}, {x2, y}), pen);
    } else {
      c_.stroke({draw::line({x1, y}, {right_, y}), draw::line({left_, y}, {x2, y})}, pen);
      (right_ - x1 >= x2 - left_ ? to : from) = right_ - x1 >= x2 - left_ ? right_ : left_;
    }
    c_.stroke({draw::line({x1, y - 0.9}, {x1, y + 0.9}), draw::line({x2, y - 0.9}, {x2, y + 0.9})}, pen);
    const double half = draw::lettering_width(text, 2.1) / 2;
    c_.letter({std::clamp((from + to) / 2, left_ + half, right_ - half), y + 3.4}, text, letters(2.1));
  }

  /// The left edge must meet the thick line when the strip lies on the wall; triangles meet triangles.
  void draw_tab() {
    const double x = right_ + job_.strip.tab / 2;
    const double room = job_.strip.height - 3;
    const char* lines[] = {"left edge meets the thick line", "if the scale is true"};
    for (int k = 0; k < 2; ++k) {
      const double size = std::min(2.1, 2.1 * room / draw::lettering_width(lines[0], 2.1));
      c_.letter({x + 0.6 + 3.0 * k, base_ - job_.strip.height / 2}, lines[k], letters(size, Anchor::middle, -90));
    }
    for (const double share : {0.25, 0.5, 0.75}) {
      const double y = base_ - share * job_.strip.height;
      c_.fill({draw::polyline({{left_, y - 1}, {left_, y + 1}, {left_ + 2.2, y}}, true)}, Role::ink);
      c_.fill({draw::polyline({{right_, y}, {right_ + 2.2, y - 1}, {right_ + 2.2, y + 1}}, true)}, Role::ink);
    }
  }

  draw::Canvas& c_;
  const TemplateJob& job_;
  double left_, base_, right_, top_;
  BoreView view_;
  std::vector<StripWindow> windows_;
  Taken taken_;
};

}  // namespace

void draw_strip(draw::Canvas& canvas, const TemplateJob& job, double left, double base) {
  StripDrawer(canvas, job, left, base).draw();
}

}  // namespace portwright::sheet
