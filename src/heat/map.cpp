#include "heat/map.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "cycle/cylinder.hpp"

namespace portwright::heat {

namespace {

using std::numbers::pi;

constexpr double usual_bore = 0.05, usual_swept = 60e-6;
// Aluminium alloys: density [kg/m³] times heat [J/kg K]. @source{memory}
constexpr double alloy_volume_heat = 2700.0 * 900.0, alloy_heat = 900.0;
constexpr double head_share = cycle::ends_of_piston_area - 1.0;  // area of the head over the piston's
constexpr double bodies_outside = 0.05;  // of muffler and case, of an engine of 60 cm3 [m²] @source{memory}

/// Two conductances one after the other.
double in_series(double a, double b) { return a > 0.0 && b > 0.0 ? a * b / (a + b) : 0.0; }

/// What a ring or the skirt gives a cell.
struct Touch {
  std::size_t cell;
  int node;  ///< of the piston
  double conductance;
};

/// A network and what each of its links is.
class Laying {
 public:
  Laying(const Load& load, const Assumptions& assumptions, bool still);

  void heat_wall();
  void heat_ducts();
  void heat_head_and_crown();
  void cool_outside();
  void join_head_and_flange();
  void join_piston();
  void rub();
  /// Muffler and case as bodies of their own that cool by themselves.
  void join_muffler();

  [[nodiscard]] Map read(const std::vector<double>& T) const;
  [[nodiscard]] SoakInstant instant(double time, const std::vector<double>& T) const;

  ThermalNetwork net;
  /// Everything of this body that has a temperature in `steady` has the same number in a soak.
  int head = 0, crown = 0, groove = 0, skirt = 0, pin = 0;

 private:
  [[nodiscard]] double scale() const { return load_.body.bore / usual_bore; }
  [[nodiscard]] double thickness() const { return take_.wall_thickness * scale(); }
  /// Of the inner half of a cell's wall [W/K].
  [[nodiscard]] double inner_half(std::size_t cell) const;
  [[nodiscard]] double outer_half(std::size_t cell) const;
  [[nodiscard]] double inner_area(std::size_t cell) const;
  void touch(const std::vector<double>& share, int node, double conductance);
  [[nodiscard]] std::vector<double> passed(double from, double to) const;
  [[nodiscard]] double heat_of(const std::vector<int>& links, const std::vector<double>& T) const;
  void fill_windows(std::vector<double>& field) const;
  [[nodiscard]] double base_mean(const std::vector<double>& T) const;

  Load load_;
  const Assumptions& take_;
  bool still_;
  AirSide air_;
  int muffler_ = -1, case_ = -1;  ///< in a soak only
  std::vector<int> node_;
  std::vector<int> gas_link_, air_link_;  ///< by cell, -1 for none
  std::vector<int> bore_links_, head_gas_, crown_gas_, duct_links_, wall_air_, head_air_, flange_, charge_;
  double transfer_heat_ = 0.0, rubbed_ = 0.0;
  std::vector<Touch> touches_;
};

Laying::Laying(const Load& load, const Assumptions& assumptions, bool still)
    : load_(load),
      take_(assumptions),
      still_(still),
      air_(load.cooling, assumptions, load.gas, load.body.bore,
           load.body.bore + 2.0 * assumptions.wall_thickness * load.body.bore / usual_bore, still) {
  const Body& body = load_.body;
  node_ = lay(net, body.shell, {take_.wall_conductivity, thickness(), alloy_volume_heat});
  for (std::size_t i = 0; i < node_.size(); ++i) {  // the fins warm with the wall they stand on
    if (node_[i] < 0) continue;
    const int column = static_cast<int>(i) % body.shell.around;
    const double from = column * body.shell.column_angle(), to = from + body.shell.column_angle();
    const double outside = inner_area(i) * (1.0 + 2.0 * thickness() / body.bore);
    const double plain = net.capacity(node_[i]) + alloy_volume_heat * outside * air_.fin_volume(from, to);
    net.set_capacity(node_[i], plain * (1.0 + take_.casting_heat));
  }
  gas_link_.assign(node_.size(), -1);
  air_link_.assign(node_.size(), -1);
  const double piston = alloy_heat * body.piston_mass;
  head = net.add(1.5 * alloy_volume_heat * load_.gas.piston_area * take_.head_thickness * scale());
  crown = net.add(0.35 * piston);
  groove = net.add(0.25 * piston);
  skirt = net.add(0.3 * piston);
  pin = net.add(0.1 * piston);
  if (!still_) return;
  const double size = body.swept / usual_swept;
  muffler_ = net.add(take_.muffler_heat * size);
  case_ = net.add(take_.case_heat * size);
}

double Laying::inner_area(std::size_t cell) const {
  const Shell& s = load_.body.shell;
  return s.radius * s.column_angle() * s.row_height() * s.metal[cell];
}
double Laying::inner_half(std::size_t cell) const {
  const Shell& s = load_.body.shell;
  return round_wall(take_.wall_conductivity, s.radius, s.radius + 0.5 * thickness()) * s.column_angle() *
         s.row_height() * s.metal[cell];
}
double Laying::outer_half(std::size_t cell) const {
  const Shell& s = load_.body.shell;
  return round_wall(take_.wall_conductivity, s.radius + 0.5 * thickness(), s.radius + thickness()) * s.column_angle() *
         s.row_height() * s.metal[cell];
}

void Laying::heat_wall() {
  const Shell& s = load_.body.shell;
  for (int row = 0; row < s.rows; ++row) {
    const Exposure e = load_.gas.over(row * s.row_height(), (row + 1) * s.row_height());
    if (!(e.film > 0.0)) continue;
    for (int column = 0; column < s.around; ++column) {
      const auto i = static_cast<std::size_t>(s.cell(row, column));
      if (node_[i] < 0) continue;
      const double conductance = in_series(take_.film_share * e.film * inner_area(i), inner_half(i));
      gas_link_[i] = net.to_bath(node_[i], conductance, e.temperature());
      bore_links_.push_back(gas_link_[i]);
    }
  }
}

void Laying::heat_ducts() {
  const Body& body = load_.body;
  double rims = 0.0;  // of exhaust windows
  for (const Rim& rim : body.shell.rims)
    if (body.exhaust[static_cast<std::size_t>(rim.entry)]) rims += 1.0;
  for (const Rim& rim : body.shell.rims) {
    for (const DuctHeat& duct : load_.gas.ducts) {
      if (duct.port != rim.entry) continue;
      double sharing = 0.0;  // windows of one entry share its duct's heat
      for (const Rim& other : body.shell.rims) sharing += other.entry == rim.entry ? 1.0 : 0.0;
      for (const RimCell& one : rim.cells) {
        const int node = node_[static_cast<std::size_t>(one.cell)];
        if (duct.exhaust) {
          const double share = take_.film_share * take_.duct_share * one.share / sharing;
          duct_links_.push_back(net.to_bath(node, share * duct.conductance, duct.gas));
        } else {
          net.source(node, duct.heat * one.share / sharing);
          transfer_heat_ += duct.heat * one.share / sharing;
        }
      }
    }
    if (!body.exhaust[static_cast<std::size_t>(rim.entry)]) continue;
    for (const RimCell& one : rim.cells)
      duct_links_.push_back(net.to_bath(node_[static_cast<std::size_t>(one.cell)],
                                        take_.muffler_joint * scale() * one.share / rims, load_.gas.muffler_wall));
  }
}

void Laying::heat_head_and_crown() {
  const Exposure& e = load_.gas.ends;
  const double film = take_.film_share * e.film * load_.gas.piston_area;
  head_gas_.push_back(net.to_bath(head, head_share * film, e.temperature()));
  crown_gas_.push_back(net.to_bath(crown, film, e.temperature()));
}

void Laying::cool_outside() {
  const Shell& s = load_.body.shell;
  const double reach = take_.fin_reach * s.height, outer = 1.0 + 2.0 * thickness() / load_.body.bore;
  for (int row = 0; row < s.rows; ++row) {
    const double finned = std::clamp((reach - row * s.row_height()) / s.row_height(), 0.0, 1.0);
    for (int column = 0; column < s.around; ++column) {
      const auto i = static_cast<std::size_t>(s.cell(row, column));
      if (node_[i] < 0) continue;
      const double from = column * s.column_angle();
      const double film = air_.film(from, from + s.column_angle(), finned);
      air_link_[i] = net.to_bath(node_[i], in_series(film * inner_area(i) * outer, outer_half(i)), air_.temperature());
      wall_air_.push_back(air_link_[i]);
    }
  }
  const double outside = load_.gas.piston_area * outer * outer;
  const double half = 2.0 * take_.wall_conductivity / (take_.head_thickness * scale());
  head_air_.push_back(
      net.to_bath(head, outside * in_series(take_.head_fins * air_.finned_film(), half), air_.temperature()));
}

void Laying::join_head_and_flange() {
  const Shell& s = load_.body.shell;
  // A disc heated evenly stands q R²/(8 k t) above its edge: 4 k t for each radian of edge. Own arithmetic.
  const double disc = 4.0 * take_.wall_conductivity * take_.head_thickness * scale() * s.column_angle();
  const double middle = s.radius + 0.5 * thickness();
  const double half_row = 2.0 * take_.wall_conductivity * thickness() * middle * s.column_angle() / s.row_height();
  for (int column = 0; column < s.around; ++column) {
    const auto top = static_cast<std::size_t>(s.cell(0, column));
    const auto base = static_cast<std::size_t>(s.cell(s.rows - 1, column));
    if (node_[top] >= 0) net.couple(node_[top], head, in_series(disc, half_row) * s.metal[top]);
    if (node_[base] < 0) continue;
    const double joint = in_series(take_.flange_joint * scale() / s.around, half_row) * s.metal[base];
    if (still_)
      net.couple(node_[base], case_, joint);
    else
      flange_.push_back(net.to_bath(node_[base], joint, load_.gas.case_wall));
  }
}

/// Share of the turn that each row has the part of the piston between two drops below its crown edge beside it [-].
std::vector<double> Laying::passed(double from, double to) const {
  const Shell& s = load_.body.shell;
  std::vector<double> out(static_cast<std::size_t>(s.rows), 0.0);
  for (std::size_t k = 0; k < load_.gas.ring_travel.size(); ++k) {
    const double drop = (static_cast<double>(k) + 0.5) * load_.gas.slice;
    for (int row = 0; row < s.rows; ++row) {
      const double top = row * s.row_height(), bottom = top + s.row_height();
      const double over = std::max(0.0, std::min(bottom, drop + to) - std::max(top, drop + from));
      out[static_cast<std::size_t>(row)] += load_.gas.ring_travel[k] * over / s.row_height();
    }
  }
  return out;
}

/// @param conductance  of a square metre
void Laying::touch(const std::vector<double>& share, int node, double conductance) {
  const Shell& s = load_.body.shell;
  for (int row = 0; row < s.rows; ++row) {
    if (!(share[static_cast<std::size_t>(row)] > 0.0)) continue;
    for (int column = 0; column < s.around; ++column) {
      const auto i = static_cast<std::size_t>(s.cell(row, column));
      if (node_[i] < 0) continue;
      const double whole = conductance * inner_area(i) * share[static_cast<std::size_t>(row)];
      touches_.push_back({i, node, in_series(whole, inner_half(i))});
      net.couple(node_[i], node, touches_.back().conductance);
    }
  }
}

void Laying::join_piston() {
  const Body& body = load_.body;
  for (const RingSize& ring : body.rings)
    touch(passed(ring.below_crown, ring.below_crown + ring.height), groove, take_.ring_contact);
  touch(passed(body.skirt_begins, body.skirt), skirt, take_.skirt_contact);
  const double metal = take_.piston_conductivity * take_.crown_thickness * scale();
  net.couple(crown, groove, 8.0 * pi * metal);
  const double belt = pi * body.bore * metal;
  net.couple(groove, skirt, belt / (0.5 * (body.skirt - body.skirt_begins) + 0.5 * body.skirt_begins));
  net.couple(groove, pin, 0.4 * belt / (0.5 * body.bore));
  net.couple(skirt, pin, 0.4 * belt / (0.5 * body.bore));
  // The inside: four fifths of the crown; of the skirt's, less the windows at the pin, seven tenths.
  const double inside = 0.7 * pi * body.bore * (body.skirt - body.skirt_begins);
  const double below = still_ ? take_.soak_film : take_.crown_below;
  charge_.push_back(net.to_bath(crown, 0.8 * below * load_.gas.piston_area, load_.gas.case_temperature));
  charge_.push_back(net.to_bath(skirt, below * inside, load_.gas.case_temperature));
  charge_.push_back(net.to_bath(pin, take_.pin_joint * scale(), load_.gas.case_wall));
}

/// Friction of rings and skirt: half into the wall where they pass, half into groove and skirt.
void Laying::rub() {
  const Body& body = load_.body;
  const Shell& s = body.shell;
  rubbed_ = take_.friction_share * load_.gas.friction;
  net.source(groove, 0.25 * rubbed_);
  net.source(skirt, 0.25 * rubbed_);
  const std::vector<double> share = passed(body.rings.front().below_crown, body.skirt);
  std::vector<double> part(node_.size(), 0.0);
  double sum = 0.0;
  for (std::size_t i = 0; i < node_.size(); ++i) {
    if (node_[i] < 0) continue;
    part[i] = share[i / static_cast<std::size_t>(s.around)] * s.metal[i];
    sum += part[i];
  }
  for (std::size_t i = 0; i < node_.size(); ++i)
    if (part[i] > 0.0) net.source(node_[i], 0.5 * rubbed_ * part[i] / sum);
}

void Laying::join_muffler() {
  const Body& body = load_.body;
  const double size = body.swept / usual_swept;
  const double outside = take_.soak_film * bodies_outside * std::pow(size, 2.0 / 3.0);
  net.to_bath(muffler_, outside, load_.gas.day);
  net.to_bath(case_, outside, load_.gas.day);
  double rims = 0.0;
  for (const Rim& rim : body.shell.rims)
    if (body.exhaust[static_cast<std::size_t>(rim.entry)]) rims += 1.0;
  for (const Rim& rim : body.shell.rims)
    if (body.exhaust[static_cast<std::size_t>(rim.entry)])
      for (const RimCell& one : rim.cells)
        net.couple(node_[static_cast<std::size_t>(one.cell)], muffler_,
                   take_.muffler_joint * scale() * one.share / rims);
}

double Laying::heat_of(const std::vector<int>& links, const std::vector<double>& T) const {
  double sum = 0.0;
  for (const int link : links) sum += net.to_bath_heat(link, T);
  return sum;
}

/// Windows get the mean of their row's metal, so that a field has a number everywhere.
void Laying::fill_windows(std::vector<double>& field) const {
  const Shell& s = load_.body.shell;
  double last = 0.0;
  for (int row = 0; row < s.rows; ++row) {
    double sum = 0.0, metal = 0.0;
    for (int column = 0; column < s.around; ++column) {
      const auto i = static_cast<std::size_t>(s.cell(row, column));
      if (node_[i] < 0) continue;
      sum += field[i];
      metal += 1.0;
    }
    if (metal > 0.0) last = sum / metal;
    for (int column = 0; column < s.around; ++column) {
      const auto i = static_cast<std::size_t>(s.cell(row, column));
      if (node_[i] < 0) field[i] = last;
    }
  }
}

Map Laying::read(const std::vector<double>& T) const {
  Map out;
  const auto at = [&](int node) { return T[static_cast<std::size_t>(node)]; };
  out.wall.assign(node_.size(), 0.0);
  out.outer.assign(node_.size(), 0.0);
  std::vector<double> inward(node_.size(), 0.0);  // heat that comes through the inner half
  for (std::size_t i = 0; i < node_.size(); ++i)
    if (gas_link_[i] >= 0) inward[i] -= net.to_bath_heat(gas_link_[i], T);
  for (const Touch& touch : touches_) {
    const double heat = touch.conductance * (at(touch.node) - at(node_[touch.cell]));
    inward[touch.cell] += heat;
    out.flows.piston_to_wall += heat;
  }
  for (std::size_t i = 0; i < node_.size(); ++i) {
    if (node_[i] < 0) continue;
    out.wall[i] = at(node_[i]) + inward[i] / inner_half(i);
    out.outer[i] = at(node_[i]) - (air_link_[i] >= 0 ? net.to_bath_heat(air_link_[i], T) / outer_half(i) : 0.0);
  }
  fill_windows(out.wall);
  fill_windows(out.outer);
  out.head = at(head);
  out.piston = {at(crown), at(groove), at(skirt), at(pin)};
  out.flows.gas_to_bore = -heat_of(bore_links_, T);
  out.flows.gas_to_head = -heat_of(head_gas_, T);
  out.flows.gas_to_crown = -heat_of(crown_gas_, T);
  out.flows.ducts_to_wall = transfer_heat_ - heat_of(duct_links_, T);
  out.flows.rubbed = rubbed_;
  out.flows.wall_to_air = heat_of(wall_air_, T);
  out.flows.head_to_air = heat_of(head_air_, T);
  out.flows.flange_to_case = heat_of(flange_, T);
  out.flows.piston_to_charge = heat_of(charge_, T);
  out.balance = net.balance(T);
  return out;
}

double Laying::base_mean(const std::vector<double>& T) const {
  const Shell& s = load_.body.shell;
  double sum = 0.0;
  int count = 0;
  for (int column = 0; column < s.around; ++column) {
    const int node = node_[static_cast<std::size_t>(s.cell(s.rows - 1, column))];
    if (node < 0) continue;
    sum += T[static_cast<std::size_t>(node)];
    ++count;
  }
  return count > 0 ? sum / count : 0.0;
}

SoakInstant Laying::instant(double time, const std::vector<double>& T) const {
  const auto at = [&](int node) { return T[static_cast<std::size_t>(node)]; };
  SoakInstant out{time, at(head), 0.0, base_mean(T), at(crown), at(groove), at(skirt)};
  for (const int node : node_)
    if (node >= 0) out.hottest = std::max(out.hottest, at(node));
  return out;
}

/// Everything that a running engine has; the temperatures of its nodes.
base::Result<std::vector<double>> run_hot(Laying& laying, ThermalNetwork::Order& order) {
  laying.heat_wall();
  laying.heat_ducts();
  laying.heat_head_and_crown();
  laying.cool_outside();
  laying.join_head_and_flange();
  laying.join_piston();
  laying.rub();
  return laying.net.steady(order);
}

}  // namespace

base::Result<Map> steady(const Load& load, const Assumptions& assumptions) {
  ThermalNetwork::Order order;
  return steady(load, assumptions, order);
}

base::Result<Map> steady(const Load& load, const Assumptions& assumptions, ThermalNetwork::Order& order) {
  Laying laying(load, assumptions, false);
  const auto T = run_hot(laying, order);
  if (!T) return tl::unexpected(T.error());
  return laying.read(*T);
}

base::Result<std::vector<SoakInstant>> soak(const Load& load, const Assumptions& assumptions, double seconds,
                                            double step) {
  Laying running(load, assumptions, false);
  ThermalNetwork::Order order;
  auto T = run_hot(running, order);
  if (!T) return tl::unexpected(T.error());
  Laying stopped(load, assumptions, true);
  stopped.cool_outside();
  stopped.join_head_and_flange();
  stopped.join_piston();
  stopped.join_muffler();
  T->push_back(load.gas.muffler_wall);
  T->push_back(load.gas.case_wall);
  std::vector<SoakInstant> out{stopped.instant(0.0, *T)};
  const ThermalNetwork::March march(stopped.net, step);
  for (int k = 1; k * step <= seconds + 1e-9; ++k) {
    march.step(*T);
    out.push_back(stopped.instant(k * step, *T));
  }
  return out;
}

}  // namespace portwright::heat
