#pragma once
// A builder's own scatter, learnt from what was planned and what it came to.

#include <optional>
#include <span>

#include "cuts/cut.hpp"

namespace portwright::plan {

/// By hand to a mark, or on the lathe.
enum class Tool { ground, turned };

/// Of a roof, floor, side or skirt; of a face, band or crown. None for cuts that take no length off.
[[nodiscard]] std::optional<Tool> tool_of(const cuts::Cut& cut);

/// One cut of which both are known.
struct CutPair {
  cuts::Cut planned, cut;
  /// Length that is gone less the one planned [m]; positive: past it.
  [[nodiscard]] double past() const;
};

/// The cuts of two lists that are one place, the first of it with the first, the second with the second. Left out: what
/// takes no length off, and what came to the very amount planned, since nobody reads to the last digit: it was ticked,
/// not read.
[[nodiscard]] std::vector<CutPair> pairs_of(const cuts::CutList& planned, const cuts::CutList& done);

struct OwnHand {
  double sigma = 0.0;  ///< one sigma about what was planned [m]
  int cuts = 0;        ///< pairs it was learnt from
  double mean = 0.0;   ///< of the differences [m]; positive: goes past
  bool leans = false;  ///< the mean is more than chance: beyond two of its standard errors
};

/// How many pairs the default from memory counts as. Own judgement: two or three saws' worth.
inline constexpr double prior_weight = 10.0;
/// No hand is taken for surer than this share of the default. Own judgement: what a cut came to at last knows the
/// touches after the coarse cut too, and the stop mark is for the coarse one.
inline constexpr double surest_share = 0.5;

/// The posterior of a normal's variance about a known mean (nothing: the planned number), with a scaled inverse
/// chi-square prior of the default: sigma² = (N s0² + n v) / (N + n), v the mean square of the n differences.
/// About the planned number and not about their own mean, so that who goes past by habit is not taken for sure.
/// Differences count up to three of 1.4826 times the median of their sizes, or of s0 where that is more, as Huber's
/// winsorizing does: one slip, or one change of mind, does not make a hand.
/// @source{gelman_bda, 2.6} @source{huber1981, 1.7}
/// @param past differences [m]  @param prior s0 [m], above 0
[[nodiscard]] OwnHand own_hand(std::span<const double> past, double prior);

}  // namespace portwright::plan
