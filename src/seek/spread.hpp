#pragma once
// Points spread evenly over a space: where a search starts, and what it looks over.

#include <optional>
#include <span>
#include <vector>

#include "seek/search.hpp"

namespace portwright::seek {

/// Points of the unit box, evenly spread however many are drawn: multiples of powers of the number that solves
/// a^(n+1) = a + 1, each without its whole part, from a seeded start. Such walks @source{niederreiter1992}, this number
/// @source{memory}.
class Walk {
 public:
  Walk(std::size_t amounts, unsigned seed);
  Design next();

 private:
  std::vector<double> step_, at_;
};

/// Greatest difference in any amount.
[[nodiscard]] double distance(const Design& a, const Design& b);
/// The least of that to any of them; greater than 1 for none.
[[nodiscard]] double nearest(std::span<const Design> to, const Design& x);

/// Within the space, rounding aside.
[[nodiscard]] bool is_inside(const Space& space, const Design& x);

/// On the line from a point inside towards another: as far as is inside, going back by halves. For spaces with
/// equalities the point of the space nearest to the other; none where none is found.
[[nodiscard]] std::optional<Design> towards(const Space& space, const Design& from, const Design& to);

/// Designs to start with, not nearer than `apart` to each other or to `known`: nothing if it is inside, then up to
/// `count` spread over the space. Empty where no design is inside.
[[nodiscard]] std::vector<Design> start_designs(const Space& space, std::size_t count, double apart, Walk& walk);

}  // namespace portwright::seek
