#include "draw/qr.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "draw/svg.hpp"

namespace portwright::draw {
namespace {

const std::string link = "http://192.168.1.5:8470/#pair=0123456789abcdef0123456789abcdef";

/// The code read off the drawing, module by module, quiet zone left out.
std::vector<std::string> modules(const Canvas& canvas) {
  const auto& fill = std::get<FillItem>(canvas.items().front());
  std::vector<std::vector<Point>> rings;
  for (const Path& path : fill.area) rings.push_back(flattened(path));
  const int side = static_cast<int>(std::lround(canvas.width())) - 2 * qr_quiet;
  std::vector<std::string> out;
  for (int y = 0; y < side; ++y) {
    out.emplace_back();
    for (int x = 0; x < side; ++x) out.back() += is_inside({x + qr_quiet + 0.5, y + qr_quiet + 0.5}, rings) ? '#' : '.';
  }
  return out;
}

TEST(Qr, has_the_three_eyes_and_the_timing_rows_of_a_code) {
  const auto canvas = qr_code(link);
  ASSERT_TRUE(canvas);
  const auto rows = modules(*canvas);
  const std::size_t side = rows.size();
  EXPECT_EQ((side - 17) % 4, 0u);
  const std::vector<std::string> eye{"#######", "#.....#", "#.###.#", "#.###.#", "#.###.#", "#.....#", "#######"};
  for (const auto& [top, left] : {std::pair<std::size_t, std::size_t>{0, 0}, {0, side - 7}, {side - 7, 0}})
    for (std::size_t y = 0; y < 7; ++y) EXPECT_EQ(rows[top + y].substr(left, 7), eye[y]);
  for (std::size_t i = 8; i + 8 < side; ++i) {
    EXPECT_EQ(rows[6][i], i % 2 == 0 ? '#' : '.') << i;
    EXPECT_EQ(rows[i][6], i % 2 == 0 ? '#' : '.') << i;
  }
}

TEST(Qr, is_surrounded_by_four_light_modules) {
  const auto canvas = qr_code(link, 2.0);
  ASSERT_TRUE(canvas);
  const Box box = bounds(std::get<FillItem>(canvas->items().front()).area);
  EXPECT_EQ(box.left, 2.0 * qr_quiet);
  EXPECT_EQ(box.top, 2.0 * qr_quiet);
  EXPECT_EQ(box.right, canvas->width() - 2.0 * qr_quiet);
  EXPECT_EQ(box.bottom, canvas->height() - 2.0 * qr_quiet);
}

TEST(Qr, of_another_text_is_another) {
  EXPECT_NE(to_svg(*qr_code(link)), to_svg(*qr_code(link + "0")));
  EXPECT_EQ(to_svg(*qr_code(link)), to_svg(*qr_code(link)));
}

TEST(Qr, refuses_more_than_a_phone_reads) {
  EXPECT_TRUE(qr_code(std::string(1000, 'x')));
  const auto longer = qr_code(std::string(1001, 'x'));
  ASSERT_FALSE(longer);
  EXPECT_EQ(longer.error().code, base::ErrorCode::out_of_range);
}

}  // namespace
}  // namespace portwright::draw
