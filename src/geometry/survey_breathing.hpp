#pragma once
// The readings of tract, reed, air box, muffler, pipe, spark, fuel and day. Inside the module only.

#include "geometry/surveyor.hpp"

namespace portwright::geometry {

/// Fills `survey.breathing`; what cannot be used stands in the survey's errors.
void survey_breathing(Surveyor& surveyor, Survey& survey, const saw::Readings& readings);

}  // namespace portwright::geometry
