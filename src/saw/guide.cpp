// One row a field; long because the saw has so many.
#include "saw/guide.hpp"

#include <algorithm>
#include <sstream>
#include <string>

#include "saw/file.hpp"

namespace portwright::saw {
namespace {

constexpr GuideGroup groups[] = {
    {"saw", "The saw"},
    {"running", "Before anything is undone"},
    {"breathing", "Muffler, air box, carburettor, ignition off"},
    {"wheel", "Degree wheel"},
    {"squish", "Squish and chamber"},
    {"crank", "Crank and case"},
    {"cylinder", "Cylinder off"},
    {"window", "Window: {}", true},
    {"passage", "Passage: {}", true},
    {"piston", "Piston"},
    {"rings", "Rings"},
    {"bottom", "Rod, bearings, fins"},
};

constexpr GuideRow rows[] = {
    // --- The saw
    {"name", "saw", "Name", "What you call this saw.", ""},
    {"model", "saw", "Model", "Free words that tie sisters together: saws with the same words are held side by side.",
     ""},
    {"casting", "saw", "Casting", "Letters cast into cylinder and case.", ""},
    {"state", "saw", "State", "As received, stock, after cut 3: heights count from the base face as it is now.", ""},
    {"aim.use", "saw", "Aim", "What you steer for: stock, work or race. It chooses the bands shown, never a finding.",
     ""},

    // --- Crank
    {"crank.bore", "crank", "Bore",
     "Bore gauge below the ports, across both ways; or caliper at the mouth, clear of its chamfer.", "section", 4},
    {"crank.stroke", "crank", "Stroke",
     "Height gauge on the crown, from one dead centre to the other. A slanted rod on a domed crown spoils it.", "crank",
     1},
    {"crank.rod", "crank", "Rod, centre to centre",
     "Caliper across both pins. Not known? Leave it out: it hardly matters to what a cut does.", "crank", 2},
    {"crank.pin_offset", "crank", "Pin offset",
     "The pin's line off the bore's middle, positive toward the side pressed on the power stroke.", ""},

    // --- Piston
    {"piston.skirt_exhaust", "piston", "Skirt, exhaust side",
     "Caliper from the crown's edge down to the skirt's edge, not from the dome.", "piston", 1},
    {"piston.skirt_intake", "piston", "Skirt, intake side",
     "Caliper from the crown's edge down to the skirt's edge, opposite the exhaust.", "piston", 2},
    {"piston.skirt_side", "piston", "Skirt at the pin ends", "The same at the ends of the pin, where it is shortest.",
     "piston", 3},
    {"piston.skirt_exhaust_width", "piston", "Full-length skirt, chord",
     "Straight across the part of the skirt that has its full length at the exhaust.", "piston", 4},
    {"piston.pin_below_crown", "piston", "Pin below the crown edge",
     "Crown edge to the pin's upper side plus half its diameter.", "piston", 5},
    {"piston.pin_diameter", "piston", "Pin", "Micrometer on the pin.", "piston", 6},
    {"piston.dome", "piston", "Dome",
     "Straight edge over the crown edge, depth rod to the middle. Clean off the carbon.", "piston", 7},
    {"piston.mass", "piston", "Mass", "With pin, clips and rings, on a kitchen or jewellers' scale.", "piston", 8},
    {"piston.ring.below_crown", "rings", "Ring {} below the crown edge", "Top of its groove below the crown edge.",
     "ring", 1},
    {"piston.ring.height", "rings", "Ring {}, height", "Micrometer on the ring.", "ring", 2},
    {"piston.ring.radial", "rings", "Ring {}, radial width", "Micrometer on the ring.", "ring", 3},
    {"piston.ring.peg", "rings", "Ring {}, peg",
     "Degrees round the bore as fitted, clockwise seen from the plug, 0 at the exhaust. From below, left is right.",
     "ring", 4},
    {"piston.ring.end_gap", "rings", "Ring {}, end gap",
     "Feeler gauge with the ring square in the bore, away from the worn top.", "ring", 5},
    {"piston.ring.free_gap", "rings", "Ring {}, free gap", "Rule over its ends, out of the bore: it tells the tension.",
     "ring", 6},
    {"piston.window.centre", "piston", "Skirt window {}, middle",
     "Degrees round the bore of a hole or pocket in the skirt, 0 at the exhaust, clockwise from the plug.", ""},
    {"piston.window.roof_below_crown", "piston", "Skirt window {}, upper edge", "Its upper edge below the crown edge.",
     ""},
    {"piston.window.floor_below_crown", "piston", "Skirt window {}, lower edge", "Its lower edge below the crown edge.",
     ""},
    {"piston.window.width", "piston", "Skirt window {}, chord", "Caliper straight across.", ""},
    {"piston.window.corner", "piston", "Skirt window {}, corner", "Radius gauge, or laid over a coin of known size.",
     ""},
    {"piston.window.mirrored", "piston", "Skirt window {}, a pair", "Yes when the other side has the same.", ""},

    // --- Cylinder
    {"cylinder.crown_at_tdc", "cylinder", "Crown edge above the base face, TDC",
     "Gasket fitted and torqued, TDC by the stop. Simplest: read one edge by wheel and by height, and the check tells "
     "the "
     "difference.",
     "section", 2},
    {"cylinder.crown_above_deck", "cylinder", "Crown edge above the deck, TDC",
     "The same from the case's deck, cylinder and gasket off.", "section", 5},
    {"cylinder.base_gasket", "cylinder", "Base gasket, compressed",
     "Micrometer on the old one: a new one is thicker than a torqued one.", "section", 1},
    {"cylinder.squish", "squish", "Squish, {}",
     "Solder to the wall over both ends of the pin, turned once over TDC by hand. Micrometer on the thinnest end.",
     "solder", 1},
    {"cylinder.squish_band", "squish", "Width of the band", "Radial width of the squish band.", "solder", 3},
    {"cylinder.chamber", "squish", "Chamber",
     "Saw level, TDC, ring gap greased, decompression valve shut. Thin oil from a burette or syringe to a named place; "
     "rock out the air.",
     "head", 1},
    {"cylinder.chamber_filled_to", "squish", "Filled to",
     "Thread bottom; or plug seat, and then the plug's hole is taken off.", "head", 2},
    {"cylinder.bowl", "cylinder", "Bowl inside the band",
     "Cylinder upside down, a plate on the chamber, filled with liquid.", ""},
    {"cylinder.decompression", "squish", "Decompression pocket", "The pocket of the valve: drops from a syringe.", ""},
    {"cylinder.plug_thread", "squish", "Plug thread", "Size by its name.", "head", 3},
    {"cylinder.plug_reach", "squish", "Plug reach", "Length of the thread in the head.", "head", 4},
    {"cylinder.spigot_clearance", "cylinder", "Spigot clearance",
     "End of the spigot to what it meets in the case, gasket fitted: feeler, or clay.", "section", 3},
    {"cylinder.pin_axis", "cylinder", "Direction of the piston pin",
     "Round the bore: 0 at the exhaust, clockwise seen from the plug.", "round", 2},
    {"cylinder.thrust", "cylinder", "Side pressed on the power stroke",
     "Round the bore. Exhaust in front and direct drive: the power stroke presses the intake side.", "round", 3},
    {"cylinder.plated", "cylinder", "Plated bore",
     "A magnet and the maker's word. A plated bore is worked from the plating outward.", ""},

    // --- Case
    {"case.volume", "crank", "Case volume",
     "Thin oil or spirit from a burette, piston where you say. Air under the webs spoils it; read it last.", "crank",
     3},
    {"case.volume_at", "crank", "Case volume, piston at", "TDC, BDC or an angle.", "crank", 4},

    // --- Ports
    {"port.name", "window", "{}, name", "Small letters, digits and _.", ""},
    {"port.kind", "window", "{}, kind", "Exhaust, transfer, boost, intake or air.", ""},
    {"port.centre", "window", "{}, middle",
     "Mark it on the flange or a rubbing: 360 times the arc, over pi times the bore. Clockwise seen from the plug, 0 "
     "at "
     "the exhaust.",
     "round", 1},
    {"port.mirrored", "window", "{}, a pair", "Yes when the same window lies on the other side too.", ""},
    {"port.opens", "wheel", "{} opens",
     "TDC by a stop from both sides, then turn the way it runs until the edge shows light. After TDC where the crown "
     "opens it; before TDC where the skirt does.",
     "wheel", 1},
    {"port.closes", "wheel", "{} closes",
     "The same edge on the way back, after TDC. Both together take out what is left of the wheel's zero.", "wheel", 2},
    {"port.duration", "wheel", "{} is open for", "Better type opening and closing, and the zero checks itself.",
     "wheel", 2},
    {"port.roof", "window", "{}, roof",
     "Flange down on a flat plate, height gauge to the highest point of the edge at the bore; bevels do not count.",
     "window", 1},
    {"port.floor", "window", "{}, floor",
     "Flange down on a flat plate, height gauge to the lowest point of the edge at the bore.", "window", 2},
    {"port.drop", "window", "{}, crown edge down",
     "Crown edge below its TDC place when the edge is just passed: depth rod on the crown's edge, not on the dome.",
     "window", 1},
    {"port.width", "window", "{}, chord",
     "Caliper straight across at the bore; with a bridge over both windows and the bridge. Paper gives the arc, which "
     "is "
     "longer.",
     "window", 3},
    {"port.corner_roof", "window", "{}, roof corners", "Radius gauge, or laid over a coin of known size.", "window", 4},
    {"port.corner_floor", "window", "{}, floor corners", "Radius gauge, or laid over a coin of known size.", "window",
     5},
    {"port.roof_slope", "window", "{}, roof slope", "Protractor; positive rises toward the exhaust side.", ""},
    {"port.roof_arch", "window", "{}, roof arch", "How far the middle of the roof stands above its ends.", ""},
    {"port.bridge", "window", "{}, bridge", "Width of the bridge.", ""},
    {"port.bridge_at", "window", "{}, bridge off the middle", "Middle of the bridge from the window's middle.", ""},
    {"port.outline", "window", "{}, outline",
     "From a rubbing: x from the centre line, y down from the roof, point after point. Paper grows when it is wet.",
     ""},
    {"port.seen", "window", "{}, rubbing seen from", "Inside, or the wall side of the paper, where left is right.", ""},
    {"port.outline_within", "window", "{}, outline true to within",
     "How far it may lie off, to each side. A photo of the rubbing tells it; half the pencil's line is its greatest "
     "part.",
     ""},
    {"port.twin.opens", "wheel", "{}, other side, opens", "Where it differs from this side.", "wheel", 3},
    {"port.twin.closes", "wheel", "{}, other side, closes", "Where it differs from this side.", "wheel", 3},
    {"port.twin.duration", "wheel", "{}, other side, is open for", "Where it differs from this side.", ""},
    {"port.twin.roof", "window", "{}, other side, roof", "Where it differs from this side.", "window", 1},
    {"port.twin.floor", "window", "{}, other side, floor", "Where it differs from this side.", "window", 2},
    {"port.twin.drop", "window", "{}, other side, crown edge down", "Where it differs from this side.", ""},
    {"port.twin.width", "window", "{}, other side, chord", "Where it differs from this side.", "window", 3},
    {"port.duct.length", "passage", "{}, duct length", "Along the middle line, to the muffler's or carburettor's face.",
     ""},
    {"port.duct.outlet", "passage", "{}, duct outlet", "Area at the muffler's face: a card cut to fit.", ""},
    {"port.duct.tilt", "passage", "{}, duct tilt", "Down from the window, or up.", ""},
    {"port.passage.length", "passage", "{}, passage length", "String along the middle.", ""},
    {"port.passage.bend", "passage", "{}, passage bend", "How far the passage turns the stream.", ""},
    {"port.passage.tilt", "passage", "{}, stream upward", "Where the stream points as it enters, upward.", ""},
    {"port.passage.aim", "passage", "{}, stream toward", "Where the stream points as it enters, round the bore.", ""},
    {"port.passage.foot", "passage", "{}, foot", "Area at the cylinder's base: a card cut to fit, or a rubbing.",
     "passage", 1},
    {"port.passage.gasket", "passage", "{}, gasket hole", "Area of the hole in the gasket.", "passage", 2},
    {"port.passage.mouth", "passage", "{}, mouth",
     "What the case leaves open: put the gasket on the case, what you then see is the mouth.", "passage", 3},
    {"port.passage.case_step", "passage", "{}, ledge", "Height of the ledge at the case.", "passage", 4},
    {"port.passage.lower.roof", "passage", "{}, lower opening, roof",
     "The lower opening into the bore, where there is one: its upper edge above the base face.", ""},
    {"port.passage.lower.floor", "passage", "{}, lower opening, floor", "Its lower edge above the base face.", ""},
    {"port.passage.lower.width", "passage", "{}, lower opening, chord", "Caliper straight across.", ""},
    {"port.passage.lower.open", "passage", "{}, lower opening, open", "Yes when gas can pass there.", ""},

    // --- Intake, carburettor, air box, muffler, pipe, ignition
    {"intake.kind", "breathing", "Intake", "Timed by the skirt, a reed into the case, or a reed behind a window.",
     "reed", 1},
    {"intake.tract.length", "breathing", "Tract, length",
     "Carburettor flange to window or reed, along the middle line.", ""},
    {"intake.tract.bore", "breathing", "Tract, bore", "Caliper; a boot squeezed out of round counts by its area.", ""},
    {"intake.reed.petals", "breathing", "Petals", "Count them.", "reed", 1},
    {"intake.reed.length", "breathing", "Petal, free length", "From the clamp to the tip.", "reed", 2},
    {"intake.reed.width", "breathing", "Petal, width", "Caliper across the petal.", "reed", 3},
    {"intake.reed.thickness", "breathing", "Petal, thickness", "Micrometer; look for two thicknesses in one block.",
     "reed", 4},
    {"intake.reed.material", "breathing", "Petal, material", "Glass epoxy, carbon epoxy, steel.", ""},
    {"intake.reed.window.length", "breathing", "Reed window, length", "One petal's window, along the petal.", ""},
    {"intake.reed.window.width", "breathing", "Reed window, width", "One petal's window, across the petal.", ""},
    {"intake.reed.stop", "breathing", "Stop, lift at the tip", "Lift at the tip that the stop allows.", "reed", 5},
    {"intake.reed.block_angle", "breathing", "Reed block, angle", "Of its face against the stream.", ""},
    {"carburettor.venturi", "breathing", "Venturi",
     "Caliper at the narrowest place; an oval counts as the circle of equal area.", "reed", 6},
    {"carburettor.throttle", "breathing", "Bore at the throttle", "Caliper at the throttle plate.", ""},
    {"air_box.volume", "breathing", "Air box", "Water in, weighed or poured back. Tilt it: no trapped air.", ""},
    {"air_box.filter", "breathing", "Filter", "Loss at 20 litres a second. Leave it out unless you have a flow rig.",
     ""},
    {"muffler.boxes", "breathing", "Muffler, each box",
     "Fill it with water, weigh it; dry it well before it is hot again.", ""},
    {"muffler.baffles", "breathing", "Muffler, between boxes", "Areas between boxes, one fewer than boxes.", ""},
    {"muffler.outlets", "breathing", "Muffler, each outlet",
     "Area of every hole; count what louvres and screens leave open.", "outside", 1},
    {"muffler.screen", "breathing", "Muffler, screen", "Yes when it has one.", ""},
    {"pipe.profile", "breathing", "Tuned pipe", "Only with one: place along it and bore there, step after step.", ""},
    {"ignition.advance", "breathing", "Ignition advance",
     "Timing light on the flywheel's mark at working speed; the mark by the stop first.", "outside", 2},
    {"ignition.curve", "breathing", "Ignition, over speed", "Speed and advance, step after step.", ""},
    {"ignition.limiter", "breathing", "Limiter", "Tachometer: where it cuts.", ""},
    {"ignition.shaft", "breathing", "Shaft at the key", "Diameter at the flywheel key; of a taper, its middle.", ""},

    // --- Fuel, day, drive
    {"fuel.octane", "running", "Octane", "The pump's number with its method: pump is (R+M)/2, research, motor.", ""},
    {"fuel.air_fuel", "running", "Air to mixture", "A plain number, where you know it.", ""},
    {"day.altitude", "running", "Altitude", "From a map.", ""},
    {"day.temperature", "running", "Temperature", "Of the air, in the shade.", ""},
    {"day.humidity", "running", "Humidity", "Hygrometer.", ""},
    {"drive.chain_pitch", "running", "Chain pitch", "By name; it is half the distance over three rivets.", "outside",
     3},
    {"drive.teeth", "running", "Sprocket teeth", "Count them.", "outside", 4},
    {"drive.bar", "running", "Bar", "By name, or rule.", ""},
    {"drive.clutch_engages", "running", "Clutch engages", "Tachometer, when the chain begins to move. Cover on.", ""},
    {"drive.wood", "running", "Wood", "Diameter that it mostly cuts.", ""},

    // --- Cooling, bottom end, impulse
    {"cooling.fan", "bottom", "Fan", "Yes when a fan blows over the fins.", ""},
    {"cooling.fins.from", "bottom", "Fins {}, from", "Where round the bore they begin.", ""},
    {"cooling.fins.to", "bottom", "Fins {}, to", "Where round the bore they end. A side without fins runs hottest.",
     ""},
    {"cooling.fins.length", "bottom", "Fins {}, length", "Caliper, from the wall out.", ""},
    {"cooling.fins.pitch", "bottom", "Fins {}, pitch", "From one to the next.", ""},
    {"cooling.fins.thickness", "bottom", "Fins {}, thickness", "Caliper.", ""},
    {"bottom_end.rod_small_mass", "bottom", "Rod, small end", "Small end on the scale, big end carried, the rod level.",
     ""},
    {"bottom_end.rod_big_mass", "bottom", "Rod, big end", "Big end on the scale, small end carried, the rod level.",
     ""},
    {"bottom_end.big_end.rating", "bottom", "Big end, rating", "Bearing maker's catalogue by its number.", ""},
    {"bottom_end.big_end.pin", "bottom", "Big end, pin", "Micrometer on the crank pin.", ""},
    {"bottom_end.big_end.kind", "bottom", "Big end, kind", "Needle, roller or ball.", ""},
    {"bottom_end.small_end.rating", "bottom", "Small end, rating", "Bearing maker's catalogue by its number.", ""},
    {"bottom_end.small_end.pin", "bottom", "Small end, pin", "Micrometer on the piston pin.", ""},
    {"bottom_end.small_end.kind", "bottom", "Small end, kind", "Needle, roller or ball.", ""},
    {"bottom_end.main.rating", "bottom", "Main, rating", "Bearing maker's catalogue by its number.", ""},
    {"bottom_end.main.pin", "bottom", "Main, journal", "Micrometer on the journal.", ""},
    {"bottom_end.main.kind", "bottom", "Main, kind", "Needle, roller or ball.", ""},
    {"bottom_end.counterweight", "bottom", "Counterweight",
     "Share of the reciprocating mass balanced: crank on knife edges with weights.", ""},
    {"impulse.where", "breathing", "Impulse",
     "Through the base joint, the case, or none. Base gasket left out: is the hole still open?", ""},

    // --- What the saw did
    {"readings.stock_power", "running", "Power as stock", "The maker's sheet, or a dynamometer.", ""},
    {"readings.gauge_compression", "running", "Gauge compression",
     "Warm, throttle wide open, pulled until the needle stands, about ten pulls. Note which gauge.", "head", 5},
    {"readings.gauge_volume", "running", "Gauge and hose",
     "Fill hose and adapter with liquid from the plug end up to the gauge's valve.", ""},
    {"readings.no_load", "running", "No-load speed", "Tachometer; seconds, not minutes. Cover on.", "outside", 5},
    {"readings.in_cut", "running", "Speed in the cut",
     "Tachometer in the wood you mostly cut, sharp chain; the middle of several cuts.", "outside", 6},
    {"readings.spot.where", "running", "Hot spot, where", "Washer under the plug, or lance on the fins.", ""},
    {"readings.spot.value", "running", "Hot spot, temperature", "Read at once after the load: it falls while you look.",
     ""},
    {"readings.spot.at", "running", "Hot spot, at", "The speed just before.", ""},
};

/// The blank file with the sign of a comment taken off every example.
std::string filled(const std::string& blank) {
  std::istringstream lines(blank);
  std::string out;
  for (std::string line; std::getline(lines, line);) {
    const bool field =
        line.starts_with("# ") &&
        (line[2] == '[' || (line.find(" = ") != std::string::npos && line.find(' ', 2) == line.find(" = ")));
    out += (field ? line.substr(2) : line) + "\n";
  }
  return out;
}

}  // namespace

std::span<const GuideGroup> guide_groups() { return groups; }
std::span<const GuideRow> guide_rows() { return rows; }

const GuideRow* guide_row(std::string_view path) {
  const auto found = std::find_if(std::begin(rows), std::end(rows), [&](const GuideRow& r) { return r.path == path; });
  return found == std::end(rows) ? nullptr : &*found;
}

const Readings& example_readings() {
  static const Readings examples = [] {
    auto read = read_saw(filled(blank_saw("Example")));
    return read ? std::move(read->readings) : Readings{};
  }();
  return examples;
}

}  // namespace portwright::saw
