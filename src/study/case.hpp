#pragma once
// One saw made ready to be studied: its figures by name, what they may wait for, and the speed taken. Inside the module
// only.

#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "cuts/cut.hpp"
#include "geometry/survey.hpp"
#include "study/figures.hpp"
#include "study/measure.hpp"
#include "study/study.hpp"

namespace portwright::study {

class Case {
 public:
  Case(const geometry::Survey& survey, const Options& options);

  /// Resolves the readings, cuts, and measures; `cuts` null: as it is. `as_read` as of measure().
  void measure_at(std::span<const double> values, const cuts::Prepared* cuts, Measures& out,
                  const Measures* as_read = nullptr);
  /// The resolved engine is cut and measured once for each list, so that all see the same sample. `as_read` is empty or
  /// has one for each list.
  void measure_at(std::span<const double> values, std::span<const cuts::Prepared* const> lists, std::span<Measures> out,
                  std::span<const Measures> as_read = {});

  [[nodiscard]] const geometry::Survey& survey() const { return *survey_; }
  [[nodiscard]] const std::vector<Entry>& entries() const { return entries_; }
  [[nodiscard]] double speed() const { return speed_; }
  [[nodiscard]] const std::string& speed_from() const { return speed_from_; }
  /// Paths of what is waited for, in the file's order.
  [[nodiscard]] std::vector<std::string> paths(const base::Needs& needs) const;
  [[nodiscard]] const std::vector<std::string>& needs() const { return needs_; }

 private:
  void name_wants();
  base::Needs want(const std::string& path);
  void choose_speed(const Options& options);

  const geometry::Survey* survey_;
  std::vector<Entry> entries_;
  std::vector<std::string> needs_;  ///< the survey's, then those that only the study has
  Wants wants_;
  double speed_ = 150.0;
  std::string speed_from_;
  std::unique_ptr<geometry::Engine> stock_, cut_;  ///< rooms for the sampled path
};

}  // namespace portwright::study
