#pragma once
// One revolution of many engines side by side: March::turn, their ducts and ends in vectors, one engine a lane.
//
// Every lane has its own engine, speed, angle and step. A turn that has ended is handed back at once and its lane takes
// the next that waits; a lane without work stands still. Gaps between rooms are in vectors, too; rooms, petals,
// openings and fire are the one-engine code, one lane after the other. A turn's numbers hang on that turn alone,
// whatever runs beside it.

#include <chrono>
#include <span>
#include <vector>

#include "cycle/course.hpp"
#include "cycle/lanes/gap_lanes.hpp"
#include "flow/lanes/duct_lanes.hpp"

namespace portwright::cycle {

/// Who has turns for lanes, one after the other.
class TurnSupply {
 public:
  TurnSupply() = default;
  TurnSupply(const TurnSupply&) = delete;
  TurnSupply& operator=(const TurnSupply&) = delete;
  virtual ~TurnSupply() = default;
  /// @param ended  a turn that has ended, whose lane is free; null: a lane that had none yet
  /// @return the next, which stays where it is until it has ended; null: there are none left
  virtual const LaneTurn* next(const LaneTurn* ended) = 0;
};

/// Where the time of turns goes [s]: cells, ends, gaps, and what is done one lane after the other.
struct LaneTimes {
  double ducts = 0.0, ends = 0.0, gaps = 0.0, rest = 0.0;
};

/// T is double for what is shown, float for a search: then ducts and ends are float, all else stays double.
template <class T>
class MarchLanes {
 public:
  /// For engines whose ducts are of one pattern: as many cells, losses in the same cells, as many gaps between rooms.
  explicit MarchLanes(const Network& pattern);
  [[nodiscard]] bool takes(const Network& network) const;

  /// All of them, in any number. In double each ends as March::turn would leave it, to rounding. No allocation.
  /// Contract: takes(march->network()), paces that do not rest at BDC.
  void turn(std::span<const LaneTurn> turns);
  /// The same for turns that are asked for as others end, until there are none left.
  void turn(TurnSupply& supply);
  /// Adds up where the time goes from now on; null: no longer.
  void watch(LaneTimes* times) { times_ = times; }

 private:
  /// The same duct of all lanes.
  struct Side {
    flow::DuctLanes<T> duct;
    flow::ContentsLanes<T> contents;
    flow::ScratchLanes<T> scratch;
    flow::AccountLanes<T> account;
    flow::Table<T> doors, passed;
    explicit Side(const flow::Duct& pattern);
  };
  /// What one lane is at.
  struct Lane {
    const LaneTurn* turn = nullptr;  ///< null: stands still
    March::Began began{};
    int step = 0, part = 0, parts = 1;  ///< which step of the turn, which part of it
    double dt = 0.0, from = 0.0;        ///< of the part [s]; angle where the step began [rad]
  };

  void load_gas(int lane, const LaneTurn& turn);
  void load(int lane, const LaneTurn& turn);
  void unload(int lane);
  void stand_still(int lane);
  void decode();
  void lap(double LaneTimes::*part);
  void step();
  void before_ends(int lane);
  void after_ends(int lane);
  void after_ducts(int lane);
  [[nodiscard]] bool move_on(int lane);
  void set_door(int lane, std::size_t duct, int end);
  void take_end(int lane, std::size_t duct, int end);
  void set_gaps(int lane);
  void take_gaps(int lane);

  std::vector<Side> sides_;
  flow::WorkingGasLanes<T> gas_;
  flow::Table<T> dt_, rate_;
  flow::Table<double> added_;  ///< share of fuel added at each end of each duct
  std::size_t plain_gaps_, side_gaps_;
  flow::Table<T> gaps_, gap_flows_;
  std::vector<Lane> lanes_;
  LaneTimes* times_ = nullptr;
  std::chrono::steady_clock::time_point last_;
};

}  // namespace portwright::cycle
