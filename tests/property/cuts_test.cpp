// Laws of cuts, over random cuts on a saw from which random readings were taken away.

#include <cmath>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "saw/fields.hpp"
#include "unit/cuts/bench_saw.hpp"

namespace portwright {
namespace {

using base::Known;
using geometry::Engine;

/// Numbers of an engine that cuts move, in a fixed order.
std::vector<Known> numbers(const Engine& e) {
  std::vector<Known> out{e.bore,
                         e.stroke,
                         e.crown_at_tdc,
                         e.base_gasket,
                         e.squish,
                         e.squish_least,
                         e.squish_band,
                         e.chamber,
                         e.spigot_clearance,
                         e.case_at_tdc,
                         e.piston.skirt_exhaust,
                         e.piston.skirt_intake,
                         e.piston.skirt_side,
                         e.piston.pin_below_crown,
                         e.piston.dome,
                         e.advance,
                         e.venturi,
                         e.muffler_outlets};
  for (const auto& ring : e.piston.rings) out.push_back(ring.below_crown);
  for (const auto& p : e.ports) {
    const geometry::Timing t = geometry::timing(e, p);
    const Known area = p.window_known + p.window.area();
    out.insert(out.end(),
               {p.centre, p.roof, p.floor, p.passed, p.width, p.passage.mouth, area, t.opens, t.closes, t.duration});
  }
  return out;
}

void require_same(const Engine& a, const Engine& b, double tolerance = 1e-9) {
  const auto x = numbers(a), y = numbers(b);
  for (std::size_t i = 0; i < x.size(); ++i) {
    if (x[i] && y[i])
      RC_ASSERT(std::abs(*x[i] - *y[i]) <= tolerance);
    else
      RC_ASSERT(x[i].needs() == y[i].needs());
  }
}

/// A change of up to half a millimetre, in hundredths, never nothing.
std::string change() {
  const int hundredths = *rc::gen::inRange(1, 51) * *rc::gen::element(-1, 1);
  return (hundredths < 0 ? "-0." : "+0.") + std::string(std::abs(hundredths) < 10 ? "0" : "") +
         std::to_string(std::abs(hundredths)) + " mm";
}

/// A random cut that has an inverse and leaves every window of the bench saw one.
std::string random_cut() {
  const std::string port = *rc::gen::element<std::string>("exhaust", "primary", "intake");
  switch (*rc::gen::inRange(0, 12)) {
    case 0:
      return "base " + change();
    case 1:
      return "band " + change();
    case 2:
      return "crown edge " + change() + " wide 6 mm";
    case 3:
      return "dome " + change();
    case 4:
      return "roof " + port + " " + change();
    case 5:
      return "floor " + port + " " + change();
    case 6:
      return "widen " + port + " " + change() + *rc::gen::element<std::string>("", " left", " right");
    case 7:
      return "skirt " + *rc::gen::element<std::string>("exhaust", "intake", "side") + " " + change();
    case 8:
      return "case +3 cc";
    case 9:
      return "stuff 2 cc";
    case 10:
      return "advance -3 deg";
    default:
      return "weld " + port + " roof " + change();
  }
}

std::string random_list() {
  std::string text;
  const int count = *rc::gen::inRange(0, 7);
  for (int i = 0; i < count; ++i) text += random_cut() + "; ";
  return text;
}

std::string inverse_text(const std::string& text) {
  return cuts::cut_text(*cuts::inverse(cuts::parse_cuts(text)->front()));
}

/// Takes readings away at random.
struct Thief {
  int percent = 30;
  bool takes() const { return *rc::gen::inRange(0, 100) < percent; }
  template <class R>
  void steal(R& r) const {
    if (takes()) r = R{};
  }
  void reading(const char*, saw::Reading& r, base::Dimension) { steal(r); }
  void turn(const char*, saw::Reading& r) { steal(r); }
  void places(const char*, saw::Places& r, base::Dimension) { steal(r); }
  void several(const char*, saw::Several& r, base::Dimension) { steal(r); }
  void pairs(const char*, saw::Pairs& r, base::Dimension, base::Dimension) { steal(r); }
  void number(const char*, saw::Number& r) { steal(r); }
  void flag(const char*, saw::Flag& r) { steal(r); }
  void words(const char*, std::string&) {}
  void word(const char* key, std::string& r, saw::Words) {
    if (std::string_view(key) != "kind") steal(r);
  }
  void octane(const char*, saw::Octane& r) { steal(r); }
  void power_at(const char*, saw::PowerAt& r) { steal(r); }
  template <class T>
  void table(const char*, T& t) {
    saw::fields(t, *this);
  }
  template <class T>
  void tables(const char*, std::vector<T>& all) {
    for (T& t : all) saw::fields(t, *this);
  }
};

saw::Readings some_readings() {
  saw::Readings readings = bench::readings();
  Thief thief;
  thief.percent = *rc::gen::element(0, 10, 50);
  saw::fields(readings, thief);
  return readings;
}

RC_GTEST_PROP(cuts, a_cut_and_its_inverse_leave_the_engine_as_it_was, ()) {
  const bench::Bench bench(some_readings());
  const std::string cut = random_cut();
  const Engine back = bench.after(cut + "; " + inverse_text(cut));
  const auto before = numbers(bench.stock), after = numbers(back);
  for (std::size_t i = 0; i < before.size(); ++i) {
    if (before[i] && after[i]) RC_ASSERT(std::abs(*before[i] - *after[i]) <= 1e-9);
    if (!before[i]) RC_ASSERT(!after[i]);
  }
}

RC_GTEST_PROP(cuts, two_quarters_are_a_half, ()) {
  const bench::Bench bench(some_readings());
  const std::string head = *rc::gen::element<std::string>("base", "band", "dome", "roof exhaust", "floor primary",
                                                          "widen intake", "skirt intake");
  const std::string tail = head == "widen intake" ? *rc::gen::element<std::string>("", " left", " right") : "";
  const std::string quarter = head + " -0.25 mm" + tail;
  require_same(bench.after(quarter + "; " + quarter), bench.after(head + " -0.5 mm" + tail));
}

RC_GTEST_PROP(cuts, base_and_crown_edge_together_leave_exhaust_transfers_and_squish, ()) {
  const bench::Bench bench(some_readings());
  const std::string x = change();
  const Engine e = bench.after("base " + x + "; crown edge " + x + " wide 6 mm");
  if (e.squish) RC_ASSERT(std::abs(*e.squish - *bench.stock.squish) <= 1e-12);
  for (const char* name : {"exhaust", "primary"}) {
    const Known before = bench.port(bench.stock, name).passed, after = bench.port(e, name).passed;
    RC_ASSERT(before.needs() == after.needs());
    if (before) RC_ASSERT(std::abs(*before - *after) <= 1e-12);
  }
}

/// Cuts whose effects do not hang on each other's result: not the dome, which turns a cap that a crown cut makes
/// higher; not two widenings with a side, which turn the centre line by half angles of the chord so far.
RC_GTEST_PROP(cuts, the_order_of_shifts_does_not_matter, ()) {
  const bench::Bench bench(some_readings());
  std::string a = random_cut(), b = random_cut();
  RC_PRE(!a.starts_with("dome") || !b.starts_with("crown"));
  RC_PRE(!b.starts_with("dome") || !a.starts_with("crown"));
  const auto sided = [](const std::string& cut) { return cut.ends_with("left") || cut.ends_with("right"); };
  const bool both_widen = a.starts_with("widen") && b.starts_with("widen");
  RC_PRE(!both_widen || !(sided(a) || sided(b)));
  require_same(bench.after(a + "; " + b), bench.after(b + "; " + a));
}

RC_GTEST_PROP(cuts, no_subset_of_readings_makes_a_cut_fail_or_a_number_that_is_none, ()) {
  const bench::Bench bench(some_readings());
  const std::string more =
      *rc::gen::element<std::string>("gasket out", "gasket to 0.2 mm", "sleeve to 47 mm", "corner exhaust roof to 6 mm",
                                     "mouth primary to 2 cm2", "venturi to 21 mm", "outlets to 1 cm2 1 cm2");
  const std::string text = random_list() + more + "; " + random_list();
  for (const Known& k : numbers(bench.after(text))) RC_ASSERT(std::isfinite(k.value_or(0.0)));
  const cuts::Account account = cuts::account(*cuts::parse_cuts(text), bench.survey, bench.stock, ".");
  RC_ASSERT(std::isfinite(account.metal.value_or(0.0)));
}

RC_GTEST_PROP(cuts, nothing_that_was_unknown_becomes_known_by_shifts, ()) {
  const bench::Bench bench(some_readings());
  const auto before = numbers(bench.stock), after = numbers(bench.after(random_list()));
  for (std::size_t i = 0; i < before.size(); ++i) {
    if (!before[i]) RC_ASSERT(!after[i]);
  }
}

RC_GTEST_PROP(cuts, the_canonical_text_gives_the_same_list, ()) {
  const auto list = cuts::parse_cuts(random_list());
  RC_ASSERT(list.has_value());
  const auto again = cuts::parse_cuts(cuts::cuts_text(*list));
  RC_ASSERT(again.has_value());
  RC_ASSERT(*again == *list);
}

}  // namespace
}  // namespace portwright
