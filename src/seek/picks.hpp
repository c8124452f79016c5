#pragma once
// Which designs to judge next.

#include <span>
#include <vector>

#include "seek/guess.hpp"
#include "seek/search.hpp"
#include "seek/spread.hpp"
#include "seek/tops.hpp"

namespace portwright::seek {

/// What one design was picked for.
enum class For { aim, balance, exploring };

struct Pick {
  Design design;
  For why = For::aim;
  bool nearby = false;  ///< the top of the aim within the radius
};

struct Picks {
  std::vector<Pick> designs;
  double promise = 0.0;   ///< of the aim, over the best; where nothing holds yet, of what is missed least
  double widening = 0.0;  ///< by how much of its width the front is to grow, the most of all picks
  std::size_t balanced = 0;
};

/// Picks designs of which none is nearer than `apart` to another or to a tried one.
[[nodiscard]] Picks pick(const Space& space, std::span<const Tried> tried, const Guess& guess, const Look& look,
                         std::size_t count, double apart, Walk& walk, Walk& turning);

/// Place of the design about which to look: the best, or where nothing holds the one that misses least.
[[nodiscard]] std::size_t centre_of(std::span<const Tried> tried);

}  // namespace portwright::seek
