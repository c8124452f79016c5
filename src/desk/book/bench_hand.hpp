#pragma once
// The builder's own scatter from the cut lists of a book. Inside the module only.

#include <string>

#include "plan/own_hand.hpp"

namespace portwright::desk {

struct BenchHand {
  plan::OwnHand ground, turned;
  int ground_saws = 0, turned_saws = 0;
};

/// From every done list of the book that has the planned amounts beside it (`planned` of the record), or of whose saw a
/// planned list has the most of its cuts. A cut that several lists of one saw repeat counts once. No pair, no book or a
/// book that cannot be read: the defaults, with no cuts.
/// @param file the saw that is asked about: where it is none of the book, and no book is named, none is looked at
[[nodiscard]] BenchHand bench_hand(const std::string& file, const std::string& book);

}  // namespace portwright::desk
