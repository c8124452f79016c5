#pragma once
// The readings' errors as every study draws them, for who has to ask another question of the same samples.

#include <vector>

#include "geometry/survey.hpp"

namespace portwright::study {

/// Values of every input of the survey in each sample, in the order of Survey::inputs: those that every study of so
/// many samples is made from, errors shared within a set-up drawn once. Takes geometry::resolve(survey, values,
/// engine).
/// @param count of samples, above 0
[[nodiscard]] std::vector<std::vector<double>> drawn_values(const geometry::Survey& survey, int count);

}  // namespace portwright::study
