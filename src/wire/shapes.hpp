#pragma once
// The one table of shapes: every field of every answer, its name and what it means. The writer, the reader and the JSON
// Schemas all walk this table, so none of them can know a field that another does not.
//
// A visitor has
//   is(name, doc)                 the shape's name
//   constant(name, text, doc)     a field that always says the same
//   field(name, member, doc)      always written; null when an optional is empty
//   maybe(name, member, doc)      left out when the optional is empty
// The type comes from the member: text, number, whole number, yes or no, word of an enum, object, list, optional of
// these.

#include <array>
#include <concepts>
#include <type_traits>

#include "wire/answer.hpp"

namespace portwright::wire {

template <class S, class T>
concept Of = std::is_same_v<std::remove_const_t<S>, T>;

/// Words of an enum in JSON, in the enum's order.
template <class E>
struct EnumWords;
template <>
struct EnumWords<study::State> {
  static constexpr std::array words{"ok", "note", "caution", "stop"};
};
template <>
struct EnumWords<base::ErrorCode> {
  static constexpr std::array words{"usage",      "unreadable",     "wrong_unit",  "out_of_range",   "contradiction",
                                    "impossible", "not_a_saw_file", "unknown_key", "unknown_format", "bad_cut",
                                    "not_found",  "storage",        "busy",        "conflict",       "damaged",
                                    "newer",      "fault"};
};

template <class V>
void shape(V& v, Of<base::Error> auto& s) {
  v.is("Error", "One thing that is wrong.");
  v.field("code", s.code, "kind of trouble");
  v.field("message", s.message, "one sentence for a person, with the value as typed");
  v.field("path", s.path, "field, by port name; empty when none");
  v.field("hint", s.hint, "what would mend it; empty when none");
  v.field("readings", s.readings, "what an ambiguous text could have meant, or the readings that disagree");
}

template <class V>
void shape(V& v, Of<Port> auto& s) {
  v.is("Port", "A port as the saw file names it.");
  v.field("name", s.name, "its name");
  v.field("kind", s.kind, "exhaust, transfer, boost, intake or air");
  v.field("windows", s.windows, "windows under this name");
}

template <class V>
void shape(V& v, Of<Saw> auto& s) {
  v.is("Saw", "What the saw file says of itself.");
  v.field("format", s.format, "format the file was read as");
  v.field("name", s.name, "name of the saw");
  v.field("model", s.model, "words that tie sisters together");
  v.field("casting", s.casting, "marks of the casting");
  v.field("state", s.state, "as received, stock, after a cut");
  v.field("use", s.use, "what the builder aims at: stock, work, race, or empty");
  v.field("ports", s.ports, "ports in the file's order");
}

template <class V>
void shape(V& v, Of<study::Assumed> auto& s) {
  v.is("Assumed", "A named assumption that stands in for a reading.");
  v.field("name", s.name, "its name");
  v.field("value", s.value, "in `unit`");
  v.field("low", s.low, "low end of its 95 % range");
  v.field("high", s.high, "high end of its 95 % range");
  v.field("unit", s.unit, "unit of the value");
  v.field("source", s.source, "where the value comes from");
}

template <class V>
void shape(V& v, Of<base::Spread> auto& s) {
  v.is("Spread", "A value with its 95 % range.");
  v.field("value", s.value, "in the figure's unit");
  v.field("low", s.low, "low end of the 95 % range");
  v.field("high", s.high, "high end of the 95 % range");
}

template <class V>
void shape(V& v, Of<study::Change> auto& s) {
  v.is("Change", "What-if less stock, by the same samples.");
  v.field("value", s.value, "in the figure's unit");
  v.field("low", s.low, "low end of the change's own 95 % range");
  v.field("high", s.high, "high end of the change's own 95 % range");
  v.field("distinguishable", s.distinguishable, "no: not told apart from nothing");
}

template <class V>
void shape(V& v, Of<study::Figure> auto& s) {
  v.is("Figure", "One number with its range, reason and source.");
  v.field("id", s.id, "name of the figure: port.exhaust.opens");
  v.field("label", s.label, "its name for a person");
  v.field("value", s.value, "in `unit`; null: see waits_for");
  v.field("unit", s.unit, "unit of value, low and high");
  v.field("text", s.text, "rounded to its range, in the unit style asked for");
  v.field("low", s.low, "low end of the 95 % range; null when there is none");
  v.field("high", s.high, "high end of the 95 % range; null when there is none");
  v.field("why", s.why, "one sentence");
  v.field("formula", s.formula, "how it is worked out, in words");
  v.field("from", s.from, "readings and figures it is made from");
  v.field("source", s.source, "key of docs/references.bib, common practice, memory or own arithmetic");
  v.field("waits_for", s.waits_for, "readings that are missing");
  v.field("count", s.count, "windows that a port figure speaks for; each has this value");
  v.maybe("stock", s.stock, "before the cuts; with cuts only");
  v.maybe("change", s.change, "with cuts only");
  v.field("low_text", s.low_text, "low end for a person; empty without a range");
  v.field("high_text", s.high_text, "high end for a person");
  v.field("stock_text", s.stock_text, "stock for a person; empty without cuts");
  v.field("change_text", s.change_text, "change for a person, to its own range: +3.9, or not told apart");
}

template <class V>
void shape(V& v, Of<study::Where> auto& s) {
  v.is("Where", "Place of a finding.");
  v.field("port", s.port, "port, or empty");
  v.field("side", s.side, "side, or empty");
  v.field("height_mm", s.height_mm, "height above the base face [mm]");
  v.field("angle_deg", s.angle_deg, "place round the bore [deg], 0 at the exhaust, clockwise seen from the plug");
}

template <class V>
void shape(V& v, Of<study::Finding> auto& s) {
  v.is("Finding", "A limit held against a figure.");
  v.field("rule", s.rule, "row of data/limits");
  v.field("figure", s.figure, "figure it holds");
  v.field("state", s.state, "worst threshold passed");
  v.field("value", s.value, "in `unit`");
  v.field("limit", s.limit, "threshold that set the state, the strictest when ok; null: no number is agreed");
  v.field("margin", s.margin, "what is left; negative: passed by");
  v.field("unit", s.unit, "unit of value, limit and margin");
  v.field("chance", s.chance, "that the limit is passed, 0 to 1");
  v.field("where", s.where, "place on the saw");
  v.field("text", s.text, "one sentence for a person");
  v.field("why", s.why, "what goes wrong beyond the limit");
  v.field("fix", s.fix, "what would mend it");
  v.field("source", s.source, "where the limit comes from");
  v.field("hard", s.hard, "no plan may pass it");
  v.field("accepted", s.accepted, "the builder accepted it, with a reason");
  v.field("letter", s.letter, "stands for it on a drawing; empty for one that holds");
}

template <class V>
void shape(V& v, Of<Gap> auto& s) {
  v.is("Gap", "What is left between a value and its limit.");
  v.field("id", s.id, "figure it speaks of");
  v.field("rule", s.rule, "row of data/limits");
  v.field("label", s.label, "its name for a person");
  v.field("unit", s.unit, "unit of the numbers");
  v.field("value", s.value, "in `unit`");
  v.field("low", s.low, "low end of the 95 % range; null when there is none");
  v.field("high", s.high, "high end of the 95 % range");
  v.field("stock", s.stock, "before the cuts; null without cuts");
  v.field("limit", s.limit, "the strictest threshold of the row; null: no number is agreed");
  v.field("stop", s.stop, "the threshold that is a stop; null when the row has none");
  v.field("side", s.side, "at least: the block lies below the limit; at most: above it");
  v.field("state", s.state, "state of the finding");
  v.field("letter", s.letter, "of the finding; empty for one that holds");
  v.field("text", s.text, "value for a person");
  v.field("low_text", s.low_text, "low end for a person");
  v.field("high_text", s.high_text, "high end for a person");
  v.field("stock_text", s.stock_text, "stock for a person");
  v.field("change_text", s.change_text, "change for a person");
  v.field("limit_text", s.limit_text, "limit for a person");
  v.field("left_text", s.left_text, "what is left, or by how much it is passed");
}

template <class V>
void shape(V& v, Of<study::NextReading> auto& s) {
  v.is("NextReading", "A reading to take next.");
  v.field("reading", s.reading, "path of the reading");
  v.field("narrows", s.narrows, "what it would narrow or bring");
}

template <class V>
void shape(V& v, Of<Band> auto& s) {
  v.is("Band", "A band builders steer for.");
  v.field("low", s.low, "null: open below");
  v.field("high", s.high, "null: open above");
  v.field("text", s.text, "both ends in the unit style asked for");
}

template <class V>
void shape(V& v, Of<Aim> auto& s) {
  v.is("Aim", "Bands that builders steer for in one figure; never a finding.");
  v.field("figure", s.figure, "figure it speaks of");
  v.field("item", s.item, "in words");
  v.field("unit", s.unit, "unit of the bands");
  v.field("stock", s.stock, "band of stock saws");
  v.field("work", s.work, "band of work saws");
  v.field("race", s.race, "band of race saws");
  v.field("source", s.source, "where the bands come from");
}

template <class V>
void shape(V& v, Of<study::Share> auto& s) {
  v.is("Share", "Share of one input in a figure's doubt.");
  v.field("path", s.path, "reading, or name of the assumption");
  v.field("value", s.value, "in `unit`");
  v.field("unit", s.unit, "unit of value");
  v.field("share", s.share, "of the variance, 0 to 1");
  v.field("assumed", s.assumed, "an assumption, not a reading");
}

template <class V>
void shape(V& v, Of<ReadAs> auto& s) {
  v.is("ReadAs", "One reading as it was understood.");
  v.field("path", s.path, "its path");
  v.field("value", s.value, "in `unit`, mean of the repeats");
  v.field("sigma", s.sigma, "one sigma, in `unit`");
  v.field("unit", s.unit, "unit of value and sigma");
  v.field("text", s.text, "value and tolerance for a person");
  v.field("source", s.source, "where the sigma comes from");
}

template <class V>
void shape(V& v, Of<EdgeReading> auto& s) {
  v.is("EdgeReading", "One reading of an edge, brought to a height.");
  v.field("path", s.path, "path of the reading");
  v.field("height_mm", s.height_mm, "above the base face [mm]; null without a crown height");
  v.field("drop_mm", s.drop_mm, "below the crown edge's TDC place [mm]");
  v.field("low", s.low, "low end of the 95 % range of height_mm");
  v.field("high", s.high, "high end of the 95 % range of height_mm");
  v.field("text", s.text, "height, else drop, for a person");
}

template <class V>
void shape(V& v, Of<EdgeCheck> auto& s) {
  v.is("EdgeCheck", "Readings of one edge held against each other.");
  v.field("port", s.port, "port; empty for the crown's height");
  v.field("edge", s.edge, "roof or floor");
  v.field("readings", s.readings, "the readings of it");
  v.field("agrees", s.agrees, "within their errors");
  v.field("gap_mm", s.gap_mm, "greatest less least [mm]");
  v.field("gap_text", s.gap_text, "the gap for a person");
  v.field("mend", s.mend, "what would mend it; empty when nothing is to be mended");
}

template <class V>
void shape(V& v, Of<study::Compared> auto& s) {
  v.is("Compared", "One figure of two cases.");
  v.field("id", s.id, "name of the figure");
  v.field("label", s.label, "its name for a person");
  v.field("unit", s.unit, "unit of the numbers");
  v.field("a", s.a, "first case; null when it waits for readings");
  v.field("b", s.b, "second case");
  v.field("change", s.change, "second less first");
  v.field("low", s.low, "low end of the change's 95 % range");
  v.field("high", s.high, "high end of the change's 95 % range");
  v.field("distinguishable", s.distinguishable, "no: not told apart");
  v.field("text_a", s.text_a, "first case for a person");
  v.field("text_b", s.text_b, "second case for a person");
  v.field("text_change", s.text_change, "change for a person");
}

template <class V>
void shape(V& v, Of<ComparedFinding> auto& s) {
  v.is("ComparedFinding", "One rule in two cases.");
  v.field("rule", s.rule, "row of data/limits");
  v.field("figure", s.figure, "figure it holds");
  v.field("a", s.a, "state in the first case; null: it does not apply");
  v.field("b", s.b, "state in the second case");
  v.field("text_a", s.text_a, "sentence of the first case");
  v.field("text_b", s.text_b, "sentence of the second case");
}

template <class V>
void shape(V& v, Of<Value> auto& s) {
  v.is("Value", "A number with its range and its text.");
  v.field("value", s.value, "in the form's unit");
  v.field("low", s.low, "low end of the 95 % range");
  v.field("high", s.high, "high end of the 95 % range");
  v.field("text", s.text, "rounded to its range");
  v.field("range", s.range, "the range for a person; empty without one");
}

template <class V>
void shape(V& v, Of<EdgeForm> auto& s) {
  v.is("EdgeForm", "One way to say where an edge is.");
  v.field("form", s.form, "opens, closes, duration, drop, height or deg_per_mm");
  v.field("label", s.label, "in words");
  v.field("unit", s.unit, "unit of the values");
  v.field("read", s.read, "as read; null: see waits_for");
  v.maybe("at", s.at, "at the place asked about");
  v.maybe("cut", s.cut, "after the cuts");
  v.maybe("change", s.change, "what the cuts change");
  v.field("waits_for", s.waits_for, "readings that are missing");
}

template <class V>
void shape(V& v, Of<UnitForm> auto& s) {
  v.is("UnitForm", "The quantity in one unit.");
  v.field("value", s.value, "in `unit`");
  v.field("unit", s.unit, "unit of value");
  v.field("text", s.text, "for a person");
}

/// The fields that every answer begins with.
template <class V>
void head(V& v, const char* schema, Of<Head> auto& s) {
  v.constant("schema", schema, "name and number of this shape");
  v.constant("program", program_name(), "program and version");
  v.field("saw", s.saw, "the saw; null when the question is about none");
  v.field("cuts", s.cuts, "cuts in order, each as text");
  v.field("assumed", s.assumed, "assumptions that stand in for readings");
  v.field("errors", s.errors, "readings that are wrong or contradicted; the rest stands");
}

template <class V>
void shape(V& v, Of<Acceptance> auto& s) {
  v.is("Acceptance", "A finding of the book that was accepted with a reason, for the value it had.");
  v.field("rule", s.rule, "row of data/limits");
  v.field("figure", s.figure, "figure it holds");
  v.field("value", s.value, "value it was accepted at, in the figure's unit");
  v.field("text", s.text, "the same for a person");
  v.field("reason", s.reason, "why it may stand");
  v.field("cuts", s.cuts, "what-if it was accepted in; empty: the saw as it is");
  v.field("who", s.who, "who accepted it");
  v.field("when", s.when, "when, UTC");
  v.field("stale", s.stale, "the value is another one now, so the finding stands again");
}

template <class V>
void shape(V& v, Of<StudyAnswer> auto& s) {
  v.is("study", "Figures, findings and the reading to take next.");
  head(v, "portwright study 1", s.head);
  v.field("rpm", s.rpm, "speed of the figures that depend on it [rpm]");
  v.field("rpm_from", s.rpm_from, "asked, in-cut reading or usual");
  v.field("figures", s.figures, "every figure, known or waiting");
  v.field("findings", s.findings, "worst first");
  v.field("gaps", s.gaps, "of the findings with a margin, rows that hold among them");
  v.field("acceptances", s.acceptances, "findings accepted on a saw of the book, with those gone stale");
  v.field("next_reading", s.next_reading, "most telling first");
  v.field("aims", s.aims, "bands builders steer for");
  v.field("warnings", s.warnings, "what to know before cutting");
  v.maybe("metal_mm3", s.metal_mm3, "metal that the cuts take off [mm3]; negative: put on");
  v.field("cautions", s.cautions, "cautions that go with every report");
}

template <class V>
void shape(V& v, Of<WhyAnswer> auto& s) {
  v.is("why", "One figure and what it is made of.");
  head(v, "portwright why 1", s.head);
  v.field("figure", s.figure, "the figure");
  v.field("inputs", s.inputs, "greatest share of the doubt first");
  v.field("aim", s.aim, "bands builders steer for, if there are any");
}

template <class V>
void shape(V& v, Of<CheckAnswer> auto& s) {
  v.is("check", "Readings held against each other.");
  head(v, "portwright check 1", s.head);
  v.field("edges", s.edges, "edges read in more than one way");
  v.field("wheel", s.wheel, "what the degree wheel's zero explains; empty when nothing");
  v.field("readings", s.readings, "every reading as it was understood");
}

template <class V>
void shape(V& v, Of<CompareAnswer> auto& s) {
  v.is("compare", "Two saws, or two cut lists of one.");
  head(v, "portwright compare 1", s.head);
  v.field("saw_b", s.saw_b, "the second saw; null: the same one");
  v.field("cuts_b", s.cuts_b, "cuts of the second case");
  v.field("figures", s.figures, "figures of both cases");
  v.field("findings", s.findings, "rules whose state differs, and those passed in either");
  v.field("cautions", s.cautions, "cautions that go with every report");
}

template <class V>
void shape(V& v, Of<EdgeAnswer> auto& s) {
  v.is("edge", "One edge in all its forms.");
  head(v, "portwright edge 1", s.head);
  v.field("port", s.port, "the port");
  v.field("kind", s.kind, "its kind");
  v.field("edge", s.edge, "roof or floor");
  v.field("asked", s.asked, "the place asked about; empty: none");
  v.field("forms", s.forms, "the ways to say where it is");
  v.field("move", s.move, "from the edge as read to the place asked about [mm], + upward");
  v.field("move_sentence", s.move_sentence, "the same in words");
}

template <class V>
void shape(V& v, Of<UnitsAnswer> auto& s) {
  v.is("units", "A typed quantity in every unit of its kind.");
  head(v, "portwright units 1", s.head);
  v.field("typed", s.typed, "as typed");
  v.field("kind", s.kind, "what it measures");
  v.field("value", s.value, "in `unit`");
  v.field("unit", s.unit, "unit as typed; empty for a plain number");
  v.field("si_value", s.value_si, "in `si_unit`");
  v.field("si_unit", s.unit_si, "SI unit of the kind");
  v.field("sigma", s.sigma, "tolerance, one sigma, in `si_unit`");
  v.field("also", s.also, "the same in the other units");
}

template <class V>
void shape(V& v, Of<WrittenAnswer> auto& s) {
  v.is("written", "A file that was written.");
  head(v, "portwright written 1", s.head);
  v.field("kind", s.kind, "new, map, template, cut-sheet or measuring-sheet");
  v.field("file", s.file, "where it was written");
  v.field("format", s.format, "toml, svg or pdf");
  v.field("bytes", s.bytes, "its length");
  v.field("pages", s.pages, "pages");
  v.field("paper", s.paper, "paper; empty where there is none");
  v.field("notes", s.notes, "what to know about it");
}

template <class V>
void shape(V& v, Of<ErrorAnswer> auto& s) {
  v.is("error", "What is wrong, all at once.");
  v.constant("schema", "portwright error 1", "name and number of this shape");
  v.field("errors", s.errors, "everything found wrong");
}

}  // namespace portwright::wire
