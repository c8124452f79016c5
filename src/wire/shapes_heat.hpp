#pragma once
// The part of the table of shapes that speaks of heat; see wire/shapes.hpp, which it goes on from.

#include "wire/heat_answer.hpp"
#include "wire/shapes.hpp"

namespace portwright::wire {

template <class V>
void shape(V& v, Of<HeatDifference> auto& s) {
  v.is("HeatDifference", "A difference of two temperatures, over the same sets of assumptions on both sides.");
  v.field("value", s.value, "under the middles [K]");
  v.field("low", s.low, "low end of the 95 % range [K]");
  v.field("high", s.high, "high end of the 95 % range [K]");
  v.field("distinguishable", s.distinguishable, "no: the range spans zero");
  v.field("text", s.text, "the same for a person, or not told apart");
}

template <class V>
void shape(V& v, Of<HeatDegrees> auto& s) {
  v.is("HeatDegrees", "A temperature of this saw, from a spot that was read on it.");
  v.field("value", s.value, "under the middles [C]");
  v.field("low", s.low, "low end of the 95 % range [C]");
  v.field("high", s.high, "high end of the 95 % range [C]");
  v.field("text", s.text, "the same for a person");
}

template <class V>
void shape(V& v, Of<HeatPlace> auto& s) {
  v.is("HeatPlace", "A place of cylinder or piston, ranked by heat.");
  v.field("name", s.name, "as a builder calls it");
  v.field("part", s.part, "cylinder or piston");
  v.field("first", s.first, "share of the sets of assumptions in which it is the hottest of its part, 0 to 1");
  v.field("rank", s.rank, "within its part, 1 the hottest");
  v.field("angle_deg", s.angle_deg,
          "round the bore [deg], 0 at the exhaust, clockwise seen from the plug; null all round");
  v.field("drop_mm", s.drop_mm, "below the crown edge's TDC place [mm]; null all round and for the piston");
  v.field("over_mean", s.over_mean, "above the mean of the bore's wall");
  v.field("change", s.change, "against stock; null without cuts");
  v.field("temperature", s.temperature, "null until a spot was read on this saw");
  v.field("sentence", s.sentence, "the same for a person");
}

template <class V>
void shape(V& v, Of<HeatEffect> auto& s) {
  v.is("HeatEffect", "What one change of the running, made alone, would do.");
  v.field("what", s.what, "the change");
  v.field("hottest", s.hottest, "of the bore's hottest place");
  v.field("head", s.head, "of the head");
  v.field("groove", s.groove, "of the ring groove");
  v.field("trapped", s.trapped, "change of the charge that a turn traps, 0.1 a tenth more; null: no turn was run anew");
  v.field("sentence", s.sentence, "the same for a person");
}

template <class V>
void shape(V& v, Of<HeatSoak> auto& s) {
  v.is("HeatSoak", "The engine stopped hot, the fan with it.");
  v.field("base_rise_K", s.base_rise_K, "how much hotter the base still gets [K]");
  v.field("base_rise_low_K", s.base_rise_low_K, "low end of its range [K]");
  v.field("base_rise_high_K", s.base_rise_high_K, "high end of its range [K]");
  v.field("base_peak_s", s.base_peak_s, "when [s after the stop]");
  v.field("half_s", s.half_s, "until the hottest place has lost half of what it stands above the day [s]");
  v.field("sentence", s.sentence, "the same for a person");
}

template <class V>
void shape(V& v, Of<HeatShare> auto& s) {
  v.is("HeatShare", "One way that the heat of burning takes.");
  v.field("way", s.way, "where to");
  v.field("low", s.low, "low end of its share, 0 to 1");
  v.field("high", s.high, "high end of its share, 0 to 1");
}

template <class V>
void shape(V& v, Of<HeatArc> auto& s) {
  v.is("HeatArc", "An arc round the bore, clockwise seen from the plug, 0 at the exhaust's centre.");
  v.field("from_deg", s.from_deg, "where it begins [deg]");
  v.field("to_deg", s.to_deg, "where it ends [deg]");
}

template <class V>
void shape(V& v, Of<HeatMap> auto& s) {
  v.is("HeatMap", "The bore unrolled, as a field of differences.");
  v.field("around", s.around, "columns, clockwise from the exhaust's centre");
  v.field("rows", s.rows, "rows, down from the crown edge's TDC place");
  v.field("row_mm", s.row_mm, "height of a row [mm]");
  v.field("fins", s.fins, "where fins stand");
  v.field("mean_C", s.mean_C, "mean of the bore's wall [C]; null until a spot was read and met");
  v.field("change", s.change, "with cuts, against stock [K], as over_mean; else empty");
  v.field("over_mean", s.over_mean, "row by row, above the mean of the bore's wall [K]; over a window its row's mean");
}

template <class V>
void shape(V& v, Of<HeatAnswer> auto& s) {
  v.is("heat", "Where a cylinder runs hot, and what a change does to it.");
  head(v, "portwright heat 1", s.head);
  v.field("rpm", s.rpm, "speed [rpm]");
  v.field("rpm_from", s.rpm_from, "asked, in-cut reading or usual");
  v.field("calibrated", s.calibrated,
          "a spot was read on this saw and the estimate met it; else there are no degrees here");
  v.field("promise", s.promise, "what may be read out of it");
  v.field("places", s.places, "cylinder, then piston, each the hottest first");
  v.field("figures", s.figures, "heat.*; without a value until calibrated, with cuts with their change");
  v.field("findings", s.findings, "worst first; without a spot that was read, what the cuts make worse");
  v.field("effects", s.effects, "changes of the running, each alone");
  v.field("soak", s.soak, "after the engine was stopped; null when nothing was ready");
  v.field("shares", s.shares, "where the heat of burning goes");
  v.field("map", s.map, "null when nothing was ready");
  v.field("settled", s.settled, "stable, alternating, two-solution, steep or not settled");
  v.field("written", s.written, "files that were written");
  v.field("warnings", s.warnings, "what to know before trusting it");
  v.field("cautions", s.cautions, "cautions that go with every report");
  v.field("stopped", s.stopped, "stopped on the way; what was ready is here");
}

}  // namespace portwright::wire
