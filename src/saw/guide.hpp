#pragma once
// What each field of the saw file is called, where in the work it is taken, how, and which drawing shows it: once, for
// whoever asks a person for readings. Its examples are those of the blank file.

#include <span>
#include <string_view>

#include "saw/readings.hpp"

namespace portwright::saw {

/// A step of the work, in order.
struct GuideGroup {
  std::string_view id;
  std::string_view label;
  bool each_port = false;  ///< once for every port
};

/// One field. `{}` in a label stands for the port's name, or the number of ring, window or fin.
struct GuideRow {
  std::string_view path;   ///< without names and numbers: "port.opens", "piston.ring.peg"
  std::string_view group;  ///< id of a GuideGroup
  std::string_view label;
  std::string_view how;      ///< one or two sentences
  std::string_view drawing;  ///< of the measuring sheet, by name; empty: none shows it
  int number = 0;            ///< its number on the drawing, from 1
};

[[nodiscard]] std::span<const GuideGroup> guide_groups();
/// Every field but the file's `format`, in the order of the file.
[[nodiscard]] std::span<const GuideRow> guide_rows();
/// The row of a path without names and numbers, or null.
[[nodiscard]] const GuideRow* guide_row(std::string_view path);

/// The examples of the blank file as readings: a saw with an exhaust port and a pair of transfers, one ring, one window
/// in the skirt, one row of fins.
[[nodiscard]] const Readings& example_readings();

}  // namespace portwright::saw
