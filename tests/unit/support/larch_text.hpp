#pragma once
// The invented saw of 70 cm³ on which the table of cuts was worked out, with the intake read at 75 deg.

#include <string>

namespace portwright::bench {

inline const std::string larch_text = R"(
name = "Larch 70"
[crank]
bore = "50.0 mm"
stroke = "36.0 mm"
rod = "65.0 mm"
pin_offset = "0 mm"
[piston]
skirt_exhaust = "38.0 mm"
skirt_intake = "38.0 mm"
skirt_side = "30.0 mm"
skirt_exhaust_width = "34 mm"
pin_below_crown = "22.0 mm"
pin_diameter = "11 mm"
dome = "2.0 mm"
[[piston.ring]]
below_crown = "3.0 mm"
height = "1.5 mm"
radial = "1.9 mm"
peg = "150 deg"
end_gap = "0.25 mm"
free_gap = "7 mm"
[cylinder]
crown_at_tdc = "61.0 mm"
base_gasket = "0.5 mm"
squish = { exhaust = "0.89 mm", intake = "0.89 mm" }
squish_band = "6.0 mm"
chamber = "8.9 cc"
chamber_filled_to = "thread bottom"
spigot_clearance = "1.0 mm"
pin_axis = "90 deg"
thrust = "180 deg"
[case]
volume = "250 cc"
volume_at = "tdc"
[[port]]
name = "exhaust"
kind = "exhaust"
opens = "103 deg"
floor = "25.2 mm"
width = "28.0 mm"
corner_roof = "5 mm"
corner_floor = "5 mm"
duct = { length = "45 mm", outlet = "4.5 cm2", tilt = "10 deg" }
[[port]]
name = "primary"
kind = "transfer"
centre = "65 deg"
mirrored = true
opens = "121 deg"
floor = "25.2 mm"
width = "16.0 mm"
[port.passage]
length = "70 mm"
bend = "70 deg"
tilt = "15 deg"
foot = "2.0 cm2"
gasket = "2.0 cm2"
mouth = "1.6 cm2"
[[port]]
name = "intake"
kind = "intake"
centre = "180 deg"
opens = "75 deg"
roof = "19.5 mm"
width = "26 mm"
[intake]
kind = "skirt"
[carburettor]
venturi = "20 mm"
[muffler]
outlets = ["1.4 cm2"]
[ignition]
shaft = "12 mm"
[drive]
chain_pitch = "3/8 in"
teeth = 7
[impulse]
where = "base"
[readings]
gauge_compression = "130 psi"
no_load = "12500 rpm"
in_cut = "8500 rpm"
)";

}  // namespace portwright::bench
