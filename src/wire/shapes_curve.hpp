#pragma once
// The part of the table of shapes whose answers come in parts; see wire/shapes.hpp, which it goes on from.

#include "wire/curve_answer.hpp"
#include "wire/shapes.hpp"

namespace portwright::wire {

template <class V>
void shape(V& v, Of<CurvePoint> auto& s) {
  v.is("CurvePoint", "One speed of a curve that is still getting better.");
  v.field("rpm", s.rpm, "speed [rpm]");
  v.field("power_kw", s.power_kw, "brake power [kW]");
  v.field("torque_nm", s.torque_nm, "brake torque [N m]");
  v.field("stage", s.stage, "first look, settled or mean of turns");
  v.field("settled", s.settled, "stable, alternating, two-solution, steep or not settled; empty at a first look");
}

template <class V>
void shape(V& v, Of<CurveAnswer> auto& s) {
  v.is("curve", "Torque and power over speed, speed by speed as they get ready.");
  head(v, "portwright curve 1", s.head);
  v.field("share", s.share, "done, 0 to 1");
  v.field("doing", s.doing, "first look, settling, from above or done");
  v.field("points", s.points, "speeds that are ready, ascending");
  v.field("stock", s.stock, "the same without the cuts; empty when there are none");
  v.field("sentence", s.sentence, "what the curve says; empty until every speed has a point");
  v.field("promise", s.promise, "what may be read out of it");
  v.field("warnings", s.warnings, "what to know before trusting or cutting");
  v.field("cautions", s.cautions, "cautions that go with every report");
  v.field("stopped", s.stopped, "stopped on the way; what was ready is here");
}

template <class V>
void shape(V& v, Of<TraceSeries> auto& s) {
  v.is("TraceSeries", "One quantity over the turn.");
  v.field("id", s.id, "name of the quantity");
  v.field("label", s.label, "its name for a person");
  v.field("unit", s.unit, "unit of the values");
  v.field("values", s.values, "one for each of angle_deg");
  v.field("stock", s.stock, "the same without the cuts; empty when there are none");
}

template <class V>
void shape(V& v, Of<TraceWindow> auto& s) {
  v.is("TraceWindow", "Where a kind of window stands open in the turn.");
  v.field("kind", s.kind, "exhaust, transfer or intake");
  v.field("label", s.label, "its name for a person");
  v.field("opens_deg", s.opens_deg, "[deg ATDC], from 0");
  v.field("closes_deg", s.closes_deg, "[deg ATDC]; may pass 360");
}

template <class V>
void shape(V& v, Of<TracesAnswer> auto& s) {
  v.is("traces", "Pressures and flows over one turn at one speed.");
  head(v, "portwright traces 1", s.head);
  v.field("rpm", s.rpm, "speed [rpm]");
  v.field("rpm_from", s.rpm_from, "asked, in-cut reading or usual");
  v.field("settled", s.settled, "stable, alternating, two-solution, steep or not settled");
  v.field("angle_deg", s.angle_deg, "0 to 360 [deg ATDC], by the degree");
  v.field("series", s.series, "quantities over the turn");
  v.field("windows", s.windows, "where windows stand open");
  v.field("stock_windows", s.stock_windows, "the same without the cuts; empty when there are none");
  v.field("figures", s.figures, "run.* figures at this speed; with cuts each with stock and change");
  v.field("findings", s.findings, "worst first, of this one speed");
  v.field("sentence", s.sentence, "the turn for a person");
  v.field("cautions", s.cautions, "cautions that go with every report");
  v.field("stopped", s.stopped, "stopped on the way; nothing of it is here");
}

}  // namespace portwright::wire
