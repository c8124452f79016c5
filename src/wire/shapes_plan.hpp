#pragma once
// The part of the table of shapes that speaks of plans; see wire/shapes.hpp, which it goes on from.

#include "wire/plan_answer.hpp"
#include "wire/shapes.hpp"

namespace portwright::wire {

template <class V>
void shape(V& v, Of<PlanWish> auto& s) {
  v.is("PlanWish", "One figure that is wished; a wish of transfers has one for each of them.");
  v.field("wish", s.wish, "the wish as typed");
  v.field("figure", s.figure, "id of the figure");
  v.field("label", s.label, "its name for a person");
  v.field("unit", s.unit, "deg, mm, %, cm3 or -");
  v.field("relation", s.relation, "is, at least or at most");
  v.field("stock", s.stock, "before any cut");
  v.field("asked", s.asked, "as wished");
  v.field("stock_text", s.stock_text, "before any cut, for a person");
  v.field("asked_text", s.asked_text, "as wished, for a person");
}

template <class V>
void shape(V& v, Of<PlanReached> auto& s) {
  v.is("PlanReached", "What a way makes of one wished figure, in its unit.");
  v.field("figure", s.figure, "id of the figure");
  v.field("exact", s.exact, "after the exact cuts");
  v.field("reached", s.reached, "after the rounded cuts");
  v.field("left", s.left, "what rounding leaves: reached less asked; 0 where an at least or at most holds");
  v.field("reached_text", s.reached_text, "for a person");
  v.field("left_text", s.left_text, "for a person, with its sign");
}

template <class V>
void shape(V& v, Of<PlanLimit> auto& s) {
  v.is("PlanLimit", "A limit that no plan may pass, after the rounded cuts.");
  v.field("rule", s.rule, "row of data/limits");
  v.field("figure", s.figure, "figure it holds");
  v.field("label", s.label, "its name for a person");
  v.field("unit", s.unit, "unit of value, stop and margin");
  v.field("value", s.value, "of the figure");
  v.field("stop", s.stop, "the limit");
  v.field("margin", s.margin, "what is left");
  v.field("chance", s.chance, "that the true value lies beyond the limit, 0 to 1, by the readings' errors");
  v.field("text", s.text, "what is left, for a person");
}

template <class V>
void shape(V& v, Of<PlanCut> auto& s) {
  v.is("PlanCut", "One cut of a way.");
  v.field("cut", s.cut, "as the option --cuts takes it, rounded");
  v.field("exact", s.exact, "the same to the last digit; empty where rounding left it out");
  v.field("text", s.text, "in words, in mm and thou");
  v.field(
      "within_mm", s.within_mm,
      "half-width of the amount's central 95 %, by what the readings leave open; null: a gasket, what is done, what "
      "lies at its own end");
  v.field("within_text", s.within_text, "the same for a person, with its sign; empty where there is none");
}

template <class V>
void shape(V& v, Of<PlanWay> auto& s) {
  v.is("PlanWay", "One way to reach all wishes.");
  v.field("cuts", s.cuts, "the list of rounded cuts, in the order of the work");
  v.field("exact", s.exact, "the list that meets the wishes to the last digit");
  v.field("steps", s.steps, "the rounded cuts one by one");
  v.field("wishes", s.wishes, "what each wished figure comes to, in the order of the wishes");
  v.field("figures", s.figures, "figures of builders that the cuts change, by the study");
  v.field("findings", s.findings, "limits held against the study's figures after the cuts, worst first");
  v.field("limits", s.limits, "limits that no plan may pass");
  v.field("metal_mm3", s.metal_mm3, "taken off by the rounded cuts; null: it waits for a reading");
  v.field("metal_exact_mm3", s.metal_exact_mm3, "taken off by the exact ones");
  v.field("metal_text", s.metal_text, "for a person");
  v.field("reversible", s.reversible, "a gasket alone: put back, everything is as it was");
  v.field("reversible_text", s.reversible_text, "the same in words");
  v.field("moved", s.moved, "what moves that no wish speaks of, each a sentence");
  v.field("warnings", s.warnings, "what to know before cutting");
  v.field("newly_stopped", s.newly_stopped, "rules that are a stop after the cuts and were none before");
  v.field("work", s.work_text, "cuts on the lathe and by hand, for a person");
}

template <class V>
void shape(V& v, Of<PlanRefused> auto& s) {
  v.is("PlanRefused", "A way that is not offered.");
  v.field("cuts", s.cuts, "the list of cuts");
  v.field("why", s.why, "the limit it passes, or why it cannot be");
}

template <class V>
void shape(V& v, Of<PlanAnswer> auto& s) {
  v.is("plan", "From wishes to cuts: every way that reaches them.");
  head(v, "portwright plan 1", s.head);
  v.field("wishes", s.wishes, "what is wished, figure by figure");
  v.field("kept", s.kept, "what is held without a wish, and what done cuts brought within its band; each a sentence");
  v.field("unchecked", s.unchecked, "what could not be checked or tried for want of readings, each a sentence");
  v.field("done", s.done, "cuts that are done, as read; every plan begins with them");
  v.field("step", s.step_text, "what cuts are rounded to; empty: not rounded");
  v.field("chance", s.chance, "greatest chance of passing a hard limit that a plan may have, 0 to 1");
  v.field("plans", s.plans, "ways: those without a new stop first, then least metal");
  v.field("refused", s.refused, "ways that pass a limit");
  v.field("cautions", s.cautions, "cautions that go with every report");
}

}  // namespace portwright::wire
