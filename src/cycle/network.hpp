#pragma once
// An engine as ducts, volumes and the openings between them: plain data, built once from an Engine and the assumptions,
// marched by turn.hpp. A volume knows nothing of valves, an opening nothing of volumes.

#include <array>
#include <vector>

#include "combustion/burning.hpp"
#include "cycle/assumptions.hpp"
#include "flow/duct.hpp"
#include "flow/reed.hpp"
#include "flow/volume.hpp"
#include "gas/working_gas.hpp"
#include "geometry/crank_slider.hpp"
#include "geometry/window.hpp"

namespace portwright::cycle {

/// What decides an opening's area.
enum class OpenedBy {
  nothing,      ///< always the same
  crown,        ///< the part of a window above the crown edge
  skirt,        ///< the part of a window below the skirt's edge
  skirt_table,  ///< the same under a skirt that is not level: from a table over the drop
  reed          ///< the petals' lift
};

/// One opening. Effective area = discharge times geometric area times count.
struct Opening {
  OpenedBy by = OpenedBy::nothing;
  double area = 0.0;          ///< for `nothing` [m²]
  double discharge = 1.0;     ///< [-]
  double count = 1.0;         ///< equal windows of this kind
  geometry::Window window;    ///< for crown and skirt
  double skirt = 0.0;         ///< crown edge to skirt edge [m]
  std::vector<double> table;  ///< for skirt_table: area [m²] at drops 0, table_step, 2 table_step ..
  double table_step = 0.0;    ///< [m]
};

/// What decides a volume's size.
enum class SizedBy { nothing, cylinder, crankcase, reed_cage };

struct Room {
  SizedBy by = SizedBy::nothing;
  double size = 0.0;              ///< at TDC, petals shut [m³]
  double film = 0.0;              ///< film times wall [W/K]; the cylinder's own law is in cylinder.hpp
  double wall_temperature = 0.0;  ///< [K]
  bool behind_exhaust = false, before_fuel = false;  ///< what it is filled with at a cold start
};

constexpr int outdoors = -1;

/// An end of a duct: the room it opens to and through which opening.
struct DuctEnd {
  int room = outdoors;
  int opening = -1;
  bool carburetted = false;  ///< what is drawn in here takes up fuel
  bool intake = false;       ///< the last door before the case
};

/// An opening between two rooms, or a room and the day.
struct Gap {
  int from = outdoors, to = outdoors;
  int opening = -1;
  bool one_way = false;  ///< a check valve: from `from` to `to` only
  bool intake = false;   ///< the last door before the case
};

/// An opening between a room and a cell of a duct: the exhaust window under the skirt at TDC.
struct SideGap {
  int room = 0, duct = 0, cell = 0;
  int opening = -1;
};

/// What a transfer passage is called and which duct it is; every duct of the network has one.
enum class Role { tract, transfer, exhaust, pipe };
struct DuctName {
  Role role = Role::tract;
  int port = -1;  ///< entry of Engine::ports, -1 for tract and pipe
  int count = 1;  ///< equal passages lumped in it
};

/// Why a passage loses pressure; Loss::cause holds one of these.
enum class Cause { entry, throttle, venturi, block, gasket, mouth, bend, wall, window };

struct Burning {
  combustion::BurnAssumptions law;
  double advance = 0.0;   ///< before TDC [rad], where there is no curve
  double air_fuel = 0.0;  ///< of the carburettor, by mass [-]
  double lambda = 0.0;
  double octane = 0.0;  ///< on the knock correlation's scale
};

struct Network {
  // the crank
  double bore = 0.0, stroke = 0.0, swept = 0.0, piston_area = 0.0;  ///< [m], [m], [m³], [m²]
  double chamber = 0.0;                                             ///< [m³]
  geometry::CrankSlider slider{1.0, 2.0};
  double start = 0.0;          ///< a turn begins here, the exhaust just shut [rad ATDC, -π..π]
  double exhaust_opens = 0.0;  ///< [rad ATDC]

  gas::WorkingGas gas;
  flow::Reservoir day;
  double day_density = 1.2;  ///< of fresh air [kg/m³]

  std::vector<Room> rooms;
  int cylinder = 0, crankcase = 1;  ///< rooms
  std::vector<flow::Duct> ducts;
  std::vector<DuctName> names;
  std::vector<std::array<DuctEnd, 2>> ends;
  std::vector<Gap> gaps;
  std::vector<SideGap> side_gaps;
  std::vector<Opening> openings;
  bool has_reed = false;
  flow::Reed reed;
  int reed_from = 0, reed_to = 0;  ///< rooms before and behind the petals

  Burning burning;
  std::vector<std::array<double, 2>> advance_curve;  ///< rev/s, rad; empty: one advance
  bool fires = true;                                 ///< false when cranked
  Assumptions assumptions;
  std::vector<Filled> filled;  ///< what stood in for readings that are missing
};

}  // namespace portwright::cycle
