#pragma once
// One revolution of the network in time.

#include <vector>

#include "cycle/openings.hpp"
#include "cycle/state.hpp"

namespace portwright::cycle {

/// How finely time is cut.
struct Pace {
  double courant = 0.8;
  double greatest_angle = 0.0174532925199;  ///< of one step [rad]
  bool keeps_steps = true;                  ///< the steps of a turn never grow fewer again
  bool rests_at_bdc = false;                ///< test switch: the intake's gas and petals are put to rest at every BDC
};

/// Asks whether to stop; may be null. Once it has said so it must go on saying so.
using Stop = bool (*)(void* self);
struct StopCall {
  Stop stop = nullptr;
  void* self = nullptr;
  [[nodiscard]] bool now() const { return stop != nullptr && stop(self); }
};

/// Marches a network at one speed. Owns the scratch of a step, so that none of them allocates; one for each thread.
class March {
 public:
  /// The network must outlive the march. @param speed [rev/s]
  March(const Network& network, double speed, const Pace& pace = {});

  /// Gas at rest: the day's air in front, hot burned gas behind.
  [[nodiscard]] State cold() const;

  /// One revolution from the turn's start; the state ends where the next turn begins.
  /// @param trace  filled with one instant a step when given; allocates then only
  void turn(State& state, Turn& sums, const Draw& draw = {}, std::vector<Instant>* trace = nullptr);

  /// Sums of the right size.
  [[nodiscard]] Turn empty_turn() const;

  void set_speed(double speed) { speed_ = speed; }
  /// Asked every few steps. A turn that is stopped ends where it is; neither its state nor its sums are of use.
  void set_stop(const StopCall& stop) { stop_ = stop; }
  [[nodiscard]] double speed() const { return speed_; }
  [[nodiscard]] const Network& network() const { return net_; }

 private:
  template <class T>
  friend class MarchLanes;  // the same turn for many marches, their ducts side by side
  /// What a turn remembers from its beginning to its end.
  struct Began {
    double mean_speed, dt;
    flow::Totals contents;
  };
  Began begin_turn(State& state, Turn& sums, const Draw& draw);
  void end_turn(const Began& began, const State& state, Turn& sums);
  [[nodiscard]] double angle_after(int steps) const;
  [[nodiscard]] int parts_of(double dt) const;
  [[nodiscard]] bool asks_to_stop(int step) const;
  void begin(State& state, Turn& sums);
  void plan_steps();
  void stride(State& state, double dt, Turn& sums, const Draw& draw);
  void close_accounts(const flow::Totals& before, const flow::Totals& after, Turn& sums) const;
  void sizes_at(double drop, double swept, std::vector<double>& sizes) const;
  void step(State& state, double dt, Turn& sums, const Draw& draw);
  void before_ends(State& state, double dt, Turn& sums);
  void predict_rooms(const State& state, double dt);
  void pass_ends(State& state, double dt, Turn& sums);
  /// Gas of a room with fuel added, and how much of its mass that is.
  struct Mixed {
    flow::Reservoir gas;
    double fuel;
  };
  [[nodiscard]] const flow::Reservoir& behind(std::size_t duct, int end) const;
  [[nodiscard]] Mixed at_door(std::size_t duct, int end) const;
  void begin_ends();
  void take_end(std::size_t duct, int end, const flow::EndFlow& out, double fuel, double dt, Turn& sums);
  void end_ends();
  /// The rooms on a gap's two sides.
  struct Sides {
    Beside a, b;
  };
  [[nodiscard]] Sides on_both_sides(const Gap& gap) const;
  [[nodiscard]] static bool held_shut(const Gap& gap, const Sides& sides);
  void take_gap(const Gap& gap, const flow::Inflow& in, double dt, Turn& sums);
  void pass_gaps(State& state, double dt, Turn& sums);
  [[nodiscard]] Beside beside(const SideGap& gap) const;
  void pass_side_gaps(State& state, double dt);
  void after_ends(State& state, double dt, Turn& sums, const Draw& draw);
  [[nodiscard]] double wet_share() const;
  [[nodiscard]] Mixed carburetted(const flow::Reservoir& room) const;
  [[nodiscard]] flow::Inflow add_fuel(const flow::Reservoir& room, double rate) const;
  void give(int room, const flow::Inflow& in, double dt, Turn& sums);
  static void note_intake(double in, Turn& sums);
  static void note_outdoors(const flow::Inflow& in, double dt, Turn& sums);
  static void note_end(std::size_t duct, int end, double out, Turn& sums);
  void cylinder_sources(State& state, double dt, Turn& sums, const Draw& draw);
  void room_sources(double dt, Turn& sums);
  void advance_rooms(State& state, double dt, Turn& sums);
  void put_to_rest(State& state);
  [[nodiscard]] flow::Totals contents_of(const State& state) const;
  void look(const State& state, std::vector<Instant>& trace) const;

  const Network& net_;
  double speed_;
  Pace pace_;
  StopCall stop_;
  int steps_ = 0;          ///< of a turn
  double expected_ = 0.0;  ///< rate that a wave may be expected to have [1/s]
  double fastest_ = 0.0;   ///< greatest rate of the turn so far [1/s]
  double rate_ = 0.0;      ///< greatest (|u| + c) / dx of the state [1/s]
  double reed_area_ = 0.0;
  Charge charge_;
  flow::Reservoir exit_;  ///< what the cylinder gives the exhaust: its pressure and temperature, its own composition
  std::vector<flow::Scratch> scratch_;
  std::vector<double> size_now_, size_half_, size_next_;  ///< of the rooms [m³]
  std::vector<flow::Reservoir> half_;                     ///< the rooms' gas half a step ahead
  std::vector<double> pressure_now_;
  std::vector<flow::Inflow> in_;  ///< into the rooms, per second
  std::vector<double> area_;      ///< of the openings, effective [m²]
};

}  // namespace portwright::cycle
