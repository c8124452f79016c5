#include "sheet/cut_rows.hpp"

#include <algorithm>
#include <cmath>

#include "base/number_text.hpp"
#include "sheet/map_page.hpp"

namespace portwright::sheet {
namespace {

using cuts::Act;
using cuts::Cut;
using geometry::Engine;
using geometry::Known;
using geometry::Port;

std::string known_text(const Known& value, double scale, int decimals, const char* unit = "") {
  return value ? base::number_text(scale * *value, decimals) + unit : "—";
}

std::string capital(std::string text) {
  if (!text.empty() && text.front() >= 'a' && text.front() <= 'z') text.front() = static_cast<char>(text.front() - 32);
  return text;
}

/// Entry of a port by the name the cut has, or -1.
int entry_of(const Cut& cut, const Labels& labels) {
  std::string name = cut.port;
  std::replace(name.begin(), name.end(), '_', ' ');
  for (std::size_t i = 0; i < labels.ports.size(); ++i) {
    if (labels.ports[i] == name) return static_cast<int>(i);
  }
  return -1;
}

/// One cut with the engines on both sides of it.
class Row {
 public:
  Row(const Engine& before, const Engine& behind, const Cut& cut, const Labels& labels)
      : a_(before), b_(behind), cut_(cut) {
    const int entry = entry_of(cut, labels);
    const auto i = static_cast<std::size_t>(entry);
    if (entry >= 0 && i < a_.ports.size() && i < b_.ports.size()) port_a_ = &a_.ports[i], port_b_ = &b_.ports[i];
    port_name_ = cut.port;
    std::replace(port_name_.begin(), port_name_.end(), '_', ' ');
  }

  CutRow make() {
    row_.what = capital(what());
    fill();
    return row_;
  }

 private:
  bool more() const { return cut_.amount >= 0; }

  std::string what() const {
    const std::string& p = port_name_;
    switch (cut_.act) {
      case Act::gasket_out:
        return "base gasket out";
      case Act::gasket_to:
        return "base gasket to";
      case Act::base:
        return more() ? "base face built up" : "base face cut";
      case Act::band:
        return more() ? "squish band built up" : "squish band cut";
      case Act::crown_edge:
        return more() ? "crown edge built up" : "crown edge turned";
      case Act::dome:
        return more() ? "dome higher" : "dome turned";
      case Act::roof:
        return p + (more() ? " roof higher" : " roof lower");
      case Act::floor:
        return p + (more() ? " floor higher" : " floor lower");
      case Act::widen:
        return p + (more() ? " wider, " : " narrower, ") + (cut_.side.empty() ? "each side" : cut_.side);
      case Act::corner:
        return p + " " + cut_.side + " corners";
      case Act::outline:
        return p + " outline";
      case Act::skirt:
        return cut_.side + (more() ? " skirt longer" : " skirt shorter");
      case Act::mouth:
        return p + " case mouths to";
      case Act::case_volume:
        return more() ? "case larger by" : "case smaller by";
      case Act::stuff:
        return more() ? "case stuffed by" : "case opened by";
      case Act::swap:
        return cut_.part + " swapped";
      case Act::petal:
        return "reed petals to";
      case Act::venturi:
        return "venturi to";
      case Act::outlets:
        return "muffler outlets to";
      case Act::advance:
        return more() ? "ignition advanced" : "ignition retarded";
      case Act::octane:
        return "fuel";
      case Act::weld:
        return p + " " + cut_.side + " welded";
      case Act::sleeve:
        return "sleeved to";
    }
    return cut_.text;
  }

  void set(const Known& now, const Known& then, double scale, int decimals, const char* unit = "") {
    row_.now = known_text(now, scale, decimals, unit);
    row_.then = known_text(then, scale, decimals, unit);
  }

  /// A length that is crept up on [m].
  void creep(const Known& now, const Known& then, int decimals = 2) {
    set(now, then, 1e3, decimals);
    const Known change = then - now;
    if (!change) return;
    row_.stop = base::number_text(1e3 * (*then - std::copysign(short_of(*change), *change)), 2);
  }

  /// A height of a window's edge; when it is the edge that opens the window, the wheel reads it too.
  void edge(bool roof) {
    if (port_a_ == nullptr) return;
    const Known now = a_.height(roof ? port_a_->roof : port_a_->floor),
                then = b_.height(roof ? port_b_->roof : port_b_->floor);
    creep(now, then);
    const bool by_crown = geometry::opened_by(port_b_->kind) == geometry::OpenedBy::crown;
    const Known change = then - now;
    if (roof != by_crown || !change || !b_.slider) return;
    Port stop = *port_b_;
    geometry::shift_timing(stop, std::copysign(short_of(*change), *change));
    const char* word = by_crown ? " after" : " before";
    const auto text = [&](const Known& angle) { return angle ? degree_text(*angle) + word : std::string{}; };
    row_.wheel_stop = text(geometry::timing(b_, stop).opens);
    row_.wheel_end = text(geometry::timing(b_, *port_b_).opens);
  }

  /// Both sides are crept up on, so a whole width stays short by twice a stop.
  void width() {
    if (port_a_ == nullptr) return;
    set(port_a_->width, port_b_->width, 1e3, 1);
    const Known change = port_b_->width - port_a_->width;
    if (!change) return;
    const double sides = cut_.side.empty() ? 2.0 : 1.0;
    row_.stop =
        base::number_text(1e3 * (*port_b_->width - std::copysign(sides * short_of(*change / sides), *change)), 1);
  }

  Known skirt(const Engine& e) const {
    if (cut_.side == "exhaust") return e.piston.skirt_exhaust;
    return cut_.side == "intake" ? e.piston.skirt_intake : e.piston.skirt_side;
  }

  void fill_squish() {
    set(a_.squish, b_.squish, 1e3, 2);
    row_.stop = "solder";
  }

  void fill() {
    switch (cut_.act) {
      case Act::gasket_out:
      case Act::gasket_to:
        set(a_.base_gasket, b_.base_gasket, 1e3, 2);
        row_.stop = "solder";
        return;
      case Act::base:
      case Act::band:
      case Act::crown_edge:
        return fill_squish();
      case Act::dome:
        return creep(a_.piston.dome, b_.piston.dome);
      case Act::roof:
        return edge(true);
      case Act::floor:
        return edge(false);
      case Act::weld:
        return edge(cut_.side == "roof");
      case Act::widen:
        return width();
      case Act::corner:
        if (port_a_ == nullptr) return;
        return cut_.side == "roof" ? set(port_a_->corner_roof, port_b_->corner_roof, 1e3, 1)
                                   : set(port_a_->corner_floor, port_b_->corner_floor, 1e3, 1);
      case Act::skirt:
        return creep(skirt(a_), skirt(b_));
      case Act::mouth:
        if (port_a_ != nullptr) set(port_a_->passage.mouth, port_b_->passage.mouth, 1e4, 2, " cm²");
        return;
      case Act::case_volume:
      case Act::stuff:
        row_.then = base::number_text(1e6 * std::abs(cut_.amount), 1) + " cc";
        return;
      case Act::venturi:
        return set(a_.venturi, b_.venturi, 1e3, 1);
      case Act::outlets:
        return set(a_.muffler_outlets, b_.muffler_outlets, 1e4, 2, " cm²");
      case Act::advance:
        row_.then = degree_text(std::abs(cut_.amount));
        return;
      case Act::octane:
        return set(a_.octane, b_.octane, 1.0, 0);
      case Act::petal:
        row_.then = base::number_text(1e3 * cut_.amount, 2);
        return;
      case Act::sleeve:
        return set(a_.bore, b_.bore, 1e3, 2);
      case Act::outline:
        row_.then = "as drawn";
        return;
      case Act::swap:
        row_.stop = "read anew";
        return;
    }
  }

  const Engine& a_;
  const Engine& b_;
  const Cut& cut_;
  const Port* port_a_ = nullptr;
  const Port* port_b_ = nullptr;
  std::string port_name_;
  CutRow row_{};
};

}  // namespace

double short_of(double amount) { return std::min(stop_short, 0.5 * std::abs(amount)); }

std::vector<CutRow> cut_rows(const Plan& plan, const Labels& labels) {
  std::vector<CutRow> rows;
  for (std::size_t k = 0; k < plan.cuts.size(); ++k)
    rows.push_back(Row(plan.after[k], plan.after[k + 1], plan.cuts[k], labels).make());
  return rows;
}

}  // namespace portwright::sheet
