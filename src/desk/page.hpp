#pragma once
// What a drawing on a screen asks again and again: a saw is opened once and asked with many cut lists.

#include <memory>
#include <optional>
#include <string>
#include <vector>

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
};

/// Figures, findings, gaps. Errors: as of bore().
[[nodiscard]] base::ResultAll<wire::StudyAnswer> study(const Opened& saw, const WhatIf& what_if);

/// The bore unrolled, the piston, and what is open at each degree. Errors: the cut list cannot be taken as a whole, or
/// leaves an engine that cannot be.
[[nodiscard]] base::ResultAll<wire::BoreAnswer> bore(const Opened& saw, const WhatIf& what_if);

struct BoreRequest {
  std::string file;
  WhatIf what_if;
  std::string book = {};
};
[[nodiscard]] base::ResultAll<wire::BoreAnswer> bore(const BoreRequest& request);

/// A saw's readings in the order of the work, taken or not. From an opened saw without what the book alone knows: the
/// revision and what was borrowed.
[[nodiscard]] wire::FormAnswer form(const Opened& saw, base::UnitStyle style);

struct FormRequest {
  std::string file;
  base::UnitStyle style = base::UnitStyle::shop;
  std::string book = {};
};
[[nodiscard]] base::ResultAll<wire::FormAnswer> form(const FormRequest& request);

/// A drawing of the measuring sheet by itself, as SVG text, in the colours of paper.
struct DrawingRequest {
  std::string name;             ///< as a form's field has it
  int number = 0;               ///< the reading in hand, its number is blue; 0: none
  std::string id_prefix = "d";  ///< begins every id in it
};
/// Errors: not_found with the nearest name.
[[nodiscard]] base::ResultAll<std::string> drawing(const DrawingRequest& request);

/// A text as a QR code for a phone's camera: SVG text, black on white, with its quiet zone. `says` is its sentence for
/// who cannot see it. Errors: out_of_range, too long a text.
[[nodiscard]] base::ResultAll<std::string> qr_code(const std::string& text, const std::string& says);

/// A cut list as steps with bounds, or steps as a cut list; and the cuts that this saw allows after it.
struct StepsRequest {
  std::string cuts;                   ///< text; of no account when there are steps
  std::vector<wire::StepIn> steps{};  ///< instead of text
};
/// Errors: bad_cut and the like at `cuts.N`, N from 1, when the list cannot be read. What the saw refuses of a list
/// that can be read stands in the answer's `head.errors`, and the steps have their bounds all the same.
[[nodiscard]] base::ResultAll<wire::StepsAnswer> steps(const Opened& saw, const StepsRequest& request);

}  // namespace portwright::desk
