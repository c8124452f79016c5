#pragma once
// The part of the table of shapes that speaks of bottom end and chain; see wire/shapes.hpp, which it goes on from.

#include "wire/bottom_end_answer.hpp"
#include "wire/shapes_curve.hpp"

namespace portwright::wire {

template <class V>
void shape(V& v, Of<RungSpeed> auto& s) {
  v.is("RungSpeed", "A speed with its range.");
  v.field("rpm", s.rpm, "speed [rpm]");
  v.field("low", s.low, "low end of the 95 % range [rpm]; null when none");
  v.field("high", s.high, "high end [rpm]");
  v.field("text", s.text, "the speed for a person");
  v.field("range", s.range, "its range for a person; empty when none");
}

template <class V>
void shape(V& v, Of<Rung> auto& s) {
  v.is("Rung", "One limit or mark on the ladder of speeds.");
  v.field("id", s.id, "piston_speed, piston_speed_most, ring.<k>.flutter, <bearing>.load, <bearing>.life or a mark");
  v.field("name", s.name, "its name for a person");
  v.field("kind", s.kind, "hard, note or mark; only hard ones set the ceiling");
  v.field("free", s.free, "without load; null when it waits");
  v.field("cut", s.cut, "in the cut; null when it waits or the engine was not turned");
  v.field("stock_free", s.stock_free, "without the cuts; null when there are none");
  v.field("stock_cut", s.stock_cut, "without the cuts; null when there are none");
  v.field("why", s.why, "what happens there");
  v.field("moves", s.moves, "what would move it and how far; empty when nothing was asked");
  v.field("waits_for", s.waits_for, "what it waits for, in a sentence; empty when it has a speed");
  v.field("source", s.source, "where the limit comes from");
}

template <class V>
void shape(V& v, Of<RevsAnswer> auto& s) {
  v.is("revs", "What the bottom end bears: loads, wall under the skirt, balance, and the ladder of speeds.");
  head(v, "portwright revs 1", s.head);
  v.field("cut_rpm", s.cut_rpm, "speed in the cut that loads are told at [rpm]");
  v.field("cut_from", s.cut_from, "asked, in-cut reading or usual");
  v.field("free_rpm", s.free_rpm, "speed without load that loads are told at [rpm]");
  v.field("free_from", s.free_from, "asked, limiter, no-load reading or usual");
  v.field("turned", s.turned, "no: only what needs no gas is told");
  v.field("figures", s.figures, "bottom_end.*; with cuts with stock and change");
  v.field("findings", s.findings, "worst first");
  v.field("rungs", s.rungs, "lowest free speed first, those that wait last");
  v.field("angle_deg", s.angle_deg, "0 to 360 [deg ATDC], by the degree");
  v.field("series", s.series, "thrust, wall left, loads over the turn");
  v.field("duty", s.duty, "what bearing life is told for; empty where none is");
  v.field("sentences", s.sentences, "the answer for a person");
  v.field("waits", s.waits, "what is not told, and what it waits for");
  v.field("written", s.written, "files that were written");
  v.field("cautions", s.cautions, "cautions that go with every report");
  v.field("stopped", s.stopped, "stopped on the way; what was ready is here");
}

template <class V>
void shape(V& v, Of<Sprocket> auto& s) {
  v.is("Sprocket", "One sprocket in the wood as it is.");
  v.field("teeth", s.teeth, "number of teeth");
  v.field("fitted", s.fitted, "the one on the saw");
  v.field("meets", s.meets, "holds, bogs or runs away");
  v.field("rpm", s.rpm, "speed in the wood [rpm]");
  v.field("rpm_low", s.rpm_low, "low end of its range [rpm]; null when none");
  v.field("rpm_high", s.rpm_high, "high end [rpm]");
  v.field("chain_speed", s.chain_speed, "[m/s]");
  v.field("wood_power_kw", s.wood_power_kw, "left for the wood [kW]");
  v.field("chance", s.chance, "share of the draws in which it leaves most for the wood, 0 to 1");
  v.field("sentence", s.sentence, "the same for a person");
}

template <class V>
void shape(V& v, Of<WoodWidth> auto& s) {
  v.is("WoodWidth", "A width of wood and the sprocket for it.");
  v.field("width_mm", s.width_mm, "wood along the bar [mm]");
  v.field("teeth", s.teeth, "that leave most for the wood; 0 when the saw bogs with each");
  v.field("chance", s.chance, "share of the draws that say so, 0 to 1");
  v.field("sentence", s.sentence, "the same for a person");
}

template <class V>
void shape(V& v, Of<ChainAnswer> auto& s) {
  v.is("chain", "What reaches the wood: chain speed and force, power left, sprocket, change of cutting time.");
  head(v, "portwright chain 1", s.head);
  v.field("rpm", s.rpm, "speed in the wood [rpm]; 0 when it was not told");
  v.field("rpm_from", s.rpm_from, "in-cut reading, or speed of greatest power");
  v.field("width_mm", s.width_mm, "wood along the bar [mm]; 0 when neither wood nor bar was read");
  v.field("width_from", s.width_from, "wood, bar, or empty");
  v.field("anchored", s.anchored, "the saw's own stock power weighs the assumptions");
  v.field("figures", s.figures, "drive.*; with cuts with stock and change");
  v.field("findings", s.findings, "worst first");
  v.field("sprockets", s.sprockets, "by teeth");
  v.field("widths", s.widths, "narrowest first");
  v.field("sentences", s.sentences, "the answer for a person");
  v.field("waits", s.waits, "what is not told, and what it waits for");
  v.field("warnings", s.warnings, "what to know before trusting it");
  v.field("cautions", s.cautions, "cautions that go with every report");
  v.field("stopped", s.stopped, "stopped on the way; what was ready is here");
}

}  // namespace portwright::wire
