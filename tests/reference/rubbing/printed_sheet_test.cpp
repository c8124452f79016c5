// The printed square as the program prints it, a shape of known area drawn in, rendered by poppler's pdftoppm as a
// printer would, and photographed by a camera of perspective, lens, uneven light, blur, noise and JPEG. Areas in closed
// form; inputs as in the cases below; tolerance 1 % of the area, asked of the whole way from paper to number.
#include <unistd.h>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <numbers>

#include "draw/pdf.hpp"
#include "rubbing/measure.hpp"
#include "sheet/rubbing_page.hpp"
#include "support/virtual_camera.hpp"

namespace portwright::rubbing {
namespace {

using testing_support::Shot;
using testing_support::VirtualCamera;

#ifdef PORTWRIGHT_SANITIZED
constexpr int cases_a_shape = 1;
#else
constexpr int cases_a_shape = 10;
#endif

constexpr double dots = 300.0 / 25.4;  // a millimetre

enum class Shape { circle, rounded, bridged, line };

// 28 by 14 mm, corners of 4 mm; a bridge of 4 mm in its middle; a circle of 12 mm radius.
double area_of_shape(Shape shape) {
  constexpr double pi = std::numbers::pi;
  if (shape == Shape::circle) return pi * 144.0;
  return 28.0 * 14.0 - (4.0 - pi) * 16.0 - (shape == Shape::bridged ? 4.0 * 14.0 : 0.0);
}

void draw_shape(draw::Canvas& page, const draw::Box& in, Shape shape) {
  const double x = 0.5 * (in.left + in.right), y = 0.5 * (in.top + in.bottom);
  const draw::Path rounded = draw::rounded_rectangle(x - 14, y - 7, 28, 14, 4);
  if (shape == Shape::circle) page.fill({draw::circle({x, y}, 12.0)});
  if (shape == Shape::rounded) page.fill({rounded});
  if (shape == Shape::line) page.stroke(rounded, {draw::Role::ink, 0.5, draw::Dash::solid, true});
  if (shape != Shape::bridged) return;
  for (const double side : {-2.0 - 12.0, 2.0}) {
    page.clip({draw::rectangle(x + side, y - 7, 12, 14)});
    page.fill({rounded});
    page.end_clip();
  }
}

struct Page {
  int width = 0, height = 0;
  std::string levels;
  [[nodiscard]] double at(double px, double py) const {
    const double x = std::clamp(px - 0.5, 0.0, width - 1.001), y = std::clamp(py - 0.5, 0.0, height - 1.001);
    const auto left = static_cast<std::size_t>(x), top = static_cast<std::size_t>(y);
    const double fx = x - static_cast<double>(left), fy = y - static_cast<double>(top);
    const auto level = [&](std::size_t r, std::size_t c) {
      return static_cast<unsigned char>(levels[r * static_cast<std::size_t>(width) + c]) / 255.0;
    };
    return (1 - fy) * ((1 - fx) * level(top, left) + fx * level(top, left + 1)) +
           fy * ((1 - fx) * level(top + 1, left) + fx * level(top + 1, left + 1));
  }
};

// The page as poppler renders it.
Page printed(Shape shape, const sheet::Paper& paper) {
  draw::Canvas page = sheet::draw_rubbing_page(paper);
  draw_shape(page, sheet::rubbing_inside(paper), shape);
  const auto pdf = draw::to_pdf({"Rubbing", "a test's sheet", {page}});
  // Its own folder: the shapes are tested at the same time.
  const auto folder =
      std::filesystem::path(testing::TempDir()) / ("portwright_printed_rubbing_" + std::to_string(::getpid()));
  std::filesystem::create_directories(folder);
  const std::string file = (folder / "sheet").string();
  std::ofstream(file + ".pdf", std::ios::binary) << *pdf;
  const std::string command = "pdftoppm -r 300 -gray -singlefile " + file + ".pdf " + file + " 2>/dev/null";
  EXPECT_EQ(std::system(command.c_str()), 0);
  std::ifstream in(file + ".pgm", std::ios::binary);
  Page out;
  std::string magic;
  int most = 0;
  in >> magic >> out.width >> out.height >> most;
  in.get();
  out.levels.resize(static_cast<std::size_t>(out.width) * static_cast<std::size_t>(out.height));
  in.read(out.levels.data(), static_cast<std::streamsize>(out.levels.size()));
  EXPECT_TRUE(in.good() && magic == "P5" && most == 255);
  std::filesystem::remove_all(folder);
  return out;
}

Shot drawn_shot(unsigned seed) {
  std::mt19937 random(seed);
  const auto between = [&](double a, double b) { return std::uniform_real_distribution<double>(a, b)(random); };
  Shot out;
  out.tilt = between(0, 30), out.tilt_toward = between(0, 360), out.turn = between(0, 360);
  // as near as the whole frame allows; a phone has 2,560 pixels
  out.width = out.height = 1250 + static_cast<int>(18.0 * out.tilt);
  out.distance = 165.0 + 0.4 * out.tilt;
  out.k1 = between(-0.05, 0.05), out.uneven = between(1, 2), out.light_from = between(0, 360);
  out.blur = between(0.5, 1.2), out.noise = between(0.5, 3), out.quality = 85, out.seed = seed;
  return out;
}

class PrintedSheet : public testing::TestWithParam<Shape> {};

TEST_P(PrintedSheet, gives_a_shape_of_known_area_within_one_per_cent) {
  const Shape shape = GetParam();
  const sheet::Paper& paper = shape == Shape::circle ? sheet::letter : sheet::a4;
  const Page page = printed(shape, paper);
  ASSERT_FALSE(page.levels.empty());
  const draw::Box in = sheet::rubbing_inside(paper);
  const double area = area_of_shape(shape);
  int within_range = 0;
  for (int i = 0; i < cases_a_shape; ++i) {
    const Shot shot = drawn_shot(1000U * static_cast<unsigned>(shape) + static_cast<unsigned>(i));
    const picture::Grey photo = photographed(shot, [&](const VirtualCamera& camera, double px, double py) {
      const auto p = camera.seen(px, py);
      return 0.04 + 0.81 * page.at((p.x + 60.0 + in.left) * dots, (p.y + 60.0 + in.top) * dots);
    });
    const auto square = find_square(photo);
    ASSERT_TRUE(square) << i << ": " << square.error().message;
    Hints hints;
    hints.across = hints.down = square_side;
    hints.taped = true;
    hints.bore = 1000.0;
    if (shape == Shape::bridged) {
      hints.bridge = true;
      hints.inside = {square->camera.to_picture({52.0, 60.0}), square->camera.to_picture({68.0, 60.0})};
    }
    const Rubbing rubbing = measure(photo, *square, hints);
    ASSERT_TRUE(rubbing.measured) << i << ": " << rubbing.why->message;
    EXPECT_NEAR(rubbing.measured->area.value, area, 0.01 * area) << i << ", tilt " << shot.tilt;
    within_range += std::abs(rubbing.measured->area.value - area) <= rubbing.measured->area.plus_minus ? 1 : 0;
    EXPECT_LT(rubbing.measured->area.plus_minus, 0.12 * area) << i;
    EXPECT_NEAR(rubbing.tilt, shot.tilt, 1.5) << i;
  }
  EXPECT_EQ(within_range, cases_a_shape);
}

INSTANTIATE_TEST_SUITE_P(Shapes, PrintedSheet,
                         testing::Values(Shape::circle, Shape::rounded, Shape::bridged, Shape::line));

TEST(PrintedSheet, is_drawn_as_the_measuring_takes_it) {
  EXPECT_EQ(sheet::rubbing_square, square_side);
  EXPECT_EQ(sheet::rubbing_frame, ring_thickness);
}

}  // namespace
}  // namespace portwright::rubbing
