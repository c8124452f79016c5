#pragma once
// Tops of the guess, of one figure or of several at once, within the space and what is guessed to hold.

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "seek/guess.hpp"
#include "seek/search.hpp"

namespace portwright::seek {

/// How a round looks about.
struct Look {
  double radius = 0.4;         ///< about the best [share]
  std::vector<double> margin;  ///< by which guessed holds are to be more than held
  double doubt = 0.0;          ///< likewise of what is guessed possible
  bool aim = true;             ///< whether the aim is still climbed, or only weighed against the rest
  std::size_t picked = 0;      ///< in earlier rounds
  std::size_t balanced = 0;    ///< of them for the balance of the gains
};

/// A figure as it counts: its distance from an offset, scaled.
struct Part {
  std::size_t figure = 0;
  double offset = 0.0, scale = 1.0;
  [[nodiscard]] double of(std::span<const double> figures) const { return scale * (figures[figure] - offset); }
};

/// The least of some parts, and of several a little of their sum with it, so that none stays behind for nothing.
[[nodiscard]] double least_of(std::span<const Part> parts, std::span<const double> figures);

/// So far about a design, within the unit box.
struct Box {
  Design least, most;
  Box(const Design& centre, double radius);
};

/// Climbs the least of some parts of the guess within the space and what is guessed to hold.
class Climber {
 public:
  Climber(const Space& space, const Guess& guess, const Look& look)
      : space_(space), guess_(guess), look_(look), values_(guess.figures()), slopes_(guess.figures() * space.free) {}

  /// The best top from all of the starts; `hold` is whether guessed holds bind. What is guessed possible always does.
  [[nodiscard]] std::optional<Design> top(const std::vector<Part>& parts, bool hold, const Box& box,
                                          std::span<const Design> starts);

  /// How far guessed conditions are missed, as figures of a point tell; 0 where all hold.
  [[nodiscard]] double missed(std::span<const double> figures) const;

 private:
  const Space& space_;
  const Guess& guess_;
  const Look& look_;
  std::vector<double> at_, values_, slopes_;  // the guess at one point, worked out once for height and conditions
  const std::vector<Part>* parts_ = nullptr;
  bool lifted_ = false;
  std::size_t first_held_ = 0;

  [[nodiscard]] double margin(std::size_t condition) const;
  void look(const std::vector<double>& x);
  void add(std::span<double> to, const Part& part, double by) const;
  double height(const std::vector<double>& x, std::span<double> slope);
  void conditions(const std::vector<double>& x, std::span<double> values, std::span<double> slopes);
};

}  // namespace portwright::seek
