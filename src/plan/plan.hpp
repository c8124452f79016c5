#pragma once
// From wishes to cuts: every way to reach them, with what it costs and what it comes near.

#include <optional>
#include <string>
#include <vector>

#include "cuts/cut.hpp"
#include "plan/wish.hpp"
#include "study/hard.hpp"

namespace portwright::plan {

/// Half bands within which a figure is as it was wished.
struct Bands {
  double edge = 0.017453292519943295;  ///< of a timed edge [rad]: 1 deg
  double squish = 0.05e-3;             ///< [m]
  double width = 0.3e-3;               ///< of a chord [m]
};

struct Settings {
  double step = 0.05e-3;  ///< what a hand can cut [m]; 0: not rounded
  /// Thicknesses of gaskets at hand [m], beside the one that is fitted and none.
  std::vector<double> gaskets = {};
  /// Cuts that are done, by what they came to when they were read; only what is left is planned, from there.
  cuts::CutList done = {};
  /// Where given, a wish that the done cuts brought within its band is left as it is; none: every wish is met in full.
  std::optional<Bands> bands = {};
  /// One-sided wishes that are not held yet are planned half a band inside, so that a hand that stops short still holds
  /// them; needs bands.
  bool inside = false;
  double chance = 0.05;  ///< that a hard limit is passed, which no plan may exceed, 0 < chance < 0.5
  std::string folder;    ///< where file names would start
  study::Options study;  ///< speed, samples and unit style
};

/// One figure that is wished, in its own unit.
struct Wanted {
  std::string wish;    ///< as typed
  std::string figure;  ///< id in the study
  std::string label;   ///< "exhaust opens"
  std::string unit;    ///< "deg", "mm", "%", "cm3", "-"
  Relation relation = Relation::is;
  double stock = 0.0, asked = 0.0;
};

/// One way to reach all wishes.
struct Way {
  cuts::CutList exact;  ///< that meets them to the last digit
  cuts::CutList cuts;   ///< rounded to what a hand can cut, in the order of the work
  /// Of each exact cut the half-width of the central 95 % of its amount [m], by the study's samples of the readings'
  /// errors: what would have to be cut if the saw were another that these readings may have come from. None: a gasket,
  /// what is done, what lies at its own end; of a list decided by hand, all.
  std::vector<std::optional<double>> within;
  std::vector<double> reached_exact;     ///< of each wanted figure, in its unit
  std::vector<double> reached;           ///< after the rounded cuts
  std::vector<double> left;              ///< what rounding leaves of it: reached less asked; 0 where an at least holds
  base::Known metal;                     ///< taken off by the rounded cuts [m³]
  base::Known metal_exact;               ///< by the exact ones [m³]
  bool reversible = false;               ///< a gasket alone: put back, everything is as it was
  std::vector<study::HardLimit> limits;  ///< after the rounded cuts
  std::vector<std::string> warnings;
  /// Of a list decided by hand: what done cuts brought within its band, or past it; each a sentence.
  std::vector<std::string> left_alone = {};
};

/// A way that is not offered.
struct Refused {
  cuts::CutList cuts;
  std::string why;  ///< one sentence
};

struct Plan {
  std::vector<Wanted> wanted;
  std::vector<std::string> kept;     ///< what is held without a wish, or is within its band and left; each a sentence
  std::vector<std::string> untried;  ///< what was left out for want of readings, each a sentence
  std::vector<Way> ways;             ///< least metal first
  std::vector<Refused> refused;
};

/// Plans the wishes. Gaskets are the one fitted, none, and those at hand. No way adds metal; none passes a hard limit
/// with more than the stated chance, or brings the spigot into contact. Where no wish speaks of squish, chamber or a
/// ratio, the squish grows no wider than it is ("squish free" lets it). Errors, all at once: wishes that this saw
/// cannot have, wishes that contradict each other and by how much, a wish beyond a limit and the nearest that holds,
/// readings too poor to say, with those to take first. What the nearest is one number of stands in `readings` as a
/// whole wish to put in place of `wishes.N`, the path.
[[nodiscard]] base::ResultAll<Plan> make_plan(const Wishes& wishes, const geometry::Survey& survey,
                                              const Settings& settings);

/// A list of cuts that was decided by hand, as a way without wishes: in the order of the work (as it stands, where it
/// has welds, sleeves or parts of another file), its lengths rounded as a plan's, with metal, limits and warnings. With
/// done cuts the rest follows them: of turned and widened metal what is left of the amount, of an edge what brings it
/// where the whole list would have had it; what is within its band is left alone. Errors, all at once: cuts that do not
/// fit this saw or would put metal on, each with the path `cuts.N` or `done.N`; a hard limit passed by value or with
/// more than the stated chance; an engine that cannot be.
[[nodiscard]] base::ResultAll<Way> way_of(const cuts::CutList& list, const geometry::Survey& survey,
                                          const Settings& settings);

}  // namespace portwright::plan
