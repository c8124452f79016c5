#pragma once
// The same duct of many engines side by side: flow/duct.hpp in lanes, as many as a vector of this machine has. Every
// lane has its own sizes, gas, contents and step; the number of cells and the cells that have a loss are the same in
// all. A lane's numbers hang on that lane alone.
//
// T is double for what is shown, float for a search.

#include <vector>

#include "flow/duct.hpp"
#include "flow/lanes/table.hpp"

namespace portwright::flow {

/// How many lanes a vector of this machine has, 1 or more.
template <class T>
[[nodiscard]] int lanes_of_machine();

/// Columns of a working gas: R = R0 + fresh dR_fresh + fuel dR_fuel, so a and b; and c.
enum GasColumn {
  gas_R,
  gas_R_fresh,
  gas_R_fuel,
  gas_a,
  gas_a_fresh,
  gas_a_fuel,
  gas_b,
  gas_b_fresh,
  gas_b_fuel,
  gas_c
};
constexpr int gas_columns = gas_c + 1;

template <class T>
struct WorkingGasLanes {
  Table<T> law{1, gas_columns, lanes_of_machine<T>()};
  void set(int lane, const gas::WorkingGas& gas);
};

/// Columns of a duct's cells.
enum CellColumn {
  cell_per_length,
  cell_volume,
  cell_per_volume,
  cell_half_length,
  cell_mean_area,
  cell_half_kinetic,
  cell_drag,          ///< of wall friction, 1/2 f / bore [1/m]
  cell_film_at_rest,  ///< laminar conduction times wall [W/K]
  cell_film_moving,   ///< f/8 times wall [m²]
  cell_throat         ///< 1 / far area - 1 / near area [1/m²]
};
constexpr int cell_columns = cell_throat + 1;
/// Columns of its faces; the distance is that between the places of gas on their two sides.
enum FaceColumn { face_area, face_per_area, face_per_distance };
constexpr int face_columns = face_per_distance + 1;
/// Columns of its losses: 1/2 K (area / its own)² / length [1/m].
enum LossColumn { loss_forward, loss_backward };
/// Columns of its walls.
enum WallColumn { wall_heat_share, wall_temperature };

/// What ducts are, and what follows from it once for all.
template <class T>
struct DuctLanes {
  int cells = 0;
  Table<T> cell, face, loss, wall;
  std::vector<int> loss_cell;   ///< of each loss, in the order of the cells
  std::vector<int> loss_place;  ///< its place among the duct's own
  bool has_friction = false, has_heat = false;

  /// Every lane such as this one.
  explicit DuctLanes(const Duct& pattern);
  /// Whether a duct may stand in a lane.
  [[nodiscard]] bool takes(const Duct& duct) const;
  /// Contract: takes(duct).
  void set(int lane, const Duct& duct);
};

enum ContentColumn { content_mass, content_momentum, content_energy, content_fresh, content_fuel };
constexpr int content_columns = content_fuel + 1;
enum PrimitiveColumn { at_rho, at_u, at_p, at_fresh, at_fuel };
constexpr int primitive_columns = at_fuel + 1;

template <class T>
struct ContentsLanes {
  Table<T> cell;  ///< ContentColumn
  Table<T> end;   ///< two rows of PrimitiveColumn: gas that stood at either end at the last step
  explicit ContentsLanes(int cells);
  void set(int lane, const Contents& contents);
  void get(int lane, Contents& contents) const;
};

/// Columns of a cell's gas at the start of the step.
enum StateColumn {
  state_rho,
  state_u,
  state_p,
  state_fresh,
  state_fuel,
  state_per_rho,
  state_T,
  state_gamma,
  state_sound,
  state_cv,
  state_R,
  state_total,  ///< half a step ahead, as in Scratch
  state_push
};
constexpr int state_columns = state_push + 1;
/// Columns of a cell's gas at one of its faces, half a step ahead.
enum SideColumn { side_rho, side_u, side_p, side_fresh, side_fuel, side_per_rho, side_gamma, side_sound, side_energy };
constexpr int side_columns = side_energy + 1;
enum FluxColumn { flux_mass, flux_momentum, flux_energy, flux_fresh, flux_fuel };
constexpr int flux_columns = flux_fuel + 1;

/// What a step needs beside the contents, and what it leaves for the ends.
template <class T>
struct ScratchLanes {
  Table<T> state;  ///< of the cells
  Table<T> side;   ///< two rows a cell: near face, far face
  Table<T> flux;   ///< of the faces
  explicit ScratchLanes(int cells);
};

/// Columns of an account, as DuctAccount.
enum AccountColumn { account_wall_heat, account_wall_friction, account_floors };
template <class T>
struct AccountLanes {
  Table<T> sum;   ///< AccountColumn
  Table<T> lost;  ///< of each loss, one row, a column each
  explicit AccountLanes(int losses)
      : sum(1, account_floors + 1, lanes_of_machine<T>()), lost(1, losses, lanes_of_machine<T>()) {}
};

/// decode, predict and advance of flow/duct.hpp for all lanes. `rate` is raised to each lane's greatest (|u| + c) / dx
/// [1/s]; `dt` is each lane's step [s]; both have one place. Each agrees with the one-engine code
/// to rounding.
template <class T>
void decode(const WorkingGasLanes<T>& gas, const DuctLanes<T>& duct, const ContentsLanes<T>& contents,
            ScratchLanes<T>& scratch, Table<T>& rate);
template <class T>
void predict(const WorkingGasLanes<T>& gas, const DuctLanes<T>& duct, const ContentsLanes<T>& contents,
             const Table<T>& dt, ScratchLanes<T>& scratch, AccountLanes<T>& account);
template <class T>
void advance(const DuctLanes<T>& duct, const Table<T>& dt, const ScratchLanes<T>& scratch, ContentsLanes<T>& contents,
             AccountLanes<T>& account);

}  // namespace portwright::flow
