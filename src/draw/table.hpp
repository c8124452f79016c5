#pragma once
// Tables and title blocks on paper: thin rules, no boxes but where something is to be written in.

#include <string>
#include <vector>

#include "draw/canvas.hpp"

namespace portwright::draw {

struct Column {
  std::string head{};
  double width = 20.0;    ///< [mm]
  bool lettering = true;  ///< figures as lettering; else words
  Anchor anchor = Anchor::start;
  bool boxed = false;  ///< upright rules, to write in
  Role role = Role::ink;
};

struct Table {
  Point at{};  ///< top left of the head [mm]
  double row_height = 8.0;
  double head_height = 6.0;
  double size = 2.6;  ///< height of lettering [mm]; words are set a quarter larger than it is high
  std::vector<Column> columns{};
  std::vector<std::vector<std::string>>
      rows{};  ///< cells by column; cells too long for their column are set smaller, then cut
};
/// Draws it; returns the y below its last rule [mm].
double draw_table(Canvas& canvas, const Table& table);

/// One cell of a title block: its name small, its content lettered below.
struct BlockCell {
  std::string name{};
  std::string content{};
  double share = 1.0;  ///< of the row's width
};
struct TitleBlock {
  Point at{};  ///< top left [mm]
  double width = 100.0;
  double row_height = 11.0;
  std::vector<std::vector<BlockCell>> rows{};
};
/// Draws it; returns the y of its lower edge [mm].
double draw_title_block(Canvas& canvas, const TitleBlock& block);

/// Lettering no wider than `width`: at `style.size` where it fits, else smaller down to two thirds, else cut with an
/// ellipsis.
void draw_fitted_lettering(Canvas& canvas, Point at, const std::string& text, TextStyle style, double width);
/// Words likewise.
void draw_fitted_words(Canvas& canvas, Point at, const std::string& text, TextStyle style, double width);
/// Words in lines no wider than `width`; returns the y of the line after the last [mm].
double draw_paragraph(Canvas& canvas, Point at, const std::string& text, const TextStyle& style, double width,
                      double line_height);

}  // namespace portwright::draw
