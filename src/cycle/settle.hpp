#pragma once
// From any state to the one that repeats itself turn after turn.

#include "cycle/course.hpp"

namespace portwright::cycle {

/// What the turns after the search say of the answer.
/// steep is said of a whole curve: each turn there repeats, but power leaves its neighbours' line.
enum class Label { stable, alternating, two_solution, steep, not_settled };

struct Search {
  double tolerance = 5e-5;  ///< true error asked for, of the mean effective pressure [-]
  int most_turns = 100;     ///< of the search
  int proof_turns = 6;      ///< plain turns after a push, even; the twin that is not pushed turns as often
  int plain_turns = 3;      ///< before it
  int small_steps = 1;      ///< turns in a row that must move the work by little: one alone may do so by chance
};

struct Settled {
  State state;
  Turn turn;  ///< the last one
  Label label = Label::not_settled;
  int turns = 0;
  double multiplier = 1.0;  ///< what a turn leaves of a small push [-]
  double error = 1.0;       ///< estimate of the true error of the mean effective pressure [-]
};

/// Anderson acceleration (memory 5) of the map from one turn's start to the next, over the whole scaled state of the
/// gas; a step that would leave it somewhere without mass or heat is not taken, shares beyond nothing or all are drawn
/// in, and where mixing gets no nearer turns follow each other as they come for a while. @source{walker_ni2011,
/// algorithm AA}
/// Such a search also finds an orbit that nothing would hold. So the answer is then pushed a little, and plain turns of
/// it and of a twin that was not pushed tell its multiplier: stable when that is under 1 and what is still to come,
/// change m / (1 - m), under the tolerance. Ends after `most_turns` with the best so far and its label; stopped, at
/// once, and what it holds is no answer.
void settle(March& march, State& state, const Search& search, Settled& out, const StopCall& stop = {});

/// The search alone, ended when a turn moves the work by less than the tolerance: near enough for a first look. Whether
/// such a turn would hold is not asked, so its label stays not_settled.
void look(March& march, State& state, const Search& search, Settled& out, const StopCall& stop = {});

/// Both as courses that may wait for their turns.
Course settling(Turner& turner, March& march, State& state, const Search& search, Settled& out, StopCall stop);
Course looking(Turner& turner, March& march, State& state, const Search& search, Settled& out, StopCall stop);

/// Net indicated mean effective pressure of a turn, the case's pumping taken off [Pa].
[[nodiscard]] double net_pressure(const Network& network, const Turn& turn);

}  // namespace portwright::cycle
