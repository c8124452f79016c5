#pragma once
// Internal to cycle: the parts of build(), one room of the house after the other.

#include "cycle/build.hpp"
#include "flow/profile.hpp"

namespace portwright::cycle {

using base::Known;

/// Collects the network, what was filled in and what is missing.
class Builder {
 public:
  Builder(const geometry::Engine& engine, const Assumptions& assumptions, std::span<const std::string> readings,
          const Fineness& fineness)
      : engine_(engine), take_(assumptions), readings_(readings), fineness_(fineness) {}

  Network run(base::Errors& errors);

 private:
  // build.cpp
  void crank();
  void day_and_gas();
  void rooms();
  void burning();
  void settle_start();
  void name_the_rest();
  /// The number; when it is missing, its reading is named as missing and 1 stands in so that the search goes on.
  double need(const Known& known);
  void need(bool there, const char* what);
  /// The reading, or the assumption in its place, which is then listed.
  double or_take(const Known& known, const char* reading, const char* assumption, double value);
  void wrong(std::string message, std::string path, std::string hint);
  int add_opening(Opening opening);
  int fixed_opening(double area, double discharge);
  int window_opening(const geometry::Port& port, OpenedBy by, double discharge);
  int add_room(Room room);
  /// The grid of a duct; sizes that make none are named as wrong, at `path`, and a short pipe stands in.
  flow::Grid grid_of(std::span<const flow::Station> stations, double cell, double count, const char* path);
  int add_duct(flow::Duct duct, DuctName name, DuctEnd near, DuctEnd far);
  [[nodiscard]] double scale() const;  ///< lengths, against 60 cm3

  // build_intake.cpp
  void intake();
  void tract(int to_room, int opening);
  void reed(int cage, int behind);
  double reed_cage();
  int air_box();
  // build_transfers.cpp
  void transfers();
  void transfer(const geometry::Port& port, int entry);
  void passage_losses(const geometry::Port& port, flow::Duct& duct, double foot, double bend, double bend_at) const;
  // build_exhaust.cpp
  void exhaust();
  void muffler(int first_box);
  void free_port(int duct);

  const geometry::Engine& engine_;
  const Assumptions& take_;
  std::span<const std::string> readings_;
  Fineness fineness_;
  Network net_;
  base::Errors errors_;
  base::Needs missing_;
  double passages_ = 0.0;      ///< volume of all transfer passages [m³]
  double exhaust_area_ = 0.0;  ///< of all exhaust windows [m²]
};

}  // namespace portwright::cycle
