#pragma once
// Answers as text for a person. Numbers come as text from the study and from base; nothing is rounded here.

#include <string>

#include "base/number_text.hpp"
#include "cli/page.hpp"
#include "wire/bottom_end_answer.hpp"
#include "wire/run_answer.hpp"

namespace portwright::cli {

/// How a text is set.
struct Setting {
  bool coloured = false;
  bool all = false;  ///< every figure or reading, not only the page of a builder
  base::UnitStyle style = base::UnitStyle::shop;
};

[[nodiscard]] std::string study_text(const wire::StudyAnswer& answer, const Setting& setting);
[[nodiscard]] std::string why_text(const wire::WhyAnswer& answer, const Setting& setting);
[[nodiscard]] std::string check_text(const wire::CheckAnswer& answer, const Setting& setting);
[[nodiscard]] std::string compare_text(const wire::CompareAnswer& answer, const Setting& setting);
[[nodiscard]] std::string edge_text(const wire::EdgeAnswer& answer, const Setting& setting);
[[nodiscard]] std::string units_text(const wire::UnitsAnswer& answer, const Setting& setting);
[[nodiscard]] std::string run_text(const wire::RunAnswer& answer, const Setting& setting);
[[nodiscard]] std::string crank_text(const wire::CrankAnswer& answer, const Setting& setting);
[[nodiscard]] std::string airflow_text(const wire::AirflowAnswer& answer, const Setting& setting);
[[nodiscard]] std::string revs_text(const wire::RevsAnswer& answer, const Setting& setting);
[[nodiscard]] std::string chain_text(const wire::ChainAnswer& answer, const Setting& setting);
[[nodiscard]] std::string written_text(const wire::WrittenAnswer& answer, const Setting& setting);
[[nodiscard]] std::string errors_text(const base::Errors& errors, bool coloured);

}  // namespace portwright::cli
