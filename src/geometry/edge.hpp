#pragma once
// One reading of a timed edge, whatever its form, brought to the drop of the crown edge at which the edge is passed.

#include "base/known.hpp"
#include "geometry/crank_slider.hpp"
#include "geometry/survey.hpp"

namespace portwright::geometry {

/// What an edge reading is turned round in: the crank, the crown's place at TDC and the skirt that does the opening.
struct Frame {
  const CrankSlider* slider = nullptr;  ///< null: see slider_known
  base::Known slider_known;             ///< 0, or what the slider waits for
  base::Known crown;                    ///< crown edge above the base face at TDC [m]
  base::Known skirt;                    ///< of the side that opens the window [m]; unused for the crown
};

/// Crown edge's drop [m] when the edge is passed, from a reading `value` [rad or m] of the given form.
/// `opens` of a skirt-opened window is before TDC, positive; every other angle is after TDC.
[[nodiscard]] base::Known passed_from(EdgeForm form, double value, OpenedBy by, const Frame& frame);

/// Level y [m] of the edge from a height above the base face; from other forms through passed_from.
[[nodiscard]] base::Known level_from(EdgeForm form, double value, OpenedBy by, const Frame& frame);

/// Crown drop [m] at which a window is open for `duration` [rad] of a turn.
[[nodiscard]] double drop_of_duration(const CrankSlider& slider, OpenedBy by, double duration);

/// How long a window whose edge is passed at `passed` [m] is open [rad].
[[nodiscard]] double duration_at(const CrankSlider& slider, OpenedBy by, double passed);

}  // namespace portwright::geometry
