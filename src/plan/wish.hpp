#pragma once
// What a builder asks for, as data: a figure and the number it is to have. The grammar stands in docs/plan.md.

#include <string>
#include <string_view>
#include <vector>

#include "base/error.hpp"

namespace portwright::plan {

/// The figure that is wished.
enum class Aspect {
  opens,     ///< of a port [rad], after TDC where the crown edge opens it, else before TDC
  closes,    ///< of a port [rad ATDC]
  duration,  ///< of a port [rad]
  width,     ///< of a port, chord [m]
  width_of_bore,
  blowdown,  ///< first transfer less first exhaust [rad]
  squish,    ///< mean of the places [m]
  chamber,   ///< [m³]
  trapped_ratio,
  full_ratio,
  skirt_cover,  ///< over the exhaust floor, or lap below the intake floor [m]
};

enum class Relation { is, at_least, at_most };

/// One wish. `value` is SI, in the unit of its aspect; unused when it is to stay as stock.
struct Wish {
  Aspect aspect = Aspect::squish;
  std::string subject;  ///< port or kind; of a skirt cover exhaust, intake or empty; else empty
  Relation relation = Relation::is;
  bool as_stock = false;
  bool free = false;  ///< "squish free": what would else be kept without a wish is let go
  double value = 0.0;
  double within = 0.0;  ///< half of the last digit typed, SI
  std::string text;     ///< as typed
};

using Wishes = std::vector<Wish>;

/// "exhaust at 99 deg; blowdown 21 deg; squish 0.5 mm; trapped ratio as stock". All errors at once, each with the wish
/// as typed and the path `wishes.N`, N from 1. What could mean two things is refused with whole wishes that can be
/// read, and so is a missing unit. At most 24 wishes, one at least.
[[nodiscard]] base::ResultAll<Wishes> parse_wishes(std::string_view text);

/// Word of an aspect in a wish: "opens", "trapped ratio".
[[nodiscard]] const char* aspect_word(Aspect aspect);
/// Whether an aspect is of one port.
[[nodiscard]] bool is_of_port(Aspect aspect);

}  // namespace portwright::plan
