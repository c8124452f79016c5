// The rows of figures. Every row is read by study, why, compare, the handbook's test and the benches.

#include <array>
#include <numbers>

#include "study/figures.hpp"

namespace portwright::study {

namespace {

using geometry::PortKind;
using geometry::Survey;
using M = const Measures&;
using N = std::size_t;

constexpr double deg = 180.0 / std::numbers::pi, mm = 1e3, cm2 = 1e4, cm3 = 1e6, percent = 1e2,
                 psi = 1.0 / 6894.757293168361, rpm = 60.0;
constexpr const char* own = "own arithmetic";
constexpr const char* practice = "common practice";

PortKind kind_at(const Survey& s, N i) { return s.ports[i].kind; }
bool crown_opened(const Survey& s, N i) { return geometry::opened_by(kind_at(s, i)) == geometry::OpenedBy::crown; }
bool bridged(const Survey& s, N i) { return s.ports[i].bridge.input >= 0; }
bool has_lower(const Survey& s, N i) { return s.ports[i].passage.lower_roof.input >= 0; }
bool fed_by_passage(const Survey& s, N i) {
  return kind_at(s, i) == PortKind::transfer || kind_at(s, i) == PortKind::boost;
}
bool has_tilt(const Survey& s, N i) { return kind_at(s, i) == PortKind::exhaust || fed_by_passage(s, i); }
/// A reed into the case has no window in the bore.
bool has_intake(const Survey& s, N) {
  for (const geometry::PortSlots& port : s.ports)
    if (port.kind == PortKind::intake) return true;
  return s.intake != geometry::IntakeKind::reed_into_case;
}

const FigureRow rows[] = {
    // --- Crank
    {"crank.displacement", "cm3", cm3, Over::once, [](M m, N) { return m.displacement; }, nullptr, "Displacement",
     "bore area times stroke", "It is what every ratio and specific time-area is held against.", own, 0.5},
    {"crank.rod_ratio", "-", 1, Over::once, [](M m, N) { return m.rod_ratio; }, nullptr, "Rod over stroke",
     "rod centre length over stroke", "A longer rod keeps the piston longer near TDC and a little shorter near BDC.",
     own},
    {"crank.mean_piston_speed", "m/s", 1, Over::once, [](M m, N) { return m.mean_piston_speed; }, nullptr,
     "Mean piston speed", "two strokes a turn, at {rpm}",
     "It is the usual measure of how hard an engine turns, whatever its size.", own, 0.3, true},
    {"crank.peak_acceleration", "m/s2", 1, Over::once, [](M m, N) { return m.peak_acceleration; }, nullptr,
     "Greatest piston acceleration", "exact slider-crank at TDC, at {rpm}",
     "It loads pin, rod and big end, and lifts rings off their lands.", own, 0.2, true},

    // --- Ports
    {"port.{}.opens", "deg", deg, Over::ports, [](M m, N i) { return m.ports[i].opens; }, nullptr, "{} opens",
     "crank angle at which the opening edge is passed: after TDC by the crown edge, before TDC by the skirt",
     "Raising a crown-opened roof, or lowering a skirt-opened floor, makes {} open earlier and close later.", own, 1},
    {"port.{}.closes", "deg", deg, Over::ports, [](M m, N i) { return m.ports[i].closes; }, nullptr, "{} closes",
     "crank angle after TDC at which the same edge is passed on the way back",
     "Pressing begins when the last exhaust window has closed.", own},
    {"port.{}.duration", "deg", deg, Over::ports, [](M m, N i) { return m.ports[i].duration; }, nullptr, "{} duration",
     "crank angle from opening to closing", "Longer suits more speed and costs the low end.", own, 0.6},
    {"port.{}.drop", "mm", mm, Over::ports, [](M m, N i) { return m.ports[i].drop; }, nullptr,
     "Crown edge below TDC when {} opens", "drop of the crown edge at which the timed edge is passed",
     "It is what a cut moves directly, before it becomes degrees.", own, 0.3},
    {"port.{}.area", "cm2", cm2, Over::ports, [](M m, N i) { return m.ports[i].area; }, nullptr, "Area of {}",
     "area of one window on the unrolled bore, lines and arcs in closed form",
     "It is what the window offers when nothing hides it.", own, 0.3},
    {"port.{}.area_at_bdc", "cm2", cm2, Over::ports, [](M m, N i) { return m.ports[i].area_at_bdc; }, nullptr,
     "Open area of {} at BDC", "area of one window that the piston leaves open at BDC",
     "A crown edge that stands above the floor at BDC hides some of it.", own},
    {"port.{}.width_of_bore", "%", percent, Over::ports, [](M m, N i) { return m.ports[i].width_of_bore; }, nullptr,
     "Width of {}", "chord over both windows and the bridge, over the bore",
     "The wider a window, the further a ring bows into it.", practice, 0.3},
    {"port.{}.side_chord_of_bore", "%", percent, Over::ports, [](M m, N i) { return m.ports[i].side_chord_of_bore; },
     bridged, "Wider half of {}", "chord of the wider window beside the bridge, over the bore",
     "A ring bows over each half on its own.", practice},
    {"port.{}.bridge_width", "mm", mm, Over::ports, [](M m, N i) { return m.ports[i].bridge_width; }, bridged,
     "Bridge of {}", "width of the bridge as read or cut", "A narrow bridge runs hot and grows into the bore.",
     practice},
    {"port.{}.deg_per_mm", "deg", deg / mm, Over::ports, [](M m, N i) { return m.ports[i].deg_per_mm; }, nullptr,
     "Degrees per mm at {}", "crank angle over drop at the timed edge, for a small cut",
     "One millimetre off the timed edge moves {} by about this.", own, 0.3},
    {"port.{}.time_area", "s m2", 1, Over::ports, [](M m, N i) { return m.ports[i].time_area; }, nullptr,
     "Time-area of {}", "open area of one window summed over the time of one turn, at {rpm}",
     "It holds width, height and timing in one number.", own, 0.2, true},
    {"port.{}.specific_time_area", "s/m", 1, Over::ports, [](M m, N i) { return m.ports[i].specific_time_area; },
     nullptr, "Specific time-area of {}", "time-area of one window over the displacement, at {rpm}",
     "So engines of different size can be held side by side.", "jennings1973", 0.2, true},
    {"port.{}.masked_at_bdc", "%", percent, Over::ports, [](M m, N i) { return m.ports[i].masked_at_bdc; },
     crown_opened, "{} hidden by the crown at BDC", "area below the crown edge at BDC over the window's area",
     "A cylinder that comes down leaves the crown standing over the floors.", own, 0.2, false, true},
    {"port.{}.lower_masked_at_bdc", "%", percent, Over::ports, [](M m, N i) { return m.ports[i].lower_masked_at_bdc; },
     has_lower, "Lower opening of {} hidden at BDC",
     "height of the lower opening above the skirt's side edge at BDC, over its whole height",
     "What the skirt hides there is missing when the flow should be greatest.", own, 0.2, false, true},
    {"port.{}.normal_area", "cm2", cm2, Over::ports, [](M m, N i) { return m.ports[i].normal_area; }, has_tilt,
     "Area of {} across the stream", "window area times the cosine of the duct's or stream's tilt",
     "A stream that leaves at a slant has less room than the window shows.", own},
    {"passage.{}.mouth_to_window", "-", 1, Over::ports, [](M m, N i) { return m.ports[i].mouth_to_window; },
     fed_by_passage, "Narrowest of the passage over window {}",
     "least of foot, gasket hole and mouth over the area of one window",
     "Below 1 the way from the case, not the window, holds the stream back.", own, 0.3},
    {"passage.{}.loss", "-", 1, Over::ports, [](M m, N i) { return m.ports[i].loss; }, fed_by_passage,
     "Loss of the passage to {}",
     "sharp entry, steps at gasket, foot and window and a mitred bend, of the dynamic pressure in the window, without "
     "its exit",
     "It shows what a ledge at the mouth or a step at the gasket costs.", "idelchik, blevins"},

    // --- All windows of a kind
    {"group.{}.area", "cm2", cm2, Over::groups, [](M m, N k) { return m.groups[k].area; }, nullptr,
     "Area of all {} windows", "sum of the windows' areas", "It is what the kind offers as a whole.", own, 0.3},
    {"group.{}.time_area", "s m2", 1, Over::groups, [](M m, N k) { return m.groups[k].time_area; }, nullptr,
     "Time-area of all {} windows", "sum of the windows' time-areas, at {rpm}",
     "It holds widths, heights and timing of the kind in one number.", own, 0.2, true},
    {"group.{}.specific_time_area", "s/m", 1, Over::groups, [](M m, N k) { return m.groups[k].specific_time_area; },
     nullptr, "Specific time-area of all {} windows", "sum of the windows' time-areas over the displacement, at {rpm}",
     "Published targets speak of this number at the speed of peak power.", "jennings1973", 0.4, true},
    {"group.{}.first_opens", "deg", deg, Over::groups, [](M m, N k) { return m.groups[k].first_opens; }, nullptr,
     "First {} window opens", "earliest opening of the kind", "The first window that opens starts what the kind does.",
     own, 0.3},
    {"timing.blowdown", "deg", deg, Over::once, [](M m, N) { return m.blowdown; }, nullptr, "Blowdown",
     "first transfer or boost opening less first exhaust opening",
     "It is the turn in which the cylinder's pressure must fall before the transfers open.", practice, 1},
    {"timing.blowdown_specific_time_area", "s/m", 1, Over::once, [](M m, N) { return m.blowdown_specific_time_area; },
     nullptr, "Blowdown specific time-area",
     "exhaust time-area before the first transfer opens over the displacement, at {rpm}",
     "Degrees alone do not say how much window the blowdown has.", own, 0.4, true},
    {"timing.stagger", "deg", deg, Over::once, [](M m, N) { return m.stagger; }, nullptr, "Stagger of the transfers",
     "last transfer or boost opening less the first",
     "Windows that open later take less of the first burst from the case.", own},

    // --- Volumes and squish
    {"chamber.volume", "cm3", cm3, Over::once, [](M m, N) { return m.chamber; }, nullptr, "Chamber",
     "liquid at TDC less a filled plug hole, or built from squish, dome, band and bowl",
     "Every compression ratio rests on it.", own, 0.6},
    {"chamber.full_ratio", "-", 1, Over::once, [](M m, N) { return m.full_ratio; }, nullptr, "Full compression ratio",
     "displacement and chamber over chamber",
     "It is the ratio of the whole stroke, which the open exhaust never presses.", own, 0.3},
    {"chamber.trapped_ratio", "-", 1, Over::once, [](M m, N) { return m.trapped_ratio; }, nullptr,
     "Trapped compression ratio", "volume at exhaust closing and chamber over chamber",
     "Pressing begins when the exhaust has closed, so this is what fuel and squish see.", "jennings1973", 1},
    {"squish.clearance", "mm", mm, Over::once, [](M m, N) { return m.squish_clearance; }, nullptr, "Squish clearance",
     "mean of the places read with solder", "It is set before anything else, because it moves every port.", practice,
     1},
    {"squish.tilt", "mm", mm, Over::once, [](M m, N) { return m.squish_tilt; },
     [](const Survey& s, N) { return s.squish.size() != 1; }, "Squish tilt", "greatest less least of the places",
     "A tilt says that base or band is not square, or that the piston rocked.", own, 0.2, false, true},
    {"squish.working", "mm", mm, Over::once, [](M m, N) { return m.squish_working; }, nullptr, "Working squish",
     "least of the places less stretch and slack at speed", "What is left at speed must not be nought.",
     "common practice; the stretch from memory", 1},
    {"squish.band_share", "%", percent, Over::once, [](M m, N) { return m.squish_band_share; }, nullptr, "Squish band",
     "area of the band over the bore's area", "A wider band presses more gas inward.", own},
    {"squish.velocity", "m/s", 1, Over::once, [](M m, N) { return m.squish_velocity; }, nullptr, "Squish velocity",
     "ideal speed through the band's inner edge by conservation of mass, greatest of the turn, at {rpm}",
     "It stirs the charge before it burns; leaks make the true one less.", own, 0.2, true},
    {"squish.velocity_angle", "deg", deg, Over::once, [](M m, N) { return m.squish_velocity_angle; }, nullptr,
     "Greatest squish velocity at", "crank angle before TDC of the greatest squish velocity",
     "A tighter squish peaks nearer to TDC.", own},
    {"case.ratio", "-", 1, Over::once, [](M m, N) { return m.case_ratio; }, nullptr, "Case compression ratio",
     "case volume with the piston at TDC over that at BDC", "It is what drives the transfers.", own, 0.4},
    {"gauge.compression", "psi", psi, Over::once, [](M m, N) { return m.gauge_compression; }, nullptr,
     "Gauge compression", "as read with a compression gauge", "What it may be depends on fuel, squish and the gauge.",
     practice, 0.4},

    // --- Piston against windows
    {"skirt.cover_exhaust", "mm", mm, Over::once, [](M m, N) { return m.skirt_cover_exhaust; }, nullptr,
     "Skirt over the exhaust floor at TDC",
     "exhaust skirt length less the depth of the lowest exhaust floor below the crown edge at TDC; negative: "
     "free-ports",
     "A cylinder that comes down takes the floor with it and the cover shrinks by as much.", practice, 1},
    {"skirt.cover_intake", "mm", mm, Over::once, [](M m, N) { return m.skirt_cover_intake; }, has_intake,
     "Skirt over the intake floor at BDC", "lap of the intake skirt below the lowest intake floor at BDC",
     "Without lap the skirt's edge may catch on the floor.", own, 0.3},
    {"skirt.free_port_area", "cm2", cm2, Over::once, [](M m, N) { return m.free_port_area; }, nullptr,
     "Exhaust open to the case at TDC", "area of the exhaust windows below the skirt's own edge at TDC",
     "What stands open there joins case and exhaust for a moment.", own, 0.3, false, true},
    {"crown.over_floors", "mm", mm, Over::once, [](M m, N) { return m.crown_over_floors; }, nullptr,
     "Crown over the lowest floor at BDC",
     "depth of the lowest crown-opened floor less the stroke; positive: the crown hides it",
     "A crown that stands over a floor hides that much of the window.", own, 0.5},
    {"crown.over_intake_roof", "mm", mm, Over::once, [](M m, N) { return m.crown_over_intake_roof; }, has_intake,
     "Crown over the intake roof at BDC", "depth of the intake roof less the stroke; positive: clear",
     "A roof above the crown edge at BDC joins intake and cylinder.", own, 0.3},
    {"piston.top_land", "mm", mm, Over::once, [](M m, N) { return m.top_land; }, nullptr, "Top land",
     "crown edge to ring 1", "A thin land overheats and breaks out.", "memory", 0.4},
    {"pin.hole_wall", "mm", mm, Over::once, [](M m, N) { return m.pin_hole_wall; }, nullptr, "Wall beside the pin bore",
     "least wall from either end of the pin bore to any window over the stroke, along the bore",
     "A pin bore that passes a window joins it to the inside of the piston.", own, 0.3},
    {"impulse.covered", "-", 1, Over::once, [](M m, N) { return m.impulse_covered; }, nullptr, "Impulse hole covered",
     "yes when the impulse comes through the base joint and there is no gasket",
     "A covered impulse hole starves the fuel pump.", practice},
    {"spigot.clearance", "mm", mm, Over::once, [](M m, N) { return m.spigot_clearance; }, nullptr, "Spigot clearance",
     "as read, less what the cylinder comes down", "The spigot comes down with the cylinder.", practice},
    {"ring.{}.peg_wall", "mm", mm, Over::rings, [](M m, N k) { return m.rings[k].peg_wall; }, nullptr,
     "Wall beside the ends of ring {}",
     "least wall from the nearer ring end to any window over the ring's whole travel, along the bore",
     "A ring end that meets a window springs into it and is torn off.", practice, 0.6},
    {"ring.{}.bow", "mm", mm, Over::rings, [](M m, N k) { return m.rings[k].bow; }, nullptr,
     "Ring {} bows into the widest window",
     "clamped beam over the widest stretch without wall that the ring passes, under its own tension and the gas behind "
     "it",
     "What bows out must be led back in by the window's corners and bevels.", "memory"},
    {"ring.{}.lowest_over_intake", "mm", mm, Over::rings, [](M m, N k) { return m.rings[k].lowest_over_intake; },
     has_intake, "Ring {} over the intake roof at BDC",
     "depth of the intake roof less the ring's lower side at BDC; positive: clear",
     "A ring that runs into the intake window needs that window narrow, round and bevelled.", own, 0.3},
    {"wall.least", "mm", mm, Over::once, [](M m, N) { return m.wall_least; }, nullptr, "Least wall between windows",
     "least wall along the bore between two windows at a height that both have",
     "It carries the rings and seals one window from the other.", own, 0.4},
    {"wall.thrust_share", "%", percent, Over::once, [](M m, N) { return m.thrust_share; }, nullptr,
     "Bore left on the pressed sides",
     "least share of the bore that no window takes within 45 deg of either pressed direction, at any height the skirt "
     "runs",
     "The pressed sides carry the side thrust of both strokes.", own},

    // --- Round about
    {"exhaust.outlet_to_window", "%", percent, Over::once, [](M m, N) { return m.outlet_to_window; }, nullptr,
     "Muffler outlets over exhaust windows", "sum of the outlets' areas over the exhaust windows' area",
     "A stock muffler is the tightest place of the way out.", practice, 0.4},
    {"carburettor.venturi", "mm", mm, Over::once, [](M m, N) { return m.venturi; }, nullptr, "Venturi",
     "as read, or as cut", "It is the narrowest place of the way in.", practice},
    {"carburettor.rule_factor", "-", 1, Over::once, [](M m, N) { return m.carburettor_factor; }, nullptr,
     "Venturi by the rule of thumb", "venturi in mm over the root of litres times rpm, at {rpm}",
     "The rule is published with 0.65 to 0.9, at the speed of peak power.", "jennings1973", 0.1, true},
    {"intake.mean_pressure", "bar", 1.0 / 1e5, Over::once, [](M m, N) { return m.intake_pressure; }, has_intake,
     "Mean pressure that the intake goes with", "774 times the intake's specific time-area less 1.528, at {rpm}",
     "A published line through engines: the mean effective pressure at which such an intake is found.", "blair1990",
     0.1, true},
    {"ignition.key_offset", "mm", mm, Over::once, [](M m, N) { return m.key_offset; }, nullptr, "Key offset",
     "advance added times half the shaft's diameter", "It is how far the flywheel's key is moved round the shaft.",
     own},
    {"ignition.advance_added", "deg", deg, Over::once, [](M m, N) { return m.advance_added; }, nullptr, "Advance added",
     "as cut", "Earlier ignition wants more octane and less compression.", practice},
    {"readings.no_load", "rpm", rpm, Over::once, [](M m, N) { return m.no_load; }, nullptr, "No-load speed", "as read",
     "It is set by the rich screw or a limiter, not by geometry.", practice},
    {"readings.in_cut", "rpm", rpm, Over::once, [](M m, N) { return m.in_cut; }, nullptr, "Speed in the cut", "as read",
     "It is where the saw works, and where figures that turn are taken.", practice},
    {"drive.chain_speed", "m/s", 1, Over::once, [](M m, N) { return m.chain_speed; }, nullptr, "Chain speed",
     "two pitches a tooth and turn, at {rpm}", "A sprocket trades it against force.", own, 0.2, true},
};

}  // namespace

std::span<const FigureRow> figure_rows() { return rows; }

}  // namespace portwright::study
