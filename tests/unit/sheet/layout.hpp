#pragma once
// What must hold of every page: no text leaves it, and no two texts lie on each other.

#include <gtest/gtest.h>

#include "draw/canvas.hpp"

namespace portwright::test {

inline draw::Box box_of(const draw::TextBox& text) {
  return draw::bounds(draw::polyline({text.corners.begin(), text.corners.end()}));
}

inline void expect_texts_on_page(const draw::Document& document) {
  for (const draw::Canvas& page : document.pages) {
    for (const draw::TextBox& text : draw::text_boxes(page)) {
      const draw::Box b = box_of(text);
      EXPECT_TRUE(b.left >= 0 && b.top >= 0 && b.right <= page.width() && b.bottom <= page.height())
          << '"' << text.text << "\" at " << b.left << ' ' << b.top << ' ' << b.right << ' ' << b.bottom;
    }
  }
}

inline void expect_texts_apart(const draw::Document& document) {
  constexpr double touch = 0.1;  // [mm]
  for (const draw::Canvas& page : document.pages) {
    const auto texts = draw::text_boxes(page);
    for (std::size_t i = 0; i < texts.size(); ++i) {
      for (std::size_t j = i + 1; j < texts.size(); ++j) {
        const draw::Box a = box_of(texts[i]), b = box_of(texts[j]);
        const double wide = std::min(a.right, b.right) - std::max(a.left, b.left);
        const double high = std::min(a.bottom, b.bottom) - std::max(a.top, b.top);
        EXPECT_FALSE(wide > touch && high > touch)
            << '"' << texts[i].text << "\" and \"" << texts[j].text << "\" at " << a.left << ' ' << a.top;
      }
    }
  }
}

}  // namespace portwright::test
