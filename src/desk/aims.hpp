#pragma once
// Bands that builders steer for, as they apply to one saw. Inside the module only.

#include <optional>
#include <vector>

#include "base/number_text.hpp"
#include "saw/readings.hpp"
#include "study/figure.hpp"
#include "wire/answer.hpp"

namespace portwright::desk {

/// The aim that speaks of a figure of this saw, if there is one.
[[nodiscard]] std::optional<wire::Aim> aim_of(const study::Figure& figure, const saw::Readings& readings,
                                              base::UnitStyle style);

/// Aims of all figures, in the figures' order.
[[nodiscard]] std::vector<wire::Aim> aims_of(const std::vector<study::Figure>& figures, const saw::Readings& readings,
                                             base::UnitStyle style);

/// Cautions that go with every report.
[[nodiscard]] std::vector<std::string> cautions();

}  // namespace portwright::desk
