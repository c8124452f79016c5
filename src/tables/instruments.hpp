#pragma once
// What a reading is worth by the instrument it was taken with. Rows in data/instruments.toml, each with its source.

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/quantity.hpp"

namespace portwright::tables {

/// One instrument at one kind of place: a caliper is worth 0.05 mm on a height and 0.1 mm on a chord.
struct InstrumentRow {
  std::string name;                 ///< as typed in `with`
  std::vector<std::string> fields;  ///< patterns (see pattern.hpp) it holds for; none: any field of its kind
  base::Dimension dimension{};
  double sigma = 0.0;         ///< own error, one sigma, SI (a difference)
  double sigma_share = 0.0;   ///< own error as a share of the value [-], one sigma, added in quadrature
  std::string shares;         ///< what all readings of one set-up share: "wheel zero", "height datum"; empty: nothing
  double shared_sigma = 0.0;  ///< that error, one sigma, SI; added alike to every reading of the set-up
  std::string note;           ///< one sentence: how it is used, what spoils it; may be empty
  std::string source;         ///< key of docs/references.bib, "common practice", "memory" or "own judgement"
};

/// Every row. Of two rows that fit, the earlier holds.
[[nodiscard]] std::span<const InstrumentRow> instruments();

/// The row of a typed instrument for a field, case and outer blanks aside; null when the name is unknown or the
/// instrument does not read such a field.
/// @param path field path, `port.exhaust.opens`
/// @param kind of the port, empty elsewhere
[[nodiscard]] const InstrumentRow* instrument(std::string_view name, base::Dimension dimension, std::string_view path,
                                              std::string_view kind = {});

/// Whether any row has this name.
[[nodiscard]] bool instrument_known(std::string_view name);

/// What the field is usually read with; every field of the saw file has a row (a test says so), null for a path that is
/// none.
[[nodiscard]] const InstrumentRow* usual_instrument(std::string_view path, base::Dimension dimension,
                                                    std::string_view kind = {});

/// Names that can read the field, each once, in the table's order: for the hint beside an unknown name.
[[nodiscard]] std::vector<std::string> instrument_names(base::Dimension dimension, std::string_view path,
                                                        std::string_view kind = {});

/// One row of what a field is usually read with.
struct UsualRow {
  std::string field;       ///< pattern
  std::string instrument;  ///< a name of instruments()
};
[[nodiscard]] std::span<const UsualRow> usual_instruments();

}  // namespace portwright::tables
