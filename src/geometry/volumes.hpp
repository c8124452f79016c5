#pragma once
// Volumes over and under the piston.

#include "base/known.hpp"

namespace portwright::geometry {

struct Engine;

/// Volume of a plug hole [m³]: a cylinder of the thread's nominal diameter [m] and the plug's reach [m]. A plug fills
/// its hole, so liquid filled to the plug's seat stands this much above the chamber.
/// @source{practice}
[[nodiscard]] base::Known plug_hole(const base::Known& thread, const base::Known& reach);

/// Height of the cap that a circle of radius `inner` cuts from a spherical dome that is `dome` high on a base of radius
/// `outer` [m]. Exact and without cancellation for any dome, also a negative one (a dish); 0 for a flat crown.
[[nodiscard]] double cap_height(double outer, double inner, double dome);

/// Volume of a spherical cap of height `height` [m] on a circle of radius `radius` [m³]; negative for a dish.
[[nodiscard]] double cap_volume(double radius, double height);

/// What the chamber is built from when it was not filled with liquid. Lengths [m], volumes [m³].
struct ChamberParts {
  base::Known bore, squish, band, bowl, dome, decompression;
};

/// Volume over the piston at TDC [m³]: the gap `squish` over the whole bore and the bowl, less the cap of the piston's
/// dome inside the band's inner circle, plus the decompression pocket.
///
/// The dome is a sphere over the whole crown and the band runs parallel to it, so only the cap inside the band stands
/// in the bowl. The bowl is what lies above the plane of the band's inner edge. A band of half the bore or more leaves
/// no bowl's circle, so no cap.
/// @source{practice}
[[nodiscard]] base::Known built_chamber(const ChamberParts& parts);

/// The same from its parts one by one, in the order of ChamberParts.
[[nodiscard]] base::Known built_chamber(const base::Known& bore, const base::Known& squish, const base::Known& band,
                                        const base::Known& bowl, const base::Known& dome,
                                        const base::Known& decompression);

/// (volume + chamber) / chamber [-]; chamber > 0.
[[nodiscard]] base::Known ratio_over(const base::Known& volume, const base::Known& chamber);

/// Volume left over the piston's TDC place when the crown edge is at `drop` [m³]: bore area times drop, drop held to
/// 0..stroke [m].
[[nodiscard]] base::Known volume_at(const Engine& engine, const base::Known& drop);

/// The case's own compression, volume at TDC over volume at BDC [-]; the case at TDC must be greater than the swept
/// volume.
[[nodiscard]] base::Known case_ratio(const Engine& engine);

}  // namespace portwright::geometry
