#include "geometry/edge.hpp"

#include <algorithm>
#include <numbers>

namespace portwright::geometry {

using base::Known;

namespace {

constexpr double turn = 2.0 * std::numbers::pi;

Known drop_at(const Frame& frame, double angle) {
  return frame.slider != nullptr ? Known(frame.slider->drop(angle)) : frame.slider_known;
}

}  // namespace

double duration_at(const CrankSlider& slider, OpenedBy by, double passed) {
  const double below = slider.angle_up(passed) - slider.angle_down(passed);
  return by == OpenedBy::crown ? below : turn - below;
}

double drop_of_duration(const CrankSlider& slider, OpenedBy by, double duration) {
  const double below = by == OpenedBy::crown ? duration : turn - duration;
  // Without pin offset the answer is direct; the offset moves it by a little, and the time below a level falls
  // steadily as the level sinks, so the direct answer is mended by secant steps on the opening angle.
  double opens = slider.bdc() - 0.5 * below;
  for (int step = 0; step < 12; ++step) {
    const double wrong = slider.angle_up(slider.drop(opens)) - opens - below;
    opens = std::clamp(opens + 0.5 * wrong, 0.0, slider.bdc());
    if (std::abs(wrong) < 1e-15) break;
  }
  return slider.drop(opens);
}

Known passed_from(EdgeForm form, double value, OpenedBy by, const Frame& frame) {
  switch (form) {
    case EdgeForm::opens:
      return drop_at(frame, by == OpenedBy::crown ? value : turn - value);
    case EdgeForm::closes:
      return drop_at(frame, value);
    case EdgeForm::duration:
      return frame.slider != nullptr ? Known(drop_of_duration(*frame.slider, by, value)) : frame.slider_known;
    case EdgeForm::drop:
      return value;
    case EdgeForm::height:
      break;
  }
  const Known level = frame.crown - value;
  return by == OpenedBy::crown ? level : level - frame.skirt;
}

Known level_from(EdgeForm form, double value, OpenedBy by, const Frame& frame) {
  if (form == EdgeForm::height) return frame.crown - value;
  const Known passed = passed_from(form, value, by, frame);
  return by == OpenedBy::crown ? passed : passed + frame.skirt;
}

}  // namespace portwright::geometry
