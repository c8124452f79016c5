#pragma once
// A duct of varying area: its grid, its contents, and one step of them in time.
//
//   d/dt (rho A) + d/dx (rho u A)              = 0
//   d/dt (rho u A) + d/dx ((rho u² + p) A)     = p dA/dx - friction - local losses
//   d/dt (rho E A) + d/dx (u (rho E + p) A)    = wall heat
//   d/dt (rho y A) + d/dx (rho u y A)          = 0        for y = fresh, fuel
//
// Finite volumes that hold contents, not densities, so that what leaves one cell is what enters the next. One step is
// MUSCL-Hancock with HLLC at each face. @source{toro, sect. 14.4}
//
// What is drawn as a slope in a cell is what a steady stream keeps where the area changes: density, mass flow
// m = rho u A, total pressure P = p + 1/2 rho u², shares. Speed and pressure at a face follow from them and the face's
// area, and the wall's push is the integral of p dA of that very stream,
//
//   push = P (A_r - A_l) + 1/2 m²/rho (1/A_r - 1/A_l),
//
// so a stream through a venturi is as exact on a few cells as on many, up to its own compression, and gas at rest stays
// at rest where area, temperature and composition jump. Own form.
//
// Cells are numbered 0..n-1 from the near end to the far end, faces 0..n; face i is the near side of cell i.

#include <array>
#include <vector>

#include "flow/primitive.hpp"

namespace portwright::flow {

/// Exact areas at the faces and exact volumes of the cells.
struct Grid {
  std::vector<double> length;  ///< of each cell [m]
  std::vector<double> volume;  ///< [m³]
  std::vector<double> area;    ///< of each face [m²]; one more than there are cells
  std::vector<double> wall;    ///< wetted by each cell [m²]
  /// Kinetic energy of a stream through the cell over that of its mean speed [-]: V / (l sqrt(A_from A_to)) of a cone.
  std::vector<double> kinetic;
  std::vector<double> bore;  ///< hydraulic diameter of each cell [m]
  [[nodiscard]] int cells() const { return static_cast<int>(length.size()); }
};

/// A local loss: K times the dynamic pressure ½ rho u² of its cell, its own value either way. `lost` sums what it took
/// [J], for an account of losses by cause.
struct Loss {
  int cell = 0;
  double forward = 0.0, backward = 0.0;  ///< K with the flow toward the far end, toward the near end [-]
  int cause = 0;                         ///< the builder's own number
  double area = 0.0;                     ///< whose speed K counts on [m²]; 0: the cell's own
};

struct Duct {
  Grid grid;
  double friction = 0.0;            ///< Darcy factor; 0 for none [-]
  double heat_share = 0.0;          ///< of the Reynolds analogy's heat; 0 for an adiabatic wall [-]
  double wall_temperature = 300.0;  ///< [K]
  std::vector<Loss> losses;
};

enum End { near_end = 0, far_end = 1 };

/// Contents of the cells: kg, kg m/s, J (sensible and kinetic), kg, kg; and the gas that stood at either end at the
/// last step, which the end cells' slopes lean on.
struct Contents {
  std::vector<double> mass, momentum, energy, fresh, fuel;
  std::array<Primitive, 2> end;
};

/// What a step needs beside the contents; nothing here outlives the step.
struct Scratch {
  std::vector<Primitive> cell;         ///< at the start of the step
  std::vector<Thermo> thermo;          ///< of the cell
  std::vector<Primitive> left, right;  ///< each cell's gas at its near and far face, half a step ahead
  std::vector<double> total;           ///< total pressure in the cell, half a step ahead [Pa]
  std::vector<double> push;            ///< of the wall beyond that on the areas' difference, half a step ahead [N]
  std::vector<Flux> flux;              ///< at the faces
};

/// Accounts of one step or of many [J], [kg m/s].
struct DuctAccount {
  double wall_heat = 0.0;      ///< into the gas [J]
  double wall_friction = 0.0;  ///< kinetic energy turned to heat [J]
  std::vector<double> lost;    ///< the same for each of the duct's losses [J]
  int floors = 0;  ///< half steps that were given up: they would have emptied the gas or sped it up by its sound
};

/// Fills the contents with gas at rest. Sizes every vector: nothing allocates afterwards.
void fill(const gas::WorkingGas& gas, const Duct& duct, const Primitive& w, Contents& contents, Scratch& scratch);

/// Contents to gas. @return the greatest (|u| + c) / dx [1/s]: the step times this is the Courant number
double decode(const gas::WorkingGas& gas, const Duct& duct, const Contents& contents, Scratch& scratch);

/// Slopes and the half step: gas at both faces of every cell at half time, and all inner fluxes.
void predict(const gas::WorkingGas& gas, const Duct& duct, const Contents& contents, double dt, Scratch& scratch,
             DuctAccount& account);

/// The whole step, once the fluxes at both ends stand in scratch.flux: contents, then friction, losses and wall heat.
void advance(const gas::WorkingGas& gas, const Duct& duct, double dt, const Scratch& scratch, Contents& contents,
             DuctAccount& account);

/// Sums over the cells.
struct Totals {
  double mass = 0.0, momentum = 0.0, energy = 0.0, fresh = 0.0, fuel = 0.0;
};
[[nodiscard]] Totals totals(const Contents& contents);

}  // namespace portwright::flow
