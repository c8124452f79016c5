// Asks from JSON, the server's own words to JSON, and the schemas of both.
#include "wire/asks.hpp"
#include "wire/json_walk.hpp"
#include "wire/shapes_asks.hpp"
#include "wire/shapes_network.hpp"
#include "wire/shapes_rubbing.hpp"

namespace portwright::wire {

template <class A>
base::Result<A> read_ask(std::string_view text) {
  return read_text<A>(text, Keys::refused);
}

template <class A>
std::string ask_text(const A& ask) {
  return written_text(ask);
}

namespace {
template <class... A>
std::vector<Schema> made() {
  return {schema_of<A>()...};
}
}  // namespace

std::vector<Schema> ask_schemas() {
  return made<AskBore, AskForm, AskSteps, RunCurve, RunTraces, SheetDrawing, AskBench, AskSaw, AskStudy, AskWhy,
              AskCheck, AskCompare, AskEdge, AskUnits, AskSisters, AskFind, AskJournal, AskNothing, AskJob, DoAdd,
              DoNew, DoSet, DoNote, DoResult, DoWood, DoFailure, DoCut, DoAccept, DoBorrow, DoSaw, DoCaption,
              DoHidePhoto, DoAct, RunAirflow, RunBands, RunCrank, SheetMap, SheetTemplate, SheetMeasuring, Enter,
              Problem, Entered, Started, JobState, Changed, Network, DoNetwork, DoRevoke, AnotherBrowser, SheetQr, Pair,
              KeptDevices, AskRubbing, DoRubbing, RunRevs, RunHeat, RunChain, AskPlan, SheetCuts, RunSeek>();
}

#define PORTWRIGHT_ASK(A)                                      \
  template base::Result<A> read_ask<A>(std::string_view text); \
  template std::string ask_text<A>(const A& ask);
PORTWRIGHT_ASK(AskBench)
PORTWRIGHT_ASK(AskSaw)
PORTWRIGHT_ASK(AskStudy)
PORTWRIGHT_ASK(AskWhy)
PORTWRIGHT_ASK(AskCheck)
PORTWRIGHT_ASK(AskCompare)
PORTWRIGHT_ASK(AskEdge)
PORTWRIGHT_ASK(AskUnits)
PORTWRIGHT_ASK(AskSisters)
PORTWRIGHT_ASK(AskFind)
PORTWRIGHT_ASK(AskJournal)
PORTWRIGHT_ASK(AskNothing)
PORTWRIGHT_ASK(AskJob)
PORTWRIGHT_ASK(DoAdd)
PORTWRIGHT_ASK(DoNew)
PORTWRIGHT_ASK(DoSet)
PORTWRIGHT_ASK(DoNote)
PORTWRIGHT_ASK(DoResult)
PORTWRIGHT_ASK(DoWood)
PORTWRIGHT_ASK(DoFailure)
PORTWRIGHT_ASK(DoCut)
PORTWRIGHT_ASK(DoAccept)
PORTWRIGHT_ASK(DoBorrow)
PORTWRIGHT_ASK(DoSaw)
PORTWRIGHT_ASK(DoCaption)
PORTWRIGHT_ASK(DoHidePhoto)
PORTWRIGHT_ASK(DoAct)
PORTWRIGHT_ASK(RunAirflow)
PORTWRIGHT_ASK(RunBands)
PORTWRIGHT_ASK(RunCrank)
PORTWRIGHT_ASK(RunRevs)
PORTWRIGHT_ASK(AskPlan)
PORTWRIGHT_ASK(RunSeek)
PORTWRIGHT_ASK(SheetCuts)
PORTWRIGHT_ASK(RunHeat)
PORTWRIGHT_ASK(RunChain)
PORTWRIGHT_ASK(SheetMap)
PORTWRIGHT_ASK(SheetTemplate)
PORTWRIGHT_ASK(SheetMeasuring)
PORTWRIGHT_ASK(AskBore)
PORTWRIGHT_ASK(AskForm)
PORTWRIGHT_ASK(AskSteps)
PORTWRIGHT_ASK(RunCurve)
PORTWRIGHT_ASK(RunTraces)
PORTWRIGHT_ASK(SheetDrawing)
PORTWRIGHT_ASK(Enter)
PORTWRIGHT_ASK(Problem)
PORTWRIGHT_ASK(Entered)
PORTWRIGHT_ASK(Started)
PORTWRIGHT_ASK(JobState)
PORTWRIGHT_ASK(Changed)
PORTWRIGHT_ASK(Network)
PORTWRIGHT_ASK(DoNetwork)
PORTWRIGHT_ASK(DoRevoke)
PORTWRIGHT_ASK(AnotherBrowser)
PORTWRIGHT_ASK(SheetQr)
PORTWRIGHT_ASK(Pair)
PORTWRIGHT_ASK(Here)
PORTWRIGHT_ASK(KeptDevices)
PORTWRIGHT_ASK(AskRubbing)
PORTWRIGHT_ASK(DoRubbing)
#undef PORTWRIGHT_ASK

}  // namespace portwright::wire
