#pragma once
// Every form of a cut's text, once: the reader, the writer, the hints and the document's test walk this table.

#include <span>
#include <string_view>

#include "base/quantity.hpp"
#include "cuts/cut.hpp"

namespace portwright::cuts {

enum class AmountForm {
  none,      ///< gasket out
  change,    ///< -0.5 mm: the sign says which way, so it is asked for
  quantity,  ///< weld .. 1 mm: its way is in the word; a minus turns it round
  size,      ///< to 5 mm
  areas,     ///< to 1.4 cm2 0.8 cm2
  octane,    ///< to "95 research"
  file,      ///< to FILE
};

enum class SideForm { none, needed, optional };

/// One row: `word [port] [side] amount`.
struct Form {
  Act act;
  std::string_view word;
  bool port = false;
  SideForm side = SideForm::none;
  std::span<const std::string_view> sides = {};
  AmountForm amount = AmountForm::change;
  base::Dimension dimension = base::Dimension::length;
  double greatest = 0.0;  ///< of the amount, either way [SI]; own judgement, far past any cut
  std::string_view example;
};

[[nodiscard]] std::span<const Form> forms();

/// The row of a cut.
[[nodiscard]] const Form& form_of(const Cut& cut);

/// Unit of the canonical text: "mm", "cm2", "cc", "deg".
[[nodiscard]] std::string_view canonical_unit(base::Dimension dimension);

/// Number and unit of the canonical text, 12 digits: "0.5 mm".
[[nodiscard]] std::string amount_text(double si, base::Dimension dimension);

/// The value that amount_text writes and a reader gives back.
[[nodiscard]] double canonical_amount(double si, base::Dimension dimension);

/// The nearest of `known` to a word that is none of them, by letters changed, when near enough; else empty.
[[nodiscard]] std::string_view nearest_word(std::string_view word, std::span<const std::string_view> known);

}  // namespace portwright::cuts
