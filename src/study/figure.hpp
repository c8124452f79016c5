#pragma once
// One number with its range, its reason and its source.

#include <optional>
#include <string>
#include <vector>

#include "base/number_text.hpp"

namespace portwright::study {

struct Change {
  double value = 0.0;
  std::optional<double> low, high;
  bool distinguishable = false;  ///< its range does not hold 0
};

/// Share of one input in a figure's variance, greatest first.
struct Share {
  std::string path;    ///< of the reading, or the name of the assumption
  double value = 0.0;  ///< of the input, in `unit`
  std::string unit;
  double share = 0.0;  ///< 0..1
  bool assumed = false;
};

struct Figure {
  std::string id;                      ///< "port.exhaust.opens"
  std::string unit;                    ///< of the contract: "deg", "mm", "cm2", "-" ...
  std::optional<double> value;         ///< in `unit`; none: see waits_for
  std::optional<double> low, high;     ///< 95 %
  std::string text;                    ///< rounded to its range
  std::string why;                     ///< one sentence
  std::string formula;                 ///< in words
  std::vector<std::string> from;       ///< readings and figures it is made from
  std::string source;                  ///< key of docs/references.bib, "common practice", "memory", "own arithmetic"
  std::vector<std::string> waits_for;  ///< paths of readings
  int count = 1;                       ///< windows that a port figure speaks for
  std::optional<base::Spread> stock;   ///< with cuts only
  std::optional<Change> change;        ///< with cuts only, by the same samples
  std::string label = {};  ///< name for a person: "Exhaust opens"; the desk fills it from the list of figures
  /// Ends of the range, stock and change for a person; empty where there is none. See fill_texts().
  std::string low_text = {}, high_text = {}, stock_text = {}, change_text = {};
};

/// Puts the range, the stock and the change into words, to the digits that each range allows. A change that is not told
/// apart from nothing says so.
void fill_texts(Figure& figure, base::UnitStyle style);

}  // namespace portwright::study
