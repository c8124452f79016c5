#pragma once
// Looks for the best design of a few amounts where each judgement costs a good part of a second: judged designs teach a
// smooth guess of every figure, the guess is climbed within what holds, and what it finds is judged in its turn, some
// designs side by side. Knows no engine.

#include <cstddef>
#include <functional>
#include <span>
#include <vector>

namespace portwright::seek {

/// Amounts of the free cuts, each as a share of its greatest, 0..1.
using Design = std::vector<double>;

/// Where designs may lie: the unit box, flat sides, and smooth conditions. All of it is known exactly and costs next to
/// nothing, so none of it is guessed.
struct Space {
  std::size_t free = 0;  ///< amounts
  /// One flat side: sum of slope k times amount k, plus offset, is no less than 0 inside. Scaled so that 1 is far.
  struct Side {
    std::vector<double> slope;
    double offset = 0.0;
  };
  std::vector<Side> sides = {};
  /// Conditions that are curved: fills one number for each, scaled so that 1 is far; smooth.
  std::function<void(const Design&, std::span<double>)> curved = {};
  std::size_t no_less = 0;  ///< so many of them, first, must be 0 or more
  std::size_t equal = 0;    ///< so many, after those, must be 0

  /// The worst of all conditions at a design; 0 or more inside (equalities count as less than 0 by how far they are
  /// off).
  [[nodiscard]] double worst(const Design& x) const;
};

/// What a design comes to.
struct Judged {
  bool possible = false;      ///< false: it cannot be cut or turned; the figures say nothing
  std::vector<double> gains;  ///< [0] the aim; then what else is weighed against it. More is better. Scaled: 1 % of
                              ///< stock is 0.01
  std::vector<double> holds;  ///< no less than 0 where a condition that only judging tells is held
};

struct Tried {
  Design design;
  Judged judged;
};

/// Judges some designs side by side, in their order. May give fewer: it was told to stop, and the rest was not judged.
using Judge = std::function<std::vector<Judged>(std::span<const Design> designs)>;

/// How far the search is; returns whether to stop. Asked after every round.
using TellSearch = std::function<bool(std::span<const Tried> tried)>;

struct SearchPlan {
  std::size_t most = 240;     ///< designs judged, those of before among them
  std::size_t together = 6;   ///< designs a round
  double least_step = 0.004;  ///< the search ends when it looks no farther about the best than this [share]
  double noise = 1e-4;        ///< of a judged gain, one sigma: the guess need not pass nearer than this
  unsigned seed = 1;
};

/// Why it ended. No more to gain: about the best there is nothing to look for farther off than the least step, or the
/// guess promises less than the noise, twice in a row; with several gains not before their front hardly grows. Nothing
/// possible: no design is inside, or none that was tried is possible and holds, and no more was to be gained.
enum class End { no_more_to_gain, as_many_as_asked, stopped, nothing_possible };

struct Found {
  std::vector<Tried> tried;  ///< in the order of judging
  End end = End::stopped;
};

/// Searches; the same designs for the same plan and judgements. A design of nothing (all 0) is judged first where the
/// space holds it. Designs are inside to 1e-6 of the space's conditions. Judged figures that are no numbers, or not as
/// many as the first, count as impossible. Throws only what the functions given throw.
/// @param before  what an earlier search judged, in its order: it goes on from there
[[nodiscard]] Found search(const Space& space, const Judge& judge, const SearchPlan& plan,
                           std::vector<Tried> before = {}, const TellSearch& tell = {});

/// Place of the best aim among those that are possible and hold; tried.size() for none.
[[nodiscard]] std::size_t best_of(std::span<const Tried> tried);

/// Places of those that no other beats in every gain at once, best aim first.
[[nodiscard]] std::vector<std::size_t> front_of(std::span<const Tried> tried);

}  // namespace portwright::seek
