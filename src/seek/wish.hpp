#pragma once
// What a builder wants of the engine, as data: one aim, and what must hold. The grammar stands in docs/plan.md.

#include <string>
#include <string_view>
#include <vector>

#include "base/error.hpp"
#include "plan/wish.hpp"

namespace portwright::seek {

/// A figure of the turning engine. All are told as changes from stock: without a power that was read, the simulation
/// knows absolute power to about 30 % only.
enum class Figure {
  power,   ///< brake, at a speed, or the greatest of the curve
  torque,  ///< brake, at a speed, or the greatest
  pull,    ///< mean torque at 65 and 80 % of stock's speed of most power
  heat,    ///< into the cylinder's wall at the speed of most power
};

struct Aim {
  Figure figure = Figure::power;
  double speed = 0.0;  ///< [rev/s]; 0: none was named
  double bar = 0.0;    ///< length of the bar it is wanted for [m]; 0: none
  std::string text;
};

/// "torque at 8,000 rpm at least +5 %".
struct Hold {
  Figure figure = Figure::power;
  double speed = 0.0;  ///< as of an aim
  bool at_least = true;
  double change = 0.0;  ///< from stock [-]
  std::string text;
};

struct EngineWish {
  Aim aim;
  std::vector<Hold> holds;
  bool low_speed_free = false;  ///< "low speed free"
  plan::Wishes geometry;        ///< "squish at least 0.5 mm"
};

/// "most torque at 8,000 rpm for a 28 in bar; squish at least 0.5 mm; heat at most as stock". All errors at once, each
/// with the path `wishes.N`, N from 1; what could be meant is offered as whole wishes.
[[nodiscard]] base::ResultAll<EngineWish> parse_engine_wish(std::string_view text);

/// Whether a list of wishes speaks of the engine: one of them begins with most or least.
[[nodiscard]] bool speaks_of_engine(std::string_view text);

/// "28 in (71 cm)": bars are sold by the inch.
[[nodiscard]] std::string bar_text(double bar);

/// "most torque at 8,000 rpm", for a person.
[[nodiscard]] std::string aim_text(const Aim& aim);

}  // namespace portwright::seek
