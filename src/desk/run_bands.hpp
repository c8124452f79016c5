#pragma once
// How far a run can be told: the same engine under many sets of assumptions at three speeds. Inside the module only.

#include <array>

#include "cycle/ensemble.hpp"
#include "desk/turning.hpp"
#include "study/run_figures.hpp"
#include "wire/run_answer.hpp"

namespace portwright::desk {

inline constexpr std::array<double, 3> shares_of_rated{0.65, 1.0, 1.25};
inline constexpr std::size_t at_rated = 1;

struct Rated {
  double rpm = 0.0;
  std::string from;
};

/// Stock and cut under the same sets of assumptions.
struct Bands {
  Rated rated;
  std::array<double, 3> speeds{};  ///< [rev/s]
  cycle::Ensemble stock, cut;      ///< `cut` is stock where there are none
  bool anchored = false;
  std::vector<std::string> warnings;

  [[nodiscard]] const cycle::Ensemble& subject(bool has_cuts) const { return has_cuts ? cut : stock; }
};

/// Speed of greatest power of a curve [rpm].
[[nodiscard]] Rated rated_of_curve(const std::vector<cycle::Point>& stock);
/// The speed of the stock power reading, where there is one.
[[nodiscard]] std::optional<Rated> rated_as_read(const geometry::Engine& engine);

/// How the sets are run.
struct BandsPlan {
  int members = 64;
  bool quick = false;   ///< rated speed from the middle curve, the repeating turn alone
  double weight = 1.0;  ///< of its stages, together
};
/// Runs the sets; none when stopped on the way. @param stock  the middle curve, where the rated speed is not read
[[nodiscard]] std::optional<Bands> run_bands(const Sides& sides, const geometry::Survey& survey,
                                             const std::vector<cycle::Point>& stock, const BandsPlan& how,
                                             Progress& progress);

/// Ranges of the rows of study::run_rows() at a speed between or beyond the three, carried over from them.
[[nodiscard]] std::vector<study::RunRange> ranges_at(const Bands& bands, bool has_cuts, const cycle::Point& point);

/// Range of a row's change at a speed; none outside the three speeds.
[[nodiscard]] std::optional<cycle::Band> change_at(const Bands& bands, const study::RunRow& row, double speed,
                                                   double change);

/// Figures at rated speed, and differences from stock at all three.
void fill_bands(const Bands& bands, bool has_cuts, bool has_reed, base::UnitStyle style, wire::RunAnswer& answer);

}  // namespace portwright::desk
