#pragma once
// Answers to JSON and back, and the schemas of both, all by the table of wire/shapes.hpp.

#include <string>
#include <string_view>
#include <vector>

#include "wire/answer.hpp"

namespace portwright::wire {

/// An answer as JSON text, keys in the table's order, two blanks of indent, a line end at the end. Text that is not
/// UTF-8 gets U+FFFD in its place. A number that is not finite is a broken contract (std::logic_error): none may reach
/// an answer. A: StudyAnswer, WhyAnswer, CheckAnswer, CompareAnswer, EdgeAnswer, UnitsAnswer, RunAnswer,
/// CrankAnswer, AirflowAnswer, WrittenAnswer, ErrorAnswer and the answers of wire/book_answer.hpp.
template <class A>
[[nodiscard]] std::string to_json(const A& answer);

/// The answer back from its text; keys that the table does not have are passed over. Errors: unreadable, with the
/// place.
template <class A>
[[nodiscard]] base::Result<A> from_json(std::string_view text);

/// One published schema (JSON Schema 2020-12).
struct Schema {
  std::string name;  ///< "study": kept as docs/schema/study.json
  std::string text;
};
/// Schemas of all answers, in the table's order.
[[nodiscard]] std::vector<Schema> schemas();
/// Schemas of what may be asked of the server, and of what it says of itself.
[[nodiscard]] std::vector<Schema> ask_schemas();

}  // namespace portwright::wire
