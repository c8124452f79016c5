#include "base/quantity.hpp"

#include <cctype>
#include <map>
#include <set>

#include <gtest/gtest.h>

#include "base/known.hpp"
#include "base/quantity/text.hpp"

namespace portwright::base {
namespace {

TEST(units, every_spelling_is_lower_case_and_finds_its_own_unit) {
  for (const Unit& unit : units()) {
    EXPECT_EQ(find_unit(unit.symbol, unit.dimension), &unit) << unit.symbol;
    for (const char* spelling : unit.spellings) {
      EXPECT_EQ(find_unit(spelling, unit.dimension), &unit) << spelling;
      for (const char* c = spelling; *c != '\0'; ++c) EXPECT_FALSE(std::isupper(*c) || *c == ' ') << spelling;
    }
  }
}

TEST(units, no_spelling_stands_for_two_units_of_one_kind) {
  std::map<Dimension, std::set<std::string>> seen;
  for (const Unit& unit : units()) {
    for (const char* spelling : unit.spellings) EXPECT_TRUE(seen[unit.dimension].insert(spelling).second) << spelling;
  }
}

TEST(units, are_found_whatever_the_case_the_blanks_and_the_signs) {
  EXPECT_STREQ(find_unit("Cu In")->symbol, "in3");
  EXPECT_STREQ(find_unit("cm\u00B3")->symbol, "cm3");
  EXPECT_STREQ(find_unit("\u00B0 C")->symbol, "C");
  EXPECT_EQ(find_unit("furlong"), nullptr);
  EXPECT_EQ(find_unit(""), nullptr);
}

// NIST SP 811, appendix B.8 (from memory): 1 psi = 6894.757 Pa, 1 hp (550 ft lbf/s) = 745.6999 W, 1 metric hp =
// 735.4988 W, 1 lbf = 4.448222 N, 1 oz = 28.34952 g, 1 in3 = 16.38706 cm3; an independent table, given to seven digits.
TEST(units, agree_with_published_conversion_factors) {
  const std::pair<const char*, double> published[] = {{"psi", 6894.757},  {"hp", 745.6999},    {"PS", 735.4988},
                                                      {"lbf", 4.448222},  {"oz", 28.34952e-3}, {"in3", 16.38706e-6},
                                                      {"in2", 6.4516e-4}, {"inHg", 3386.389},  {"mph", 0.44704}};
  for (const auto& [symbol, factor] : published) EXPECT_NEAR(find_unit(symbol)->scale / factor, 1.0, 5e-7) << symbol;
}

TEST(resolution, is_the_worth_of_the_last_typed_digit) {
  const auto resolution = [](const char* text, Dimension d) { return parse_quantity(text, d)->resolution; };
  EXPECT_DOUBLE_EQ(resolution("50 mm", Dimension::length), 1e-3);
  EXPECT_DOUBLE_EQ(resolution("50.0 mm", Dimension::length), 1e-4);
  EXPECT_DOUBLE_EQ(resolution("0,034 in", Dimension::length), 25.4e-6);
  EXPECT_DOUBLE_EQ(resolution("1 3/16 in", Dimension::length), 25.4e-3 / 16);
  EXPECT_DOUBLE_EQ(resolution("68 F", Dimension::temperature), 5.0 / 9.0);
}

TEST(any_quantity, is_read_by_its_unit_alone) {
  EXPECT_DOUBLE_EQ(parse_any_quantity("47 thou")->si, 47 * 25.4e-6);
  EXPECT_EQ(parse_any_quantity("180 psi")->unit->dimension, Dimension::pressure);
  EXPECT_FALSE(parse_any_quantity("47").has_value());
  EXPECT_FALSE(parse_any_quantity("47 mil").has_value());
  EXPECT_EQ(parse_any_quantity("1,250 mm").error().readings.size(), 2U);
}

TEST(quantity_error, names_field_text_and_meanings_in_one_sentence) {
  const Error error = parse_quantity("1,250 mm", Dimension::length, "crank.bore").error();
  EXPECT_EQ(error.path, "crank.bore");
  EXPECT_EQ(error.message, "\"1,250 mm\" may have a decimal comma or parted thousands: 1.25 mm or 1250 mm?");
}

TEST(known, arithmetic_gathers_what_is_waited_for) {
  const Known a = 3.0;
  const Known b = Known::waits_for(7);
  const Known c = Known::waits_for(200);
  EXPECT_EQ(*(a * a + a), 12.0);
  EXPECT_FALSE((a + b * c).known());
  EXPECT_TRUE((a + b * c).needs().has(7));
  EXPECT_TRUE((a + b * c).needs().has(200));
  EXPECT_FALSE((a + b).needs().has(200));
  EXPECT_EQ((-b).needs(), b.needs());
}

TEST(error_code, has_a_word_and_a_status_for_each) {
  EXPECT_STREQ(code_name(ErrorCode::wrong_unit), "wrong_unit");
  EXPECT_EQ(exit_status(ErrorCode::unreadable), 4);
  EXPECT_EQ(exit_status(ErrorCode::usage), 2);
  EXPECT_EQ(exit_status(ErrorCode::not_found), 5);
  EXPECT_EQ(exit_status(ErrorCode::storage), 7);
  EXPECT_EQ(exit_status(ErrorCode::fault), 1);
}

}  // namespace
}  // namespace portwright::base
