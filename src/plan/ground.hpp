#pragma once
// What limits and geometry wishes leave to a search over free cuts: flat sides, curved conditions, and the check that
// none of it is passed by chance.

#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "plan/knobs.hpp"
#include "plan/plan.hpp"

namespace portwright::plan {

/// One saw, its free cuts and what must hold. Amounts are shares of each knob's greatest, 0..1.
class Ground {
 public:
  /// Errors, all at once: geometry wishes that this saw cannot have, or that speak of what waits for a reading.
  /// @param wishes  may be empty  @param settings  its chance, folder and study count
  [[nodiscard]] static base::ResultAll<Ground> make(const Wishes& wishes, std::vector<Knob> knobs,
                                                    const geometry::Survey& survey, const Settings& settings);
  Ground(Ground&&) noexcept;
  ~Ground();

  [[nodiscard]] const std::vector<Knob>& knobs() const;
  [[nodiscard]] const geometry::Engine& stock() const;

  /// Sum of slope k times share k plus offset is no less than 0 where a limit holds, scaled by what is usual of it.
  struct Side {
    std::vector<double> slope;
    double offset = 0.0;
    std::string rule;  ///< row of data/limits, or what else holds
  };
  [[nodiscard]] const std::vector<Side>& sides() const;
  /// Wishes of one side come first, then those that are to be met; 0 or more inside, scaled.
  [[nodiscard]] std::size_t no_less() const;
  [[nodiscard]] std::size_t equal() const;
  void curved(std::span<const double> shares, std::span<double> out) const;

  /// The cuts of some shares, as they are; and as whole steps of a hand [m] where they are lengths.
  [[nodiscard]] cuts::CutList cuts(std::span<const double> shares) const;
  /// Shares whose lengths are whole steps, the nearest that hold every side and keep each wish of one side.
  [[nodiscard]] std::vector<double> rounded(std::span<const double> shares, double step) const;

  /// The engine after some shares; none where no engine can be so.
  [[nodiscard]] std::optional<geometry::Engine> engine(std::span<const double> shares) const;

  /// Of each list of shares, the sentence that says which hard limit it passes with more than the stated chance; empty:
  /// none. One round of samples for all of them. @param roughly  a quarter of the samples, while searching
  [[nodiscard]] std::vector<std::string> refused(std::span<const std::vector<double>> lists, bool roughly) const;

  /// What is held without a wish, each a sentence.
  [[nodiscard]] const std::vector<std::string>& kept() const;

 private:
  struct Inside;
  explicit Ground(std::unique_ptr<Inside> inside);
  std::unique_ptr<Inside> inside_;
};

}  // namespace portwright::plan
