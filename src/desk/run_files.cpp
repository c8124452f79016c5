#include "desk/run_files.hpp"

#include <array>
#include <charconv>
#include <numbers>

namespace portwright::desk {

namespace {

using cycle::Instant;

constexpr double bar = 1e-5, grams = 1e3, mm2 = 1e6, mm = 1e3, deg = 180.0 / std::numbers::pi;
constexpr int digits = 7;

struct CsvColumn {
  const char* head;
  double Instant::*value;
  double scale;
};

constexpr CsvColumn columns[] = {
    {"angle [deg ATDC]", &Instant::angle, deg},
    {"cylinder [bar]", &Instant::cylinder, bar},
    {"case [bar]", &Instant::crankcase, bar},
    {"exhaust duct [bar]", &Instant::exhaust, bar},
    {"tract [bar]", &Instant::tract, bar},
    {"cylinder temperature [K]", &Instant::temperature, 1.0},
    {"purity [-]", &Instant::purity, 1.0},
    {"burnt [-]", &Instant::burnt, 1.0},
    {"intake flow [g/s]", &Instant::intake_flow, grams},
    {"transfer flow [g/s]", &Instant::transfer_flow, grams},
    {"exhaust flow [g/s]", &Instant::exhaust_flow, grams},
    {"exhaust area [mm2]", &Instant::exhaust_area, mm2},
    {"transfer area [mm2]", &Instant::transfer_area, mm2},
    {"intake area [mm2]", &Instant::intake_area, mm2},
    {"reed lift [mm]", &Instant::reed_lift, mm},
};

void add_number(std::string& out, double value) {
  std::array<char, 40> buffer{};
  const auto end =
      std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::general, digits).ptr;
  out.append(buffer.data(), end);
}

/// Angles that go on rising where a turn passes from one count to the next.
void unwrap(std::vector<Instant>& instants) {
  for (std::size_t i = 1; i < instants.size(); ++i)
    while (instants[i].angle < instants[i - 1].angle - std::numbers::pi) instants[i].angle += 2.0 * std::numbers::pi;
}

}  // namespace

std::string traces_csv(const std::vector<cycle::Traced>& traces) {
  std::string out = "speed [rpm]";
  for (const CsvColumn& column : columns) out += std::string(",") + column.head;
  out += '\n';
  for (const cycle::Traced& trace : traces) {
    for (const Instant& instant : trace.instants) {
      add_number(out, trace.point.speed * rpm_per_rev);
      for (const CsvColumn& column : columns) {
        out += ',';
        add_number(out, instant.*column.value * column.scale);
      }
      out += '\n';
    }
  }
  return out;
}

std::vector<cycle::Traced> traces_of(const cycle::Network& network, const std::vector<double>& rpm,
                                     const cycle::CurvePlan& plan, Progress& progress, double weight) {
  std::vector<cycle::Traced> out;
  for (const double speed : rpm) {
    const cycle::Tell tell = progress.stage("traces", weight / static_cast<double>(rpm.size()));
    cycle::Traced traced = cycle::run_traced(network, speed / rpm_per_rev, plan, tell);
    if (progress.stopped()) return out;
    unwrap(traced.instants);
    out.push_back(std::move(traced));
  }
  return out;
}

}  // namespace portwright::desk
