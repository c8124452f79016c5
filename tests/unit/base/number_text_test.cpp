#include "base/number_text.hpp"

#include <cmath>
#include <limits>

#include <gtest/gtest.h>

namespace portwright::base {
namespace {

constexpr auto shop = UnitStyle::shop;
constexpr auto metric = UnitStyle::metric;

TEST(number_text, parts_thousands_and_uses_the_true_minus) {
  EXPECT_EQ(number_text(8500.0, 0), "8\u202F500");
  EXPECT_EQ(number_text(-1234567.25, 1), "\u22121\u202F234\u202F567.2");
  EXPECT_EQ(number_text(999.0, 0), "999");
  EXPECT_EQ(number_text(999.96, 1), "1\u202F000.0");
}

TEST(number_text, never_writes_a_minus_before_nothing) {
  EXPECT_EQ(number_text(-0.0, 1), "0.0");
  EXPECT_EQ(number_text(-0.04, 1), "0.0");
  EXPECT_EQ(number_text(-0.06, 1), "\u22120.1");
}

TEST(number_text, writes_an_em_rule_for_what_is_not_finite) {
  EXPECT_EQ(number_text(std::numeric_limits<double>::quiet_NaN(), 2), "\u2014");
  EXPECT_EQ(value_text({std::numeric_limits<double>::infinity(), {}, {}}, "mm", shop), "\u2014");
}

TEST(decimals, last_digit_is_worth_between_a_twentieth_and_a_half_of_the_half_range) {
  for (double half = 2e-4; half < 20.0; half *= 1.07) {
    const double step = std::pow(10.0, -decimals_for({5.0, 5.0 - half, 5.0 + half}, 2));
    EXPECT_LE(step, half / 2.0 * (1.0 + 1e-8)) << half;
    EXPECT_GE(step, half / 20.0 * (1.0 - 1e-8)) << half;
  }
}

TEST(decimals, are_the_fallback_without_a_range_and_never_out_of_bounds) {
  EXPECT_EQ(decimals_for({5.0, {}, {}}, 2), 2);
  EXPECT_EQ(decimals_for({5.0, 5.0, 5.0}, 3), 3);
  EXPECT_EQ(decimals_for({5.0, 5.0 - 1e-12, 5.0 + 1e-12}, 2), 2);
  EXPECT_EQ(decimals_for({5.0, 5.0 - 1e-7, 5.0 + 1e-7}, 2), 6);
  EXPECT_EQ(decimals_for({5.0, -500.0, 500.0}, 2), 0);
}

TEST(value_text, shop_style_puts_thou_and_bar_beside) {
  EXPECT_EQ(value_text({0.889, 0.85, 0.93}, "mm", shop), "0.89 mm (35 thou)");
  EXPECT_EQ(value_text({-0.2, {}, {}}, "mm", shop), "\u22120.20 mm (\u22128 thou)");
  EXPECT_EQ(value_text({36.0, {}, {}}, "mm", shop), "36.00 mm");
  EXPECT_EQ(value_text({180.0, {}, {}}, "psi", shop), "180 psi (12.4 bar)");
  EXPECT_EQ(value_text({6.46, {}, {}}, "cm3", shop), "6.5 cc");
}

TEST(value_text, metric_style_has_one_unit) {
  EXPECT_EQ(value_text({0.889, 0.85, 0.93}, "mm", metric), "0.89 mm");
  EXPECT_EQ(value_text({180.0, {}, {}}, "psi", metric), "12.4 bar");
  EXPECT_EQ(value_text({6.46, {}, {}}, "cm3", metric), "6.5 cm\u00B3");
}

TEST(value_text, digits_follow_the_range) {
  EXPECT_EQ(value_text({103.04, 102.0, 104.0}, "deg", shop), "103.0 deg");
  EXPECT_EQ(value_text({103.04, 102.94, 103.14}, "deg", shop), "103.04 deg");
  EXPECT_EQ(value_text({103.04, 93.0, 113.0}, "deg", shop), "103 deg");
  EXPECT_EQ(value_text({8512.0, 8212.0, 8812.0}, "rpm", shop), "8\u202F500 rpm");
  EXPECT_EQ(value_text({6.403, {}, {}}, "-", shop), "6.40");
  EXPECT_EQ(value_text({62.4, {}, {}}, "%", shop), "62 %");
  EXPECT_EQ(value_text({1.7e-6, {}, {}}, "s m2", metric), "1.7 s mm\u00B2");
}

TEST(range_text, has_the_digits_of_its_value_and_the_unit_shown) {
  EXPECT_EQ(range_text({103.04, 102.04, 104.04}, "deg", shop), "102.0 to 104.0");
  EXPECT_EQ(range_text({180.0, 170.0, 190.0}, "psi", metric), "11.7 to 13.1");
  EXPECT_EQ(range_text({180.0, 170.0, 190.0}, "psi", shop), "170 to 190");
  EXPECT_EQ(range_text({180.0, {}, {}}, "psi", shop), "");
}

TEST(change_text, has_its_sign_but_none_on_nothing) {
  EXPECT_EQ(change_text({3.87, 3.7, 4.1}, "deg", shop), "+3.9");
  EXPECT_EQ(change_text({-1.92, -2.2, -1.6}, "deg", shop), "\u22121.9");
  EXPECT_EQ(change_text({-0.01, -0.3, 0.3}, "deg", shop), "0.0");
  EXPECT_EQ(change_text({0.01, -0.3, 0.3}, "deg", shop), "0.0");
}

}  // namespace
}  // namespace portwright::base
