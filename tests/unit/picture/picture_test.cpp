#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "unit/picture/pictures.hpp"

namespace {

using namespace picture_test;
using picture::grey_of;
using picture::shrunk;
using picture::turned;

TEST(picture, grey_is_the_lightness_of_each_pixel) {
  const Picture three{3, 1, {255, 0, 0, 0, 255, 0, 10, 20, 30}};
  // 0.299 x 255 = 76.2; 0.587 x 255 = 149.7; 2.99 + 11.74 + 3.42 = 18.15
  EXPECT_EQ(grey_of(three), (picture::Grey{3, 1, {76, 150, 18}}));
}

TEST(picture, smaller_pixels_are_the_means_of_the_areas_that_they_cover) {
  const Picture four{
      4, 2, {0, 0, 0, 100, 100, 100, 10, 10, 10, 30, 30, 30, 0, 0, 0, 100, 100, 100, 30, 30, 30, 10, 10, 10}};
  EXPECT_EQ(shrunk(four, 2), (Picture{2, 1, {50, 50, 50, 20, 20, 20}}));
  const Picture three{3, 1, {0, 0, 0, 90, 90, 90, 180, 180, 180}};
  // Each of two covers one and a half: (0 + 45) / 1.5 and (45 + 180) / 1.5.
  EXPECT_EQ(shrunk(three, 2), (Picture{2, 1, {30, 30, 30, 150, 150, 150}}));
  EXPECT_EQ(shrunk(three, 3), three);
  EXPECT_EQ(shrunk(three, 9), three);
  EXPECT_EQ(shrunk(three, 0), (Picture{1, 1, {90, 90, 90}}));
}

TEST(picture, smaller_keeps_the_mean_of_all_and_the_sides_in_proportion) {
  const Picture big = scene(1003, 707);
  const Picture small = shrunk(big, 97);
  EXPECT_EQ(small.width, 97);
  EXPECT_EQ(small.height, 68);
  const auto mean = [](const Picture& one) {
    double sum = 0.0;
    for (const std::uint8_t value : one.rgb) sum += value;
    return sum / static_cast<double>(one.rgb.size());
  };
  EXPECT_NEAR(mean(small), mean(big), 0.5);
  EXPECT_EQ(shrunk(scene(4000, 3), 10).height, 1) << "a side never goes to nothing";
}

TEST(picture, the_eight_ways_to_hold_a_camera) {
  // Two across, three down, numbered along the rows.
  const auto numbered = [](int width, std::initializer_list<std::uint8_t> numbers) {
    Picture out{width, static_cast<int>(numbers.size()) / width, {}};
    for (const std::uint8_t number : numbers) out.rgb.insert(out.rgb.end(), 3, number);
    return out;
  };
  const Picture as_stored = numbered(2, {1, 2, 3, 4, 5, 6});
  EXPECT_EQ(turned(as_stored, 1), as_stored);
  EXPECT_EQ(turned(as_stored, 2), numbered(2, {2, 1, 4, 3, 6, 5}));
  EXPECT_EQ(turned(as_stored, 3), numbered(2, {6, 5, 4, 3, 2, 1}));
  EXPECT_EQ(turned(as_stored, 4), numbered(2, {5, 6, 3, 4, 1, 2}));
  EXPECT_EQ(turned(as_stored, 5), numbered(3, {1, 3, 5, 2, 4, 6}));
  EXPECT_EQ(turned(as_stored, 6), numbered(3, {5, 3, 1, 6, 4, 2}));
  EXPECT_EQ(turned(as_stored, 7), numbered(3, {6, 4, 2, 5, 3, 1}));
  EXPECT_EQ(turned(as_stored, 8), numbered(3, {2, 4, 6, 1, 3, 5}));
  for (const int other : {0, 9, -1}) EXPECT_EQ(turned(as_stored, other), as_stored);
}

}  // namespace
