// Laws of typed quantities: print and read agree, blanks and the kind of decimal mark change nothing, a refusal speaks.

#include <cmath>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "base/number_text.hpp"
#include "base/quantity/text.hpp"
#include "unit/base/quantity_table.hpp"

namespace portwright::base {
namespace {

// A decimal of at most six digits before and four after the point, as digits.
struct Decimal {
  std::string whole, places;
  double value() const { return std::stod(whole + "." + places); }
  std::string with(char mark) const { return places.empty() ? whole : whole + mark + places; }
  // Three places after one to three digits are doubtful with a comma, and for some units with a point.
  bool doubtful() const { return places.size() == 3 && whole.size() < 4; }
};

rc::Gen<Decimal> decimals() {
  return rc::gen::map(
      rc::gen::tuple(rc::gen::inRange(0, 1000000), rc::gen::inRange(0, 10000), rc::gen::inRange<std::size_t>(0, 5)),
      [](const std::tuple<int, int, std::size_t>& t) {
        std::string places = std::to_string(10000 + std::get<1>(t)).substr(1, std::get<2>(t));
        return Decimal{std::to_string(std::get<0>(t)), places};
      });
}

const Unit& any_unit() { return units()[*rc::gen::inRange<std::size_t>(0, units().size())]; }

std::string blanks() { return *rc::gen::element<std::string>("", " ", "  ", "\t", "\u00A0", "\u202F", " \t "); }

RC_GTEST_PROP(quantity_text, what_the_program_writes_it_reads_back_within_its_last_digit, ()) {
  const int places = *rc::gen::inRange(0, 5);
  const double value = *rc::gen::inRange(-99999999, 100000000) / 1000.0;
  const Unit& unit = any_unit();
  const std::string text = number_text(value, places) + " " + unit.symbol;
  const auto read = parse_quantity(text, unit.dimension);
  const bool cold = unit.dimension == Dimension::temperature && value * unit.scale + unit.offset < 1.0;
  RC_PRE(!cold);
  if (!read && places == 3) {  // "13.500 rpm" is asked about
    RC_ASSERT(read.error().readings.size() == 2U);
    return;
  }
  if (!read) RC_FAIL(read.error().message);
  const double back = (read->si - unit.offset) / unit.scale;
  RC_ASSERT(std::abs(back - value) <= 0.5 * std::pow(10.0, -places) + 1e-9 * std::abs(value) + 1e-9);
  RC_ASSERT(std::abs(read->resolution - std::pow(10.0, -places) * unit.scale) <= 1e-12 * unit.scale);
}

RC_GTEST_PROP(quantity_text, blanks_between_number_unit_and_tolerance_change_nothing, ()) {
  const Decimal d = *decimals();
  RC_PRE(!d.doubtful());
  const Unit& unit = any_unit();
  const std::string tight = d.with('.') + unit.symbol + "+-0.5";
  const std::string loose =
      blanks() + d.with('.') + blanks() + unit.symbol + blanks() + "+-" + blanks() + "0.5" + blanks();
  const auto a = parse_quantity(tight, unit.dimension);
  const auto b = parse_quantity(loose, unit.dimension);
  RC_ASSERT(a.has_value());
  RC_ASSERT(b.has_value());
  RC_ASSERT(a->si == b->si);
  RC_ASSERT(a->sigma == b->sigma);
  RC_ASSERT(a->resolution == b->resolution);
}

RC_GTEST_PROP(quantity_text, point_and_comma_are_read_alike_or_the_comma_is_asked_about, ()) {
  const Decimal d = *decimals();
  const Unit& unit = any_unit();
  const auto point = parse_quantity(d.with('.') + " " + unit.symbol, unit.dimension);
  const auto comma = parse_quantity(d.with(',') + " " + unit.symbol, unit.dimension);
  if (point && comma) RC_ASSERT(point->si == comma->si);
  if (!comma) RC_ASSERT(d.doubtful() && comma.error().readings.size() == 2U);
  if (!point) RC_ASSERT(!comma);
  RC_ASSERT(d.doubtful() || point.has_value());
}

RC_GTEST_PROP(quantity_text, value_read_is_the_number_typed_times_its_unit, ()) {
  const Decimal d = *decimals();
  RC_PRE(!d.doubtful());
  const Unit& unit = any_unit();
  const auto read = parse_quantity(d.with('.') + " " + unit.symbol, unit.dimension);
  const double si = d.value() * unit.scale + unit.offset;
  RC_ASSERT(read.has_value());
  RC_ASSERT(std::abs(read->si - si) <= 1e-14 * std::abs(si));
}

RC_GTEST_PROP(quantity_text, a_unit_of_another_kind_is_never_read, ()) {
  const Unit& unit = any_unit();
  const auto kind = static_cast<Dimension>(*rc::gen::inRange(0, 13));
  RC_PRE(kind != unit.dimension);
  RC_ASSERT(!parse_quantity("12.5 " + std::string(unit.symbol), kind).has_value());
}

// One edit of a row of the table: whatever comes of it, it is read as finite or refused aloud, and never offers an
// unreadable meaning.
RC_GTEST_PROP(quantity_text, a_refusal_is_never_silent_and_offers_only_what_can_be_read, ()) {
  const auto& rows = table::typed_quantities();
  const auto& row = rows[*rc::gen::inRange<std::size_t>(0, rows.size())];
  std::string text = row.text;
  const std::size_t at = *rc::gen::inRange<std::size_t>(0, text.size() + 1);
  const char struck = *rc::gen::elementOf(std::string("0123456789.,-+/'\" OlkmeC%"));
  if (*rc::gen::arbitrary<bool>())
    text.insert(at, 1, struck);
  else if (at < text.size())
    text.erase(at, 1);
  const auto read = parse_quantity(text, row.expected);
  if (read) {
    RC_ASSERT(std::isfinite(read->si));
    return;
  }
  RC_ASSERT(!read.error().message.empty());
  for (const std::string& reading : read.error().readings) {
    const auto meant = parse_quantity(reading, row.expected);
    if (!meant) RC_FAIL(text + " offers " + reading);
  }
}

}  // namespace
}  // namespace portwright::base
