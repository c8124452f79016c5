#include "sheet/measuring_sheet.hpp"

#include <span>
#include <string>
#include <vector>

#include "draw/marks.hpp"
#include "draw/table.hpp"
#include "draw/words.hpp"
#include "sheet/measuring_drawings.hpp"
#include "sheet/rubbing_page.hpp"

namespace portwright::sheet {
namespace {

using draw::Anchor;
using draw::Dash;
using draw::Role;

constexpr double left = 14.0, right = 14.0, top = 13.0, bottom = 12.0;
constexpr double row_height = 7.6, block_gap = 6.0;

/// One reading to write down.
struct Line {
  const char* what;
  const char* unit;
};
/// A drawing with its readings.
struct Block {
  const char* title;
  const char* how;
  Drawing drawing;
  std::vector<Line> lines;
};
/// One step of taking the saw apart.
struct Stage {
  const char* title;
  std::vector<Block> blocks;
  bool ports = false;  ///< the table of windows follows
};

std::vector<Stage> stages() {
  return {
      {"1. Nothing undone",
       {{"What it does now",
         "Speeds by tachometer, warm, carburettor as it came.",
         show_outside,
         {{"muffler outlets, each", "cm²"},
          {"ignition advance", "deg"},
          {"chain pitch, over two rivets", "in"},
          {"sprocket teeth", ""},
          {"no-load speed", "rpm"},
          {"speed in the cut", "rpm"}}},
        {"Degree wheel",
         "Find TDC from a stop on both sides, not by the eye. Read an edge on both ways: that takes out the wheel’s "
         "zero.",
         show_wheel,
         {{"exhaust opens, after TDC", "deg"},
          {"exhaust closes, after TDC", "deg"},
          {"transfers open, by light through the exhaust", "deg"},
          {"intake opens, before TDC", "deg"},
          {"intake closes, after TDC", "deg"}}},
        {"Squish by solder",
         "Solder to the wall at both sides across the pin, once over TDC. Measure the flat end.",
         show_solder,
         {{"at the exhaust side", "mm"}, {"at the intake side", "mm"}, {"width of the band", "mm"}}}}},
      {"2. Plug out",
       {{"Gauge, then liquid",
         "Gauge warm, throttle open, pulled until it stands. Liquid: piston at TDC, ring gap greased, decompression "
         "valve shut, plug hole level.",
         show_head,
         {{"liquid poured in", "cc"},
          {"filled to: thread bottom or plug seat", ""},
          {"plug thread", "mm"},
          {"plug reach", "mm"},
          {"gauge compression", "psi"}}},
        {"Base, gasket, crown",
         "Before the cylinder comes off: TDC by the stop. Heights from the flange, not from the spigot.",
         show_section,
         {{"base gasket, pressed", "mm"},
          {"crown edge above the base face, TDC", "mm"},
          {"spigot to what it meets", "mm"},
          {"bore", "mm"},
          {"or: crown edge above the deck, gasket out", "mm"}}}}},
      {"3. Cylinder off",
       {{"Every window, at the bore surface",
         "Roof is the highest point, floor the lowest; bevels do not count. Width is the chord. One window’s sizes "
         "here, the rest in "
         "the table.",
         show_window,
         {{"exhaust roof above the base face", "mm"},
          {"exhaust floor above the base face", "mm"},
          {"exhaust width, chord", "mm"},
          {"radius of its roof corners", "mm"},
          {"radius of its floor corners", "mm"}}},
        {"Round the bore",
         "Seen from the plug, clockwise, 0° at the exhaust’s middle. Rubbing or paper strip: millimetres round, times "
         "360, over π times bore.",
         show_round,
         {{"middle of each window: in the table", "deg"},
          {"direction of the piston pin", "deg"},
          {"side pressed on the power stroke", "deg"},
          {"ring peg, each, as fitted", "deg"}}}},
       true},
      {"4. Passages and case",
       {{"Transfer passage",
         "Where cylinder and case meet: the least of the three areas counts.",
         show_passage,
         {{"foot of the passage", "cm²"},
          {"hole in the gasket", "cm²"},
          {"mouth that the case leaves open", "cm²"},
          {"height of the ledge", "mm"}}},
        {"Intake and carburettor",
         "Block out. A petal that does not seat lets a strip of light through.",
         show_reed,
         {{"petals", ""},
          {"petal length", "mm"},
          {"petal width", "mm"},
          {"petal thickness", "mm"},
          {"height of the stop", "mm"},
          {"venturi", "mm"}}}}},
      {"5. Piston and crank",
       {{"Piston",
         "All from the crown edge down.",
         show_piston,
         {{"skirt, exhaust side", "mm"},
          {"skirt, intake side", "mm"},
          {"skirt at the pin ends", "mm"},
          {"full-length skirt, exhaust, chord", "mm"},
          {"pin centre below the crown edge", "mm"},
          {"pin", "mm"},
          {"dome", "mm"},
          {"mass with pin, clips, rings", "g"}}},
        {"Rings",
         "End gap with the ring square in the bore; free gap out of the bore. A second ring: beside the first.",
         show_ring,
         {{"top of the ring below the crown edge", "mm"},
          {"height", "mm"},
          {"radial width", "mm"},
          {"peg, deg from the exhaust", "deg"},
          {"end gap in the bore", "mm"},
          {"free gap", "mm"}}},
        {"Crank and case",
         "Stroke on the crown, rod across pin and crank pin; case by liquid with the piston where you say.",
         show_crank,
         {{"stroke", "mm"},
          {"rod, centre to centre", "mm"},
          {"case volume", "cc"},
          {"piston at: TDC, BDC or deg", ""}}}}},
  };
}

draw::TextStyle words(double size, Role role = Role::ink, bool bold = false) {
  return {role, size, Anchor::start, 0, bold, 0, 0};
}

class SheetWriter {
 public:
  explicit SheetWriter(const Paper& paper) : paper_(paper) {}

  draw::Document write() {
    for (const Stage& stage : stages()) {
      if (pages_.empty()) new_page(), draw_who();
      draw_stage(stage);
    }
    pages_.push_back(draw_rubbing_page(paper_));
    for (std::size_t k = 0; k < pages_.size(); ++k) foot(pages_[k], k + 1);
    return {"Measuring sheet", "readings of one saw, in the order in which it comes apart", std::move(pages_)};
  }

 private:
  draw::Canvas& page() { return pages_.back(); }
  double width() const { return paper_.width - left - right; }
  double end() const { return paper_.height - bottom - 7; }

  void new_page() {
    pages_.emplace_back(paper_.width, paper_.height);
    page().title = "Measuring sheet";
    page().description = "Readings to take at the bench, each with a drawing of where it is taken.";
    page().words({left, top + 4.5}, "Measuring sheet", words(5.4, Role::ink, true));
    y_ = top + 12;
  }

  void write_line(double from, double to, double y) {
    page().stroke(draw::line({from, y}, {to, y}), {Role::ink, draw::weight::fine, Dash::solid, false});
  }

  /// Who, what, when; and how to write.
  void draw_who() {
    const double half = width() / 2;
    const char* names[] = {"saw", "state, as received or after cut", "date and by whom", "wheel, caliper, gauge used"};
    for (int k = 0; k < 4; ++k) {
      const double x = left + (k % 2) * half, y = y_ + 5 + 9.0 * (k / 2);
      page().words({x, y}, names[k], words(2.6, Role::reason));
      write_line(x + draw::words_width(names[k], 2.6) + 2, x + half - 4, y + 0.8);
    }
    y_ = draw::draw_paragraph(page(), {left, y_ + 21},
                              "Write number and unit as your tool shows them: 36.5 mm, 47 thou, 1 3/16 in, 103 deg. "
                              "Repeat a reading that matters. Leave "
                              "empty what you cannot reach: every figure that can be had from the rest is had.",
                              words(2.8), width(), 4.2) +
         2;
  }

  static double block_height(const Block& block) {
    return 9.0 + std::max(drawing_height, row_height * static_cast<double>(block.lines.size())) + block_gap;
  }

  void draw_stage(const Stage& stage) {
    if (y_ + 9 + block_height(stage.blocks.front()) > end()) new_page();
    page().words({left, y_ + 3.5}, stage.title, words(4.0, Role::ink, true));
    page().stroke(draw::line({left, y_ + 5.4}, {paper_.width - right, y_ + 5.4}),
                  {Role::ink, draw::weight::edge, Dash::solid, false});
    y_ += 9;
    for (const Block& block : stage.blocks) {
      if (y_ + block_height(block) > end()) new_page();
      draw_block(block);
    }
    if (stage.ports) draw_ports();
  }

  void draw_block(const Block& block) {
    page().words({left, y_ + 2.5}, block.title, words(3.1, Role::ink, true));
    const double x = left + drawing_width + 8;
    const double title = draw::words_width(block.title, 3.1, true);
    const double text_left = std::max(left + title + 4, x);
    draw::draw_paragraph(page(), {text_left, y_ + 2.5}, block.how, words(2.5, Role::reason),
                         paper_.width - right - text_left, 3.5);
    const double first_row =
        y_ + 9 +
        3.5 * std::max(0.0,
                       static_cast<double>(draw::wrapped(block.how, 2.5, paper_.width - right - text_left).size()) - 2);
    block.drawing({page(), {left, y_ + 6}, number_});
    double y = first_row;
    for (const Line& line : block.lines) {
      draw_reading(line, x, y);
      y += row_height;
    }
    y_ = std::max(y_ + 6 + drawing_height, y) + block_gap;
  }

  void draw_reading(const Line& line, double x, double y) {
    draw::draw_balloon(page(), {x + 2.2, y + 3.2}, std::to_string(number_++), 2.1);
    const double end_x = paper_.width - right, unit = 15.0, write = 26.0;
    draw::draw_fitted_words(page(), {x + 6, y + 4.2}, line.what, words(2.8), end_x - unit - write - x - 7);
    write_line(end_x - unit - write, end_x - unit, y + 5.2);
    page().words({end_x - unit + 1.5, y + 4.2}, line.unit, words(2.5, Role::reason));
  }

  /// One row a window; left and right of a pair may differ.
  void draw_ports() {
    const double height = 7.0 + 10 * 7.4;
    if (y_ + height > end()) new_page();
    draw::Table table{{left, y_}, 7.4, 7.0, 2.4};
    const double cell = (width() - 42) / 7;
    table.columns = {{"window", 42, false}};
    for (const char* head :
         {"middle, deg", "opens, deg", "roof, mm", "floor, mm", "chord, mm", "roof corner", "floor corner"}) {
      table.columns.push_back({head, cell, true, Anchor::start, true});
    }
    for (const char* name : {"primary, right", "primary, left", "secondary, right", "secondary, left", "third, right",
                             "third, left", "boost", "intake", "air", ""}) {
      table.rows.push_back({name});
    }
    y_ = draw::draw_table(page(), table) + block_gap;
  }

  void foot(draw::Canvas& c, std::size_t number) {
    const double y = paper_.height - bottom;
    c.words({left, y},
            "Engine cold, plug lead off. Eyes and hands protected. Liquid is fuel or oil: no flame. Nothing that turns "
            "without its guard.",
            words(2.5, Role::reason));
    c.letter({paper_.width - right, y}, std::to_string(number) + " of " + std::to_string(pages_.size()),
             {Role::ink, 2.3, Anchor::end, 0, false, 0, 0});
  }

  const Paper& paper_;
  std::vector<draw::Canvas> pages_;
  double y_ = 0.0;
  int number_ = 1;
};

}  // namespace

draw::Document draw_measuring_sheet(const Paper& paper) { return SheetWriter(paper).write(); }

}  // namespace portwright::sheet
