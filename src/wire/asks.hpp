#pragma once
// What may be asked of the server, and what it says of itself, as plain data. A saw is named by its id, never by a
// path; what each field means is said once, in wire/shapes_asks.hpp. Fields with a default may be left out; a key that
// is not here is refused.

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.hpp"
#include "base/number_text.hpp"
#include "wire/network_answer.hpp"
#include "wire/page_answer.hpp"
#include "wire/rubbing_answer.hpp"

namespace portwright::wire {

/// The saws of the book.
struct AskBench {
  bool hidden = false;
  bool all = false;
};

/// One saw with all that belongs to it.
struct AskSaw {
  std::string saw = {};
};

/// Figures, findings and the reading to take next.
struct AskStudy {
  std::string saw = {};
  std::string cuts = {};
  std::optional<double> rpm = {};
  base::UnitStyle units = base::UnitStyle::shop;
};

/// One figure and what it is made of.
struct AskWhy {
  std::string saw = {};
  std::string figure = {};
  std::string cuts = {};
  std::optional<double> rpm = {};
  base::UnitStyle units = base::UnitStyle::shop;
};

/// Readings held against each other.
struct AskCheck {
  std::string saw = {};
  base::UnitStyle units = base::UnitStyle::shop;
};

/// Two saws, or two cut lists of one.
struct AskCompare {
  std::string saw = {};
  std::string saw_b = {};
  std::string cuts = {};
  std::string cuts_b = {};
  std::optional<double> rpm = {};
  base::UnitStyle units = base::UnitStyle::shop;
};

/// One edge in all its forms.
struct AskEdge {
  std::string saw = {};
  std::string port = {};
  std::string edge = {};
  std::string at = {};
  std::string cuts = {};
  base::UnitStyle units = base::UnitStyle::shop;
};

/// A typed quantity in every unit of its kind.
struct AskUnits {
  std::string text = {};
  base::UnitStyle units = base::UnitStyle::shop;
};

/// Saws of one model side by side.
struct AskSisters {
  std::string model = {};
  base::UnitStyle units = base::UnitStyle::shop;
};

/// The bore unrolled, the piston, and what is open at each degree.
struct AskBore {
  std::string saw = {};
  std::string cuts = {};
  base::UnitStyle units = base::UnitStyle::shop;
};

/// A saw's readings in the order of the work, taken or not.
struct AskForm {
  std::string saw = {};
  base::UnitStyle units = base::UnitStyle::shop;
};

/// A cut list as steps, or steps as a cut list.
struct AskSteps {
  std::string saw = {};
  std::string cuts = {};
  std::vector<StepIn> steps = {};
};

/// Words in the book.
struct AskFind {
  std::string text = {};
};

/// What was done, newest first.
struct AskJournal {
  std::string saw = {};
  int limit = 20;
};

/// Nothing more to say.
struct AskNothing {};

/// How far a job is.
struct AskJob {
  std::string job = {};
};

/// A saw file taken into the book.
struct DoAdd {
  std::string text = {};
  std::string name = {};
  std::string to = {};
  std::string token = {};
  std::string client = {};
};

/// A saw with nothing read yet.
struct DoNew {
  std::string name = {};
  std::string model = {};
  std::string token = {};
  std::string client = {};
};

/// One field of the newest readings.
struct DoSet {
  std::string saw = {};
  std::string field = {};
  std::string value = {};
  bool clear = false;
  bool again = false;
  std::optional<std::string> with = {};
  std::optional<std::string> setup = {};
  std::optional<std::string> note = {};
  std::string base = {};
  std::string token = {};
  std::string client = {};
};

/// A note on a saw.
struct DoNote {
  std::string saw = {};
  std::string text = {};
  std::string token = {};
  std::string client = {};
};

/// The figures as they are now, kept with their case.
struct DoResult {
  std::string saw = {};
  std::string cuts = {}, title = {};
  std::string token = {}, client = {};
};

/// A test in the wood, everything as typed.
struct DoWood {
  std::string saw = {};
  std::string date = {};
  std::string wood = {};
  std::string bar = {};
  std::string chain = {};
  std::string times = {};
  std::string rpm = {};
  std::string gauge = {};
  std::string felt = {};
  std::string token = {};
  std::string client = {};
};

/// Something that broke.
struct DoFailure {
  std::string saw = {};
  std::string text = {};
  std::string where = {};
  std::string cause = {};
  std::string seen = {};
  std::string token = {};
  std::string client = {};
};

/// A cut list of a saw: planned, or done.
struct DoCut {
  std::string saw = {};
  std::string cuts = {};
  std::string title = {};
  bool done = false;
  std::string planned = {};
  std::string list = {};
  std::string token = {};
  std::string client = {};
};

/// A finding accepted, with a reason.
struct DoAccept {
  std::string saw = {};
  std::string finding = {};
  std::string reason = {};
  std::string cuts = {};
  std::string token = {};
  std::string client = {};
};

/// A new saw from a sister's readings.
struct DoBorrow {
  std::string sister = {};
  std::string name = {};
  std::string token = {};
  std::string client = {};
};

/// A saw put out of sight or brought back.
struct DoSaw {
  std::string saw = {};
  std::string token = {};
  std::string client = {};
};

/// Words under a photo.
struct DoCaption {
  std::string photo = {};
  std::string text = {};
  std::string base = {};
  std::string token = {};
  std::string client = {};
};

/// A photo put out of sight.
struct DoHidePhoto {
  std::string photo = {};
  std::string token = {};
  std::string client = {};
};

/// Nothing but who writes.
struct DoAct {
  std::string token = {};
  std::string client = {};
};

/// Power and torque over the speed, in parts as they get better.
struct RunCurve {
  std::string saw = {};
  std::string cuts = {};
  std::string speeds = {};
  bool settle = true;
  base::UnitStyle units = base::UnitStyle::shop;
  std::string client = {};
};

/// A turn instant by instant.
struct RunTraces {
  std::string saw = {};
  std::string cuts = {};
  std::string speed = {};
  base::UnitStyle units = base::UnitStyle::shop;
  std::string client = {};
};

/// The air's way at one speed.
struct RunAirflow {
  std::string saw = {};
  std::string cuts = {};
  std::string speed = {};
  base::UnitStyle units = base::UnitStyle::shop;
  std::string client = {};
};

/// The engine cranked by hand.
struct RunCrank {
  std::string saw = {};
  std::string cuts = {};
  base::UnitStyle units = base::UnitStyle::shop;
  std::string client = {};
};

/// What the bottom end carries and stands.
struct RunRevs {
  std::string saw = {};
  std::string cuts = {};
  std::string speed = {};
  base::UnitStyle units = base::UnitStyle::shop;
  std::string client = {};
};

/// Where cylinder and piston run hot.
struct RunHeat {
  std::string saw = {};
  std::string cuts = {};
  std::string speed = {};
  bool brief = false;
  base::UnitStyle units = base::UnitStyle::shop;
  std::string client = {};
};

/// What reaches the chain, and which sprocket.
struct RunChain {
  std::string saw = {};
  std::string cuts = {};
  base::UnitStyle units = base::UnitStyle::shop;
  std::string client = {};
};

/// How far a change can be told.
struct RunBands {
  std::string saw = {};
  std::string cuts = {};
  base::UnitStyle units = base::UnitStyle::shop;
  std::string client = {};
};

/// Cut lists for a wish about the engine.
struct RunSeek {
  std::string saw = {};
  std::string wish = {};
  std::string free = {};
  std::string step = {};
  std::string chance = {};
  std::string memory = {};
  std::optional<double> seconds = {};
  base::UnitStyle units = base::UnitStyle::shop;
  std::string client = {};
};

/// From wishes to cuts.
struct AskPlan {
  std::string saw = {};
  std::string wish = {};
  std::string gaskets = {};
  std::string step = {};
  std::string chance = {};
  std::string done = {};
  std::optional<double> rpm = {};
  base::UnitStyle units = base::UnitStyle::shop;
};

/// One way, or cuts decided by hand, as a cut sheet, PDF.
struct SheetCuts {
  std::string saw = {};
  std::string wish = {};
  std::string cuts = {};
  std::string gaskets = {};
  std::string step = {};
  std::string chance = {};
  std::string done = {};
  std::optional<double> rpm = {};
  int way = 1;
  std::string band = {};
  std::string hand = {};
  std::string paper = {};
  base::UnitStyle units = base::UnitStyle::shop;
};

/// True-scale map of the bore, SVG.
struct SheetMap {
  std::string saw = {};
  std::string cuts = {};
  std::string at = {};
  base::UnitStyle units = base::UnitStyle::shop;
};

/// True-scale template, PDF.
struct SheetTemplate {
  std::string saw = {};
  std::string cuts = {};
  std::string paper = {};
  std::string printer = {};
  std::string paper_thickness = {};
  base::UnitStyle units = base::UnitStyle::shop;
};

/// Sheet to fill at the bench, PDF.
struct SheetMeasuring {
  std::string paper = {};
};

/// A drawing of the measuring sheet by itself, SVG.
struct SheetDrawing {
  std::string name = {};
  int number = 0;
  std::string id_prefix = "d";
};

/// The one-time token of the address.
struct Enter {
  std::string token = {};
};

/// What went wrong (RFC 9457).
struct Problem {
  std::string type = {};
  std::string title = {};
  int status = 0;
  std::string detail = {};
  base::Errors errors = {};
  std::optional<std::string> mine = {};
  std::optional<std::string> theirs = {};
  std::optional<std::string> revision = {};
};

/// The door is open.
struct Entered {
  std::int64_t epoch = 0;
  std::int64_t last = 0;
  bool demo = false;
  std::string author = {};
  std::string role = {};
};

/// A job was started, or told to stop.
struct Started {
  std::string job = {};
};

/// How far a job is.
struct JobState {
  std::string job = {};
  std::string name = {};
  std::string state = {};
  double share = 0.0;
  std::string what = {};
};

/// The book has something new, or another one is open.
struct Changed {
  std::int64_t last = 0;
  std::int64_t epoch = 0;
  bool demo = false;
};

/// An ask from its text. Errors: unreadable with the place; unknown_key for a key that it does not have.
template <class A>
[[nodiscard]] base::Result<A> read_ask(std::string_view text);

/// An ask, or what the server says of itself, as JSON.
template <class A>
[[nodiscard]] std::string ask_text(const A& ask);

}  // namespace portwright::wire
