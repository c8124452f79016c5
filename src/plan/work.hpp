#pragma once
// A way as work at the bench: its cuts one by one in working order, each with its tool, what is read after it, where to
// stop and what may be expected.

#include <optional>
#include <string>
#include <vector>

#include "plan/guard.hpp"
#include "plan/plan.hpp"

namespace portwright::plan {

/// What hand and bench can do. Lengths [m], angles [rad]. Every number is from memory.
struct Bench {
  double hand = 0.1e-3;                     ///< one sigma of a ground cut to a mark; its last touches are 0.3 of it
  double lathe = 0.015e-3;                  ///< one sigma of a turned cut
  double edge_band = 0.017453292519943295;  ///< half band of a timed edge: 1 deg
  double squish_band = 0.05e-3;             ///< of the squish
  double width_band = 0.3e-3;               ///< of a chord
  double depth_band = 0.1e-3;               ///< of a turned depth
};

/// One number to expect, for a person.
struct Expected {
  std::string label, text;
};

struct WorkStep {
  cuts::Cut cut;                      ///< exact
  bool done = false;                  ///< as it was cut and read: nothing is left to do
  std::string what;                   ///< "Raise the exhaust roof"
  std::string tool, edge;             ///< "die grinder, then stone", "roof, between the corners' ends"
  double amount = 0.0;                ///< [m]
  std::string label, unit;            ///< of the figure that is read: "exhaust opens", "deg"
  double before = 0.0, target = 0.0;  ///< of that figure, in `unit`
  double per_mm = 0.0;                ///< change of the figure for 1 mm of this cut, in `unit`, with its sign
  std::optional<Guard> guard;         ///< none where no metal goes
  double stop = 0.0;                  ///< of the figure at the stop mark
  double stop_amount = 0.0;           ///< cut so much first [m]; 0: fine all the way
  double never = 0.0;                 ///< of the figure: the band's far end, or a hard limit before it
  std::string never_why;              ///< label of that limit; empty: the band ends there
  double height_before = 0.0, height_after = 0.0;  ///< of the edge over the base face [mm], where a height is read
  double start_low = 0.0, start_high = 0.0;        ///< reads outside before the cut: something is not as planned
  std::vector<Expected> expected;                  ///< after the step
  std::string no_return;                           ///< when the step cannot be taken back any more
};

struct Work {
  std::vector<WorkStep> steps;
};

/// The steps of a way, its exact cuts. Errors: a band that reading and hand do not allow, each with the readings that
/// would do.
[[nodiscard]] base::ResultAll<Work> work_of(const Way& way, const geometry::Survey& survey, const Settings& settings,
                                            const Bench& bench);

/// The same cut but for its amount: act, port and side. A gasket is one place, whether it is left out or another.
[[nodiscard]] bool same_place(const cuts::Cut& a, const cuts::Cut& b);

/// Whether cut `k` of a list is one of those that are done. What is left of a cut may be as much as was done of it, so
/// of equal cuts the first are the done ones.
[[nodiscard]] bool is_done(const cuts::CutList& list, std::size_t k, const cuts::CutList& done);

/// On assembly, in order.
[[nodiscard]] std::vector<std::string> assembly_list();

/// Whether a step's figure stands where the tool is put down before it is begun: nothing to cut.
[[nodiscard]] bool is_near_enough(const WorkStep& step);

}  // namespace portwright::plan
