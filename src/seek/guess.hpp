#pragma once
// What is guessed of designs that were not judged yet, from those that were.

#include <optional>
#include <span>
#include <vector>

#include "seek/search.hpp"
#include "seek/surrogate.hpp"

namespace portwright::seek {

/// Whether the figures of a judged design can be learnt from: it is possible, they are finite and as many as they
/// should.
[[nodiscard]] bool is_sound(const Judged& judged, std::size_t gains, std::size_t holds);

/// Guesses the gains, then the holds, then, where some designs came out impossible, how possible a design is: 1 where
/// it surely is, less than 0 where it surely is not. What is far below the best is drawn in by its logarithm, so that a
/// cliff far from where anybody wants to be does not make waves near it.
class Guess {
 public:
  /// @param tried  with one sound design at least
  Guess(std::span<const Tried> tried, double noise);

  [[nodiscard]] std::size_t gains() const { return gains_; }
  /// Conditions: holds, and possibility where it is in doubt.
  [[nodiscard]] std::size_t conditions() const { return figures() - gains_; }
  [[nodiscard]] std::size_t figures() const { return smooth_->figures() + (possible_ ? 1 : 0); }

  void at(std::span<const double> x, std::span<double> values, std::span<double> slopes = {}) const;
  [[nodiscard]] std::vector<double> at(const Design& x) const;

 private:
  std::size_t gains_ = 0;
  std::optional<Surrogate> smooth_, possible_;
};

}  // namespace portwright::seek
