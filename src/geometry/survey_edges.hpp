#pragma once
// Edges read more than once: weighed by their errors, held against each other. Inside the module only.

#include "geometry/surveyor.hpp"

namespace portwright::geometry {

/// Fills the roof and floor of `port` from whatever forms they were read in.
void read_edges(Surveyor& surveyor, Survey& survey, PortSlots& port, const saw::Edges& edges, const std::string& path,
                const std::string& kind);

/// After every reading has its number: edges known both ways, weights, contradictions, edges that cannot be, the
/// wheel's verdict.
void settle_edges(Surveyor& surveyor, Survey& survey);

}  // namespace portwright::geometry
