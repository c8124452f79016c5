#pragma once
// Shapes of the answers that a drawing on a screen is made from, by the same table as wire/shapes.hpp.

#include "wire/page_answer.hpp"
#include "wire/shapes.hpp"

namespace portwright::wire {

template <class V>
void shape(V& v, Of<Waiting> auto& s) {
  v.is("Waiting", "Something that cannot be told yet.");
  v.field("what", s.what, "piston, skirt, window, rings, areas, base or bore");
  v.field("port", s.port, "port it speaks of, or empty");
  v.field("text", s.text, "one sentence for a person");
  v.field("waits_for", s.waits_for, "readings that are missing; none: a shape that cannot be");
}

template <class V>
void shape(V& v, Of<BoreEdge> auto& s) {
  v.is("BoreEdge", "Roof or floor of a window: its place, and what moves it.");
  v.field("at_mm", s.at_mm, "y: drop below the crown edge's TDC place [mm]");
  v.field("low", s.low, "low end of the 95 % range of at_mm; null when there is none");
  v.field("high", s.high, "high end of the 95 % range of at_mm");
  v.field("text", s.text, "the drop for a person");
  v.maybe("height", s.height, "above the base face [mm]; left out without a crown height");
  v.maybe("at_deg", s.at_deg,
          "crank angle after TDC at which the piston passes it on opening; left out where it never does");
  v.field("timed", s.timed, "this edge opens the window");
  v.field("act", s.act, "the cut that moves it, without its amount: roof exhaust");
  v.field("raise_is", s.raise_is, "sign on y of a positive amount of that cut");
  v.field("moved", s.moved, "it lies elsewhere in the metal than before the cuts");
}

template <class V>
void shape(V& v, Of<BoreWindow> auto& s) {
  v.is("BoreWindow", "One window in the unrolled wall.");
  v.field("id", s.id, "port and side: exhaust, primary, primary.1");
  v.field("port", s.port, "port as the saw file names it");
  v.field("label", s.label, "its name for a person");
  v.field("kind", s.kind, "exhaust, transfer, boost, intake or air");
  v.field("rank", s.rank, "of transfers, from the exhaust round: 0 primary, 1 secondary, 2 third");
  v.field("side", s.side, "1 for the mirrored one");
  v.field("opened_by", s.opened_by, "crown or skirt");
  v.field("path", s.path, "closed outline as SVG path data [mm], lines and arcs");
  v.field("x_mm", s.x_mm, "left of its box");
  v.field("y_mm", s.y_mm, "top of its box");
  v.field("w_mm", s.w_mm, "width of its box");
  v.field("h_mm", s.h_mm, "height of its box");
  v.field("middle_mm", s.middle_mm, "x of its centre line");
  v.field("centre_deg", s.centre_deg, "place of its centre line round the bore [deg], 0 at the exhaust");
  v.maybe("opens_deg", s.opens_deg, "crank angle after TDC; left out where it waits for readings");
  v.maybe("closes_deg", s.closes_deg, "crank angle after TDC");
  v.maybe("chord", s.chord, "over both windows and the bridge [mm]");
  v.field("roof", s.roof, "its highest point");
  v.field("floor", s.floor, "its lowest point");
  v.field("free_port", s.free_port, "the skirt leaves it open to the case about TDC");
  v.field("changed", s.changed, "a cut worked on it");
  v.field("cut", s.cut, "number of the first cut that worked on it, from 1; 0: none");
}

template <class V>
void shape(V& v, Of<BoreRing> auto& s) {
  v.is("BoreRing", "A ring's groove, from the crown edge down.");
  v.field("from_mm", s.from_mm, "upper side");
  v.field("to_mm", s.to_mm, "lower side");
  v.maybe("pin_x_mm", s.pin_x_mm, "x of its pin; left out where it is not read");
  v.maybe("pin_deg", s.pin_deg, "place of its pin round the bore [deg]");
}

template <class V>
void shape(V& v, Of<BoreHole> auto& s) {
  v.is("BoreHole", "An end of the pin bore, from the crown edge down.");
  v.field("x_mm", s.x_mm, "x of its middle");
  v.field("y_mm", s.y_mm, "below the crown edge");
  v.field("across_mm", s.across_mm, "its diameter");
}

template <class V>
void shape(V& v, Of<BorePiston> auto& s) {
  v.is("BorePiston", "The piston in the same frame, y from its crown edge down; move it by drop_mm.");
  v.maybe("height_mm", s.height_mm, "crown edge to the lowest point of the skirt");
  v.maybe("skirt_path", s.skirt_path, "lower edge from the left seam to the right, SVG path data");
  v.maybe("outline_path", s.outline_path, "closed: crown edge, sides, skirt; SVG path data");
  v.field("rings", s.rings, "grooves whose place and height are known");
  v.field("window_paths", s.window_paths, "holes in the skirt, SVG path data");
  v.field("pin_ends", s.pin_ends, "ends of the pin bore");
  v.maybe("pressed_deg", s.pressed_deg, "side pressed on the power stroke, place round the bore [deg]");
}

template <class V>
void shape(V& v, Of<BoreArea> auto& s) {
  v.is("BoreArea", "Open area of all windows of a port at each degree of the turn.");
  v.field("port", s.port, "port");
  v.field("label", s.label, "its name for a person");
  v.field("kind", s.kind, "its kind");
  v.field("rank", s.rank, "as of its windows");
  v.field("windows", s.windows, "windows summed");
  v.field("mm2", s.mm2, "at 0 to 360 deg after TDC [mm2]");
}

template <class V>
void shape(V& v, Of<BoreEvent> auto& s) {
  v.is("BoreEvent", "Something that is open for a part of the turn.");
  v.field("id", s.id, "port, blowdown, or port and free_port");
  v.field("port", s.port, "port, or empty");
  v.field("kind", s.kind, "exhaust, transfer, boost, intake, air, blowdown or free_port");
  v.field("label", s.label, "its name for a person");
  v.field("opens_deg", s.opens_deg, "crank angle after TDC");
  v.field("closes_deg", s.closes_deg, "crank angle after TDC; less than opens_deg when TDC lies between");
  v.field("duration_deg", s.duration_deg, "turn from one to the other");
  v.field("short_text", s.short_text, "for a dimension line: exhaust open 154.0\u00B0");
  v.field("text", s.text, "one sentence without its full stop");
}

template <class V>
void shape(V& v, Of<BoreWall> auto& s) {
  v.is("BoreWall", "The least wall between two windows.");
  v.field("from", s.from, "id of the window on its left");
  v.field("to", s.to, "id of the window on its right");
  v.field("x_mm", s.x_mm, "where it begins");
  v.field("to_x_mm", s.to_x_mm, "where it ends");
  v.field("y_mm", s.y_mm, "at this y");
  v.field("width", s.width, "along the wall [mm]");
}

template <class V>
void shape(V& v, Of<BoreStock> auto& s) {
  v.is("BoreStock", "The saw before the cuts, in the frame of the one after them.");
  v.field("windows", s.windows, "its windows");
  v.field("areas", s.areas, "its areas");
  v.field("events", s.events, "its events");
  v.field("shift_mm", s.shift_mm, "how far the cylinder lies lower after the cuts, against the crown edge at TDC");
}

template <class V>
void shape(V& v, Of<BoreAnswer> auto& s) {
  v.is("bore", "The bore unrolled, the piston, and what is open at each degree.");
  head(v, "portwright bore 1", s.head);
  v.maybe("bore_mm", s.bore_mm, "diameter; what is not known is left out");
  v.maybe("stroke_mm", s.stroke_mm, "stroke");
  v.maybe("around_mm", s.around_mm, "length of the unrolled wall");
  v.maybe("seam_deg", s.seam_deg, "place of the right edge round the bore; the left edge is one turn before it");
  v.maybe("head_mm", s.head_mm, "y of the squish band; above the crown edge, so negative");
  v.maybe("base_mm", s.base_mm, "y of the base face");
  v.maybe("bdc_mm", s.bdc_mm, "y of the crown edge at BDC");
  v.maybe("bdc_deg", s.bdc_deg, "crank angle of BDC");
  v.maybe("drop_mm", s.drop_mm, "y of the crown edge at 0 to 360 deg after TDC");
  v.field("piston", s.piston, "the piston");
  v.field("windows", s.windows, "left to right");
  v.field("areas", s.areas, "ports in the file's order");
  v.field("events", s.events, "ports in the file's order, then blowdown and free-porting");
  v.maybe("wall", s.wall, "the least wall between two windows");
  v.field("sentence", s.sentence, "what the picture says");
  v.maybe("stock", s.stock, "with cuts only");
  v.field("waits", s.waits, "what is not there, and the readings it waits for");
}

template <class V>
void shape(V& v, Of<FormField> auto& s) {
  v.is("FormField", "One field of a saw's readings, with what was typed into it.");
  v.field("path", s.path, "its path: port.exhaust.opens");
  v.field("label", s.label, "its name for a person");
  v.field("kind", s.kind, "reading, several, pairs, number, flag, words or choice");
  v.field("dimension", s.dimension, "what it measures; empty for words, flags and choices");
  v.field("second_dimension", s.second_dimension, "of the second half of pairs; else empty");
  v.field("units", s.units, "units it may be typed in");
  v.field("typical", s.typical, "an example, not advice");
  v.field("how", s.how, "how it is taken");
  v.field("drawing", s.drawing, "drawing that shows it; empty: none");
  v.field("number", s.number, "its number on the drawing, from 1; 0: none");
  v.field("typed", s.typed, "as typed: repeats, members of a list, halves of pairs one after the other");
  v.field("with", s.with, "instrument; empty: the usual one");
  v.field("setup", s.setup, "set-up whose error it shares");
  v.field("note", s.note, "note to it");
  v.field("borrowed_from", s.borrowed_from, "sister it was taken from; empty: read on this saw");
  v.field("read", s.read, "as understood, with its error; empty: not taken, or it cannot be read");
  v.field("errors", s.errors, "what is wrong with it");
  v.field("choices", s.choices, "the only words it may say; empty: any");
  v.field("instruments", s.instruments, "instruments that read it, the usual one first");
  v.field("seldom", s.seldom, "a saw of this kind has no use for it");
}

template <class V>
void shape(V& v, Of<FormGroup> auto& s) {
  v.is("FormGroup", "A step of the work.");
  v.field("id", s.id, "window.exhaust, crank");
  v.field("label", s.label, "its name for a person");
  v.field("port", s.port, "port it speaks of, or empty");
  v.field("fields", s.fields, "in the order of the saw file");
}

template <class V>
void shape(V& v, Of<FormMissing> auto& s) {
  v.is("FormMissing", "A reading to take next.");
  v.field("path", s.path, "path of the reading");
  v.field("label", s.label, "its name for a person");
  v.field("gain", s.gain, "what it would narrow or bring");
}

template <class V>
void shape(V& v, Of<FormAddition> auto& s) {
  v.is("FormAddition", "A part that this saw has not and may be given.");
  v.field("what", s.what, "port, ring, skirt window or fins");
  v.field("label", s.label, "its name for a person");
  v.field("path", s.path, "field that begins it");
  v.field("value", s.value, "what to set there; empty: its first reading");
}

template <class V>
void shape(V& v, Of<FormAnswer> auto& s) {
  v.is("form", "A saw's readings in the order of the work, taken or not.");
  head(v, "portwright form 1", s.head);
  v.field("revision", s.revision, "of the readings of a saw of the book: the base of a change; empty for a file");
  v.field("groups", s.groups, "steps in the order of the work");
  v.field("missing", s.missing, "readings that would tell most, best first");
  v.field("checks", s.checks, "edges read in more than one way, held against each other");
  v.field("wheel", s.wheel, "what the degree wheel's zero explains; empty when nothing");
  v.field("may_add", s.may_add, "parts that may be added");
  v.field("taken", s.taken, "fields taken");
  v.field("asked", s.asked, "fields that a saw of this kind has a use for");
}

template <class V>
void shape(V& v, Of<StepIn> auto& s) {
  v.is("StepIn", "One cut, its amount apart from its words.");
  v.field("act", s.act, "words before the amount: roof exhaust, gasket out, corner exhaust roof");
  v.maybe("amount", s.amount, "in `unit`; left out where the act has none");
  v.may("amounts", s.amounts, "of outlets, in `unit`");
  v.may("unit", s.unit, "mm, thou, cm2, cc, deg; empty where there is none");
  v.may("tail", s.tail, "words after the amount: left, wide 6 mm");
  v.may("words", s.words, "pump, research or motor of an octane");
}

template <class V>
void shape(V& v, Of<Step> auto& s) {
  v.is("Step", "One cut of a list, and how far it may be turned.");
  v.field("text", s.text, "canonical text of this cut");
  v.field("act", s.act, "words before the amount: roof exhaust");
  v.field("tail", s.tail, "words after the amount: left, wide 6 mm; else empty");
  v.field("words", s.words, "what stands in place of a number: pump, research, motor, or a file");
  v.field("form", s.form, "none, change, quantity, size, areas, octane or file");
  v.field("target", s.target, "port, side of the skirt or part it works on; empty: the act says it");
  v.field("title", s.title, "in trade words: Exhaust roof higher");
  v.maybe("amount", s.amount, "in `unit`; a change with its sign");
  v.field("amounts", s.amounts, "of outlets, in `unit`");
  v.field("unit", s.unit, "unit of amount, least, most, step and stop");
  v.maybe("least", s.least, "least amount of its rule that the saw allows with the other cuts as they are");
  v.maybe("most", s.most, "greatest amount of its rule");
  v.maybe("step", s.step, "one press of a key");
  v.field("least_says", s.least_says, "why no less; empty: the rule ends there");
  v.field("most_says", s.most_says, "why no more; empty: the rule ends there");
  v.maybe("stop", s.stop, "amount to stop short at and read");
  v.field("now_text", s.now_text, "what it is by this cut's turn; em rule: not known");
  v.field("stop_text", s.stop_text, "where to stop and read");
  v.field("then_text", s.then_text, "what it is after it");
  v.field("wheel_stop", s.wheel_stop, "what the wheel shows at the stop; empty: nothing");
  v.field("wheel_then", s.wheel_then, "what the wheel shows after it");
}

template <class V>
void shape(V& v, Of<StepsAnswer> auto& s) {
  v.is("steps", "A cut list as steps, and the cuts that may follow.");
  head(v, "portwright steps 1", s.head);
  v.field("text", s.text, "canonical text of the list");
  v.field("steps", s.steps, "in order");
  v.field("may_add", s.may_add, "cuts that this saw allows after the list, each with a first amount");
}

}  // namespace portwright::wire
