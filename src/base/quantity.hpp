#pragma once
// What kind of thing a number measures, and the units a bench uses for it.

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace portwright::base {

/// The kind of a quantity. SI unit in brackets; every value in the program is held in it.
enum class Dimension {
  length,       ///< [m]
  area,         ///< [m²]
  volume,       ///< [m³]
  angle,        ///< [rad]
  mass,         ///< [kg]
  pressure,     ///< [Pa]
  force,        ///< [N]
  power,        ///< [W]
  speed,        ///< of the crank [rev/s]
  velocity,     ///< [m/s]
  temperature,  ///< [K], a place on the scale, not a difference
  share,        ///< [-], typed as % or as a plain number
  count,        ///< [-], a plain number
};

/// One unit: its spellings, and the way to SI: si = scale * number + offset.
struct Unit {
  Dimension dimension;
  const char* symbol;                      ///< as written by the program: "mm", "thou", "deg"
  std::span<const char* const> spellings;  ///< as read, lower case, without blanks
  double scale;
  double offset;
};

/// Every unit the program reads.
[[nodiscard]] std::span<const Unit> units();

/// The unit of a spelling (case and blanks do not matter), if there is one; `prefer` settles spellings that two kinds
/// share.
[[nodiscard]] const Unit* find_unit(std::string_view spelling, std::optional<Dimension> prefer = std::nullopt);

/// Word for a kind, as in "this field is a length".
[[nodiscard]] const char* dimension_name(Dimension dimension);

/// A typed quantity in SI.
struct Quantity {
  double si = 0.0;              ///< value in the SI unit of its kind
  const Unit* unit = nullptr;   ///< as typed; null for a plain number
  std::optional<double> sigma;  ///< tolerance as typed, one sigma, SI (a difference, so without offset)
  double resolution = 0.0;      ///< SI worth of one in the last typed digit (of the smallest fraction)
};

}  // namespace portwright::base
