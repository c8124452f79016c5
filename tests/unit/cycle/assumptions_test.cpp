// The table of what a run takes for granted, and its members.
#include <gtest/gtest.h>

#include <cstring>
#include <set>

#include "cycle/assumptions.hpp"

namespace portwright::cycle {
namespace {

TEST(assumptions, every_row_fills_a_member_of_its_own) {
  std::set<std::string> names;
  Assumptions marked;
  double mark = 1.0;
  for (const AssumptionRange& range : assumption_ranges()) {
    EXPECT_TRUE(names.insert(range.row->name).second) << range.row->name;
    marked.*range.member = mark++;
  }
  mark = 1.0;
  for (const AssumptionRange& range : assumption_ranges()) EXPECT_EQ(marked.*range.member, mark++) << range.row->name;
}

TEST(assumptions, every_member_has_a_row) {
  // The members are nothing but doubles, so their number is the struct's size.
  EXPECT_EQ(sizeof(Assumptions), assumption_ranges().size() * sizeof(double));
}

TEST(assumptions, the_middle_lies_in_its_range_and_the_range_is_one) {
  const Assumptions middle = middle_assumptions();
  for (const AssumptionRange& range : assumption_ranges()) {
    SCOPED_TRACE(range.row->name);
    EXPECT_EQ(middle.*range.member, range.row->value);
    EXPECT_LT(range.row->low, range.row->high);
    EXPECT_LE(range.row->low, range.row->value);
    EXPECT_LE(range.row->value, range.row->high);
  }
}

TEST(assumptions, every_row_says_what_it_is_and_whence) {
  for (const AssumptionRange& range : assumption_ranges()) {
    SCOPED_TRACE(range.row->name);
    EXPECT_GT(range.row->sentence.size(), 10u);
    EXPECT_EQ(range.row->sentence.back(), '.');
    EXPECT_FALSE(range.row->source.empty());
    EXPECT_NE(range.row->per_unit, 0.0);
  }
}

TEST(assumptions, shares_lie_between_nothing_and_all) {
  for (double Assumptions::*share :
       {&Assumptions::exit_bias, &Assumptions::short_circuit, &Assumptions::completeness,
        &Assumptions::evaporated_in_case, &Assumptions::exhaust_discharge, &Assumptions::transfer_discharge,
        &Assumptions::mouth_discharge, &Assumptions::intake_discharge, &Assumptions::outlet_discharge,
        &Assumptions::humidity, &Assumptions::screen_open, &Assumptions::second_law})
    for (const AssumptionRange& range : assumption_ranges())
      if (range.member == share) {
        EXPECT_GE(range.row->low, 0.0) << range.row->name;
        EXPECT_LE(range.row->high, 1.0) << range.row->name;
      }
}

}  // namespace
}  // namespace portwright::cycle
