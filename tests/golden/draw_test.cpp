// Golden drawings: the SVG of one page with every mark, byte for byte. To renew after a change that was looked at, run
// with PORTWRIGHT_GOLDEN=write.
#include <gtest/gtest.h>

#include <cstdlib>

#include "base/file.hpp"
#include "draw/svg.hpp"
#include "golden/draw_specimen.hpp"

namespace portwright::draw {
namespace {

void expect_golden(const std::string& name, const std::string& text) {
  const std::string path = std::string(PORTWRIGHT_SOURCE_DIR) + "/tests/golden/draw/" + name;
  const char* mode = std::getenv("PORTWRIGHT_GOLDEN");
  if (mode != nullptr && std::string(mode) == "write") {
    ASSERT_TRUE(base::write_file_atomic(path, text));
  }
  const auto kept = base::read_file(path, 4U << 20U);
  ASSERT_TRUE(kept) << "no golden drawing " << name;
  EXPECT_TRUE(*kept == text) << name << " is drawn otherwise than it was";
}

TEST(GoldenDrawing, the_specimen_is_drawn_as_it_was) {
  expect_golden("specimen_paper.svg", to_svg(test::specimen(), {&theme_paper(), true, "d"}));
}

TEST(GoldenDrawing, the_specimen_has_no_text_outside_its_page) {
  const Canvas canvas = test::specimen();
  for (const TextBox& box : text_boxes(canvas)) {
    for (const Point corner : box.corners) {
      EXPECT_TRUE(corner.x >= 0 && corner.y >= 0 && corner.x <= canvas.width() && corner.y <= canvas.height())
          << box.text;
    }
  }
}

}  // namespace
}  // namespace portwright::draw
