#pragma once
// The part of the table of shapes that speaks of what may be asked of the server; see wire/shapes.hpp, which it goes on
// from. `may` is a field that may be left out and then has its default.

#include "wire/asks.hpp"
#include "wire/shapes.hpp"
#include "wire/shapes_page.hpp"

namespace portwright::wire {

template <>
struct EnumWords<base::UnitStyle> {
  static constexpr std::array words{"shop", "metric"};
};

template <class V>
void shape(V& v, Of<AskBench> auto& s) {
  v.is("ask-bench", "The saws of the book.");
  v.may("hidden", s.hidden, "those that are hidden instead of the others");
  v.may("all", s.all, "more than two hundred");
}

template <class V>
void shape(V& v, Of<AskSaw> auto& s) {
  v.is("ask-saw", "One saw with all that belongs to it.");
  v.field("saw", s.saw, "id of the saw, or of a set of its readings");
}

template <class V>
void shape(V& v, Of<AskStudy> auto& s) {
  v.is("ask-study", "Figures, findings and the reading to take next.");
  v.field("saw", s.saw, "id of the saw");
  v.may("cuts", s.cuts, "cuts to try, parted by semicolons; none may name a file");
  v.maybe("rpm", s.rpm, "speed [rpm]; left out: the in-cut reading, else 9,000");
  v.may("units", s.units, "shop or metric");
}

template <class V>
void shape(V& v, Of<AskWhy> auto& s) {
  v.is("ask-why", "One figure and what it is made of.");
  v.field("saw", s.saw, "id of the saw");
  v.field("figure", s.figure, "id of the figure, or its end");
  v.may("cuts", s.cuts, "cuts to try, parted by semicolons; none may name a file");
  v.maybe("rpm", s.rpm, "speed [rpm]; left out: the in-cut reading, else 9,000");
  v.may("units", s.units, "shop or metric");
}

template <class V>
void shape(V& v, Of<AskCheck> auto& s) {
  v.is("ask-check", "Readings held against each other.");
  v.field("saw", s.saw, "id of the saw");
  v.may("units", s.units, "shop or metric");
}

template <class V>
void shape(V& v, Of<AskCompare> auto& s) {
  v.is("ask-compare", "Two saws, or two cut lists of one.");
  v.field("saw", s.saw, "id of the first saw");
  v.may("saw_b", s.saw_b, "id of the second; empty: the same");
  v.may("cuts", s.cuts, "cuts to try, parted by semicolons; none may name a file");
  v.may("cuts_b", s.cuts_b, "cuts of the second case");
  v.maybe("rpm", s.rpm, "speed [rpm]; left out: the in-cut reading, else 9,000");
  v.may("units", s.units, "shop or metric");
}

template <class V>
void shape(V& v, Of<AskEdge> auto& s) {
  v.is("ask-edge", "One edge in all its forms.");
  v.field("saw", s.saw, "id of the saw");
  v.field("port", s.port, "the port");
  v.may("edge", s.edge, "roof or floor; empty: the one that opens the port");
  v.may("at", s.at, "the place asked about; empty: as read");
  v.may("cuts", s.cuts, "cuts to try, parted by semicolons; none may name a file");
  v.may("units", s.units, "shop or metric");
}

template <class V>
void shape(V& v, Of<AskUnits> auto& s) {
  v.is("ask-units", "A typed quantity in every unit of its kind.");
  v.field("text", s.text, "as typed");
  v.may("units", s.units, "shop or metric");
}

template <class V>
void shape(V& v, Of<AskSisters> auto& s) {
  v.is("ask-sisters", "Saws of one model side by side.");
  v.field("model", s.model, "model, or id of a saw of it");
  v.may("units", s.units, "shop or metric");
}

template <class V>
void shape(V& v, Of<AskFind> auto& s) {
  v.is("ask-find", "Words in the book.");
  v.field("text", s.text, "words");
}

template <class V>
void shape(V& v, Of<AskJournal> auto& s) {
  v.is("ask-journal", "What was done, newest first.");
  v.may("saw", s.saw, "id of a saw; empty: everything");
  v.may("limit", s.limit, "so many actions, 1 to 1,000");
}

template <class V>
void shape(V& v, Of<AskNothing> auto&) {
  v.is("ask-nothing", "Nothing more to say.");
}

template <class V>
void shape(V& v, Of<AskJob> auto& s) {
  v.is("ask-job", "How far a job is.");
  v.field("job", s.job, "its id");
}

template <class V>
void shape(V& v, Of<DoAdd> auto& s) {
  v.is("do-add", "A saw file taken into the book.");
  v.field("text", s.text, "text of the saw file");
  v.may("name", s.name, "name of the file");
  v.may("to", s.to, "id of the saw whose further readings these are; empty: a saw of its own");
  v.may("token", s.token, "the same when the request is tried again: it is done once");
  v.may("client", s.client, "the tab that writes");
}

template <class V>
void shape(V& v, Of<DoNew> auto& s) {
  v.is("do-new", "A saw with nothing read yet.");
  v.field("name", s.name, "its name");
  v.may("model", s.model, "words that tie sisters together");
  v.may("token", s.token, "the same when the request is tried again: it is done once");
  v.may("client", s.client, "the tab that writes");
}

template <class V>
void shape(V& v, Of<DoSet> auto& s) {
  v.is("do-set", "One field of the newest readings.");
  v.field("saw", s.saw, "id of the saw");
  v.field("field", s.field, "field, by port name: port.exhaust.opens");
  v.may("value", s.value, "as typed; members of a list parted by semicolons");
  v.may("clear", s.clear, "take the reading out instead");
  v.may("again", s.again, "a further reading beside those that are there");
  v.maybe("with", s.with, "instrument");
  v.maybe("setup", s.setup, "set-up that readings share");
  v.maybe("note", s.note, "note");
  v.may("base", s.base, "revision that the writer saw; or the header If-Match");
  v.may("token", s.token, "the same when the request is tried again: it is done once");
  v.may("client", s.client, "the tab that writes");
}

template <class V>
void shape(V& v, Of<DoNote> auto& s) {
  v.is("do-note", "A note on a saw.");
  v.field("saw", s.saw, "id of the saw");
  v.field("text", s.text, "the note");
  v.may("token", s.token, "the same when the request is tried again: it is done once");
  v.may("client", s.client, "the tab that writes");
}

template <class V>
void shape(V& v, Of<DoResult> auto& s) {
  v.is("do-result", "The figures as they are now, kept with their case and the program's version.");
  v.field("saw", s.saw, "id of the saw");
  v.may("cuts", s.cuts, "the what-if; none: the saw as it is");
  v.may("title", s.title, "a name for it");
  v.may("token", s.token, "the same when the request is tried again: it is done once");
  v.may("client", s.client, "the tab that writes");
}

template <class V>
void shape(V& v, Of<DoWood> auto& s) {
  v.is("do-wood", "A test in the wood, everything as typed.");
  v.field("saw", s.saw, "id of the saw");
  v.may("date", s.date, "when, if not today");
  v.may("wood", s.wood, "species and size");
  v.may("bar", s.bar, "bar");
  v.may("chain", s.chain, "chain and how sharp");
  v.may("times", s.times, "of the cuts, parted by semicolons");
  v.may("rpm", s.rpm, "in the cut");
  v.may("gauge", s.gauge, "compression");
  v.may("felt", s.felt, "what was felt and heard");
  v.may("token", s.token, "the same when the request is tried again: it is done once");
  v.may("client", s.client, "the tab that writes");
}

template <class V>
void shape(V& v, Of<DoFailure> auto& s) {
  v.is("do-failure", "Something that broke.");
  v.field("saw", s.saw, "id of the saw");
  v.field("text", s.text, "what broke");
  v.may("where", s.where, "part and place");
  v.may("cause", s.cause, "why");
  v.may("seen", s.seen, "how it was noticed");
  v.may("token", s.token, "the same when the request is tried again: it is done once");
  v.may("client", s.client, "the tab that writes");
}

template <class V>
void shape(V& v, Of<DoCut> auto& s) {
  v.is("do-cut", "A cut list of a saw: planned, or done.");
  v.field("saw", s.saw, "id of the saw");
  v.field("cuts", s.cuts, "cuts, or id of a list that is planned already");
  v.may("title", s.title, "a name for the list");
  v.may("done", s.done, "the metal is cut");
  v.may("planned", s.planned,
        "of cuts that are done: the same with the amounts planned; the builder's scatter is learnt from it");
  v.may("list", s.list, "id of a list of the book to bring up to date with these cuts; empty: a further list");
  v.may("token", s.token, "the same when the request is tried again: it is done once");
  v.may("client", s.client, "the tab that writes");
}

template <class V>
void shape(V& v, Of<DoAccept> auto& s) {
  v.is("do-accept", "A finding accepted, with a reason.");
  v.field("saw", s.saw, "id of the saw");
  v.field("finding", s.finding, "figure, end of its id, or rule");
  v.field("reason", s.reason, "why it may stand");
  v.may("cuts", s.cuts, "the what-if that it stands in; empty: the saw as it is");
  v.may("token", s.token, "the same when the request is tried again: it is done once");
  v.may("client", s.client, "the tab that writes");
}

template <class V>
void shape(V& v, Of<DoBorrow> auto& s) {
  v.is("do-borrow", "A new saw from a sister's readings.");
  v.field("sister", s.sister, "id of the sister");
  v.field("name", s.name, "name of the new saw");
  v.may("token", s.token, "the same when the request is tried again: it is done once");
  v.may("client", s.client, "the tab that writes");
}

template <class V>
void shape(V& v, Of<DoSaw> auto& s) {
  v.is("do-saw", "A saw put out of sight or brought back.");
  v.field("saw", s.saw, "id of the saw");
  v.may("token", s.token, "the same when the request is tried again: it is done once");
  v.may("client", s.client, "the tab that writes");
}

template <class V>
void shape(V& v, Of<DoCaption> auto& s) {
  v.is("do-caption", "Words under a photo.");
  v.field("photo", s.photo, "id of the photo");
  v.field("text", s.text, "the words; empty: none");
  v.may("base", s.base, "revision of the photo that the writer saw; empty: the newest");
  v.may("token", s.token, "the same when the request is tried again: it is done once");
  v.may("client", s.client, "the tab that writes");
}

template <class V>
void shape(V& v, Of<DoHidePhoto> auto& s) {
  v.is("do-hide-photo", "A photo put out of sight; undo brings it back.");
  v.field("photo", s.photo, "id of the photo");
  v.may("token", s.token, "the same when the request is tried again: it is done once");
  v.may("client", s.client, "the tab that writes");
}

template <class V>
void shape(V& v, Of<DoAct> auto& s) {
  v.is("do-act", "Nothing but who writes.");
  v.may("token", s.token, "the same when the request is tried again: it is done once");
  v.may("client", s.client, "the tab that writes");
}

template <class V>
void shape(V& v, Of<RunAirflow> auto& s) {
  v.is("run-airflow", "The air's way at one speed.");
  v.field("saw", s.saw, "id of the saw");
  v.may("cuts", s.cuts, "cuts to try, parted by semicolons; none may name a file");
  v.may("speed", s.speed, "[rpm]; empty: the in-cut reading, else 9,000");
  v.may("units", s.units, "shop or metric");
  v.may("client", s.client, "the tab that writes");
}

template <class V>
void shape(V& v, Of<RunCrank> auto& s) {
  v.is("run-crank", "The engine cranked by hand.");
  v.field("saw", s.saw, "id of the saw");
  v.may("cuts", s.cuts, "cuts to try, parted by semicolons; none may name a file");
  v.may("units", s.units, "shop or metric");
  v.may("client", s.client, "the tab that writes");
}

template <class V>
void shape(V& v, Of<RunRevs> auto& s) {
  v.is("run-revs", "What the bottom end carries, and how many rpm it stands.");
  v.field("saw", s.saw, "id of the saw");
  v.may("cuts", s.cuts, "cuts to try, parted by semicolons; none may name a file");
  v.may("speed", s.speed, "[rpm], in the cut and free; empty: each as read, else the usual");
  v.may("units", s.units, "shop or metric");
  v.may("client", s.client, "the tab that writes");
}

template <class V>
void shape(V& v, Of<RunHeat> auto& s) {
  v.is("run-heat", "Where cylinder and piston run hot.");
  v.field("saw", s.saw, "id of the saw");
  v.may("cuts", s.cuts, "cuts to try, parted by semicolons; none may name a file");
  v.may("speed", s.speed, "[rpm]; empty: the in-cut reading, else 9,000");
  v.may("brief", s.brief, "places and figures alone: no other way of running, no engine stopped hot");
  v.may("units", s.units, "shop or metric");
  v.may("client", s.client, "the tab that writes");
}

template <class V>
void shape(V& v, Of<RunChain> auto& s) {
  v.is("run-chain", "What reaches the chain, and which sprocket.");
  v.field("saw", s.saw, "id of the saw");
  v.may("cuts", s.cuts, "cuts to try, parted by semicolons; none may name a file");
  v.may("units", s.units, "shop or metric");
  v.may("client", s.client, "the tab that writes");
}

template <class V>
void shape(V& v, Of<RunBands> auto& s) {
  v.is("run-bands", "How far a change can be told: the engine under many sets of assumptions.");
  v.field("saw", s.saw, "id of the saw");
  v.may("cuts", s.cuts, "cuts to try, parted by semicolons; none may name a file");
  v.may("units", s.units, "shop or metric");
  v.may("client", s.client, "the tab that writes");
}

template <class V>
void shape(V& v, Of<RunSeek> auto& s) {
  v.is("run-seek", "Cut lists for a wish about the engine, searched by the simulation.");
  v.field("saw", s.saw, "id of the saw");
  v.field("wish", s.wish, "what is wanted most and what must hold: most power; squish at least 0.5 mm");
  v.may("free", s.free, "cuts that may be made, parted by semicolons; empty: the usual six");
  v.may("step", s.step, "what a hand can cut, as a length, or none; empty: 0.05 mm");
  v.may("chance", s.chance, "that a hard limit may be passed; empty: 5 %");
  v.may("memory", s.memory, "of an earlier answer to the same: the search goes on from there");
  v.may("seconds", s.seconds, "of searching, before ranges are run; null: 25");
  v.may("units", s.units, "shop or metric");
  v.may("client", s.client, "the tab that writes");
}

template <class V>
void shape(V& v, Of<AskPlan> auto& s) {
  v.is("ask-plan", "From wishes to cuts: every way to reach them.");
  v.field("saw", s.saw, "id of the saw");
  v.field("wish", s.wish, "what to reach, parted by semicolons: exhaust at 99 deg; squish 0.5 mm");
  v.may("gaskets", s.gaskets, "thicknesses at hand, parted by commas; empty: the one fitted, or none");
  v.may("step", s.step, "what a hand can cut, as a length, or none; empty: 0.05 mm");
  v.may("chance", s.chance, "that a hard limit may be passed; empty: 5 %");
  v.may("done", s.done, "cuts that are done, as read; the rest is planned from them");
  v.may("rpm", s.rpm, "[rpm]; null: the in-cut reading, else 9,000");
  v.may("units", s.units, "shop or metric");
}

template <class V>
void shape(V& v, Of<SheetCuts> auto& s) {
  v.is("sheet-cuts", "One way, or cuts decided by hand, as a cut sheet, PDF.");
  v.field("saw", s.saw, "id of the saw");
  v.may("wish", s.wish, "what to reach, parted by semicolons: exhaust at 99 deg; squish 0.5 mm; this or cuts");
  v.may("cuts", s.cuts, "instead of a wish: cuts decided by hand, parted by semicolons; none may name a file");
  v.may("gaskets", s.gaskets, "thicknesses at hand, parted by commas; empty: the one fitted, or none");
  v.may("step", s.step, "what a hand can cut, as a length, or none; empty: 0.05 mm");
  v.may("chance", s.chance, "that a hard limit may be passed; empty: 5 %");
  v.may("done", s.done, "cuts that are done, as read; the rest is planned from them");
  v.may("rpm", s.rpm, "[rpm]; null: the in-cut reading, else 9,000");
  v.may("way", s.way, "its number as the plan lists them, from 1");
  v.may("band", s.band, "half bands: 1 deg, 0.05 mm, or both; empty: those");
  v.may("hand", s.hand, "one sigma of a ground cut to a mark; empty: as learnt from the book, 0.1 mm without pairs");
  v.may("paper", s.paper, "A4, Letter or A5; empty: A4");
  v.may("units", s.units, "shop or metric");
}

template <class V>
void shape(V& v, Of<SheetMap> auto& s) {
  v.is("sheet-map", "True-scale map of the bore, SVG.");
  v.field("saw", s.saw, "id of the saw");
  v.may("cuts", s.cuts, "cuts to try, parted by semicolons; none may name a file");
  v.may("at", s.at, "crank angle of the piston drawn");
  v.may("units", s.units, "shop or metric");
}

template <class V>
void shape(V& v, Of<SheetTemplate> auto& s) {
  v.is("sheet-template", "True-scale template, PDF.");
  v.field("saw", s.saw, "id of the saw");
  v.may("cuts", s.cuts, "cuts to try, parted by semicolons; none may name a file");
  v.may("paper", s.paper, "A4 or Letter; empty: A4");
  v.may("printer", s.printer, "measured lengths of the bars across and along");
  v.may("paper_thickness", s.paper_thickness, "0.10 mm; empty: usual");
  v.may("units", s.units, "shop or metric");
}

template <class V>
void shape(V& v, Of<SheetMeasuring> auto& s) {
  v.is("sheet-measuring", "Sheet to fill at the bench, PDF.");
  v.may("paper", s.paper, "A4 or Letter; empty: A4");
}

template <class V>
void shape(V& v, Of<AskBore> auto& s) {
  v.is("ask-bore", "The bore unrolled, the piston, and what is open at each degree.");
  v.field("saw", s.saw, "id of the saw");
  v.may("cuts", s.cuts, "cuts to try, parted by semicolons; none may name a file");
  v.may("units", s.units, "shop or metric");
}

template <class V>
void shape(V& v, Of<AskForm> auto& s) {
  v.is("ask-form", "A saw's readings in the order of the work, taken or not.");
  v.field("saw", s.saw, "id of the saw");
  v.may("units", s.units, "shop or metric");
}

template <class V>
void shape(V& v, Of<AskSteps> auto& s) {
  v.is("ask-steps", "A cut list as steps, or steps as a cut list.");
  v.field("saw", s.saw, "id of the saw");
  v.may("cuts", s.cuts, "cuts, parted by semicolons; none may name a file; of no account when there are steps");
  v.may("steps", s.steps, "steps instead of text");
}

template <class V>
void shape(V& v, Of<RunCurve> auto& s) {
  v.is("run-curve", "Power and torque over the speed, in parts as they get better.");
  v.field("saw", s.saw, "id of the saw");
  v.may("cuts", s.cuts, "cuts to try, parted by semicolons; none may name a file");
  v.may("speeds", s.speeds, "9000 or 5000:12000:500 [rpm]; empty: 4,500 to 12,000 in steps of 500");
  v.may("settle", s.settle, "no: a first look is enough");
  v.may("units", s.units, "shop or metric");
  v.may("client", s.client, "the tab that asks");
}

template <class V>
void shape(V& v, Of<RunTraces> auto& s) {
  v.is("run-traces", "A turn instant by instant.");
  v.field("saw", s.saw, "id of the saw");
  v.may("cuts", s.cuts, "cuts to try, parted by semicolons; none may name a file");
  v.may("speed", s.speed, "[rpm]; empty: the in-cut reading, else 9,000");
  v.may("units", s.units, "shop or metric");
  v.may("client", s.client, "the tab that asks");
}

template <class V>
void shape(V& v, Of<SheetDrawing> auto& s) {
  v.is("sheet-drawing", "A drawing of the measuring sheet by itself, SVG.");
  v.field("name", s.name, "as a form's field has it");
  v.may("number", s.number, "the reading in hand, its number is blue; 0: none");
  v.may("id_prefix", s.id_prefix, "letters that begin every id in it");
}

template <class V>
void shape(V& v, Of<Enter> auto& s) {
  v.is("enter", "The one-time token of the address.");
  v.field("token", s.token, "as the address has it");
}

template <class V>
void shape(V& v, Of<Problem> auto& s) {
  v.is("problem", "What went wrong (RFC 9457).");
  v.field("type", s.type, "kind of problem");
  v.field("title", s.title, "in few words");
  v.field("status", s.status, "HTTP status");
  v.field("detail", s.detail, "one sentence");
  v.field("errors", s.errors, "everything found wrong");
  v.maybe("mine", s.mine, "of a conflict: what was to be written");
  v.maybe("theirs", s.theirs, "of a conflict: what the book has now");
  v.maybe("revision", s.revision, "of a conflict: of the saw as it is now");
}

template <class V>
void shape(V& v, Of<Entered> auto& s) {
  v.is("entered", "The door is open.");
  v.field("epoch", s.epoch, "of the book that is open; requests name it in X-Portwright-Epoch");
  v.field("last", s.last, "number of the newest journal entry");
  v.field("demo", s.demo, "the demo workshop is open");
  v.field("author", s.author, "who acts");
  v.field("role", s.role, "machine: may do everything; device: looks and adds");
}

template <class V>
void shape(V& v, Of<Started> auto& s) {
  v.is("started", "A job was started, or told to stop.");
  v.field("job", s.job, "its id");
}

template <class V>
void shape(V& v, Of<JobState> auto& s) {
  v.is("job", "How far a job is.");
  v.field("job", s.job, "its id");
  v.field("name", s.name, "what it works out");
  v.field("state", s.state, "waiting, running, done, failed or stopped");
  v.field("share", s.share, "done, 0 to 1");
  v.field("what", s.what, "being done");
}

template <class V>
void shape(V& v, Of<Changed> auto& s) {
  v.is("changed", "The book has something new, or another one is open.");
  v.field("last", s.last, "number of the newest journal entry");
  v.field("epoch", s.epoch, "of the book that is open");
  v.field("demo", s.demo, "the demo workshop is open");
}

}  // namespace portwright::wire
