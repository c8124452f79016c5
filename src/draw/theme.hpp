#pragma once
// What a line means on a drawing, and the colour that meaning has on paper, slate, in sunlight and in print.

#include <array>
#include <cstdint>
#include <string_view>

namespace portwright::draw {

/// What a pen stands for. The theme gives it a colour.
enum class Role : std::uint8_t {
  ink,           ///< what is here now
  reason,        ///< words that explain
  stock,         ///< the saw before any cut: always there
  marking_blue,  ///< in hand or changed, nothing else
  caution,
  stop,
  exhaust,
  transfers,
  intake,
  metal,   ///< hatch of piston and cylinder
  rule,    ///< thin rules that part rows
  ground,  ///< the paper itself
};
inline constexpr std::size_t role_count = 12;

struct Colour {
  std::uint8_t red = 0, green = 0, blue = 0;
  friend bool operator==(const Colour&, const Colour&) = default;
};

/// Colours by role, how far a tint is mixed into the ground, and how much thicker lines are.
struct Theme {
  std::array<Colour, role_count> colours{};
  double tint = 0.0;           ///< share of the role's colour in a tinted area [-]; 0 leaves the ground
  double weight_factor = 1.0;  ///< line weights are multiplied by it
  std::string_view name{};

  const Colour& colour(Role role) const { return colours[static_cast<std::size_t>(role)]; }
  /// The role's colour thinned into the ground.
  Colour tinted(Role role) const;
};

[[nodiscard]] const Theme& theme_paper();
[[nodiscard]] const Theme& theme_slate();
[[nodiscard]] const Theme& theme_sunlight();
/// Black on white by weight and dash; blue only adds.
[[nodiscard]] const Theme& theme_print();

/// Contrast of two colours, 1 to 21. @source{WCAG22, relative luminance and contrast ratio}
[[nodiscard]] double contrast(const Colour& a, const Colour& b);

}  // namespace portwright::draw
