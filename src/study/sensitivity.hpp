#pragma once
// How much each reading, and each cause of error, moves each figure. Inside the module only.

#include <vector>

#include "study/case.hpp"

namespace portwright::study {

class Sensitivity {
 public:
  /// Central differences over every input, one sigma to either side (a millionth of the value where it has none).
  Sensitivity(Case& study_case, const cuts::Prepared* cuts);

  /// Change of a figure for one sigma of an error source [SI of the figure]; readings of one set-up move together.
  [[nodiscard]] double of_source(std::size_t source, std::size_t entry) const;
  /// Whether a reading or assumption moves a figure at all.
  [[nodiscard]] bool moves(std::size_t input, std::size_t entry) const { return slopes_[input][entry] != 0.0; }
  /// Sum of squares over all sources [SI²].
  [[nodiscard]] double variance(std::size_t entry) const;
  /// Figure over reading [SI].
  [[nodiscard]] double slope(std::size_t input, std::size_t entry) const { return slopes_[input][entry]; }

 private:
  const geometry::Survey* survey_;
  std::vector<std::vector<double>> slopes_;  ///< by input and entry
};

}  // namespace portwright::study
