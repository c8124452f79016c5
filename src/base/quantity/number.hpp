#pragma once
// The number of a typed quantity: sign, decimals with point or comma, fractions; or what a doubtful one could mean.

#include <string>
#include <string_view>
#include <vector>

namespace portwright::base::typed {

/// A number at the head of a normal form (see normal_form).
struct Number {
  double value = 0.0;                  ///< with its sign
  double step = 1.0;                   ///< worth of one in the last digit, or of the smallest fraction
  std::string text;                    ///< as it would be typed without doubt: "-1250", "1 3/16"
  std::string_view rest;               ///< what follows, trimmed
  std::string why;                     ///< why it cannot be taken; empty when it can
  std::vector<std::string> meant;      ///< number texts that a doubtful one could mean
  std::vector<std::string> if_coarse;  ///< the same, doubtful only before a unit that nobody reads to three places
  bool inches_only = false;            ///< "1-3/16": a mixed fraction in inches, a span in all else
  bool signless_pair = false;          ///< `meant` are two quantities, not two readings of one
};

/// Reads the number at the head; `rest` is set also when the number is doubtful, as far as it was understood.
[[nodiscard]] Number scan_number(std::string_view normal);

/// Shortest plain text of a number, 12 significant digits, no exponent, no grouping: "7.25747792".
[[nodiscard]] std::string plain_number(double value);

}  // namespace portwright::base::typed
