#pragma once
// A smooth guess of several figures from scattered points where they were judged.

#include <cstddef>
#include <span>
#include <vector>

#include "seek/search.hpp"

namespace portwright::seek {

/// Cubic radial basis functions with a straight part: sum of weight times distance cubed, plus a plane. Of all such
/// surfaces whose points pass within the noise (root of the mean square) it is the one that bends least, so it follows
/// a plane exactly and noise not at all. Points may be few, lie in a plane or coincide: what they do not tell is taken
/// as flat. @source{buhmann2003} @source{reinsch1967}
class Surrogate {
 public:
  /// @param at       points, all of one length; at least one
  /// @param figures  for each figure its value at every point; finite
  /// @param noise    for each figure one sigma of what is not to be followed, in its own unit; 0 or more
  Surrogate(std::span<const Design> at, const std::vector<std::vector<double>>& figures, std::span<const double> noise);

  [[nodiscard]] std::size_t figures() const { return figures_; }
  [[nodiscard]] std::size_t amounts() const { return amounts_; }

  /// Fills the value of every figure at x, and unless `slopes` is empty their slopes, figure by figure.
  void at(std::span<const double> x, std::span<double> values, std::span<double> slopes = {}) const;

 private:
  std::size_t amounts_ = 0, figures_ = 0;
  std::vector<double> points_;   // point by point
  std::vector<double> weights_;  // point by point, a figure each
  std::vector<double> level_;    // of the plane at the middle, a figure each
  std::vector<double> tilt_;     // of the plane, figure by figure
  std::vector<double> middle_;
};

}  // namespace portwright::seek
