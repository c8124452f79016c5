// What comes off and what is put on, cut by cut.

#include <numbers>
#include <optional>

#include "cuts/grammar.hpp"
#include "cuts/prepared.hpp"

namespace portwright::cuts {
namespace {

// Named assumptions, own judgement; they make metal comparable between plans, not exact.
constexpr double wall = 4e-3;        // of the cylinder behind a window's edge [m]
constexpr double flange = 8e-3;      // width of the base face round the bore [m]
constexpr double skirt_wall = 2e-3;  // [m]

Known window_area(const geometry::Port& port) { return port.window_known + port.window.area(); }

/// Metal behind the edges of the windows that the step cut.
Known off_windows(const Step& step, const Engine& before, const Engine& after) {
  Known metal;
  for (const int entry : step.entries) {
    const auto i = static_cast<std::size_t>(entry);
    metal += (window_area(after.ports[i]) - window_area(before.ports[i])) * Known(wall * before.ports[i].count);
  }
  return metal;
}

/// The base face as a ring round the bore: its width from there outward.
Known off_base(const Engine& e, double x) { return ring_area(e.bore + 2.0 * flange, flange) * Known(x); }

Known off_skirt(const Step& step, const Engine& e) {
  const Known quarter = e.bore * Known(0.25 * std::numbers::pi);
  const Known across =
      step.side == Side::exhaust && e.piston.skirt_exhaust_width ? e.piston.skirt_exhaust_width : quarter;
  return across * Known(-step.amount * skirt_wall);
}

/// The case beside the passage is cut over the height of its ledge.
Known off_mouths(const Step& step, const Engine& before) {
  Known metal;
  for (const int entry : step.entries) {
    const geometry::Port& port = before.ports[static_cast<std::size_t>(entry)];
    metal += (Known(step.amount) - port.passage.mouth) * port.passage.case_step * Known(port.count);
  }
  return metal;
}

/// A liner from the base face to the head, its windows not counted.
Known off_sleeve(const Engine& before, const Engine& after) {
  return ring_area(before.bore, (before.bore - after.bore) * Known(0.5)) * Known(-1.0) *
         (before.crown_at_tdc + before.squish);
}

Known metal_of(const Step& step, const Engine& before, const Engine& after) {
  switch (step.act) {
    case Act::base:
      return off_base(before, -step.amount);
    case Act::band:
      return ring_area(before.bore, before.squish_band) * Known(-step.amount);
    case Act::crown_edge:
      return ring_area(before.bore, step.width) * Known(-step.amount);
    case Act::dome:
      return after.chamber - before.chamber;
    case Act::roof:
    case Act::floor:
    case Act::weld:
    case Act::widen:
    case Act::corner:
    case Act::outline:
      return off_windows(step, before, after);
    case Act::skirt:
      return off_skirt(step, before);
    case Act::mouth:
      return off_mouths(step, before);
    case Act::case_volume:
      return step.amount;
    case Act::stuff:
      return -step.amount;
    case Act::sleeve:
      return off_sleeve(before, after);
    default:
      return 0.0;  // gaskets, parts, settings, sheet metal
  }
}

/// How the metal comes to where the cut wants it.
const char* way_to_add(Act act) {
  switch (act) {
    case Act::base:
      return "a spacer or a thicker gasket does it";
    case Act::band:
      return "weld, or another cylinder";
    case Act::crown_edge:
    case Act::dome:
    case Act::skirt:
      return "another piston";
    case Act::mouth:
    case Act::case_volume:
    case Act::stuff:
      return "what fills a case must hold, and heat and fuel must not loosen it";
    case Act::sleeve:
      return "a liner, and a piston for its bore";
    default:
      return "weld or sleeve";
  }
}

/// Whether the amount's own sign says that metal is added; sizes are judged by what they change.
bool adds_by_sign(const Step& step) {
  switch (step.act) {
    case Act::base:
    case Act::band:
    case Act::crown_edge:
    case Act::dome:
    case Act::skirt:
    case Act::floor:
      return step.amount > 0.0;
    case Act::roof:
    case Act::widen:
    case Act::case_volume:
      return step.amount < 0.0;
    case Act::stuff:
      return step.amount > 0.0;
    case Act::weld:
      return step.side == Side::none || step.amount > 0.0;
    default:
      return false;
  }
}

bool adds_metal(const Step& step, const Known& metal) {
  const bool sized =
      step.act == Act::corner || step.act == Act::outline || step.act == Act::mouth || step.act == Act::sleeve;
  return adds_by_sign(step) || (sized && metal && *metal < -1e-12);
}

std::string typographic(std::string text) {
  for (std::size_t at = text.find(" -"); at != std::string::npos; at = text.find(" -", at + 2))
    text.replace(at, 2, " \u2212");
  return text;
}

void warn_of_windows(Account& account, const std::string& name, const Step& step, const Engine& before,
                     const Engine& after) {
  for (const int entry : step.entries) {
    const geometry::Port& b = before.ports[static_cast<std::size_t>(entry)];
    const geometry::Port& a = after.ports[static_cast<std::size_t>(entry)];
    if (b.window.empty() || !a.window.empty() || !a.window_known) continue;
    account.warnings.push_back(name + " leaves a window that cannot be: its edges, corners or bridge no longer fit");
    return;
  }
}

void warn_of_head(Account& account, const Engine& after) {
  if (after.squish && *after.squish <= 0.0) account.warnings.push_back("after these cuts the crown meets the head");
  if (after.chamber && *after.chamber <= 0.0) account.warnings.push_back("after these cuts no chamber is left");
}

}  // namespace

Account account(const CutList& cuts, const geometry::Survey& survey, const Engine& stock, const std::string& folder) {
  Account account;
  const auto prepared = prepare(cuts, survey, folder);
  if (!prepared) return account;
  Engine before = stock;
  for (std::size_t i = 0; i < (*prepared)->steps.size(); ++i) {
    const Prepared one{{(*prepared)->steps[i]}};
    Engine after = before;
    apply(one, after);
    const std::string name = typographic(cut_text(cuts[i]));
    const Known metal = metal_of(one.steps.front(), before, after);
    account.metal += metal;
    if (adds_metal(one.steps.front(), metal))
      account.warnings.push_back(name + " adds metal: " + way_to_add(cuts[i].act));
    warn_of_windows(account, name, one.steps.front(), before, after);
    before = after;
  }
  warn_of_head(account, before);
  return account;
}

}  // namespace portwright::cuts
