#pragma once
// Cuts that a search may turn up and down: each one amount, of one cut or of the same cut on every port of a kind.

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.hpp"
#include "cuts/cut.hpp"
#include "geometry/survey.hpp"

namespace portwright::plan {

/// One free amount. `most` is in its unit: [m], of the advance [rad], of a mouth the share of the way to its foot's
/// area (1: the case follows the passage all round), of the outlets their area over what it is.
struct Knob {
  enum class Kind {
    base,
    band,
    crown_edge,
    dome,
    widen,
    roof,
    floor,
    skirt_intake,
    mouth,
    outlets,
    advance,
  };
  Kind kind = Kind::base;
  std::vector<std::string> ports;  ///< by name; empty for a cut of the whole saw
  std::string name;                ///< as it is asked for: "roof exhaust", "mouth transfers"
  std::string label;               ///< "Raise the exhaust roof"
  double most = 0.0;
  double width = 0.0;         ///< of the crown edge's ring [m]
  std::vector<double> least;  ///< of a mouth, each port's now; of the outlets, each one's now [m²]
  std::vector<double> whole;  ///< of a mouth, each port's foot [m²]
  std::vector<double> ledge;  ///< of a mouth, height of what stands in it times the number of windows [m]; 0: not read

  /// The cuts of an amount; none of none. Opening a mouth takes its ledge out of the case, where its height was read,
  /// and that stands among them as a case that is larger.
  [[nodiscard]] cuts::CutList cuts(double amount) const;
  /// A length [m] that a hand cuts; else a share or an angle.
  [[nodiscard]] bool is_length() const { return kind != Kind::mouth && kind != Kind::outlets && kind != Kind::advance; }
  /// "0.45 mm", "+4 deg", "60 % of the way open".
  [[nodiscard]] std::string amount_text(double amount) const;
};

/// What may be asked for on this saw, the usual six first. How far each goes without being asked is own judgement, and
/// what a search finds often lies at that end: turned 1 mm, an exhaust roof 2 mm, ground elsewhere 1.5 mm, a skirt
/// 2 mm, advance 4 deg, outlets twice as wide.
[[nodiscard]] std::vector<Knob> knobs_of(const geometry::Survey& survey, const geometry::Engine& stock);

/// Those of a list: "base; roof exhaust up to 1.2 mm; widen exhaust; mouths". Empty: the usual ones. Errors, each with
/// the path `free.N`: a word that is none, with the nearest; a cut that this saw has not; an end that is no amount of
/// it.
[[nodiscard]] base::ResultAll<std::vector<Knob>> chosen(const std::vector<Knob>& all, std::string_view text);

/// The list of cuts of some amounts, in the order of the work.
[[nodiscard]] cuts::CutList cuts_of(std::span<const Knob> knobs, std::span<const double> amounts);

}  // namespace portwright::plan
