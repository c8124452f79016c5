#include "sheet/plan.hpp"

#include <cmath>

namespace portwright::sheet {
namespace {

bool moves_cylinder(const cuts::Cut& cut) {
  using cuts::Act;
  return cut.act == Act::gasket_out || cut.act == Act::gasket_to || cut.act == Act::base ||
         cut.act == Act::crown_edge || (cut.act == Act::swap && cut.part == "piston");
}

/// How far levels went down from one engine to the next, told by the first roof that both know [m].
double roof_shift(const geometry::Engine& a, const geometry::Engine& b) {
  for (std::size_t i = 0; i < a.ports.size() && i < b.ports.size(); ++i) {
    const geometry::Known d = b.ports[i].roof - a.ports[i].roof;
    if (d) return *d;
  }
  return 0.0;
}

bool differ(const geometry::Known& a, const geometry::Known& b, double shift = 0.0) {
  return a && b && std::abs(*b - *a - shift) > 1e-7;
}

}  // namespace

std::size_t Plan::stock_index() const {
  for (std::size_t k = cuts.size(); k > 0; --k) {
    const cuts::Cut& cut = cuts[k - 1];
    if (cut.act == cuts::Act::sleeve || (cut.act == cuts::Act::swap && cut.part == "cylinder")) return k;
  }
  return 0;
}

double Plan::cylinder_shift() const {
  double sum = 0.0;
  for (std::size_t k = stock_index(); k < cuts.size(); ++k) {
    if (moves_cylinder(cuts[k])) sum += roof_shift(after[k], after[k + 1]);
  }
  return sum;
}

double Plan::base_taken(std::size_t from) const {
  double sum = 0.0;
  for (std::size_t k = from; k < cuts.size(); ++k) {
    if (cuts[k].act == cuts::Act::base) sum -= cuts[k].amount;
  }
  return sum;
}

int Plan::first_cut_on(std::size_t entry) const {
  for (std::size_t k = stock_index(); k < cuts.size(); ++k) {
    if (cuts[k].port.empty() || entry >= after[k].ports.size() || entry >= after[k + 1].ports.size()) continue;
    if (is_changed(after[k].ports[entry], after[k + 1].ports[entry], 0.0)) return static_cast<int>(k + 1);
  }
  return 0;
}

base::Result<Plan> plan_of(std::span<const geometry::Engine> after, std::span<const cuts::Cut> cuts) {
  if (after.size() != cuts.size() + 1) {
    return base::fail(base::ErrorCode::impossible,
                      "a sheet of " + std::to_string(cuts.size()) + " cuts needs one engine more than cuts");
  }
  return Plan{after, cuts};
}

bool is_changed(const geometry::Port& stock, const geometry::Port& now, double shift) {
  return differ(stock.roof, now.roof, shift) || differ(stock.floor, now.floor, shift) ||
         differ(stock.width, now.width) || differ(stock.centre, now.centre) ||
         differ(stock.corner_roof, now.corner_roof) || differ(stock.corner_floor, now.corner_floor) ||
         stock.traced != now.traced || std::abs(stock.window.area() - now.window.area()) > 1e-10;
}

std::string finding_word(const study::Finding& finding) {
  switch (finding.state) {
    case study::State::ok:
      return "Held";
    case study::State::note:
      return "Note";
    case study::State::caution:
      return "Caution";
    case study::State::stop:
      return "Stop";
  }
  return "Note";
}

draw::Finding finding_shape(const study::Finding& finding) {
  switch (finding.state) {
    case study::State::ok:
      return draw::Finding::held;
    case study::State::note:
      return draw::Finding::note;
    case study::State::caution:
      return draw::Finding::caution;
    case study::State::stop:
      return draw::Finding::stop;
  }
  return draw::Finding::note;
}

std::string waits_text(const base::Needs& needs, const std::vector<std::string>& names) {
  std::string text;
  int more = 0, shown = 0;
  for (std::size_t i = 0; i < names.size() && i < 256; ++i) {
    if (!needs.has(static_cast<int>(i))) continue;
    if (++shown > 3)
      ++more;
    else
      text += (text.empty() ? "" : ", ") + names[i];
  }
  return more > 0 ? text + " and " + std::to_string(more) + " more" : text;
}

}  // namespace portwright::sheet
