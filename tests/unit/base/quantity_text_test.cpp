#include "base/quantity/text.hpp"

#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "base/quantity/normal.hpp"
#include "unit/base/quantity_table.hpp"

namespace portwright::base {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

std::string said(const table::TypedRow& row) {
  return typed::quoted(row.text) + " as " + dimension_name(row.expected) + ": " + row.reason;
}

void expect_value(const table::TypedRow& row, const Quantity& quantity) {
  // Relative 1e-14: the factors are exact, the arithmetic a few roundings.
  EXPECT_NEAR(quantity.si, row.si, 1e-14 * std::abs(row.si)) << said(row);
  EXPECT_EQ(quantity.sigma.has_value(), row.sigma >= 0.0) << said(row);
  EXPECT_NEAR(quantity.sigma.value_or(-1.0), row.sigma, 1e-14 * std::abs(row.sigma)) << said(row);
  EXPECT_GT(quantity.resolution, 0.0) << said(row);
}

void expect_refusal(const table::TypedRow& row, const Error& error) {
  EXPECT_STREQ(code_name(error.code), code_name(row.code)) << said(row) << " -> " << error.message;
  EXPECT_EQ(error.readings, row.readings) << said(row) << " -> " << error.message;
  EXPECT_EQ(error.path, "port.exhaust.opens") << said(row);
  EXPECT_THAT(error.message, HasSubstr(typed::quoted(row.text))) << said(row);
}

TEST(quantity_table, has_at_least_three_hundred_rows) { EXPECT_GE(table::typed_quantities().size(), 300U); }

TEST(quantity_table, every_typed_text_comes_to_what_it_says) {
  for (const table::TypedRow& row : table::typed_quantities()) {
    const auto got = parse_quantity(row.text, row.expected, "port.exhaust.opens");
    if (got && !row.read) ADD_FAILURE() << said(row) << " was read as " << got->si;
    if (!got && row.read) ADD_FAILURE() << said(row) << " was refused: " << got.error().message;
    if (got && row.read) expect_value(row, *got);
    if (!got && !row.read) expect_refusal(row, got.error());
  }
}

}  // namespace
}  // namespace portwright::base
