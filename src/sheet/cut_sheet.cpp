#include "sheet/cut_sheet.hpp"

#include <algorithm>
#include <cmath>

#include "draw/marks.hpp"
#include "draw/table.hpp"
#include "draw/words.hpp"
#include "plan/guard.hpp"
#include "sheet/work_words.hpp"

namespace portwright::sheet {
namespace {

using draw::Anchor;
using draw::Role;
using plan::WorkStep;

constexpr double top = 13.0, bottom = 11.0;

draw::TextStyle words(double size, Role role = Role::ink, bool bold = false, Anchor anchor = Anchor::start) {
  return {role, size, anchor, 0, bold, 0, 0};
}

/// Fills pages from the top; a block that does not fit goes onto the next.
class Writer {
 public:
  explicit Writer(const CutSheetInput& input)
      : input_(input), card_(input.paper.width < 180.0), side_(card_ ? 9.0 : 14.0) {}

  draw::Document write() {
    new_page();
    head();
    stops();
    if (!card_) wishes();
    for (std::size_t i = 0; i < input_.work.steps.size(); ++i)
      card_ ? card_step(input_.work.steps[i], i + 1) : step(input_.work.steps[i], i + 1);
    if (!card_) {
      finished();
      notes();
      assembly();
      cautions();
    }
    for (std::size_t i = 0; i < pages_.size(); ++i) foot(pages_[i], i + 1);
    draw::Document out{"Cut sheet " + input_.saw, input_.plan, std::move(pages_)};
    return out;
  }

 private:
  draw::Canvas& page() { return pages_.back(); }
  [[nodiscard]] double width() const { return input_.paper.width - 2 * side_; }
  [[nodiscard]] double end_x() const { return input_.paper.width - side_; }
  [[nodiscard]] double end() const { return input_.paper.height - bottom - 6; }

  void new_page() {
    pages_.emplace_back(input_.paper.width, input_.paper.height);
    page().title = "Cut sheet " + input_.saw;
    page().description = "Steps of " + input_.plan + " in working order, with stop marks and readings.";
    y_ = top;
  }
  void room_for(double height) {
    if (y_ + height > end()) new_page();
  }

  void rule(double y, double weight = draw::weight::dimension) {
    page().stroke(draw::line({side_, y}, {end_x(), y}), {Role::rule, weight, draw::Dash::solid, false});
  }

  void head() {
    page().words({side_, y_ + 4.5}, "Cut sheet", words(card_ ? 4.6 : 5.4, Role::ink, true));
    const double from = side_ + (card_ ? 29.0 : 34.0);
    const std::string saw = input_.saw + (input_.state.empty() ? "" : ", " + input_.state) + "   " + input_.plan;
    draw::draw_fitted_words(page(), {from, y_ + 4.5}, saw, words(card_ ? 2.8 : 3.2, Role::reason), end_x() - from);
    y_ += 7.0;
    rule(y_, draw::weight::visible);
    y_ += card_ ? 3.0 : 4.5;
  }

  /// Marked as stops, before any number: who reads no further has read these.
  void stops() {
    for (const std::string& text : input_.stops) {
      const double size = card_ ? 2.6 : 2.9, line = size * 1.45, from = side_ + 7.5, wide = end_x() - from;
      const std::string whole = "Stop. " + text;
      const double high = std::max(6.5, line * static_cast<double>(draw::wrapped(whole, size, wide).size()) + 2.0);
      room_for(high);
      draw::draw_finding(page(), {side_ + 2.8, y_ + 2.8}, draw::Finding::stop, "");
      draw::draw_paragraph(page(), {from, y_ + size + 0.6}, whole, words(size, Role::ink, true), wide, line);
      y_ += high;
    }
    if (input_.stops.empty()) return;
    rule(y_, draw::weight::visible);
    y_ += 3.0;
  }

  void wishes() {
    const double cell = 36.0;
    const bool begun = !input_.done.empty();
    const auto column = [&](int i) { return end_x() - cell * (begun ? 3 - i : 2 - i) + cell; };
    const auto line = [&](const std::string& label, const SheetWish& wish, bool bold) {
      draw::draw_fitted_words(page(), {side_, y_ + 2.6}, label, words(2.7, Role::ink, bold), width() - 3 * cell - 2);
      const Role role = bold ? Role::ink : Role::reason;
      draw::draw_fitted_words(page(), {column(0) - cell, y_ + 2.6}, wish.stock, words(2.7, role, bold), cell - 2);
      draw::draw_fitted_words(page(), {column(1) - cell, y_ + 2.6}, wish.asked, words(2.7, Role::ink, bold), cell - 2);
      if (begun)
        draw::draw_fitted_words(page(), {column(2) - cell, y_ + 2.6}, wish.reached, words(2.7, Role::ink, bold),
                                cell - 2);
      y_ += 4.4;
    };
    const bool wished = input_.by_wish;
    line(wished ? "Wished" : "What the cuts move", {"", "stock", wished ? "wished" : "after", "now"}, true);
    for (const SheetWish& wish : input_.wishes) line(wish.label, wish, false);
    y_ += 3.0;
  }

  void write_box(double x, double y, double wide, double high, const std::string& name) {
    page().stroke(draw::rectangle(x, y, wide, high), {Role::ink, draw::weight::dimension, draw::Dash::solid, false});
    draw::draw_fitted_words(page(), {x + 1.0, y + 2.7}, name, words(2.0, Role::reason), wide - 2.0);
  }

  /// Rows of name and text within a column; returns the y below.
  double rows(const std::vector<plan::Expected>& all, double x, double y, double wide, double size) {
    const double name = wide * 0.2;
    for (const plan::Expected& row : all) {
      draw::draw_fitted_words(page(), {x, y}, row.label, words(size, Role::reason), name - 1.5);
      y = draw::draw_paragraph(page(), {x + name, y}, row.text, words(size), wide - name, size * 1.45);
    }
    return y;
  }

  static double rows_height(const std::vector<plan::Expected>& all, double wide, double size) {
    double high = 0.0;
    for (const plan::Expected& row : all)
      high += size * 1.45 * static_cast<double>(draw::wrapped(row.text, size, wide * 0.8).size());
    return high;
  }

  void step(const WorkStep& step, std::size_t number) {
    const double number_wide = 50.0, text_left = side_ + 7.5, text_wide = end_x() - number_wide - 4 - text_left;
    const std::vector<plan::Expected> lines = step_lines(step, input_.style);
    const double least = step.guard ? 33.0 : step.done ? 12.0 : 18.0;
    const double high = std::max(12.0 + rows_height(lines, text_wide, 2.6), least) + 3.0;
    room_for(high);
    draw::draw_balloon(page(), {side_ + 2.6, y_ + 2.3}, std::to_string(number), 2.6);
    draw::draw_fitted_words(page(), {text_left, y_ + 3.4}, title_of(step, input_.style), words(3.5, Role::ink, true),
                            text_wide);
    draw::draw_fitted_words(page(), {text_left, y_ + 7.6}, step.tool + " · " + step.edge, words(2.5, Role::reason),
                            text_wide);
    rows(lines, text_left, y_ + 12.0, text_wide, 2.6);
    target(step, end_x() - number_wide, number_wide);
    y_ += high;
    rule(y_ - 1.8);
  }

  void target(const WorkStep& step, double x, double wide) {
    if (step.done) return tick(step, x, y_ + 4.4, wide);
    if (step.unit.empty()) return;
    draw::draw_fitted_lettering(page(), {x, y_ + 6.0}, figure_text(step, step.target),
                                {Role::ink, 5.2, Anchor::start, 0, false, 0, 0.45}, wide);
    draw::draw_fitted_words(page(), {x, y_ + 10.4}, step.label + ", when done", words(2.5, Role::reason), wide);
    if (!step.guard) return;
    const double box = (wide - 2) / 3;
    for (int i = 0; i < 3; ++i) {
      const double at = x + i * (box + 1);
      write_box(at, y_ + 12.4, box, 8.6, i == 0 ? "before" : i == 1 ? "at the stop" : "at last");
      write_box(at, y_ + 22.0, box, 8.6, i == 0 ? "mm cut" : i == 1 ? "2nd side" : "date");
    }
  }

  /// A cut that is done is no work: ticked, with what it came to in small.
  void tick(const WorkStep& step, double x, double y, double wide) {
    draw::draw_finding(page(), {x + 2.4, y - 1.2}, draw::Finding::held, "");
    draw::draw_fitted_words(page(), {x + 6.5, y}, "done", words(3.2, Role::ink, true), 12.0);
    const std::string read = step.unit.empty() ? "" : step.label + " " + figure_text(step, step.target);
    draw::draw_fitted_words(page(), {x + 18.0, y}, read, words(2.5, Role::reason), wide - 18.0);
  }

  void done_card_step(const WorkStep& step, std::size_t number) {
    room_for(11.0);
    draw::draw_balloon(page(), {side_ + 2.6, y_ + 2.6}, std::to_string(number), 2.6);
    draw::draw_fitted_words(page(), {side_ + 7.5, y_ + 3.6}, title_of(step, input_.style), words(2.8, Role::reason),
                            width() - 7.5);
    tick(step, side_ + 7.5, y_ + 8.0, width() - 7.5);
    y_ += 11.5;
    rule(y_ - 1.6);
    y_ += 1.2;
  }

  void card_step(const WorkStep& step, std::size_t number) {
    if (step.done) return done_card_step(step, number);
    const std::vector<std::string> lines = card_lines(step, input_.style);
    const double size = 2.6, each = 3.6, wide = width() - 7.5;
    std::size_t count = 0;
    for (const std::string& line : lines) count += draw::wrapped(line, size, wide).size();
    const double high = 15.5 + each * static_cast<double>(count);
    room_for(high);
    draw::draw_balloon(page(), {side_ + 2.6, y_ + 2.6}, std::to_string(number), 2.6);
    draw::draw_fitted_words(page(), {side_ + 7.5, y_ + 3.6}, title_of(step, input_.style), words(3.2, Role::ink, true),
                            width() - 7.5);
    if (!step.unit.empty()) {
      draw::draw_fitted_lettering(page(), {side_ + 7.5, y_ + 12.0}, figure_text(step, step.target),
                                  {Role::ink, 6.2, Anchor::start, 0, false, 0, 0.5}, 52.0);
      draw::draw_fitted_words(page(), {side_ + 64.0, y_ + 11.6}, step.label, words(2.7, Role::reason), width() - 64.0);
    }
    double y = y_ + 16.6;
    for (const std::string& line : lines)
      y = draw::draw_paragraph(page(), {side_ + 7.5, y}, line, words(size), wide, each);
    y_ += high + 2.0;
    rule(y_ - 1.6);
    y_ += 1.2;
  }

  void section(const std::string& name, double height) {
    room_for(8.0 + height);
    page().words({side_, y_ + 3.8}, name, words(3.6, Role::ink, true));
    y_ += 7.6;
  }

  /// What was planned, what was cut, what is left of it.
  void finished() {
    if (input_.done.empty()) return;
    section("Planned and cut", 6.0);
    draw::Table table{{side_, y_}, 5.6, 5.0, 2.3};
    table.columns = {{"step", width() - 3 * 36.0, false},
                     {"planned", 36.0, false},
                     {"cut", 36.0, false},
                     {"cut less planned", 36.0, false}};
    for (const SheetDone& one : input_.done) table.rows.push_back({one.what, one.planned, one.cut, one.left});
    y_ = draw::draw_table(page(), table) + 5.0;
  }

  void notes() {
    if (input_.notes.empty()) return;
    section("Know before you cut", 10.0);
    for (const std::string& note : input_.notes) paragraph(note, 2.6);
    y_ += 2.5;
  }

  void paragraph(const std::string& text, double size) {
    const double line = size * 1.45;
    room_for(line * static_cast<double>(draw::wrapped(text, size, width()).size()));
    y_ = draw::draw_paragraph(page(), {side_, y_ + size}, text, words(size), width(), line) - size + 1.0;
  }

  void assembly() {
    const auto list = plan::assembly_list();
    const double line = 5.4, half = width() / 2;
    const std::size_t rows = (list.size() + 1) / 2;
    section("On assembly", line * static_cast<double>(rows));
    for (std::size_t i = 0; i < list.size(); ++i) {
      const double x = side_ + (i < rows ? 0.0 : half), y = y_ + line * static_cast<double>(i % rows);
      page().stroke(draw::rectangle(x, y, 3.2, 3.2), {Role::ink, draw::weight::dimension, draw::Dash::solid, false});
      draw::draw_fitted_words(page(), {x + 5.0, y + 2.7}, list[i], words(2.6), half - 7.0);
    }
    y_ += line * static_cast<double>(rows) + 2.5;
  }

  void cautions() {
    std::string all;
    for (const std::string& caution : input_.cautions) all += (all.empty() ? "" : " ") + caution;
    if (all.empty()) return;
    section("Cautions", 14.0);
    paragraph(all, 2.5);
  }

  void foot(draw::Canvas& c, std::size_t number) const {
    const double y = input_.paper.height - bottom + 3.0;
    draw::draw_fitted_words(c, {side_, y}, "Measure, creep up, stop short. What is cut does not come back.",
                            words(2.4, Role::reason), width() - 20);
    c.letter({end_x(), y}, std::to_string(number) + " of " + std::to_string(pages_.size()),
             {Role::ink, 2.2, Anchor::end, 0, false, 0, 0});
  }

  const CutSheetInput& input_;
  bool card_;
  double side_;
  std::vector<draw::Canvas> pages_;
  double y_ = 0.0;
};

}  // namespace

draw::Document draw_cut_sheet(const CutSheetInput& input) { return Writer(input).write(); }

}  // namespace portwright::sheet
