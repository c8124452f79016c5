#pragma once
// A rubbing against what else was read of its window. Inside the module only.

#include "geometry/surveyor.hpp"

namespace portwright::geometry {

/// Where both edges of a traced window were read, their distance is held against the outline's own. What chance does
/// not explain is named, the outline is kept, and the range of its height is made to hold both.
void hold_outlines(Surveyor& surveyor, Survey& survey);

}  // namespace portwright::geometry
