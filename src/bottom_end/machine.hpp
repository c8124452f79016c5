#pragma once
// One engine's bottom end at its two ways of turning: in the cut, with the gas of a computed turn, and free, without
// any.

#include <array>
#include <optional>
#include <vector>

#include "bottom_end/parts.hpp"
#include "bottom_end/turn_forces.hpp"
#include "bottom_end/wall_left.hpp"

namespace portwright::bottom_end {

/// An engine made ready.
struct Machine {
  double bore = 0.0, stroke = 0.0;  ///< [m]
  geometry::CrankSlider slider{1.0, 2.0};
  std::vector<Doubtful> rings;  ///< heights [m], top ring first
  Parts parts;
  GasTrace gas;  ///< of a turn in the cut, at any even number of angles; empty: it was not turned
  /// Share of the wall left under the skirt, at any even number of angles (see wall_left()); empty: not known.
  std::vector<double> wall_pressed, wall_other;
  Skirt skirt;
};

/// Shares of the running time, and what the rest of it is: idle.
struct Duty {
  double work = 0.0, free = 0.0;  ///< [-]
  double idle_speed = 0.0;        ///< [rev/s]
  double idle_gas = 0.0;          ///< gas force over that of the turn in the cut [-]
  [[nodiscard]] double idle() const { return 1.0 - work - free; }
};
/// As the rows of data/assumptions.toml have it.
[[nodiscard]] Duty usual_duty();

struct Question {
  double cut_speed = 0.0, free_speed = 0.0;  ///< [rev/s]
  Duty duty;
};

/// What one set of values is taken as: an engine's masses, and factors on what is not read.
struct Drawn {
  Masses masses;
  double gas = 1.0;                      ///< on the gas force [-]
  std::array<double, 3> static_share{};  ///< static rating over the dynamic one, by Rolling [-]
  double ring_error = 0.0;               ///< of the rings' heights, in their sigmas
  double speed_limit = 0.0;              ///< of the mean piston speed [m/s]

  /// Static rating of a bearing whose dynamic one is read [N].
  [[nodiscard]] double static_rating(const Bearing& bearing) const {
    return static_share[static_cast<std::size_t>(bearing.kind)] * *bearing.rating;
  }
};

/// Loads of one way of turning.
struct Way {
  Peaks peaks;
  double acceleration = 0.0;           ///< greatest of the piston [m/s²]
  double flutter = 0.0;                ///< the same over what the worst ring stands [-]; 0 without rings
  std::array<double, 3> safety{};      ///< static rating over the peak, by Place [-]; 0 without a rating
  std::array<double, 3> equivalent{};  ///< load that wears as the turn does, by Place [N]
  /// Greatest mean pressure of the skirt on the wall that is left [Pa]; 0 where the wall is not known. Where none is
  /// left it is that on a hundredth of it.
  double wall_pressure = 0.0;
};

/// Loads at the speeds asked about, for one set of values.
struct Numbers {
  std::optional<Way> cut;  ///< none where the engine was not turned
  Way free;
  double balance = 0.0;          ///< share of the reciprocating mass balanced [-]
  std::array<double, 3> life{};  ///< hours at the duty, by Place; 0 without a rating or without a turn in the cut
};

/// An engine at even angles, made once for all draws.
class Bench {
 public:
  Bench(const Machine& machine, int nodes);

  [[nodiscard]] Numbers numbers(const Question& question, const Drawn& drawn) const;
  [[nodiscard]] std::vector<NodeForces> cut(const Drawn& drawn, double speed) const;
  [[nodiscard]] std::vector<NodeForces> free(const Drawn& drawn, double speed) const;

  /// Speed at which a bearing's load reaches a size [rev/s]: the least over the turn, closed form at each node since
  /// every load is a gas part plus a part that grows with speed squared. 0 where the gas alone is more.
  /// @param with_gas  in the cut; the trace is held by angle
  [[nodiscard]] double speed_at_load(Place place, double load, const Drawn& drawn, bool with_gas) const;
  /// Speed at which the basic life in steady running is so many hours [rev/s]. @param near  where it is looked for
  /// first
  [[nodiscard]] double speed_at_life(Place place, double hours, const Drawn& drawn, bool with_gas,
                                     double near = 150.0) const;
  /// Speed at which a ring of this height flutters [rev/s].
  [[nodiscard]] double speed_at_flutter(double height) const;
  /// Mean piston speed 2 S n reached at [rev/s].
  [[nodiscard]] double speed_at_piston_speed(double limit) const { return limit / (2.0 * machine_.stroke); }

  [[nodiscard]] const Machine& machine() const { return machine_; }
  [[nodiscard]] const TurnGrid& grid() const { return grid_; }
  /// Height of a ring in a draw [m].
  [[nodiscard]] double ring_height(std::size_t ring, const Drawn& drawn) const;
  [[nodiscard]] bool has_gas() const { return !gas_.empty(); }
  /// Share of the wall left at a node on the side that this thrust presses; none where it is not known.
  [[nodiscard]] std::optional<double> wall_at(std::size_t node, double thrust) const;
  /// Pressure on it [Pa], as in Way.
  [[nodiscard]] double wall_pressure_at(std::size_t node, double thrust) const;

 private:
  [[nodiscard]] Way way(const std::vector<NodeForces>& forces, double speed, const Drawn& drawn) const;
  [[nodiscard]] std::vector<double> loads(Place place, const std::vector<NodeForces>& forces) const;
  [[nodiscard]] const std::vector<double>& turns(Place place) const;
  [[nodiscard]] double life(Place place, const Question& question, const std::vector<NodeForces>& cut,
                            const std::vector<NodeForces>& free, const std::vector<NodeForces>& idle) const;

  Machine machine_;
  TurnGrid grid_;
  GasTrace gas_;
  double area_ = 0.0;                   ///< of the bore [m²]
  double greatest_acceleration_ = 0.0;  ///< per angle squared [m/rad²]
  std::vector<double> big_turns_, small_turns_, main_turns_;
  std::vector<double> wall_pressed_, wall_other_;
};

}  // namespace portwright::bottom_end
