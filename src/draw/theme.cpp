#include "draw/theme.hpp"

#include <cmath>

namespace portwright::draw {
namespace {

constexpr Colour hex(std::uint32_t rgb) {
  return {static_cast<std::uint8_t>(rgb >> 16 & 0xffU), static_cast<std::uint8_t>(rgb >> 8 & 0xffU),
          static_cast<std::uint8_t>(rgb & 0xffU)};
}

// In the order of Role: ink, reason, stock, marking blue, caution, stop, exhaust, transfers, intake, metal, rule,
// ground.
constexpr Theme paper{{hex(0x1b1a17), hex(0x57534a), hex(0x6f6a5f), hex(0x1340b8), hex(0x8a5200), hex(0xa11414),
                       hex(0xb5441a), hex(0x0b7263), hex(0x5e2370), hex(0x8d8778), hex(0xbdb6a5), hex(0xf7f4ea)},
                      0.13,
                      1.0,
                      "paper"};
constexpr Theme slate{{hex(0xefebdf), hex(0xbcb8ab), hex(0xa8a598), hex(0x93bbff), hex(0xf0b45a), hex(0xff8f82),
                       hex(0xf0946a), hex(0x62c9b5), hex(0xe2bdf0), hex(0x747b73), hex(0x555c56), hex(0x272e2b)},
                      0.16,
                      1.0,
                      "slate"};
constexpr Theme sunlight{{hex(0x000000), hex(0x222222), hex(0x4a4a4a), hex(0x0022b0), hex(0x000000), hex(0x000000),
                          hex(0x000000), hex(0x000000), hex(0x000000), hex(0x8a8a8a), hex(0x767676), hex(0xffffff)},
                         0.0,
                         1.55,
                         "sunlight"};
constexpr Theme print{{hex(0x000000), hex(0x333333), hex(0x4a4a4a), hex(0x1340b8), hex(0x000000), hex(0x000000),
                       hex(0x000000), hex(0x000000), hex(0x000000), hex(0x6a6a6a), hex(0x767676), hex(0xffffff)},
                      0.0,
                      1.0,
                      "print"};

double luminance(const Colour& c) {
  const auto linear = [](std::uint8_t v) {
    const double s = v / 255.0;
    return s <= 0.04045 ? s / 12.92 : std::pow((s + 0.055) / 1.055, 2.4);
  };
  return 0.2126 * linear(c.red) + 0.7152 * linear(c.green) + 0.0722 * linear(c.blue);
}

}  // namespace

Colour Theme::tinted(Role role) const {
  const Colour over = colour(role), under = colour(Role::ground);
  const auto mix = [&](std::uint8_t a, std::uint8_t b) {
    return static_cast<std::uint8_t>(std::lround(tint * a + (1 - tint) * b));
  };
  return {mix(over.red, under.red), mix(over.green, under.green), mix(over.blue, under.blue)};
}

const Theme& theme_paper() { return paper; }
const Theme& theme_slate() { return slate; }
const Theme& theme_sunlight() { return sunlight; }
const Theme& theme_print() { return print; }

double contrast(const Colour& a, const Colour& b) {
  const double la = luminance(a), lb = luminance(b);
  return (std::fmax(la, lb) + 0.05) / (std::fmin(la, lb) + 0.05);
}

}  // namespace portwright::draw
