#include "cycle/assumptions.hpp"

#include <stdexcept>
#include <vector>

#include "tables/run_rows.hpp"

namespace portwright::cycle {

namespace {

struct Member {
  const char* name;
  double Assumptions::*member;
};
constexpr Member members[] = {{"exit_bias", &Assumptions::exit_bias},
                              {"displaced", &Assumptions::displaced},
                              {"second_law", &Assumptions::second_law},
                              {"short_circuit", &Assumptions::short_circuit},
                              {"short_circuit_rise", &Assumptions::short_circuit_rise},
                              {"completeness", &Assumptions::completeness},
                              {"completeness_slope", &Assumptions::completeness_slope},
                              {"completeness_knee", &Assumptions::completeness_knee},
                              {"burn_angle", &Assumptions::burn_angle},
                              {"burn_speed_exponent", &Assumptions::burn_speed_exponent},
                              {"burn_delay", &Assumptions::burn_delay},
                              {"woschni_factor", &Assumptions::woschni_factor},
                              {"cylinder_wall", &Assumptions::cylinder_wall},
                              {"case_wall", &Assumptions::case_wall},
                              {"transfer_wall", &Assumptions::transfer_wall},
                              {"tract_wall", &Assumptions::tract_wall},
                              {"exhaust_wall", &Assumptions::exhaust_wall},
                              {"muffler_wall", &Assumptions::muffler_wall},
                              {"case_film", &Assumptions::case_film},
                              {"case_wall_area", &Assumptions::case_wall_area},
                              {"muffler_film", &Assumptions::muffler_film},
                              {"evaporated_in_case", &Assumptions::evaporated_in_case},
                              {"exhaust_discharge", &Assumptions::exhaust_discharge},
                              {"transfer_discharge", &Assumptions::transfer_discharge},
                              {"mouth_discharge", &Assumptions::mouth_discharge},
                              {"intake_discharge", &Assumptions::intake_discharge},
                              {"entry_discharge", &Assumptions::entry_discharge},
                              {"outlet_discharge", &Assumptions::outlet_discharge},
                              {"reed_discharge", &Assumptions::reed_discharge},
                              {"free_port_discharge", &Assumptions::free_port_discharge},
                              {"venturi_loss", &Assumptions::venturi_loss},
                              {"throttle_loss", &Assumptions::throttle_loss},
                              {"friction_factor", &Assumptions::friction_factor},
                              {"end_correction", &Assumptions::end_correction},
                              {"bend_share", &Assumptions::bend_share},
                              {"friction_pressure", &Assumptions::friction_pressure},
                              {"friction_speed", &Assumptions::friction_speed},
                              {"fan_pressure", &Assumptions::fan_pressure},
                              {"leak_area", &Assumptions::leak_area},
                              {"reed_loss_ratio", &Assumptions::reed_loss_ratio},
                              {"reed_modulus", &Assumptions::reed_modulus},
                              {"reed_density", &Assumptions::reed_density},
                              {"reed_stop", &Assumptions::reed_stop},
                              {"reed_angle", &Assumptions::reed_angle},
                              {"reed_gap", &Assumptions::reed_gap},
                              {"reed_block_loss", &Assumptions::reed_block_loss},
                              {"reed_cage", &Assumptions::reed_cage},
                              {"carburettor_length", &Assumptions::carburettor_length},
                              {"case_share", &Assumptions::case_share},
                              {"tract_length", &Assumptions::tract_length},
                              {"passage_length", &Assumptions::passage_length},
                              {"exhaust_length", &Assumptions::exhaust_length},
                              {"passage_bend", &Assumptions::passage_bend},
                              {"passage_share", &Assumptions::passage_share},
                              {"tract_share", &Assumptions::tract_share},
                              {"throttle_share", &Assumptions::throttle_share},
                              {"exhaust_outlet_share", &Assumptions::exhaust_outlet_share},
                              {"muffler_share", &Assumptions::muffler_share},
                              {"outlet_share", &Assumptions::outlet_share},
                              {"air_box", &Assumptions::air_box},
                              {"filter_loss", &Assumptions::filter_loss},
                              {"advance", &Assumptions::advance},
                              {"air_fuel", &Assumptions::air_fuel},
                              {"octane", &Assumptions::octane},
                              {"altitude", &Assumptions::altitude},
                              {"temperature", &Assumptions::temperature},
                              {"humidity", &Assumptions::humidity},
                              {"screen_open", &Assumptions::screen_open}};

double Assumptions::*member_of(const std::string& name) {
  for (const Member& m : members)
    if (name == m.name) return m.member;
  throw std::logic_error("an assumption that no simulation takes: " + name);
}

std::vector<AssumptionRange> read_ranges() {
  std::vector<AssumptionRange> out;
  for (const tables::RunRow& row : tables::run_rows()) out.push_back({&row, member_of(row.name)});
  if (out.size() != std::size(members)) throw std::logic_error("an assumption without a row");
  return out;
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

}  // namespace portwright::cycle
