#pragma once
// A range that knows its figure was chosen: the least, first, lowest ... of several, on readings that err. Inside the
// module only.

#include <span>
#include <vector>

#include "geometry/survey.hpp"
#include "numerics/statistics.hpp"
#include "study/figures.hpp"

namespace portwright::study {

/// What is chosen among several on the values as read.
enum class Choice {
  group_first,
  transfer_first,
  transfer_last,
  exhaust_closes,
  exhaust_floor,
  intake_floor,
  crown_floor,
  intake_roof,
  narrowest,
  peg,
  bow,
  pin,
  wall,
  squish_least,
  squish_greatest,
};

/// How much one of those not chosen counts as a rival of the one that was [-], 0..1.
///
/// Fully when the gap between the two is not told apart from nought, that is when 2.5 % or more of its normal law lie
/// beyond nought; less by that share when less does. An error that both share moves no gap and makes no rival: of two
/// read equally rough the weight is at most the root of 1 less their correlation, which is the gap's sigma over root 2
/// times that of one.
/// @param gap between the two as read, of either sign
/// @param gap_sigma of the gap; 0: they err together and cannot change places
/// @param sigma of the chosen one
[[nodiscard]] double rival_weight(double gap, double gap_sigma, double sigma);

/// Shares of the samples beyond the ends of a 95 % range of what was chosen among m that could have been.
///
/// The one read least is chosen, so its reading lies low. Of m alike the truth misses the range above it when any of
/// the m was read so far low, in m times that end's tail. It misses below when the one chosen was read far high: of m
/// alike hardly ever, but where one is read finely and its rivals roughly, as often as if it were alone. So the lower
/// tail is 2.5 % / m and the upper takes what is left of the 5 %, over m: 2.5 % each for m = 1, together never more
/// than 5 %, and the wider the more could have been chosen. tests/property tries it on random sets.
/// @source{memory, Bonferroni's inequality; the rule is derived here}
/// @param contenders m: 1 and the weights of the rivals
/// @param read_low whether the choice draws the reading down, so that the truth is likely above it
[[nodiscard]] numerics::Tails chosen_tails(double contenders, bool read_low);

/// How the choices stood in the possible saws of one study.
class Contests {
 public:
  Contests() = default;
  /// @param as_read measures of the values as read; its choices are what the possible saws hold
  Contests(const geometry::Survey& survey, const Measures& as_read, std::span<const double> values);

  /// Adds one possible saw. No allocation.
  void add(const Measures& measures, std::span<const double> values);

  /// m of one choice: 1 where nothing else could have been chosen.
  [[nodiscard]] double contenders(Choice choice, std::size_t index) const;

  /// Tails of a figure's 95 % range: 2.5 % each unless the figure depends on a choice.
  [[nodiscard]] numerics::Tails tails(const Entry& entry) const;

  /// One value of each that could be chosen; the first is the chosen one.
  using Levels = geometry::Few<Known, 17>;

 private:
  /// Sums over the possible saws of what lies off the value as read.
  struct Sums {
    double as_read = 0.0, sum = 0.0, squares = 0.0;
    int count = 0;
    [[nodiscard]] double sigma() const;
  };
  struct Contest {
    Choice choice;
    std::size_t index;
    std::vector<std::size_t> of;  ///< ports or places, the chosen one first; empty where Measures holds the rivals
    Sums chosen;
    std::vector<Sums> gaps;  ///< of the others, in the order of levels()

    [[nodiscard]] double weight(std::size_t rival) const;
    [[nodiscard]] double contenders() const;
  };

  void hold_ports(Choice choice, int chosen, bool (*picks)(geometry::PortKind), std::size_t index = 0);
  void hold_walls(const Measures& as_read);
  void hold_squish(Choice choice, std::size_t chosen);
  void hold(Choice choice, std::size_t index, std::vector<std::size_t> of);
  [[nodiscard]] Levels levels(const Contest& contest, const Measures& measures, std::span<const double> values) const;
  [[nodiscard]] const Contest* find(Choice choice, std::size_t index) const;
  [[nodiscard]] double contenders_of_a_span(Choice least, Choice greatest) const;

  const geometry::Survey* survey_ = nullptr;
  std::vector<Contest> contests_;
};

}  // namespace portwright::study
