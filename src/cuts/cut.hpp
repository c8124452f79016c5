#pragma once
// A cut as data: what is done, to what, by how much; its text form, and its effect on an engine.

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.hpp"
#include "geometry/survey.hpp"

namespace portwright::cuts {

enum class Act {
  gasket_out,
  gasket_to,
  base,
  band,
  crown_edge,
  dome,
  roof,
  floor,
  widen,
  corner,
  outline,
  skirt,
  mouth,
  case_volume,
  stuff,
  swap,
  petal,
  venturi,
  outlets,
  advance,
  octane,
  weld,
  sleeve,
};

/// One operation. Amounts are SI and carry the sign as typed: "base -0.5 mm" has amount -0.0005.
struct Cut {
  Act act = Act::base;
  std::string port;  ///< by name; empty where there is none
  std::string side;  ///< skirt: exhaust|intake|side; widen: left|right or empty for each side; corner, weld: roof|floor
  double amount = 0.0;          ///< change, or size after `to` [SI of the act]
  double width = 0.0;           ///< crown edge: width of the turned ring [m]
  std::vector<double> amounts;  ///< outlets [m²]
  std::string part;             ///< swap: piston|cylinder|reed|carburettor|muffler; octane: pump|research|motor
  std::string file;             ///< outline, swap
  std::string text;             ///< as typed
};

/// Same operation, however it was typed.
[[nodiscard]] bool operator==(const Cut& a, const Cut& b);

using CutList = std::vector<Cut>;

/// "base -0.5 mm; roof exhaust +0.5 mm". All errors at once, each with the cut as typed and the path `cuts.N`, N
/// from 1. A unit or a sign left out is asked for: `readings` are whole cuts that can be read. At most 64 KiB and 200
/// cuts; an empty list is no cut. Amounts are kept to 12 digits of their canonical unit. The grammar stands in
/// docs/cuts.md.
[[nodiscard]] base::ResultAll<CutList> parse_cuts(std::string_view text);

/// Canonical text in mm, cm2, cc and deg; parse_cuts gives the same list back, if its amounts have no more than 12
/// digits.
[[nodiscard]] std::string cut_text(const Cut& cut);
[[nodiscard]] std::string cuts_text(const CutList& cuts);

/// The cut that undoes this one, where there is one: every change by an amount has it, what is brought to a size has
/// none.
[[nodiscard]] std::optional<Cut> inverse(const Cut& cut);

/// What a cut list needs beside the engine, resolved once outside the sampled path: ports by entry, outlines read,
/// parts swapped in.
struct Prepared;

/// Names ports and files; errors for a port that is not there, a file that cannot be read, a cut that does not fit this
/// saw.
/// @param folder where relative file names start
[[nodiscard]] base::ResultAll<std::shared_ptr<const Prepared>> prepare(const CutList& cuts,
                                                                       const geometry::Survey& survey,
                                                                       const std::string& folder);

/// The engine after the cuts: numbers to numbers, no allocation, no text. A cut on what is unknown leaves it unknown.
void apply(const Prepared& cuts, geometry::Engine& engine);
/// The same with the first `count` cuts of the list alone.
void apply(const Prepared& cuts, geometry::Engine& engine, std::size_t count);

/// What the cuts take off and what they put on, and what to know before cutting.
struct Account {
  base::Known metal;                  ///< removed [m³]; negative: added. A gasket is none
  std::vector<std::string> warnings;  ///< "widen exhaust −1 mm adds metal: weld or sleeve"
};
[[nodiscard]] Account account(const CutList& cuts, const geometry::Survey& survey, const geometry::Engine& stock,
                              const std::string& folder);

}  // namespace portwright::cuts
