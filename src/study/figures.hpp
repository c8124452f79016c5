#pragma once
// The one list of figures: what each is, in which unit, where its number lies, and what to say about it.

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "geometry/survey.hpp"
#include "study/measure.hpp"

namespace portwright::study {

/// What a row is repeated over.
enum class Over { once, ports, groups, rings };

/// One row of the list. `{}` in an id, a sentence or a label stands for the port's, ring's or kind's name, `{rpm}` for
/// the speed taken.
struct FigureRow {
  const char* id;    ///< "port.{}.opens"
  const char* unit;  ///< of the contract
  double scale;      ///< figure in `unit` = SI value times this
  Over over;
  Known (*value)(const Measures&, std::size_t index);
  bool (*present)(const geometry::Survey&, std::size_t index);  ///< whether this saw can have the figure; null: always
  const char* label;                                            ///< "Skirt over the exhaust floor"
  const char* formula;                                          ///< in words
  const char* why;                                              ///< one sentence: what it tells
  const char* source;
  double weight = 0.2;  ///< how much a builder leans on it, for choosing the next reading; 1 is a headline
  bool turns = false;   ///< depends on the speed taken
  /// Bounded by its nature (a share hidden, a spread of places), so that errors push it to one side and its range may
  /// hold the truth more often than 95 %. A figure that was chosen among several is not one-sided: its range leans.
  bool one_sided = false;
};

[[nodiscard]] std::span<const FigureRow> figure_rows();

/// A row for one saw: one figure.
struct Entry {
  const FigureRow* row = nullptr;
  std::size_t index = 0;  ///< of the port, kind or ring
  std::string id;         ///< "port.primary.opens"; of a mirrored side that differs "port.primary.twin.opens"
  std::string match;      ///< id by which limits and aims speak of it: without ".twin"
  std::string name;       ///< of the port, kind or ring; empty when once
  std::string port_kind;  ///< "exhaust" for a port's figure; else empty
  int count = 1;          ///< windows it speaks for

  [[nodiscard]] Known value(const Measures& measures) const { return row->value(measures, index); }
};

/// Every figure of a saw, in the list's order.
[[nodiscard]] std::vector<Entry> entries(const geometry::Survey& survey);

/// Word of a kind as in the saw file.
[[nodiscard]] const char* kind_name(geometry::PortKind kind);

/// `text` with `{}` and `{rpm}` filled in.
[[nodiscard]] std::string filled(std::string_view text, std::string_view name, double speed);

}  // namespace portwright::study
