#pragma once
// What corners, edges and steps of a passage cost, as K of the dynamic pressure ½ rho u².

namespace portwright::flow {

/// Entrance from a wide space with an edge of the given radius over bore, on the duct's speed; linear between the rows
/// of the handbook, 0.03 beyond 0.2. @source{idelchik, diagram 3-7}
[[nodiscard]] double loss_entrance(double radius_over_bore);

/// Something that leaves `open` of a passage's area `whole`, the stream contracting to `discharge` of it and filling
/// the passage again behind, on the passage's speed: (whole / (discharge open) - 1)². Borda-Carnot from the contracted
/// stream. 0 where nothing narrows.
[[nodiscard]] double loss_mouth(double whole, double open, double discharge);

}  // namespace portwright::flow
