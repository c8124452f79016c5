#include "heat/assumptions.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <stdexcept>
#include <string>

#include "numerics/normal.hpp"
#include "numerics/sampling.hpp"

namespace portwright::heat {

namespace {

struct Name {
  const char* name;
  double Assumptions::*member;
};
constexpr Name names[] = {{"film_share", &Assumptions::film_share},
                          {"fan_air", &Assumptions::fan_air},
                          {"air_power", &Assumptions::air_power},
                          {"still_air", &Assumptions::still_air},
                          {"air_warmer", &Assumptions::air_warmer},
                          {"bare_air", &Assumptions::bare_air},
                          {"wall_thickness", &Assumptions::wall_thickness},
                          {"wall_conductivity", &Assumptions::wall_conductivity},
                          {"fin_reach", &Assumptions::fin_reach},
                          {"head_thickness", &Assumptions::head_thickness},
                          {"head_fins", &Assumptions::head_fins},
                          {"duct_share", &Assumptions::duct_share},
                          {"muffler_joint", &Assumptions::muffler_joint},
                          {"flange_joint", &Assumptions::flange_joint},
                          {"crown_thickness", &Assumptions::crown_thickness},
                          {"piston_conductivity", &Assumptions::piston_conductivity},
                          {"ring_contact", &Assumptions::ring_contact},
                          {"skirt_contact", &Assumptions::skirt_contact},
                          {"crown_below", &Assumptions::crown_below},
                          {"pin_joint", &Assumptions::pin_joint},
                          {"friction_share", &Assumptions::friction_share},
                          {"cylinder_expansion", &Assumptions::cylinder_expansion},
                          {"piston_expansion", &Assumptions::piston_expansion},
                          {"own_growth", &Assumptions::own_growth},
                          {"soak_film", &Assumptions::soak_film},
                          {"muffler_heat", &Assumptions::muffler_heat},
                          {"casting_heat", &Assumptions::casting_heat},
                          {"case_heat", &Assumptions::case_heat}};

double Assumptions::*member_of(const std::string& name) {
  for (const Name& n : names)
    if (name == n.name) return n.member;
  throw std::logic_error("an assumption that no map takes: " + name);
}

std::vector<AssumptionRange> read_ranges() {
  std::vector<AssumptionRange> out;
  for (const tables::RunRow& row : tables::heat_rows()) out.push_back({&row, member_of(row.name)});
  if (out.size() != std::size(names)) throw std::logic_error("an assumption without a row");
  return out;
}

/// Triangular about the middle: the ends of a range are seldom met together.
double drawn(const tables::RunRow& row, double normal) {
  const double u = numerics::normal_cdf(normal), knee = (row.value - row.low) / (row.high - row.low);
  const double x = u < knee ? std::sqrt(u * knee) : 1.0 - std::sqrt((1.0 - u) * (1.0 - knee));
  return row.low + x * (row.high - row.low);
}

}  // namespace

std::span<const AssumptionRange> assumption_ranges() {
  static const std::vector<AssumptionRange> ranges = read_ranges();
  return ranges;
}

Assumptions middle_assumptions() {
  Assumptions out;
  for (const AssumptionRange& range : assumption_ranges()) out.*range.member = range.row->value;
  return out;
}

std::vector<Member> ensemble_members(int members) {
  const auto ranges = assumption_ranges();
  std::vector<Member> out(static_cast<std::size_t>(std::max(1, members)), Member{middle_assumptions()});
  const numerics::NormalDraws draws(static_cast<int>(ranges.size()) + 1, std::max(1, members), 1);
  for (int k = 1; k < members; ++k) {
    const auto row = draws.row(k);
    Member& member = out[static_cast<std::size_t>(k)];
    for (std::size_t r = 0; r < ranges.size(); ++r)
      member.assumptions.*ranges[r].member = drawn(*ranges[r].row, row[r]);
    member.spot_error = row[ranges.size()];
  }
  return out;
}

}  // namespace portwright::heat
