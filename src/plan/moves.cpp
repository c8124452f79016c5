#include "plan/moves.hpp"

#include <algorithm>
#include <limits>

#include "cuts/grammar.hpp"

namespace portwright::plan {
namespace {

using cuts::Act;
using geometry::PortKind;

constexpr double trial = 1e-4;  // of each cut [m]
// Own judgement: more than this off a face or an edge is another cylinder or piston.
constexpr double most_turned = 3e-3, most_ground = 10e-3;  // [m]

Act act_of(MoveKind kind) {
  switch (kind) {
    case MoveKind::base:
      return Act::base;
    case MoveKind::band:
      return Act::band;
    case MoveKind::crown_edge:
      return Act::crown_edge;
    case MoveKind::dome:
      return Act::dome;
    case MoveKind::widen:
      return Act::widen;
    case MoveKind::roof_exhaust:
    case MoveKind::roof_transfer:
      return Act::roof;
    case MoveKind::floor_intake:
      return Act::floor;
    case MoveKind::skirt_intake:
      return Act::skirt;
  }
  return Act::base;
}

/// Sign of the cut's own amount: up and wider are plus, off a face is minus.
double sign_of(MoveKind kind) {
  return kind == MoveKind::widen || kind == MoveKind::roof_exhaust || kind == MoveKind::roof_transfer ? 1.0 : -1.0;
}

class Finder {
 public:
  Finder(const geometry::Survey& survey, const geometry::Engine& stock)
      : survey_(survey), stock_(stock), levels_(levels_of(stock)) {}

  std::vector<Move> find() {
    add({MoveKind::base, {}, 0.0, most_turned});
    if (stock_.squish_band) {
      add({MoveKind::band, {}, 0.0, most_turned});
      if (*stock_.squish_band > 0.0) add({MoveKind::crown_edge, {}, *stock_.squish_band, most_turned});
    }
    if (stock_.piston.dome && *stock_.piston.dome > 0.0) add({MoveKind::dome, {}, 0.0, *stock_.piston.dome});
    for (const geometry::PortSlots& port : survey_.ports) add_port(MoveKind::widen, port);
    add_ports(MoveKind::roof_exhaust, {PortKind::exhaust});
    add_ports(MoveKind::floor_intake, {PortKind::intake, PortKind::air});
    const bool intake = std::any_of(survey_.ports.begin(), survey_.ports.end(),
                                    [](const auto& port) { return port.kind == PortKind::intake; });
    if (intake && stock_.piston.skirt_intake) add({MoveKind::skirt_intake, {}, 0.0, most_ground});
    add_ports(MoveKind::roof_transfer, {PortKind::transfer, PortKind::boost});
    return std::move(moves_);
  }

 private:
  void add_ports(MoveKind kind, std::initializer_list<PortKind> kinds) {
    for (const geometry::PortSlots& port : survey_.ports)
      if (std::find(kinds.begin(), kinds.end(), port.kind) != kinds.end()) add_port(kind, port);
  }

  void add_port(MoveKind kind, const geometry::PortSlots& port) {
    if (port.twin_of < 0) add({kind, port.name, 0.0, most_ground});
  }

  /// Kept when the cut can be made on this saw at all.
  void add(Move move) {
    const double amount = std::min(trial, 0.5 * move.most);
    const auto prepared = cuts::prepare({move.cut(amount)}, survey_, ".");
    if (!prepared) return;
    geometry::Engine engine = stock_;
    cuts::apply(**prepared, engine);
    const Levels after = levels_of(engine);
    for (std::size_t i = 0; i < level::count; ++i) move.effect[i] = change(after[i], levels_[i], amount);
    const bool traced = std::any_of(survey_.ports.begin(), survey_.ports.end(),
                                    [&](const auto& port) { return port.name == move.port && !port.traced.empty(); });
    move.linear = move.kind != MoveKind::dome && !(move.kind == MoveKind::widen && traced);
    moves_.push_back(std::move(move));
  }

  /// What is not known before the cut and after it is not moved by it, as far as a plan can say.
  static Known change(const Known& after, const Known& before, double amount) {
    if (!before) return 0.0;
    if (!after) return after;
    // A place that stands still has no rounding's worth of movement.
    const double by = (*after - *before) / amount;
    return std::abs(by) < 1e-9 ? 0.0 : by;
  }

  const geometry::Survey& survey_;
  const geometry::Engine& stock_;
  Levels levels_;
  std::vector<Move> moves_;
};

}  // namespace

cuts::Cut Move::cut(double amount) const {
  cuts::Cut out;
  out.act = act_of(kind);
  out.port = port;
  if (kind == MoveKind::skirt_intake) out.side = "intake";
  if (kind == MoveKind::crown_edge) out.width = cuts::canonical_amount(width, base::Dimension::length);
  out.amount = cuts::canonical_amount(sign_of(kind) * amount, base::Dimension::length);
  out.text = cuts::cut_text(out);
  return out;
}

std::vector<Move> moves_of(const geometry::Survey& survey, const geometry::Engine& stock) {
  return Finder(survey, stock).find();
}

cuts::CutList cuts_of(const std::vector<Move>& moves, const Amounts& amounts) {
  cuts::CutList out;
  for (std::size_t m = 0; m < moves.size(); ++m)
    if (amounts[m] > no_cut) out.push_back(moves[m].cut(amounts[m]));
  return out;
}

Levels moved(const Levels& stock, const std::vector<Move>& moves, const Amounts& amounts) {
  Levels out = stock;
  for (std::size_t m = 0; m < moves.size(); ++m) {
    if (amounts[m] == 0.0) continue;
    for (std::size_t i = 0; i < level::count; ++i) out[i] += moves[m].effect[i] * Known(amounts[m]);
  }
  return out;
}

}  // namespace portwright::plan
