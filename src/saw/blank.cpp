// The file to fill at the bench.
#include "saw/file.hpp"
#include "saw/toml_text.hpp"

namespace portwright::saw {
namespace {

constexpr const char* head =
    R"(# Readings of one saw. Take the # off a line and put your own number in its place: number and unit, "50.0 mm",
# "47 thou", "1 3/16 in", "103 deg". Leave out what you did not measure; every figure that can be had is had, the others
# name the reading they wait for. The numbers below are examples, not advice.
#   several readings of one place:   squish = ["0.034 in", "0.036 in"]
#   how sure you are, one sigma:     opens = "103 deg +- 0.5"
#   with what, and in which set-up:  roof = { value = "36.2 mm", with = "caliper", setup = "gauge 1", note = "" }
# Readings of one set-up share an error: the wheel's zero, the height gauge's datum. Name it when you set it up anew.
format = "portwright saw 1"
)";

constexpr const char* assembled = R"(# model = "..."                          # free words that tie sisters together
# casting = "..."                        # letters cast into cylinder and case
# state = "as received"                  # or "stock", "after cut 3": heights are from the base face as it is now

# [aim]
# use = "work"                           # stock, work or race

# ---------------------------------------------------------------- 1. Before anything is undone
# [readings]                             # what the saw does now, to judge the estimate by
# stock_power = "3.6 kW at 9000 rpm"     # a maker's sheet or a dynamometer
# gauge_compression = "130 psi"          # warm, throttle open, until the needle stands
# gauge_volume = "3 cc"                  # what the gauge and its hose add, up to its valve
# no_load = "12500 rpm"
# in_cut = "8500 rpm"
# spot = { where = "plug seat", value = "190 C", at = "8500 rpm" }

# [day]
# altitude = "300 m"
# temperature = "20 C"
# humidity = "50 %"

# [fuel]
# octane = "91 pump"                     # pump is (R+M)/2; or "95 research", "86 motor"
# air_fuel = 12.8                        # a plain number: air to mixture

# [drive]
# chain_pitch = "3/8 in"
# teeth = 7                              # a plain number
# bar = "24 in"
# clutch_engages = "3800 rpm"
# wood = "40 cm"                         # what it mostly cuts

# ---------------------------------------------------------------- 2. Muffler, air box, carburettor, ignition off
# [muffler]
# boxes = ["350 cc"]                     # fill with water, each box
# baffles = ["1.8 cm2"]                  # areas between boxes, one fewer than boxes
# outlets = ["1.4 cm2"]
# screen = true

# [pipe]                                 # only with a tuned pipe
# profile = [["0 mm", "30 mm"], ["200 mm", "38 mm"]]   # place along it, bore there

# [air_box]
# volume = "400 cc"
# filter = "1.5 kPa"                     # loss at 20 litres a second

# [carburettor]
# venturi = "20 mm"                      # the narrowest place
# throttle = "22 mm"                     # bore at the throttle plate

# [ignition]
# advance = "26 deg"                     # with a timing light, at working speed
# curve = [["800 rpm", "8 deg"], ["9000 rpm", "26 deg"]]
# limiter = "13500 rpm"
# shaft = "12 mm"                        # at the flywheel key, where the key is offset

# [intake]
# kind = "skirt"                         # skirt, reed into case, reed behind a window
# tract = { length = "60 mm", bore = "22 mm" }
# [intake.reed]                          # only with a reed
# petals = 4                             # a plain number
# length = "30 mm"                       # free length, from clamp to tip
# width = "20 mm"
# thickness = "0.40 mm"
# material = "glass epoxy"
# window = { length = "24 mm", width = "17 mm" }
# stop = "8 mm"                          # lift at the tip that the stop allows
# block_angle = "35 deg"

# [impulse]
# where = "base"                         # base, case or none: a missing gasket may cover it

)";

constexpr const char* head_on =
    R"(# ---------------------------------------------------------------- 3. Cylinder on, degree wheel on the crank
# Find TDC with a positive stop from both sides. Write edges as the wheel shows them: exhaust, transfer and boost open in
# degrees after TDC (roof, crown edge going down); an intake or air window opens in degrees before TDC (its floor, skirt going
# up). Reading an edge opening and closing cancels what is left of the wheel's zero error.

# [crank]
# bore = "50.0 mm"
# stroke = "36.0 mm"                     # height gauge on the crown, from one dead centre to the other
# rod = "65.0 mm"                        # centre to centre; leave it out when you do not know it
# pin_offset = "0 mm"                    # positive toward the side pressed on the power stroke

# [cylinder]
# crown_at_tdc = "61.0 mm"               # crown edge above the base face at TDC, gasket fitted and torqued
# crown_above_deck = "61.45 mm"          # the same from the case's deck, cylinder off
# base_gasket = "0.45 mm"                # compressed
# squish = { exhaust = "0.034 in", intake = "0.036 in" }   # solder over the pin's two ends: places; a list is repeats
# squish_band = "6.0 mm"                 # width of the band
# chamber = "8.9 cc"                     # liquid at TDC, ring gap greased, decompression valve shut, saw level
# chamber_filled_to = "thread bottom"    # or "plug seat"
# bowl = "5 cc"                          # the chamber inside the band, cylinder off
# decompression = "0.3 cc"
# plug_thread = "14 mm"
# plug_reach = "9.5 mm"
# spigot_clearance = "1.0 mm"            # spigot end to what it meets in the case, gasket fitted
# pin_axis = "90 deg"                    # direction of the piston pin, round the bore: 0 at the exhaust, clockwise from the plug
# thrust = "180 deg"                     # side pressed on the power stroke
# plated = true

# [case]
# volume = "250 cc"
# volume_at = "tdc"                      # tdc, bdc or an angle

)";

constexpr const char* cylinder_off =
    R"(# ---------------------------------------------------------------- 4. Cylinder off: every window
# Heights from the flange, not from the spigot below it. Widths are chords, straight across. Edges at the bore, bevels outside.
# One [[port]] for each window; mirrored = true makes it a pair. Any of opens, closes, duration, roof, floor, drop is enough
# for an edge, and two of them check each other.

# [[port]]
# name = "exhaust"                       # small letters, digits and _
# kind = "exhaust"                       # exhaust, transfer, boost, intake, air
# centre = "0 deg"
# mirrored = false
# opens = "103 deg"
# closes = "257 deg"
# duration = "154 deg"
# roof = "38.4 mm"
# floor = "25.2 mm"
# drop = "22.6 mm"                       # crown edge below its TDC place when the edge is passed
# width = "28.0 mm"                      # with a bridge: over both windows and the bridge
# corner_roof = "5 mm"
# corner_floor = "5 mm"
# roof_slope = "0 deg"                   # + rises toward the exhaust side
# roof_arch = "0 mm"                     # middle above the ends
# bridge = "4 mm"
# bridge_at = "0 mm"
# outline = [["-12.0 mm", "0 mm"], ["12.0 mm", "0 mm"], ["12.0 mm", "13 mm"], ["-12.0 mm", "13 mm"]]   # from a rubbing: x from the centre line, y down from the roof
# seen = "inside"                        # or "wall side"
# outline_within = "0.2 mm"              # how far the outline may lie off, to each side; a photo of the rubbing tells it
# duct = { length = "45 mm", outlet = "4.5 cm2", tilt = "10 deg" }

# [[port]]
# name = "primary"                       # the pair next to the exhaust
# kind = "transfer"
# centre = "65 deg"
# mirrored = true
# opens = "121 deg"
# floor = "25.2 mm"
# width = "16.0 mm"
# twin = { opens = "122 deg", closes = "238 deg", duration = "116 deg", roof = "31.9 mm", floor = "25.3 mm", drop = "29.1 mm", width = "16.1 mm" }   # only where the other side differs
# [port.passage]
# length = "70 mm"
# bend = "70 deg"
# tilt = "15 deg"                        # of the stream, upward
# aim = "120 deg"                        # toward, round the bore
# foot = "2.0 cm2"                       # at the cylinder's base
# gasket = "2.0 cm2"
# mouth = "1.6 cm2"                      # what the case leaves open
# case_step = "3 mm"                     # height of the ledge
# lower = { roof = "12 mm", floor = "2 mm", width = "14 mm", open = true }   # lower opening into the bore

# ---------------------------------------------------------------- 5. Piston and rings, all from the crown edge downward
# [piston]
# skirt_exhaust = "38.0 mm"
# skirt_intake = "38.0 mm"
# skirt_side = "30.0 mm"                 # at the pin's ends
# skirt_exhaust_width = "34 mm"          # chord of the full-length skirt
# pin_below_crown = "22.0 mm"
# pin_diameter = "11 mm"
# dome = "2.0 mm"
# mass = "112 g"                         # with pin, clips, rings
# [[piston.ring]]                        # the top ring first
# below_crown = "3.0 mm"
# height = "1.5 mm"
# radial = "1.9 mm"
# peg = "150 deg"                        # as fitted
# end_gap = "0.25 mm"                    # feeler gauge, ring square in the bore
# free_gap = "7 mm"                      # out of the bore
# [[piston.window]]                      # a hole or pocket in the skirt
# centre = "90 deg"
# roof_below_crown = "14 mm"
# floor_below_crown = "24 mm"
# width = "14 mm"
# corner = "2 mm"
# mirrored = true

# ---------------------------------------------------------------- 6. Fins, rod and bearings
# [cooling]
# fan = true
# fins = [ { from = "60 deg", to = "300 deg", length = "18 mm", pitch = "6 mm", thickness = "2 mm" } ]

# [bottom_end]
# rod_small_mass = "35 g"                # small end on the scale, big end carried
# rod_big_mass = "60 g"
# big_end = { rating = "14.0 kN", pin = "14 mm", kind = "needle" }   # needle, roller or ball
# small_end = { rating = "7.0 kN", pin = "11 mm", kind = "needle" }
# main = { rating = "10.0 kN", pin = "15 mm", kind = "ball" }
# counterweight = "0.5"                  # share of the reciprocating mass balanced
)";

}  // namespace

std::string blank_saw(std::string_view name) {
  return std::string(head) + "name = " + toml_text(name) + "\n" + assembled + head_on + cylinder_off;
}

}  // namespace portwright::saw
