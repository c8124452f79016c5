#pragma once
// What a drawing on a screen asks again and again: a saw is opened once and asked with many cut lists.

#include <memory>
#include <optional>
#include <string>

#include "base/error.hpp"
#include "base/number_text.hpp"
#include "wire/page_answer.hpp"

namespace portwright::desk {

/// A saw that was read once. Asked by several threads at a time it answers each.
class Opened;
using OpenedSaw = std::shared_ptr<const Opened>;

/// Opens a saw file (`-`: standard input; `book:NAME`: a saw of the book) as every use case does.
/// Errors: the file cannot be taken as a whole.
[[nodiscard]] base::ResultAll<OpenedSaw> open_saw(const std::string& file, const std::string& book = {});

/// What is asked of an opened saw.
struct WhatIf {
  std::string cuts;           ///< text; empty: the saw as it is
  std::optional<double> rpm;  ///< none: the in-cut reading, else 9,000
  base::UnitStyle style = base::UnitStyle::shop;
  bool next_reading = true;  ///< study: say which reading to take next
  bool own_files = true;     ///< no: cuts that name a file are refused as bad_cut
};

/// The bore unrolled, the piston, and what is open at each degree. Errors: the cut list cannot be taken as a whole, or
/// leaves an engine that cannot be.
[[nodiscard]] base::ResultAll<wire::BoreAnswer> bore(const Opened& saw, const WhatIf& what_if);

struct BoreRequest {
  std::string file;
  WhatIf what_if;
  std::string book = {};
};
[[nodiscard]] base::ResultAll<wire::BoreAnswer> bore(const BoreRequest& request);

}  // namespace portwright::desk
