#pragma once
// Samples of a case: the readings' errors drawn, each sample resolved once, every cut list applied to it. Inside the
// module only.

#include <optional>
#include <span>
#include <vector>

#include "numerics/sampling.hpp"
#include "numerics/statistics.hpp"
#include "study/case.hpp"
#include "study/lean.hpp"

namespace portwright::study {

/// The seed of every study, so that one case gives the same ranges again.
inline constexpr unsigned sample_seed = 20240229;

/// The table of draws that every study of so many error sources uses. Kept from one study to the next on a thread, as
/// it depends on nothing else.
[[nodiscard]] const numerics::NormalDraws& standard_draws(std::size_t sources, int count);

/// One figure over the samples [SI]. Where a sample has no value (a clearance of nothing in it) `known` is 0.
struct Column {
  std::vector<double> values;
  std::vector<char> known;

  [[nodiscard]] std::size_t count_known() const;
};

class Samples {
 public:
  /// @param lists cut lists, null for none; column(list, entry) is theirs
  /// @param first_draw column of `draws` that moves the survey's first error source
  Samples(Case& study_case, std::span<const cuts::Prepared* const> lists, const numerics::NormalDraws& draws,
          int first_draw = 0);

  [[nodiscard]] const Column& column(std::size_t list, std::size_t entry) const {
    return columns_[list * entries_ + entry];
  }
  /// 95 % range of a figure, leaning where the figure was chosen among several; none as of range_of().
  [[nodiscard]] std::optional<numerics::Range> range(std::size_t list, std::size_t entry) const;
  /// The measures of a list at the values as read, whose choices every sample holds.
  [[nodiscard]] const Measures& as_read(std::size_t list) const { return as_read_[list]; }

 private:
  std::size_t entries_;
  std::vector<Column> columns_;
  std::vector<Measures> as_read_;
  std::vector<numerics::Tails> tails_;
};

/// The values as read, moved by one draw of every error source.
void draw_values(const geometry::Survey& survey, std::span<const double> normals, std::span<double> values);

/// b less a, sample by sample.
[[nodiscard]] Column difference(const Column& a, const Column& b);

/// What lies between two tails of the samples that have a value, the central 95 % without; none when fewer than half
/// have one, or when they do not differ.
[[nodiscard]] std::optional<numerics::Range> range_of(const Column& column, const numerics::Tails& tails = {});

/// Share of the samples with a value for which `passed` holds [-].
template <class Passed>
[[nodiscard]] double chance_of(const Column& column, Passed passed) {
  std::size_t hits = 0, all = 0;
  for (std::size_t k = 0; k < column.values.size(); ++k) {
    if (!column.known[k]) continue;
    ++all;
    if (passed(column.values[k])) ++hits;
  }
  return all == 0 ? 0.0 : static_cast<double>(hits) / static_cast<double>(all);
}

}  // namespace portwright::study
