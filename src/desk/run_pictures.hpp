#pragma once
// Pictures of a turning engine, from its answers. Inside the module only.

#include "cycle/airflow.hpp"
#include "desk/case.hpp"
#include "desk/turning.hpp"
#include "wire/run_answer.hpp"

namespace portwright::desk {

/// Torque and power over speed as SVG, from the answer's own points.
[[nodiscard]] base::Result<std::string> curve_picture(const Case& opened, const wire::RunAnswer& answer);

/// One turn as SVG. @param stock  null without cuts
[[nodiscard]] base::Result<std::string> turn_picture(const Case& opened, const cycle::Traced& now,
                                                     const cycle::Traced* stock);

/// The air's way as SVG. @param stock  ways of the stock engine, null without cuts
[[nodiscard]] base::Result<std::string> airway_picture(const Case& opened, const cycle::Airflow& flow,
                                                       const wire::AirflowAnswer& answer,
                                                       const cycle::Airflow* stock_flow,
                                                       const std::vector<wire::AirWay>& stock_ways);

}  // namespace portwright::desk
