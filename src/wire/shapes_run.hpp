#pragma once
// The part of the table of shapes that speaks of a turning engine; see wire/shapes.hpp, which it goes on from.

#include "wire/run_answer.hpp"
#include "wire/shapes.hpp"

namespace portwright::wire {

template <class V>
void shape(V& v, Of<RunPoint> auto& s) {
  v.is("RunPoint", "One speed of a curve.");
  v.field("rpm", s.rpm, "speed [rpm]");
  v.field("figures", s.figures, "run.* figures; with cuts each with stock and change");
  v.field("settled", s.settled, "stable, alternating, two-solution, steep or not settled");
  v.field("cycles", s.cycles, "turns until it settled");
  v.field("mass_residual", s.mass_residual, "mass lost in the accounts of a turn, of the content");
  v.field("energy_residual", s.energy_residual, "energy lost in the accounts of a turn, of the content");
}

template <class V>
void shape(V& v, Of<RunChange> auto& s) {
  v.is("RunChange", "Difference from stock at one speed, over the same sets of assumptions on both sides.");
  v.field("figure", s.figure, "name of the figure");
  v.field("label", s.label, "its name for a person");
  v.field("unit", s.unit, "unit of the numbers");
  v.field("rpm", s.rpm, "speed [rpm]");
  v.field("stock", s.stock, "mean of stock");
  v.field("stock_low", s.stock_low, "low end of stock's 95 % range");
  v.field("stock_high", s.stock_high, "high end of stock's 95 % range");
  v.field("change", s.change, "mean of what-if less stock, set by set");
  v.field("low", s.low, "low end of the change's own 95 % range");
  v.field("high", s.high, "high end of the change's own 95 % range");
  v.field("distinguishable", s.distinguishable, "no: the range spans zero");
  v.field("text", s.text, "the change for a person, in the unit and in %; or not told apart");
  v.field("range", s.range, "its range for a person");
}

template <class V>
void shape(V& v, Of<RunAnswer> auto& s) {
  v.is("run", "A curve: figures at each speed, ranges over the assumptions, differences from stock.");
  head(v, "portwright run 1", s.head);
  v.field("rated_rpm", s.rated_rpm, "rated speed [rpm]; 0 when nothing was ready");
  v.field("rated_from", s.rated_from, "stock power reading, or greatest power of a stock curve");
  v.field("anchored", s.anchored, "the saw's own stock power weighs the assumptions");
  v.field("promise", s.promise, "what may be read out of it");
  v.field("points", s.points, "speeds, ascending");
  v.field("bands", s.bands, "figures at rated speed over the assumptions; empty when none were run");
  v.field("changes", s.changes, "differences from stock at 0.65, 1 and 1.25 of rated speed; with cuts only");
  v.field("findings", s.findings, "worst first, each where it fares worst from 0.65 to 1.25 of rated speed");
  v.field("zero_torque_rpm", s.zero_torque_rpm,
          "speed without torque [rpm]: an upper bound, never a no-load speed; null when it was not met");
  v.field("figures", s.figures, "figures of the whole curve");
  v.field("written", s.written, "files that were written");
  v.field("warnings", s.warnings, "what to know before trusting or cutting");
  v.field("cautions", s.cautions, "cautions that go with every report");
  v.field("stopped", s.stopped, "stopped on the way; what was ready is here");
}

template <class V>
void shape(V& v, Of<CrankAnswer> auto& s) {
  v.is("crank", "The compression gauge, pulled over by hand.");
  head(v, "portwright crank 1", s.head);
  v.field("figures", s.figures, "crank.gauge; with cuts with stock and change");
  v.field("strokes_bar", s.strokes_bar, "what the needle shows after each pull [bar], gauge");
  v.field("read_bar", s.read_bar, "the gauge as read [bar]; null when it was not");
  v.field("verdict", s.verdict, "how reading and estimate sit together");
  v.field("findings", s.findings, "worst first");
  v.field("cautions", s.cautions, "cautions that go with every report");
  v.field("stopped", s.stopped, "stopped on the way; what was ready is here");
}

template <class V>
void shape(V& v, Of<AirLoss> auto& s) {
  v.is("AirLoss", "What one cause costs in one passage.");
  v.field("cause", s.cause, "entry, throttle, venturi, reed block, gasket, mouth, bend, wall friction or window");
  v.field("pressure_mbar", s.pressure_mbar, "mean loss over what passes [mbar]");
  v.field("share", s.share, "of what drives the passage, 0 to 1");
}

template <class V>
void shape(V& v, Of<AirWay> auto& s) {
  v.is("AirWay", "One way of the gas in a turn.");
  v.field("name", s.name, "port, tract or pipe");
  v.field("kind", s.kind, "tract, transfer, boost, exhaust or pipe");
  v.field("count", s.count, "equal passages told together");
  v.field("forward_mg", s.forward_mg, "the way of the charge [mg], all of its windows");
  v.field("back_mg", s.back_mg, "against it [mg]");
  v.field("share", s.share, "of the net flow of its kind, 0 to 1");
  v.field("losses", s.losses, "greatest first");
  v.field("sentence", s.sentence, "the same for a person");
}

template <class V>
void shape(V& v, Of<AirGain> auto& s) {
  v.is("AirGain", "What opening the case to a passage would bring.");
  v.field("port", s.port, "the port");
  v.field("cut", s.cut, "the cut, as text");
  v.field("charging_percent", s.charging_percent, "change in charging [%]");
  v.field("power_percent", s.power_percent, "change in power [%]");
  v.field("sentence", s.sentence, "the same for a person, with the case volume it adds");
}

template <class V>
void shape(V& v, Of<AirflowAnswer> auto& s) {
  v.is("airflow", "Where the air goes in a turn and what it loses on the way.");
  head(v, "portwright airflow 1", s.head);
  v.field("rpm", s.rpm, "speed [rpm]");
  v.field("rpm_from", s.rpm_from, "asked, in-cut reading or usual");
  v.field("figures", s.figures, "delivery, trapping, charging, blow-back, spit-back, case pressure");
  v.field("ways", s.ways, "tract, passages, exhaust");
  v.field("gains", s.gains, "mouths that are narrower than their foot, opened one at a time");
  v.field("settled", s.settled, "stable, alternating, two-solution, steep or not settled");
  v.field("written", s.written, "files that were written");
  v.field("cautions", s.cautions, "cautions that go with every report");
  v.field("stopped", s.stopped, "stopped on the way; what was ready is here");
}

}  // namespace portwright::wire
