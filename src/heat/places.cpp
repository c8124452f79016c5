#include "heat/places.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/number_text.hpp"

namespace portwright::heat {

namespace {

using std::numbers::pi;

constexpr double cold = 293.15;    // all over, when sizes were read [K]
constexpr double near_tdc = 0.15;  // of the stroke: what counts as near TDC
constexpr double side_half = 30.0 * pi / 180.0, narrowest_gap = 20.0 * pi / 180.0;

double into_half_turn(double angle) { return std::remainder(angle, 2.0 * pi); }

/// Cells whose middle lies within an arc and between two drops, as (angle off the middle, drop); metal only.
template <class Tell>
void over_cells(const Shell& s, double middle, double half, double from, double to, Tell&& tell) {
  for (int row = 0; row < s.rows; ++row) {
    const double drop = s.drop(row);
    if (drop < from - 0.5 * s.row_height() || drop > to + 0.5 * s.row_height()) continue;
    for (int column = 0; column < s.around; ++column) {
      const int cell = s.cell(row, column);
      if (s.hole(cell) || std::abs(into_half_turn(s.angle(column) - middle)) > half) continue;
      tell(cell, s.angle(column), drop);
    }
  }
}

struct Patch {
  double middle, half, from, to;
};

Place mean_of(const Shell& s, const Map& map, std::string name, const Patch& p) {
  Place out{std::move(name), false, into_half_turn(p.middle), 0.5 * (p.from + p.to), false, 0.0};
  double area = 0.0;
  over_cells(s, p.middle, p.half, p.from, p.to, [&](int cell, double, double) {
    const double metal = s.metal[static_cast<std::size_t>(cell)];
    out.T += metal * map.wall[static_cast<std::size_t>(cell)];
    area += metal;
  });
  if (area > 0.0) out.T /= area;
  return out;
}

Place greatest_of(const Shell& s, const Map& map, std::string name, const Patch& p) {
  Place out{std::move(name), false, into_half_turn(p.middle), 0.5 * (p.from + p.to), false, 0.0};
  over_cells(s, p.middle, p.half, p.from, p.to, [&](int cell, double angle, double drop) {
    if (!(map.wall[static_cast<std::size_t>(cell)] > out.T)) return;
    out.T = map.wall[static_cast<std::size_t>(cell)];
    out.angle = angle;
    out.drop = drop;
  });
  return out;
}

/// The stretches without fins, as (from, to) [rad].
std::vector<std::pair<double, double>> gaps(const Cooling& cooling) {
  std::vector<std::pair<double, double>> arcs;
  for (const Sector& s : cooling.sectors) {
    const double from = std::fmod(std::fmod(s.from, 2 * pi) + 2 * pi, 2 * pi);
    arcs.emplace_back(from, from + s.to - s.from);
  }
  std::sort(arcs.begin(), arcs.end());
  std::vector<std::pair<double, double>> out;
  for (std::size_t i = 0; i < arcs.size(); ++i) {
    const double next = i + 1 < arcs.size() ? arcs[i + 1].first : arcs.front().first + 2 * pi;
    if (next - arcs[i].second > narrowest_gap) out.emplace_back(arcs[i].second, next);
  }
  return out;
}

void exhaust_places(const Load& load, const Map& map, std::vector<Place>& out) {
  const Body& body = load.body;
  const Shell& s = body.shell;
  if (!(body.exhaust_half > 0.0)) return;
  const double row = s.row_height(), column = s.column_angle();
  const Patch roof{0.0, body.exhaust_half, body.exhaust_roof - 2.0 * row, body.exhaust_roof - 0.5 * row};
  out.push_back(greatest_of(s, map, "exhaust roof", roof));
  const double height = body.exhaust_floor - body.exhaust_roof;
  const double middle = body.exhaust_roof + 0.5 * height;
  Place beside = greatest_of(s, map, "beside the exhaust",
                             {body.exhaust_half + column, column, middle - 0.25 * height, middle + 0.25 * height});
  const Place other =
      greatest_of(s, map, "beside the exhaust",
                  {-body.exhaust_half - column, column, middle - 0.25 * height, middle + 0.25 * height});
  out.push_back(other.T > beside.T ? other : beside);
  if (body.bridged)
    out.push_back(greatest_of(s, map, "exhaust bridge",
                              {body.bridge_angle, 1.5 * column, body.exhaust_roof, body.exhaust_floor}));
}

void bare_places(const Load& load, const Map& map, std::vector<Place>& out) {
  const Shell& s = load.body.shell;
  for (const auto& [from, to] : gaps(load.cooling)) {
    const double middle = into_half_turn(0.5 * (from + to));
    int degrees = static_cast<int>(std::lround(middle * 180.0 / pi));
    if (degrees == -180) degrees = 180;
    out.push_back(mean_of(s, map, "without fins, at " + std::to_string(degrees) + " deg",
                          {middle, 0.5 * (to - from), 0.0, 0.5 * s.height}));
  }
}

}  // namespace

std::vector<Place> places(const Load& load, const Map& map) {
  std::vector<Place> out;
  const Shell& s = load.body.shell;
  const double top = near_tdc * load.body.stroke;
  exhaust_places(load, map, out);
  out.push_back(mean_of(s, map, "exhaust side, near TDC", {0.0, side_half, 0.0, top}));
  out.push_back(mean_of(s, map, "clockwise side, near TDC", {0.5 * pi, side_half, 0.0, top}));
  out.push_back(mean_of(s, map, "anticlockwise side, near TDC", {-0.5 * pi, side_half, 0.0, top}));
  out.push_back(mean_of(s, map, "far side, near TDC", {pi, side_half, 0.0, top}));
  bare_places(load, map, out);
  out.push_back({"head, plug seat", false, 0.0, 0.0, true, map.head});
  Place base = mean_of(s, map, "base", {0.0, 2.0 * pi, s.height - s.row_height(), s.height});
  base.round = true;
  out.push_back(base);
  out.push_back({"crown", true, 0.0, 0.0, true, map.piston.crown});
  out.push_back({"ring groove", true, 0.0, 0.0, true, map.piston.groove});
  out.push_back({"skirt", true, 0.0, 0.0, true, map.piston.skirt});
  out.push_back({"pin", true, 0.0, 0.0, true, map.piston.pin});
  return out;
}

Place hottest(const Body& body, const Map& map) {
  return greatest_of(body.shell, map, "hottest of the bore", {0.0, 2.0 * pi, 0.0, body.shell.height});
}

double mean_wall(const Body& body, const Map& map) {
  return mean_of(body.shell, map, "", {0.0, 2.0 * pi, 0.0, body.shell.height}).T;
}

Growth growth(const Body& body, const Map& map, const Assumptions& take) {
  const Shell& s = body.shell;
  Growth out;
  for (int row = 0; row < s.rows && s.drop(row) < body.exhaust_floor; ++row) {
    double mean = 0.0, first_cos = 0.0, first_sin = 0.0;
    for (int column = 0; column < s.around; ++column) {
      const double T = map.wall[static_cast<std::size_t>(s.cell(row, column))], a = s.angle(column);
      mean += T / s.around;
      first_cos += 2.0 * T * std::cos(a) / s.around;
      first_sin += 2.0 * T * std::sin(a) / s.around;
    }
    double low = 1e300, high = -1e300;
    for (int column = 0; column < s.around; ++column) {
      const double a = s.angle(column);
      const double T = map.wall[static_cast<std::size_t>(s.cell(row, column))];
      const double bent = T - mean - first_cos * std::cos(a) - first_sin * std::sin(a);
      low = std::min(low, bent);
      high = std::max(high, bent);
    }
    out.out_of_round = std::max(out.out_of_round, take.own_growth * take.cylinder_expansion * s.radius * (high - low));
  }
  const auto grown = [&](double from, double to) {
    return body.bore * take.cylinder_expansion * (mean_of(s, map, "", {0.0, 2.0 * pi, from, to}).T - cold);
  };
  const auto piston = [&](double T) { return body.bore * take.piston_expansion * (T - cold); };
  out.bore = grown(0.4 * body.stroke, 0.6 * body.stroke);
  out.clearance = out.bore - piston(map.piston.skirt);
  out.land = grown(0.0, near_tdc * body.stroke) - piston(0.5 * (map.piston.crown + map.piston.groove));
  return out;
}

}  // namespace portwright::heat
