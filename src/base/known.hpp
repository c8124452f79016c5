#pragma once
// A number that is known, or the set of readings it waits for. Arithmetic carries what is waited for along, so a figure
// made from five readings names exactly those of the five that are missing.

#include <array>
#include <cmath>
#include <cstdint>

namespace portwright::base {

/// A set of readings not yet taken, as small numbers given out by whoever builds the engine. Up to 256.
struct Needs {
  std::array<std::uint64_t, 4> bits{};

  static constexpr Needs of(int reading) {
    Needs needs;
    needs.bits[static_cast<std::size_t>(reading) >> 6] = std::uint64_t{1} << (reading & 63);
    return needs;
  }
  constexpr bool none() const { return (bits[0] | bits[1] | bits[2] | bits[3]) == 0; }
  constexpr bool has(int reading) const {
    return (bits[static_cast<std::size_t>(reading) >> 6] >> (reading & 63) & 1U) != 0;
  }
  friend constexpr Needs operator|(Needs a, const Needs& b) {
    for (std::size_t i = 0; i < 4; ++i) a.bits[i] |= b.bits[i];
    return a;
  }
  friend constexpr bool operator==(const Needs&, const Needs&) = default;
};

/// A number [SI, as its user says], or what it waits for. The value of an unknown is 0 and is never read.
class Known {
 public:
  constexpr Known() = default;                      ///< known to be 0
  constexpr Known(double value) : value_(value) {}  // NOLINT: a number is a known number
  static constexpr Known waits_for(Needs needs) {
    Known k;
    k.needs_ = needs;
    return k;
  }
  static constexpr Known waits_for(int reading) { return waits_for(Needs::of(reading)); }

  constexpr bool known() const { return needs_.none(); }
  constexpr explicit operator bool() const { return known(); }
  /// The number; call only when known.
  constexpr double operator*() const { return value_; }
  constexpr double value_or(double other) const { return known() ? value_ : other; }
  constexpr const Needs& needs() const { return needs_; }

  friend constexpr Known operator+(const Known& a, const Known& b) { return combine(a, b, a.value_ + b.value_); }
  friend constexpr Known operator-(const Known& a, const Known& b) { return combine(a, b, a.value_ - b.value_); }
  friend constexpr Known operator*(const Known& a, const Known& b) { return combine(a, b, a.value_ * b.value_); }
  friend constexpr Known operator/(const Known& a, const Known& b) {
    return combine(a, b, b.value_ != 0.0 ? a.value_ / b.value_ : 0.0);
  }
  constexpr Known operator-() const { return known() ? Known(-value_) : *this; }
  Known& operator+=(const Known& b) { return *this = *this + b; }
  Known& operator-=(const Known& b) { return *this = *this - b; }

 private:
  static constexpr Known combine(const Known& a, const Known& b, double value) {
    if (a.known() && b.known()) return Known(value);
    return waits_for(a.needs_ | b.needs_);
  }
  double value_ = 0.0;
  Needs needs_{};
};

/// f(a) when a is known, else what a waits for.
template <class F>
constexpr Known apply(const Known& a, F&& f) {
  return a.known() ? Known(f(*a)) : a;
}
template <class F>
constexpr Known apply(const Known& a, const Known& b, F&& f) {
  return a.known() && b.known() ? Known(f(*a, *b)) : Known::waits_for(a.needs() | b.needs());
}
template <class F>
constexpr Known apply(const Known& a, const Known& b, const Known& c, F&& f) {
  return a.known() && b.known() && c.known() ? Known(f(*a, *b, *c))
                                             : Known::waits_for(a.needs() | b.needs() | c.needs());
}

}  // namespace portwright::base
