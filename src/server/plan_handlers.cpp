// Wishes, plans, and the cut sheet.
#include "desk/cut_sheet.hpp"
#include "server/answering.hpp"
#include "server/handlers.hpp"

namespace portwright::server {
namespace {

template <class Ask>
desk::PlanRequest request_of(const Ask& ask, const Call& call) {
  return {of_book(ask.saw), ask.wish, ask.gaskets, ask.step, ask.chance, ask.done, ask.rpm, ask.units, call.book.path};
}

}  // namespace

Response ask_plan(const Call& call) {
  return with<wire::AskPlan>(call, [&](const wire::AskPlan& ask) {
    if (auto refused = Screen().id(ask.saw).cuts(ask.done).rpm(ask.rpm).refusal()) return *refused;
    return reply(desk::plan(request_of(ask, call)));
  });
}

Response sheet_cuts(const Call& call) {
  return with<wire::SheetCuts>(call, [&](const wire::SheetCuts& ask) {
    if (auto refused = Screen().id(ask.saw).cuts(ask.done).rpm(ask.rpm).refusal()) return *refused;
    if (auto refused = Screen().cuts(ask.cuts).refusal()) return *refused;
    const auto drawn =
        desk::cut_sheet_drawn({request_of(ask, call), ask.way, ask.band, ask.hand, ask.paper, "", ask.cuts});
    return drawn ? sheet_response(drawn->bytes, "application/pdf", "cut_sheet.pdf") : problem(drawn.error());
  });
}

}  // namespace portwright::server
