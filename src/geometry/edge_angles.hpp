#pragma once
// Angles of one edge against each other while the stroke is unknown. Inside the module only.

#include "geometry/surveyor.hpp"

namespace portwright::geometry {

/// Opening, closing and duration of one edge can be compared without a crank: all are symmetrical about the dead
/// centres but for the hundredths of a pin offset. Angles that chance does not explain are named, and the range of
/// their mean is made to hold them all. Edges whose drop is known are held against each other there, by settle_edges().
void hold_angles(Surveyor& surveyor, Survey& survey);

}  // namespace portwright::geometry
