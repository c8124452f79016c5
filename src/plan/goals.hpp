#pragma once
// Wishes brought to one saw: which entry each speaks of, what the figure is now, what it is to be. Inside the module
// only.

#include <string>
#include <vector>

#include "geometry/survey.hpp"
#include "plan/levels.hpp"

namespace portwright::plan {

/// One figure that is wished; a wish of "transfers" has one for each of them.
struct Goal {
  std::size_t wish = 0;  ///< index of the wish it comes from
  Aspect aspect = Aspect::squish;
  Relation relation = Relation::is;
  int entry = -1;                    ///< of Engine::ports; -1 for the whole saw
  bool of_intake = false;            ///< a skirt cover's side
  double within = 0.0;               ///< half of the last digit typed [mm, deg, cc, -, %]
  double slack = 0.0;                ///< what it may be missed by, as it follows from other wishes; 0: none
  double target = 0.0, stock = 0.0;  ///< SI of the aspect
  std::string figure;                ///< id: "port.exhaust.opens"; empty where the study has none of it
  std::string label;                 ///< "exhaust opens"

  /// What the goal holds [mm, deg, cc, -] at some levels; not a number where there is none.
  [[nodiscard]] double shown(const Frame& frame, const Levels& levels) const;
  /// How far it is from its target [mm, deg, cc, -]; 0 when an at least or at most holds.
  [[nodiscard]] double missed(double shown) const;
  [[nodiscard]] double shown_target() const { return target * scale(); }
  [[nodiscard]] double shown_stock() const { return stock * scale(); }
  [[nodiscard]] double scale() const;
  /// Unit of the figure: "deg", "mm", "%", "cm3", "-".
  [[nodiscard]] const char* unit() const;
};

/// Finds what each wish speaks of. Errors: a port that is not there (the nearest is named), an opening so late that it
/// may be a duration, a reading it waits for, two wishes for one figure.
[[nodiscard]] base::ResultAll<std::vector<Goal>> goals_of(const Wishes& wishes, const geometry::Survey& survey,
                                                          const geometry::Engine& stock);

struct Bands;

/// Half the band of a goal [SI of its aspect], at some levels; 0 where it has none.
[[nodiscard]] double half_band(const Goal& goal, const Frame& frame, const Levels& levels, const Bands& bands);

}  // namespace portwright::plan
