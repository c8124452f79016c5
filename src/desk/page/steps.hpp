#pragma once
// Cuts taken apart into an amount and the words about it, and put together again. Inside the module only.

#include "cuts/grammar.hpp"
#include "wire/page_answer.hpp"

namespace portwright::desk {

/// A cut as act, amount, unit and tail.
[[nodiscard]] wire::Step step_of(const cuts::Cut& cut);

/// The text of a cut from its parts; what it says is for parse_cuts to judge.
/// Error: bad_cut at `cuts.N`, when a part would end the cut and begin another.
[[nodiscard]] base::Result<std::string> text_of(const wire::StepIn& step, std::size_t number);

/// What a rule for an amount reaches over, in the canonical unit.
struct StepRule {
  double from = 0.0, to = 0.0, step = 0.1;
  double first = 0.0;  ///< of a cut that is added: its amount, or for a size what it differs from what is there
};
/// Own judgement: what a builder takes in one go. `now` is the size that is there, where the act brings it to one.
[[nodiscard]] StepRule rule_of(const cuts::Cut& cut, std::optional<double> now);

/// What the act brings to a size, as it is [SI]; 0 for a change, when what it works on is known.
[[nodiscard]] base::Known size_now(const geometry::Engine& engine, const cuts::Cut& cut, int entry);

/// Number in the canonical unit times this is SI.
[[nodiscard]] double si_per_unit(const cuts::Cut& cut);

/// Cuts that an engine of this kind has something to work on for, each without an amount.
[[nodiscard]] std::vector<cuts::Cut> possible_cuts(const geometry::Survey& survey, const geometry::Engine& engine);

}  // namespace portwright::desk
