#pragma once
// From readings to a load, and from temperatures to words. Inside the module only.

#include <optional>
#include <string>
#include <vector>

#include "desk/case.hpp"
#include "heat/estimate.hpp"
#include "wire/heat_answer.hpp"

namespace portwright::desk {

/// Fins and fan as read, checked. Errors: a sentence each.
[[nodiscard]] base::ResultAll<heat::Cooling> cooling_of(const saw::Readings& readings);

/// The spot that was read, with its speed [rev/s]; none where none was, or not all of it.
struct SpotRead {
  heat::Spot spot;
  double speed = 0.0;
  std::string words;  ///< "plug seat, 190 °C at 8,500 rpm"
};
/// Error (unreadable): where it was read cannot be told from its words.
[[nodiscard]] base::Result<std::optional<SpotRead>> spot_of(const saw::Readings& readings);

/// Differences [K] with their text.
[[nodiscard]] wire::HeatDifference difference_of(const heat::Told& told);
/// A temperature [K] in degrees, with its text.
[[nodiscard]] wire::HeatDegrees degrees_of(const heat::Told& told);

/// What a list of loads shows under the same sets, member by member.
struct HeatSides {
  std::vector<heat::Seen> now, stock;  ///< `stock` is empty without cuts
  bool calibrated = false;
};
[[nodiscard]] std::vector<wire::HeatPlace> places_of(const HeatSides& sides);
[[nodiscard]] std::vector<study::Figure> heat_figures(const HeatSides& sides, base::UnitStyle style);
/// Limits that speak of them, worst first; without a value, what the cuts make worse. With letters.
[[nodiscard]] std::vector<study::Finding> heat_findings(const std::vector<study::Figure>& figures,
                                                        base::UnitStyle style);
/// @param trapped  change of the charge that a turn traps [-]; none: no turn was run anew
[[nodiscard]] wire::HeatEffect effect_of(std::string what, const std::vector<heat::Seen>& was,
                                         const std::vector<heat::Seen>& now, std::optional<double> trapped);
[[nodiscard]] std::vector<wire::HeatShare> shares_of(const std::vector<heat::Seen>& seen, double burnt);
/// @param runs  one soak for each of some sets
[[nodiscard]] wire::HeatSoak soak_of(const std::vector<std::vector<heat::SoakInstant>>& runs, double day);

/// What may be read out of the answer.
[[nodiscard]] std::string promise_of(bool calibrated, const std::optional<SpotRead>& spot, bool fitted);

/// Rows of the table of heat as what every map takes for granted.
[[nodiscard]] std::vector<study::Assumed> heat_assumed();

}  // namespace portwright::desk
