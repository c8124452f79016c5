#include "wire/json.hpp"

#include "wire/json_page.hpp"
#include "wire/json_walk.hpp"
#include "wire/shapes_book.hpp"
#include "wire/shapes_bottom_end.hpp"
#include "wire/shapes_curve.hpp"
#include "wire/shapes_heat.hpp"
#include "wire/shapes_plan.hpp"
#include "wire/shapes_run.hpp"
#include "wire/shapes_seek.hpp"

namespace portwright::wire {

const char* program_name() { return "portwright " PORTWRIGHT_VERSION; }

template <class A>
std::string to_json(const A& answer) {
  return written_text(answer);
}

template <class A>
base::Result<A> from_json(std::string_view text) {
  return read_text<A>(text, Keys::passed_over);
}

template <class... A>
std::vector<Schema> schemas_of() {
  return {schema_of<A>()...};
}

std::vector<Schema> schemas() {
  std::vector<Schema> all =
      schemas_of<StudyAnswer, WhyAnswer, CheckAnswer, CompareAnswer, EdgeAnswer, UnitsAnswer, RunAnswer, CrankAnswer,
                 AirflowAnswer, CurveAnswer, TracesAnswer, RevsAnswer, ChainAnswer, HeatAnswer, PlanAnswer, SeekAnswer,
                 WrittenAnswer, ErrorAnswer, BookAddAnswer, BookListAnswer, BookShowAnswer, BookPhotosAnswer,
                 BookDoneAnswer, BookJournalAnswer, BookFindAnswer, BookSistersAnswer, BookWhereAnswer,
                 BookBackupAnswer, BookRestoreAnswer, BookVerifyAnswer, BookExportAnswer, BookImportAnswer>();
  for (Schema& page : page_schemas()) all.push_back(std::move(page));
  return all;
}

#define PORTWRIGHT_ANSWER(A)                        \
  template std::string to_json<A>(const A& answer); \
  template base::Result<A> from_json<A>(std::string_view text);
PORTWRIGHT_ANSWER(StudyAnswer)
PORTWRIGHT_ANSWER(WhyAnswer)
PORTWRIGHT_ANSWER(CheckAnswer)
PORTWRIGHT_ANSWER(CompareAnswer)
PORTWRIGHT_ANSWER(EdgeAnswer)
PORTWRIGHT_ANSWER(UnitsAnswer)
PORTWRIGHT_ANSWER(RunAnswer)
PORTWRIGHT_ANSWER(CrankAnswer)
PORTWRIGHT_ANSWER(AirflowAnswer)
PORTWRIGHT_ANSWER(CurveAnswer)
PORTWRIGHT_ANSWER(TracesAnswer)
PORTWRIGHT_ANSWER(RevsAnswer)
PORTWRIGHT_ANSWER(ChainAnswer)
PORTWRIGHT_ANSWER(HeatAnswer)
PORTWRIGHT_ANSWER(PlanAnswer)
PORTWRIGHT_ANSWER(SeekAnswer)
PORTWRIGHT_ANSWER(WrittenAnswer)
PORTWRIGHT_ANSWER(ErrorAnswer)
PORTWRIGHT_ANSWER(BookAddAnswer)
PORTWRIGHT_ANSWER(BookListAnswer)
PORTWRIGHT_ANSWER(BookShowAnswer)
PORTWRIGHT_ANSWER(BookPhotosAnswer)
PORTWRIGHT_ANSWER(BookDoneAnswer)
PORTWRIGHT_ANSWER(BookJournalAnswer)
PORTWRIGHT_ANSWER(BookFindAnswer)
PORTWRIGHT_ANSWER(BookSistersAnswer)
PORTWRIGHT_ANSWER(BookWhereAnswer)
PORTWRIGHT_ANSWER(BookBackupAnswer)
PORTWRIGHT_ANSWER(BookRestoreAnswer)
PORTWRIGHT_ANSWER(BookVerifyAnswer)
PORTWRIGHT_ANSWER(BookExportAnswer)
PORTWRIGHT_ANSWER(BookImportAnswer)
#undef PORTWRIGHT_ANSWER

}  // namespace portwright::wire
