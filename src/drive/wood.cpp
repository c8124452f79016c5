#include "drive/wood.hpp"

#include <cmath>
#include <numbers>

namespace portwright::drive {

namespace {

double power_left(const TorqueCurve& engine, double speed, double drag) { return (1.0 - drag) * engine.power(speed); }

Working at_speed(const TorqueCurve& engine, const Chain& chain, double speed, double drag, Meets meets) {
  return {meets, speed, chain_speed(chain, speed), meets == Meets::bogs ? 0.0 : power_left(engine, speed, drag)};
}

}  // namespace

Working working(const TorqueCurve& engine, const Chain& chain, double force, double drag) {
  const double asked = torque_for(chain, force, drag);
  if (asked > engine.torque(engine.torque_peak()))
    return at_speed(engine, chain, engine.torque_peak(), drag, Meets::bogs);
  if (asked < engine.torque(engine.last())) {
    Working out = at_speed(engine, chain, engine.last(), drag, Meets::runs_away);
    out.wood_power = force * out.chain_speed;  // all the wood takes
    return out;
  }
  double low = engine.torque_peak(), high = engine.last();
  for (int step = 0; step < 60; ++step) {
    const double middle = 0.5 * (low + high);
    (engine.torque(middle) > asked ? low : high) = middle;
  }
  return at_speed(engine, chain, 0.5 * (low + high), drag, Meets::holds);
}

double best_wood_power(const TorqueCurve& engine, double drag) { return power_left(engine, engine.power_peak(), drag); }

double force_in(double force, double known_width, double width, double exponent) {
  return force * std::pow(width / known_width, exponent);
}

double round_area(double diameter) { return 0.25 * std::numbers::pi * diameter * diameter; }

double cutting_time(double area, double energy, double power) { return area * energy / power; }

std::optional<Choice> best_sprocket(const TorqueCurve& engine, const Chain& chain, double force, double drag,
                                    int fewest, int most) {
  std::optional<Choice> best;
  for (int teeth = fewest; teeth <= most; ++teeth) {
    const Working now = working(engine, {chain.pitch, static_cast<double>(teeth)}, force, drag);
    if (now.meets == Meets::bogs) continue;
    if (!best || now.wood_power > best->working.wood_power) best = Choice{teeth, now};
  }
  return best;
}

}  // namespace portwright::drive
