#pragma once
// The part of the table of shapes that speaks of rubbings; see wire/shapes.hpp, which it goes on from.

#include "wire/answer.hpp"
#include "wire/rubbing_answer.hpp"
#include "wire/shapes.hpp"

namespace portwright::wire {

/// The hints stand flat beside what they are asked with.
template <class V>
void hint_fields(V& v, Of<RubbingHints> auto& s) {
  v.may(
      "corners", s.corners,
      "inner corners of the square as put by hand, four [x, y] in pixels of the kept picture: left at the roof's side, "
      "then clockwise as printed; empty: found");
  v.may("inside", s.inside,
        "[x, y] within the window, in pixels; two for the openings beside a bridge; empty: the largest");
  v.may("points", s.points, "the outline's points as put by hand, in pixels, at most 48; empty: found");
  v.may("upright", s.upright, "two [x, y] on a line along the bore, in pixels; empty: the sheet's own direction");
  v.may("line", s.line, "where a pencil's line is taken: inner, middle or outer");
  v.may("across", s.across, "the square's inside as measured on this print, side to side: 119.8 mm");
  v.may("down", s.down, "the same from roof to floor");
  v.may("taped", s.taped, "the paper lies flat, taped by all its edges");
  v.may("face", s.face, "inside: the face that was rubbed from the bore; wall side: the other");
}

template <class V>
void shape(V& v, Of<AskRubbing> auto& s) {
  v.is("ask-rubbing", "A window measured on a photo of its rubbing.");
  v.field("photo", s.photo, "id of the photo");
  v.may("port", s.port, "port it is of: its bridge and its saw's bore count; empty: none");
  hint_fields(v, s.hints);
  v.may("units", s.units, "shop or metric");
}

template <class V>
void shape(V& v, Of<DoRubbing> auto& s) {
  v.is("do-rubbing", "A window measured on a photo, kept as the outline of a port.");
  v.field("saw", s.saw, "id of the saw");
  v.field("photo", s.photo, "id of the photo");
  v.field("port", s.port, "name of the port");
  hint_fields(v, s.hints);
  v.may("base", s.base, "revision that the writer saw");
  v.may("token", s.token, "the same when the request is tried again: it is done once");
  v.may("client", s.client, "the tab that writes");
}

template <class V>
void shape(V& v, Of<RubbingSize> auto& s) {
  v.is("RubbingSize", "One number of the window with its 95 % range.");
  v.field("value", s.value, "in `unit`");
  v.field("low", s.low, "low end of the 95 % range");
  v.field("high", s.high, "high end of the 95 % range");
  v.field("unit", s.unit, "cm2 or mm");
  v.field("text", s.text, "rounded to its range, in the unit style asked for");
  v.field("range", s.range, "the range for a person");
}

template <class V>
void shape(V& v, Of<RubbingPart> auto& s) {
  v.is("RubbingPart", "One reason of the area's range; they are added as squares.");
  v.field("name", s.name, "scale, edge, line, flatness, hand or bend");
  v.field("plus_minus", s.plus_minus, "half of the 95 % range by itself [cm2]");
  v.field("text", s.text, "the reason in a sentence, with its size");
}

template <class V>
void shape(V& v, Of<RubbingAnswer> auto& s) {
  v.is("rubbing", "A window measured on a photo of its rubbing.");
  v.constant("schema", "portwright rubbing 1", "name and number of this shape");
  v.constant("program", program_name(), "program and version");
  v.field("photo", s.photo, "id of the photo, or name of the file");
  v.field("found", s.found, "the outline was found; no: see why");
  v.field("why", s.why, "why not, in a sentence; empty: it was");
  v.field("square", s.square, "the square was found or given; no: corners are empty");
  v.field("corners", s.corners, "the square's inner corners [x, y] in pixels: left at the roof's side, then clockwise");
  v.field("scale", s.scale, "pixels per millimetre, the least within the square");
  v.field("straightness", s.straightness, "how far the square's edges stray from straight, at the most [mm]");
  v.field("tilt", s.tilt, "of the camera against the sheet [deg]");
  v.field("measured", s.measured, "the square's sides were measured on this print");
  v.field("findings", s.findings, "what to mind, each a sentence");
  v.field("outline", s.outline, "closed line to draw over the photo, [x, y] in pixels");
  v.field("handles", s.handles, "the kept points [x, y] in pixels, to be dragged and sent back as points");
  v.field("points", s.points, "the same [x, y] in mm: x from the middle, clockwise seen from the plug, y down");
  v.field("moved", s.moved, "so many of them were put by hand");
  v.field("area", s.area, "area on the wall");
  v.field("width", s.width, "extent round the wall");
  v.field("height", s.height, "extent along the bore");
  v.field("within", s.within, "the outline is true to within this, to each side: what the port keeps beside it");
  v.field("line_width", s.line_width, "of the pencil's line [mm]; 0: a filled shape, or an edge");
  v.field("parts", s.parts, "what makes the area's range, greatest first");
  v.field("outline_text", s.outline_text, "the outline as the port's field takes it");
  v.field("keep", s.keep, "why it cannot be kept yet, in a sentence; empty: it can");
}

}  // namespace portwright::wire
