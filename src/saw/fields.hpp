#pragma once
// Every field of the saw file, once: its key, its kind, its order. The reader, the writer, the allowed box, the blank
// file and the tests that delete fields all walk this list, so none of them can forget one.
//
// A visitor has these members (`R` is the const or mutable type):
//   reading(key, Reading&, Dimension)          turn(key, Reading&)   an angle, or "tdc" or "bdc"
//   places(key, Places&, Dimension)            several(key, Several&, Dimension)
//   pairs(key, Pairs&, Dimension, Dimension)   number(key, Number&)   flag(key, Flag&)
//   words(key, string&)                        word(key, string&, {allowed...})
//   octane(key, Octane&)                       power_at(key, PowerAt&)
//   table(key, T&)                             tables(key, vector<T>&)
// table and tables call fields(member, visitor) again.

#include <initializer_list>

#include "saw/readings.hpp"

namespace portwright::saw {

using Words = std::initializer_list<const char*>;
using D = base::Dimension;

template <class S, class T>
concept Of = std::is_same_v<std::remove_const_t<S>, T>;

template <class V>
void fields(Of<Aim> auto& s, V& v) {
  v.word("use", s.use, Words{"stock", "work", "race"});
}

template <class V>
void fields(Of<Crank> auto& s, V& v) {
  v.reading("bore", s.bore, D::length);
  v.reading("stroke", s.stroke, D::length);
  v.reading("rod", s.rod, D::length);
  v.reading("pin_offset", s.pin_offset, D::length);
}

template <class V>
void fields(Of<Ring> auto& s, V& v) {
  v.reading("below_crown", s.below_crown, D::length);
  v.reading("height", s.height, D::length);
  v.reading("radial", s.radial, D::length);
  v.reading("peg", s.peg, D::angle);
  v.reading("end_gap", s.end_gap, D::length);
  v.reading("free_gap", s.free_gap, D::length);
}

template <class V>
void fields(Of<PistonWindow> auto& s, V& v) {
  v.reading("centre", s.centre, D::angle);
  v.reading("roof_below_crown", s.roof_below_crown, D::length);
  v.reading("floor_below_crown", s.floor_below_crown, D::length);
  v.reading("width", s.width, D::length);
  v.reading("corner", s.corner, D::length);
  v.flag("mirrored", s.mirrored);
}

template <class V>
void fields(Of<Piston> auto& s, V& v) {
  v.reading("skirt_exhaust", s.skirt_exhaust, D::length);
  v.reading("skirt_intake", s.skirt_intake, D::length);
  v.reading("skirt_side", s.skirt_side, D::length);
  v.reading("skirt_exhaust_width", s.skirt_exhaust_width, D::length);
  v.reading("pin_below_crown", s.pin_below_crown, D::length);
  v.reading("pin_diameter", s.pin_diameter, D::length);
  v.reading("dome", s.dome, D::length);
  v.reading("mass", s.mass, D::mass);
  v.tables("ring", s.ring);
  v.tables("window", s.window);
}

template <class V>
void fields(Of<Cylinder> auto& s, V& v) {
  v.reading("crown_at_tdc", s.crown_at_tdc, D::length);
  v.reading("crown_above_deck", s.crown_above_deck, D::length);
  v.reading("base_gasket", s.base_gasket, D::length);
  v.places("squish", s.squish, D::length);
  v.reading("squish_band", s.squish_band, D::length);
  v.reading("chamber", s.chamber, D::volume);
  v.word("chamber_filled_to", s.chamber_filled_to, Words{"thread bottom", "plug seat"});
  v.reading("bowl", s.bowl, D::volume);
  v.reading("decompression", s.decompression, D::volume);
  v.reading("plug_thread", s.plug_thread, D::length);
  v.reading("plug_reach", s.plug_reach, D::length);
  v.reading("spigot_clearance", s.spigot_clearance, D::length);
  v.reading("pin_axis", s.pin_axis, D::angle);
  v.reading("thrust", s.thrust, D::angle);
  v.flag("plated", s.plated);
}

template <class V>
void fields(Of<Case> auto& s, V& v) {
  v.reading("volume", s.volume, D::volume);
  v.turn("volume_at", s.volume_at);
}

template <class V>
void fields(Of<Duct> auto& s, V& v) {
  v.reading("length", s.length, D::length);
  v.reading("outlet", s.outlet, D::area);
  v.reading("tilt", s.tilt, D::angle);
}

template <class V>
void fields(Of<LowerOpening> auto& s, V& v) {
  v.reading("roof", s.roof, D::length);
  v.reading("floor", s.floor, D::length);
  v.reading("width", s.width, D::length);
  v.flag("open", s.open);
}

template <class V>
void fields(Of<Passage> auto& s, V& v) {
  v.reading("length", s.length, D::length);
  v.reading("bend", s.bend, D::angle);
  v.reading("tilt", s.tilt, D::angle);
  v.reading("aim", s.aim, D::angle);
  v.reading("foot", s.foot, D::area);
  v.reading("gasket", s.gasket, D::area);
  v.reading("mouth", s.mouth, D::area);
  v.reading("case_step", s.case_step, D::length);
  v.table("lower", s.lower);
}

template <class V>
void fields(Of<Edges> auto& s, V& v) {
  v.reading("opens", s.opens, D::angle);
  v.reading("closes", s.closes, D::angle);
  v.reading("duration", s.duration, D::angle);
  v.reading("roof", s.roof, D::length);
  v.reading("floor", s.floor, D::length);
  v.reading("drop", s.drop, D::length);
  v.reading("width", s.width, D::length);
}

template <class V>
void fields(Of<Port> auto& s, V& v) {
  v.words("name", s.name);
  v.word("kind", s.kind, Words{"exhaust", "transfer", "boost", "intake", "air"});
  v.reading("centre", s.centre, D::angle);
  v.flag("mirrored", s.mirrored);
  fields(s.edges, v);  // in the port's own table
  v.reading("corner_roof", s.corner_roof, D::length);
  v.reading("corner_floor", s.corner_floor, D::length);
  v.reading("roof_slope", s.roof_slope, D::angle);
  v.reading("roof_arch", s.roof_arch, D::length);
  v.reading("bridge", s.bridge, D::length);
  v.reading("bridge_at", s.bridge_at, D::length);
  v.pairs("outline", s.outline, D::length, D::length);
  v.word("seen", s.seen, Words{"inside", "wall side"});
  v.reading("outline_within", s.outline_within, D::length);
  v.table("twin", s.twin);
  v.table("duct", s.duct);
  v.table("passage", s.passage);
}

template <class V>
void fields(Of<ReedWindow> auto& s, V& v) {
  v.reading("length", s.length, D::length);
  v.reading("width", s.width, D::length);
}

template <class V>
void fields(Of<Reed> auto& s, V& v) {
  v.number("petals", s.petals);
  v.reading("length", s.length, D::length);
  v.reading("width", s.width, D::length);
  v.reading("thickness", s.thickness, D::length);
  v.words("material", s.material);
  v.table("window", s.window);
  v.reading("stop", s.stop, D::length);
  v.reading("block_angle", s.block_angle, D::angle);
}

template <class V>
void fields(Of<Tract> auto& s, V& v) {
  v.reading("length", s.length, D::length);
  v.reading("bore", s.bore, D::length);
}

template <class V>
void fields(Of<Intake> auto& s, V& v) {
  v.word("kind", s.kind, Words{"reed into case", "reed behind a window", "skirt"});
  v.table("tract", s.tract);
  v.table("reed", s.reed);
}

template <class V>
void fields(Of<Carburettor> auto& s, V& v) {
  v.reading("venturi", s.venturi, D::length);
  v.reading("throttle", s.throttle, D::length);
}

template <class V>
void fields(Of<AirBox> auto& s, V& v) {
  v.reading("volume", s.volume, D::volume);
  v.reading("filter", s.filter, D::pressure);
}

template <class V>
void fields(Of<Muffler> auto& s, V& v) {
  v.several("boxes", s.boxes, D::volume);
  v.several("baffles", s.baffles, D::area);
  v.several("outlets", s.outlets, D::area);
  v.flag("screen", s.screen);
}

template <class V>
void fields(Of<Pipe> auto& s, V& v) {
  v.pairs("profile", s.profile, D::length, D::length);
}

template <class V>
void fields(Of<Ignition> auto& s, V& v) {
  v.reading("advance", s.advance, D::angle);
  v.pairs("curve", s.curve, D::speed, D::angle);
  v.reading("limiter", s.limiter, D::speed);
  v.reading("shaft", s.shaft, D::length);
}

template <class V>
void fields(Of<Fuel> auto& s, V& v) {
  v.octane("octane", s.octane);
  v.number("air_fuel", s.air_fuel);
}

template <class V>
void fields(Of<Day> auto& s, V& v) {
  v.reading("altitude", s.altitude, D::length);
  v.reading("temperature", s.temperature, D::temperature);
  v.reading("humidity", s.humidity, D::share);
}

template <class V>
void fields(Of<Drive> auto& s, V& v) {
  v.reading("chain_pitch", s.chain_pitch, D::length);
  v.number("teeth", s.teeth);
  v.reading("bar", s.bar, D::length);
  v.reading("clutch_engages", s.clutch_engages, D::speed);
  v.reading("wood", s.wood, D::length);
}

template <class V>
void fields(Of<Fins> auto& s, V& v) {
  v.reading("from", s.from, D::angle);
  v.reading("to", s.to, D::angle);
  v.reading("length", s.length, D::length);
  v.reading("pitch", s.pitch, D::length);
  v.reading("thickness", s.thickness, D::length);
}

template <class V>
void fields(Of<Cooling> auto& s, V& v) {
  v.flag("fan", s.fan);
  v.tables("fins", s.fins);
}

template <class V>
void fields(Of<Bearing> auto& s, V& v) {
  v.reading("rating", s.rating, D::force);
  v.reading("pin", s.pin, D::length);
  v.word("kind", s.kind, Words{"needle", "roller", "ball"});
}

template <class V>
void fields(Of<BottomEnd> auto& s, V& v) {
  v.reading("rod_small_mass", s.rod_small_mass, D::mass);
  v.reading("rod_big_mass", s.rod_big_mass, D::mass);
  v.table("big_end", s.big_end);
  v.table("small_end", s.small_end);
  v.table("main", s.main);
  v.reading("counterweight", s.counterweight, D::share);
}

template <class V>
void fields(Of<Impulse> auto& s, V& v) {
  v.word("where", s.where, Words{"base", "case", "none"});
}

template <class V>
void fields(Of<Spot> auto& s, V& v) {
  v.words("where", s.where);
  v.reading("value", s.value, D::temperature);
  v.reading("at", s.at, D::speed);
}

template <class V>
void fields(Of<Evidence> auto& s, V& v) {
  v.power_at("stock_power", s.stock_power);
  v.reading("gauge_compression", s.gauge_compression, D::pressure);
  v.reading("gauge_volume", s.gauge_volume, D::volume);
  v.reading("no_load", s.no_load, D::speed);
  v.reading("in_cut", s.in_cut, D::speed);
  v.table("spot", s.spot);
}

template <class V>
void fields(Of<Readings> auto& s, V& v) {
  v.words("format", s.format);
  v.words("name", s.name);
  v.words("model", s.model);
  v.words("casting", s.casting);
  v.words("state", s.state);
  v.table("aim", s.aim);
  v.table("crank", s.crank);
  v.table("piston", s.piston);
  v.table("cylinder", s.cylinder);
  v.table("case", s.crankcase);
  v.tables("port", s.ports);
  v.table("intake", s.intake);
  v.table("carburettor", s.carburettor);
  v.table("air_box", s.air_box);
  v.table("muffler", s.muffler);
  v.table("pipe", s.pipe);
  v.table("ignition", s.ignition);
  v.table("fuel", s.fuel);
  v.table("day", s.day);
  v.table("drive", s.drive);
  v.table("cooling", s.cooling);
  v.table("bottom_end", s.bottom_end);
  v.table("impulse", s.impulse);
  v.table("readings", s.evidence);
}

}  // namespace portwright::saw
