// From one engine's duct to its lane, and back.
#include <algorithm>
#include <numeric>

#include "flow/lanes/duct_lanes.hpp"

namespace portwright::flow {

template <class T>
void WorkingGasLanes<T>::set(int lane, const gas::WorkingGas& gas) {
  const auto put = [&](int base, double burned, double air, double fuel) {
    law.at(0, base, lane) = static_cast<T>(burned);
    law.at(0, base + 1, lane) = static_cast<T>(air - burned);
    law.at(0, base + 2, lane) = static_cast<T>(fuel - air);
  };
  put(gas_R, gas.burned.R, gas.air.R, gas.fuel.R);
  put(gas_a, gas.burned.a, gas.air.a, gas.fuel.a);
  put(gas_b, gas.burned.b, gas.air.b, gas.fuel.b);
  law.at(0, gas_c, lane) = static_cast<T>(gas.c);
}

namespace {

/// Places of the losses in the order of their cells; those of one cell as they stand.
std::vector<int> by_cell(const Duct& duct) {
  std::vector<int> order(duct.losses.size());
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(order.begin(), order.end(), [&](int a, int b) {
    return duct.losses[static_cast<std::size_t>(a)].cell < duct.losses[static_cast<std::size_t>(b)].cell;
  });
  return order;
}

}  // namespace

template <class T>
DuctLanes<T>::DuctLanes(const Duct& pattern)
    : cells(pattern.grid.cells()),
      cell(cells, cell_columns, lanes_of_machine<T>()),
      face(cells + 1, face_columns, lanes_of_machine<T>()),
      loss(static_cast<int>(pattern.losses.size()), loss_backward + 1, lanes_of_machine<T>()),
      wall(1, wall_temperature + 1, lanes_of_machine<T>()),
      loss_place(by_cell(pattern)),
      has_friction(pattern.friction > 0.0),
      has_heat(pattern.heat_share > 0.0) {
  for (const int place : loss_place) loss_cell.push_back(pattern.losses[static_cast<std::size_t>(place)].cell);
  for (int lane = 0; lane < cell.lanes(); ++lane) set(lane, pattern);
}

template <class T>
bool DuctLanes<T>::takes(const Duct& duct) const {
  if (duct.grid.cells() != cells || (duct.friction > 0.0) != has_friction || (duct.heat_share > 0.0) != has_heat)
    return false;
  if (by_cell(duct) != loss_place) return false;
  return std::equal(loss_place.begin(), loss_place.end(), loss_cell.begin(),
                    [&](int place, int at) { return duct.losses[static_cast<std::size_t>(place)].cell == at; });
}

template <class T>
void DuctLanes<T>::set(int lane, const Duct& duct) {
  const Grid& grid = duct.grid;
  const auto put = [lane](Table<T>& table, int row, int column, double number) {
    table.at(row, column, lane) = static_cast<T>(number);
  };
  for (int i = 0; i < cells; ++i) {
    const auto at = static_cast<std::size_t>(i);
    const double length = grid.length[at], wetted = grid.wall[at], bore = grid.bore[at];
    put(cell, i, cell_per_length, 1.0 / length);
    put(cell, i, cell_volume, grid.volume[at]);
    put(cell, i, cell_per_volume, 1.0 / grid.volume[at]);
    put(cell, i, cell_half_length, 0.5 * length);
    put(cell, i, cell_mean_area, grid.volume[at] / length);
    put(cell, i, cell_half_kinetic, 0.5 * grid.kinetic[at]);
    put(cell, i, cell_drag, 0.5 * duct.friction / bore);
    put(cell, i, cell_film_at_rest, 3.66 * 0.03 / bore * wetted);
    put(cell, i, cell_film_moving, duct.friction / 8.0 * wetted);
    put(cell, i, cell_throat, 1.0 / grid.area[at + 1] - 1.0 / grid.area[at]);
  }
  for (int i = 0; i <= cells; ++i) {
    const auto at = static_cast<std::size_t>(i);
    const double before = i > 0 ? grid.length[at - 1] : 0.0, behind = i < cells ? grid.length[at] : 0.0;
    put(face, i, face_area, grid.area[at]);
    put(face, i, face_per_area, 1.0 / grid.area[at]);
    put(face, i, face_per_distance, 2.0 / (before + behind));
  }
  put(wall, 0, wall_heat_share, duct.heat_share);
  put(wall, 0, wall_temperature, duct.wall_temperature);
  for (std::size_t j = 0; j < loss_place.size(); ++j) {
    const Loss& one = duct.losses[static_cast<std::size_t>(loss_place[j])];
    const auto i = static_cast<std::size_t>(one.cell);
    const double wider = one.area > 0.0 ? grid.volume[i] / grid.length[i] / one.area : 1.0;
    const double each = 0.5 * wider * wider / grid.length[i];
    put(loss, static_cast<int>(j), loss_forward, each * one.forward);
    put(loss, static_cast<int>(j), loss_backward, each * one.backward);
  }
}

template <class T>
ContentsLanes<T>::ContentsLanes(int cells)
    : cell(cells, content_columns, lanes_of_machine<T>()), end(2, primitive_columns, lanes_of_machine<T>()) {}

template <class T>
void ContentsLanes<T>::set(int lane, const Contents& contents) {
  for (int i = 0; i < cell.rows(); ++i) {
    const auto at = static_cast<std::size_t>(i);
    cell.at(i, content_mass, lane) = static_cast<T>(contents.mass[at]);
    cell.at(i, content_momentum, lane) = static_cast<T>(contents.momentum[at]);
    cell.at(i, content_energy, lane) = static_cast<T>(contents.energy[at]);
    cell.at(i, content_fresh, lane) = static_cast<T>(contents.fresh[at]);
    cell.at(i, content_fuel, lane) = static_cast<T>(contents.fuel[at]);
  }
  for (const int at : {near_end, far_end}) {
    const Primitive& w = contents.end[static_cast<std::size_t>(at)];
    end.at(at, at_rho, lane) = static_cast<T>(w.rho);
    end.at(at, at_u, lane) = static_cast<T>(w.u);
    end.at(at, at_p, lane) = static_cast<T>(w.p);
    end.at(at, at_fresh, lane) = static_cast<T>(w.fresh);
    end.at(at, at_fuel, lane) = static_cast<T>(w.fuel);
  }
}

template <class T>
void ContentsLanes<T>::get(int lane, Contents& contents) const {
  for (int i = 0; i < cell.rows(); ++i) {
    const auto at = static_cast<std::size_t>(i);
    contents.mass[at] = double{cell.at(i, content_mass, lane)};
    contents.momentum[at] = double{cell.at(i, content_momentum, lane)};
    contents.energy[at] = double{cell.at(i, content_energy, lane)};
    contents.fresh[at] = double{cell.at(i, content_fresh, lane)};
    contents.fuel[at] = double{cell.at(i, content_fuel, lane)};
  }
  for (const int at : {near_end, far_end})
    contents.end[static_cast<std::size_t>(at)] = {double{end.at(at, at_rho, lane)}, double{end.at(at, at_u, lane)},
                                                  double{end.at(at, at_p, lane)}, double{end.at(at, at_fresh, lane)},
                                                  double{end.at(at, at_fuel, lane)}};
}

template <class T>
ScratchLanes<T>::ScratchLanes(int cells)
    : state(cells, state_columns, lanes_of_machine<T>()),
      side(2 * cells, side_columns, lanes_of_machine<T>()),
      flux(cells + 1, flux_columns, lanes_of_machine<T>()) {}

template struct WorkingGasLanes<double>;
template struct WorkingGasLanes<float>;
template struct DuctLanes<double>;
template struct DuctLanes<float>;
template struct ContentsLanes<double>;
template struct ContentsLanes<float>;
template struct ScratchLanes<double>;
template struct ScratchLanes<float>;

}  // namespace portwright::flow
