#include "sheet/paper_template.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/number_text.hpp"
#include "draw/marks.hpp"
#include "draw/ruler.hpp"
#include "draw/table.hpp"
#include "draw/words.hpp"
#include "sheet/template_page.hpp"

namespace portwright::sheet {
namespace {

using draw::Anchor;
using draw::Role;

constexpr double overlap = 8.0;       // of two pieces of a strip [mm]
constexpr double under_strip = 14.0;  // angle scale and pressed sides [mm]
constexpr double block_gap = 5.0;
constexpr double title_row = 9.6, title_height = 3 * title_row;
constexpr double table_row = 7.6, table_head = 6.0;

draw::TextStyle words(double size, Role role = Role::ink, bool bold = false) {
  return {role, size, Anchor::start, 0, bold, 0, 0};
}
draw::TextStyle letters(double size, Anchor anchor = Anchor::start) {
  return {Role::ink, size, anchor, 0, false, 0, 0};
}

/// Puts blocks on pages one below the other.
class TemplateWriter {
 public:
  explicit TemplateWriter(const TemplateJob& job) : job_(job), paper_(job.input.paper) {}

  draw::Document write() {
    new_page();
    draw_intro();
    draw_strips();
    draw_below_strip();
    draw_table();
    draw_left_over();
    finish();
    return {title(), job_.input.labels.state, std::move(pages_)};
  }

 private:
  draw::Canvas& page() { return pages_.back(); }
  double width() const { return paper_.width - margin::left - margin::right; }
  double strip_room() const { return paper_.width - margin::left - margin::bar_column; }
  double floor() const { return paper_.height - margin::bottom - title_height - block_gap; }
  std::string title() const { return "Port template, " + job_.input.labels.saw; }

  void new_page() {
    pages_.emplace_back(paper_.width, paper_.height);
    draw::Canvas& c = page();
    c.title = title();
    c.description = "Strip to roll into the bore, true scale, with what to cut and where to stop.";
    c.correction = {job_.input.printer.correction_across(), job_.input.printer.correction_along()};
    draw::draw_fitted_words(c, {margin::left, margin::top + 5.5}, title(), words(6.4, Role::ink, true), width() - 22);
    c.letter({paper_.width - margin::right, margin::top + 5.5}, "1 : 1", letters(3.6, Anchor::end));
    y_ = margin::top + 11.5;
  }

  /// A page on which `height` more fits.
  void make_room(double height) {
    if (y_ + height > floor()) new_page();
  }

  void draw_intro() {
    const std::string base = job_.plan.base_taken(job_.plan.stock_index()) > 1e-7
                                 ? " Heights count from the base face as it is once it was cut: cut it first."
                                 : "";
    y_ = draw::draw_paragraph(page(), {margin::left, y_},
                              "Seen from inside the bore, plug end up. Cut out the strip, roll it with the print "
                              "inward, lower edge flush with "
                              "the base face, 0° at the exhaust’s middle." +
                                  base,
                              words(2.8), width(), 4.2);
    const std::string lines =
        job_.plan.has_cuts()
            ? "Dashed thin: the window now. Thick: wanted. Hatched at 45°: metal to go. Fine dashes inside "
              "the hatch: stop and read."
            : "Nothing is to be cut: every window is drawn as it is.";
    y_ = draw::draw_paragraph(page(), {margin::left, y_}, lines, words(2.8), width(), 4.2) + 1.0;
  }

  /// One piece of the strip: its part from `from` to `to` along the whole.
  void draw_piece(double from, double to) {
    draw::Canvas& c = page();
    const double base = y_ + job_.strip.height, x = margin::left;
    const bool torn_left = from > 0, torn_right = to < job_.strip.whole() - 1e-9;
    if (torn_left || torn_right)
      c.clip({draw::rectangle(x - (torn_left ? 0.0 : 8.0), y_ - 1,
                              to - from + (torn_left ? 0.0 : 8.0) + (torn_right ? 0.0 : 8.0),
                              job_.strip.height + under_strip + 1)});
    draw_strip(c, job_, x - from, base);
    if (torn_left || torn_right) c.end_clip();
    for (const bool at_right : {false, true}) {
      if (at_right ? !torn_right : !torn_left) continue;
      const double edge = at_right ? x + to - from : x;
      c.stroke(draw::line({edge, base - job_.strip.height}, {edge, base}),
               {Role::ink, draw::weight::dimension, draw::Dash::hidden, false});
      join_marks(at_right ? edge - overlap / 2 : edge + overlap / 2, base);
    }
    y_ = base + under_strip + block_gap - 2;
  }

  /// Crosses in the middle of an overlap: the crosses of two pieces must lie on each other.
  void join_marks(double x, double base) {
    for (const double share : {0.3, 0.7}) {
      const draw::Point p{x, base - share * job_.strip.height};
      page().stroke({draw::line({p.x - 2.5, p.y}, {p.x + 2.5, p.y}), draw::line({p.x, p.y - 2.5}, {p.x, p.y + 2.5})},
                    {Role::ink, draw::weight::dimension, draw::Dash::solid, false});
      page().stroke(draw::circle(p, 1.2), {Role::ink, draw::weight::dimension, draw::Dash::solid, false});
    }
    page().letter({x, base - job_.strip.height + 4}, "join", {Role::ink, 2.1, Anchor::middle, 0, false, 1.2, 0});
  }

  /// Where the strip's pieces end along it: as many as it takes, parted where the least of a window lies in the
  /// overlap.
  std::vector<double> piece_ends(double whole, double room) const {
    std::vector<double> ends;
    const auto windows = job_.windows(job_.view(0.0, 0.0));
    double from = 0.0;
    while (whole - from > room) {
      const int left = static_cast<int>(std::ceil((whole - from - overlap) / (room - overlap)));
      const double least = std::max(from + 3 * overlap, whole - (left - 1) * (room - overlap)),
                   even = from + (whole - from) / left;
      double best = from + room, best_cost = 1e9;
      for (double end = least; end <= from + room; end += 0.5) {
        double cost = 0.002 * std::abs(end - even);
        for (const StripWindow& w : windows) {
          cost += std::max(0.0, std::min(w.wanted.box.right + 1, end) - std::max(w.wanted.box.left - 1, end - overlap));
        }
        if (cost < best_cost) best_cost = cost, best = end;
      }
      ends.push_back(best);
      from = best - overlap;
    }
    ends.push_back(whole);
    return ends;
  }

  void draw_strips() {
    const double whole = job_.strip.whole(), room = strip_room();
    const std::vector<double> ends = piece_ends(whole, room);
    const std::size_t pieces = ends.size();
    y_ += 3;
    double bar_top = y_;
    for (std::size_t k = 0; k < pieces; ++k) {
      if (y_ + job_.strip.height + under_strip > floor()) {
        draw_bar_along(bar_top);
        new_page();
        y_ += 3;
        bar_top = y_;
      }
      draw_piece(k == 0 ? 0.0 : ends[k - 1] - overlap, ends[k]);
    }
    draw_bar_along(bar_top);
    const std::string joined =
        pieces > 1 ? " Pieces overlap by " + base::number_text(overlap, 0) + "; cross on cross." : "";
    const std::string length = base::number_text(job_.strip.length, 2),
                      round = base::number_text(std::numbers::pi * job_.strip.bore, 2);
    page().words({margin::left, y_ + 1},
                 "Strip " + length + " long: " + round + " round the bore less π times " +
                     base::number_text(job_.input.paper_thickness, 2) + " of paper." + joined,
                 words(2.8));
    y_ += 1 + block_gap;
  }

  void draw_bar_along(double top) {
    const double zero = std::min(top + check_bar_length, floor() - 6);
    draw::draw_check_bar(page(), {{paper_.width - margin::bar_column / 2 - 1.5, zero}, check_bar_length, true});
    bar_bottom_ = zero + 7;
    bar_page_ = pages_.size();
  }

  /// Details, how to lay it in, and the bar across the page with its room to write in what it measured.
  void draw_below_strip() {
    const bool details = job_.plan.has_cuts();
    make_room((details ? detail_height : 0) + 24);
    if (y_ < margin::top + 13) y_ += 5;
    const double left = margin::left, top = y_;
    int shown = 0;
    if (details) shown = draw_details(page(), job_, {left, top}, 2);
    const double text_left = shown == 0 ? left : left + 58.0 * shown;
    const bool beside_bar = bar_page_ == pages_.size() && bar_bottom_ > top;
    const double right = paper_.width - (beside_bar ? margin::bar_column + 3 : margin::right);
    draw_lay_in({text_left, top + 3}, right - text_left);
    y_ = shown > 0 ? top + detail_height + 1 : y_;
    draw_bar_across();
  }

  void draw_lay_in(draw::Point at, double room) {
    page().words(at, "Lay it in", words(3.0, Role::ink, true));
    std::string text = "Marker blue on the wall first.";
    const auto& rings = job_.engine().piston.rings;
    if (!rings.empty() && rings[0].peg) text += " Peg line to the ring peg.";
    text += " 0° to the exhaust’s middle.";
    if (job_.plan.has_cuts())
      text +=
          " Scribe the thick lines, and the fine dashes as stops. Grind to the stop, wash, read, type it in; then to "
          "the line.";
    y_ = std::max(y_, draw::draw_paragraph(page(), {at.x, at.y + 4.4}, text, words(2.7), room, 4.1));
  }

  void draw_bar_across() {
    const double y = y_ + 8.5;
    draw::draw_check_bar(page(), {{margin::left, y}, check_bar_length, false});
    const double x = margin::left + check_bar_length + 16;
    const bool beside_bar = bar_page_ == pages_.size() && bar_bottom_ > y - 9;
    const double room = paper_.width - x - (beside_bar ? margin::bar_column : margin::right);
    double line =
        draw::draw_paragraph(page(), {x, y - 3.2}, "Hold your own caliper to both bars.", words(2.7), room, 4.0) + 1.4;
    for (const char* name : {"across", "along"}) {
      const std::string text = std::string(name) + " ________ of 100.00";
      page().words({x, line}, text, words(2.7));
      line += 5.4;
    }
    y_ = std::max(y + 10.5, line - 1.5);
  }

  void draw_table() {
    if (job_.rows.empty()) return;
    std::size_t done = 0;
    while (done < job_.rows.size()) {
      make_room(table_head + 2 * table_row);
      const auto fit = static_cast<std::size_t>(std::max(1.0, std::floor((floor() - y_ - table_head) / table_row)));
      const std::size_t count = std::min(fit, job_.rows.size() - done);
      draw_rows(done, count);
      done += count;
      if (done < job_.rows.size()) new_page();
    }
  }

  void draw_rows(std::size_t first, std::size_t count) {
    draw::Table table{{margin::left, y_}, table_row, table_head, 2.4};
    const double rest = width() - 8 - 6 * 19.0 - 2 * 15.0 + 19.0;
    table.columns = {{"", 8},
                     {"cut", rest, false},
                     {"now", 17, true, Anchor::start, false, Role::stock},
                     {"stop, read", 19},
                     {"then", 19},
                     {"wheel, stop", 20},
                     {"wheel, end", 20},
                     {"cut, mm", 15, true, Anchor::start, true},
                     {"cut, deg", 15, true, Anchor::start, true}};
    for (std::size_t k = first; k < first + count; ++k) {
      const CutRow& row = job_.rows[k];
      table.rows.push_back({"", row.what, row.now, row.stop, row.then, row.wheel_stop, row.wheel_end, "", ""});
    }
    const double end = draw::draw_table(page(), table);
    for (std::size_t k = 0; k < count; ++k) {
      const double middle = y_ + table_head + (static_cast<double>(k) + 0.5) * table_row;
      draw::draw_balloon(page(), {margin::left + 3.2, middle}, std::to_string(first + k + 1), 2.6);
    }
    y_ = end + block_gap;
  }

  /// What the limits say once all is cut: worst first; those that hold are counted, and notes beyond the page too.
  void draw_left_over() {
    const auto& all = job_.input.findings;
    if (all.empty()) return;
    const auto held =
        std::count_if(all.begin(), all.end(), [](const study::Finding& f) { return f.state == study::State::ok; });
    make_room(10);
    page().words({margin::left, y_ + 1}, "Left at the end", words(3.0, Role::ink, true));
    page().words({margin::left + 32, y_ + 1}, std::to_string(held) + (held == 1 ? " limit holds." : " limits hold."),
                 words(2.8));
    y_ += 6.2;
    char letter = 'A';
    int left_out = 0;
    for (const study::Finding& f : all) {
      if (f.state == study::State::ok) continue;
      const auto lines = draw::wrapped(finding_word(f) + ". " + f.text, 2.8, width() - 9);
      const double height = 4.0 * static_cast<double>(lines.size()) + 1.6;
      if (f.state == study::State::note && y_ + height + 4.5 > floor()) {
        ++left_out;
        continue;
      }
      make_room(height);
      draw_finding(f, lines, letter);
      if (letter < 'Z') ++letter;
    }
    if (left_out > 0) {
      page().words({margin::left + 7, y_},
                   std::to_string(left_out) + (left_out == 1 ? " more note" : " more notes") + " in the check.",
                   words(2.8, Role::reason));
    }
  }

  void draw_finding(const study::Finding& finding, const std::vector<std::string>& lines, char letter) {
    draw::draw_finding(page(), {margin::left + 2.6, y_ - 0.9}, finding_shape(finding), std::string(1, letter), 4.2);
    for (const std::string& text : lines) {
      page().words({margin::left + 7, y_}, text, words(2.8));
      y_ += 4.0;
    }
    y_ += 1.6;
  }

  void finish() {
    for (std::size_t k = 0; k < pages_.size(); ++k) draw_foot(pages_[k], k + 1);
  }

  void draw_foot(draw::Canvas& c, std::size_t number) {
    const double block = 104.0, top = paper_.height - margin::bottom - title_height;
    const Labels& l = job_.input.labels;
    draw::TitleBlock title{{paper_.width - margin::right - block, top}, block, title_row};
    const Printer& printer = job_.input.printer;
    const std::string factors = "across " + base::number_text(printer.correction_across(), 3) + ", along " +
                                base::number_text(printer.correction_along(), 3);
    title.rows = {{{"saw", l.saw, 1.5}, {"state", l.state.empty() ? "—" : l.state, 1.0}},
                  {{"cuts", l.plan.empty() ? "none" : l.plan, 1.5}, {"read", l.read.empty() ? "—" : l.read, 1.0}},
                  {{"printer", factors, 2.2},
                   {"paper", base::number_text(job_.input.paper_thickness, 2) + " mm", 0.9},
                   {"sheet", std::to_string(number) + " of " + std::to_string(pages_.size()), 0.9}}};
    draw::draw_title_block(c, title);
    draw::draw_paragraph(
        c, {margin::left, top + 3},
        "A modified saw is louder, hotter and outside its certification; local law decides on noise, emissions and "
        "fire. Chain brake, "
        "catcher, throttle lock and anti-vibration must work before it runs. Eyes, ears, hands, legs. Grinding and "
        "plating dust: mask, wet "
        "rag. All figures are estimates: measure, creep up, stop; in doubt ask a qualified technician.",
        words(2.5), width() - block - 6, 3.55);
  }

  const TemplateJob& job_;
  const Paper& paper_;
  std::vector<draw::Canvas> pages_;
  double y_ = 0.0;
  double bar_bottom_ = 0.0;
  std::size_t bar_page_ = 0;
};

base::Result<void> check(const TemplateInput& input, const Plan& plan) {
  const geometry::Engine& e = plan.last();
  const geometry::Known needed = e.bore + e.crown_at_tdc;
  if (!needed) {
    return base::fail(base::ErrorCode::not_found,
                      "the template waits for " + waits_text(needed.needs(), input.labels.needs), {},
                      "bore and crown height make a wall of known size");
  }
  const auto off = [](double factor) { return !(factor > 0.9 && factor < 1.1); };
  if (off(input.printer.correction_across()) || off(input.printer.correction_along())) {
    return base::fail(base::ErrorCode::impossible,
                      "a bar of 100 mm that measures " + base::number_text(input.printer.across, 1) + " and " +
                          base::number_text(input.printer.along, 1) + " is off by more than 10 %",
                      {}, "print at 100 %, without fitting to the page");
  }
  if (!(input.paper_thickness >= 0 && input.paper_thickness <= 1.0)) {
    return base::fail(base::ErrorCode::impossible,
                      "paper of " + base::number_text(input.paper_thickness, 2) + " mm does not roll", {},
                      "office paper is 0.10 mm");
  }
  return {};
}

/// High enough for every window now and wanted, their names and the lowest dimensions; not above the crown's TDC place.
double strip_height(const Plan& plan) {
  double highest = 20.0;
  const auto take = [&](const geometry::Engine& e, double shift) {
    for (const geometry::Port& p : e.ports) {
      const geometry::Known height = plan.last().crown_at_tdc - (p.roof + geometry::Known(shift));
      if (height) highest = std::max(highest, 1000 * *height);
    }
  };
  take(plan.last(), 0.0);
  take(plan.stock(), plan.cylinder_shift());
  return std::min(std::ceil(highest + 10.0), 1000 * *plan.last().crown_at_tdc);
}

}  // namespace

base::Result<draw::Document> draw_template(const TemplateInput& input) {
  const auto plan = plan_of(input.after, input.cuts);
  if (!plan) return tl::unexpected(plan.error());
  if (auto ok = check(input, *plan); !ok) return tl::unexpected(ok.error());
  TemplateJob job{input, *plan};
  job.strip.bore = 1000 * *plan->last().bore;
  job.strip.length = std::numbers::pi * (job.strip.bore - input.paper_thickness);
  job.strip.height = strip_height(*plan);
  job.rows = cut_rows(*plan, input.labels);
  return TemplateWriter(job).write();
}

}  // namespace portwright::sheet
