#include "draw/svg.hpp"

#include <gmock/gmock.h>

#include <clocale>
#include <cmath>
#include <limits>

namespace portwright::draw {
namespace {

using testing::HasSubstr;
using testing::Not;

TEST(Svg, a_users_text_is_escaped_wherever_it_stands) {
  const std::string bad = "</text><script>alert(\"x\" & 'y')</script>";
  Canvas c(100, 50);
  c.title = bad;
  c.description = bad;
  c.words({1, 1}, bad);
  c.letter({1, 5}, bad);
  c.group("a\" onload=\"x", bad);
  c.end_group();
  const std::string svg = to_svg(c, {nullptr, true, bad});
  EXPECT_THAT(svg, Not(HasSubstr("<script")));
  EXPECT_THAT(svg, Not(HasSubstr("\" onload")));
  EXPECT_THAT(svg, HasSubstr("&lt;/text&gt;&lt;script&gt;alert(&quot;x&quot; &amp; &#39;y&#39;)&lt;/script&gt;"));
}

TEST(Svg, size_and_view_box_are_millimetres) {
  EXPECT_THAT(to_svg(Canvas(210, 297)), HasSubstr("width=\"210mm\" height=\"297mm\" viewBox=\"0 0 210 297\""));
}

TEST(Svg, numbers_are_stable_and_without_locale) {
  EXPECT_EQ(plain_number(-0.0001), "0");
  EXPECT_EQ(plain_number(1.5), "1.5");
  EXPECT_EQ(plain_number(1234567.0), "1234567");
  EXPECT_EQ(plain_number(12.3456), "12.346");
  EXPECT_EQ(plain_number(std::numeric_limits<double>::quiet_NaN()), "0");
  const std::string before = std::setlocale(LC_ALL, nullptr);
  std::setlocale(LC_ALL, "de_DE.UTF-8");
  EXPECT_EQ(plain_number(0.25), "0.25");
  std::setlocale(LC_ALL, before.c_str());
}

TEST(Svg, arcs_are_arcs) {
  Canvas c(50, 50);
  c.stroke(arc({20, 20}, 5, 0, std::acos(-1.0) / 2));
  EXPECT_THAT(to_svg(c), HasSubstr("d=\"M25 20A5 5 0 0 1 20 25\""));
}

TEST(Svg, printer_correction_stretches_about_the_middle_of_the_page) {
  Canvas c(200, 100);
  c.correction = {1.01, 0.99};
  c.stroke(line({0, 0}, {200, 100}));
  EXPECT_THAT(to_svg(c), HasSubstr("d=\"M-1 0.5L201 99.5\""));
}

TEST(Svg, the_print_theme_has_no_tint_and_paper_has) {
  Canvas c(20, 20);
  c.tint({rectangle(0, 0, 5, 5)}, Role::exhaust);
  EXPECT_THAT(to_svg(c, {&theme_print()}), Not(HasSubstr("evenodd")));
  EXPECT_THAT(to_svg(c, {&theme_paper()}), HasSubstr("evenodd"));
}

TEST(Theme, contrasts_are_those_of_the_token_table) {
  const auto of = [](const Theme& t, Role role) { return contrast(t.colour(role), t.colour(Role::ground)); };
  EXPECT_NEAR(of(theme_paper(), Role::ink), 15.8, 0.1);
  EXPECT_NEAR(of(theme_paper(), Role::marking_blue), 7.8, 0.1);
  EXPECT_NEAR(of(theme_slate(), Role::stop), 6.3, 0.1);
  for (const Theme* t : {&theme_paper(), &theme_slate(), &theme_sunlight(), &theme_print()}) {
    for (const Role role : {Role::ink, Role::reason, Role::stock, Role::marking_blue, Role::caution, Role::stop}) {
      EXPECT_GE(of(*t, role), 4.5) << t->name;
    }
  }
}

}  // namespace
}  // namespace portwright::draw
