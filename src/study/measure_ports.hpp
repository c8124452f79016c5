#pragma once
// The figures of ports, of all ports of a kind, and of rings. Inside the module only.

#include "study/measure.hpp"

namespace portwright::study {

/// Fills ports, groups, blowdown and stagger.
void measure_ports(const geometry::Engine& engine, double speed, const Wants& wants, Measures& out);

/// Fills rings.
void measure_rings(const geometry::Engine& engine, const geometry::WindowMap& map, const Wants& wants, Measures& out);

}  // namespace portwright::study
