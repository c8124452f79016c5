#include "rubbing/light.hpp"

#include <algorithm>

namespace portwright::rubbing {

double light_of(std::uint8_t level) {
  const double v = level / 255.0;
  return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
}

Light::Light(const picture::Grey& grey) : grey_(grey) {
  for (std::size_t i = 0; i < table_.size(); ++i)
    table_[i] = static_cast<float>(light_of(static_cast<std::uint8_t>(i)));
}

bool Light::holds(Point pixel) const {
  return pixel.x >= 0.0 && pixel.y >= 0.0 && pixel.x <= grey_.width && pixel.y <= grey_.height;
}

double Light::at(Point pixel) const {
  // not a number, or far outside: the rim
  const double x = std::clamp(pixel.x - 0.5, 0.0, grey_.width - 1.0);
  const double y = std::clamp(pixel.y - 0.5, 0.0, grey_.height - 1.0);
  if (!(x >= 0.0) || !(y >= 0.0)) return 0.0;
  const auto left = static_cast<std::size_t>(x), top = static_cast<std::size_t>(y);
  const auto width = static_cast<std::size_t>(grey_.width);
  const std::size_t right = std::min(left + 1, width - 1);
  const std::size_t below = std::min(top + 1, static_cast<std::size_t>(grey_.height) - 1);
  const double fx = x - static_cast<double>(left), fy = y - static_cast<double>(top);
  const auto level = [&](std::size_t row, std::size_t column) {
    return static_cast<double>(table_[grey_.light[row * width + column]]);
  };
  return (1.0 - fy) * ((1.0 - fx) * level(top, left) + fx * level(top, right)) +
         fy * ((1.0 - fx) * level(below, left) + fx * level(below, right));
}

std::vector<double> profile(const Light& light, Point from, Point to, std::size_t count) {
  std::vector<double> out(count);
  for (std::size_t i = 0; i < count; ++i)
    out[i] = light.at(from + (static_cast<double>(i) / static_cast<double>(count - 1)) * (to - from));
  return out;
}

double median_of(std::vector<double> values) {
  if (values.empty()) return 0.0;
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

}  // namespace portwright::rubbing
