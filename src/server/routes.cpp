#include "server/routes.hpp"

#include <algorithm>

#include "server/handlers.hpp"

namespace portwright::server {
namespace {

constexpr Route table[] = {
    {"bench", Kind::ask, "ask-bench", "book-list", "The saws of the book.", ask_bench},
    {"saw", Kind::ask, "ask-saw", "book-show", "One saw with all that belongs to it.", ask_saw},
    {"study", Kind::ask, "ask-study", "study", "What a saw is, what cuts would make of it, what is left.", ask_study},
    {"bore", Kind::ask, "ask-bore", "bore", "The bore unrolled, the piston, what is open at each degree.", ask_bore},
    {"form", Kind::ask, "ask-form", "form", "A saw's readings in the order of the work, taken or not.", ask_form},
    {"steps", Kind::ask, "ask-steps", "steps", "A cut list as steps, and the cuts that may follow.", ask_steps},
    {"why", Kind::ask, "ask-why", "why", "Where one figure comes from.", ask_why},
    {"check", Kind::ask, "ask-check", "check", "Readings held against each other.", ask_check},
    {"compare", Kind::ask, "ask-compare", "compare", "Two saws, or two cut lists of one.", ask_compare},
    {"edge", Kind::ask, "ask-edge", "edge", "One edge in all its forms.", ask_edge},
    {"units", Kind::ask, "ask-units", "units", "A typed quantity in every unit of its kind.", ask_units},
    {"sisters", Kind::ask, "ask-sisters", "book-sisters", "Saws of one model side by side.", ask_sisters},
    {"find", Kind::ask, "ask-find", "book-find", "Words in the book.", ask_find},
    {"journal", Kind::ask, "ask-journal", "book-journal", "What was done, newest first.", ask_journal},
    {"where", Kind::ask, "ask-nothing", "book-where", "Where the book is and what it holds.", ask_where},
    {"verify", Kind::ask, "ask-nothing", "book-verify", "Whether the book is sound.", ask_verify},
    {"job", Kind::ask, "ask-job", "job", "How far a job is.", ask_job},

    {"add", Kind::act, "do-add", "book-add", "Takes the text of a saw file into the book.", do_add},
    {"new", Kind::act, "do-new", "book-done", "Begins a saw with nothing read yet.", do_new},
    {"set", Kind::act, "do-set", "book-done", "Sets one field of the newest readings.", do_set},
    {"note", Kind::act, "do-note", "book-done", "Adds a note.", do_note},
    {"wood", Kind::act, "do-wood", "book-done", "Adds a test in the wood.", do_wood},
    {"failure", Kind::act, "do-failure", "book-done", "Adds something that broke.", do_failure},
    {"cut", Kind::act, "do-cut", "book-done", "Plans a cut list, or marks it done.", do_cut},
    {"accept", Kind::act, "do-accept", "book-done", "Accepts a finding with a reason.", do_accept},
    {"borrow", Kind::act, "do-borrow", "book-done", "Begins a saw from a sister's readings.", do_borrow},
    {"hide", Kind::act, "do-saw", "book-done", "Puts a saw out of sight.", do_hide},
    {"bring-back", Kind::act, "do-saw", "book-done", "Brings a hidden saw back.", do_bring_back},
    {"undo", Kind::act, "do-act", "book-done", "Takes back the newest thing the author did.", do_undo},
    {"redo", Kind::act, "do-act", "book-done", "Does again what was taken back last.", do_redo},
    {"own-book", Kind::act, "do-act", "changed", "Opens one's own book, makes it where there is none.", do_own_book},
    {"demo-book", Kind::act, "do-act", "changed", "Opens the demo workshop.", do_demo_book},
    {"backup", Kind::act, "do-act", "book-backup", "Copies the book beside itself.", do_backup},

    {"curve", Kind::run, "run-curve", "curve", "Power and torque over the speed.", run_curve},
    {"traces", Kind::run, "run-traces", "traces", "A turn instant by instant.", run_traces},
    {"airflow", Kind::run, "run-airflow", "airflow", "The air's way at one speed.", run_airflow},
    {"crank", Kind::run, "run-crank", "crank", "The engine cranked by hand.", run_crank},

    {"map", Kind::sheet, "sheet-map", "image/svg+xml", "True-scale map of the bore.", sheet_map},
    {"template", Kind::sheet, "sheet-template", "application/pdf", "True-scale template.", sheet_template},
    {"measuring", Kind::sheet, "sheet-measuring", "application/pdf", "Sheet to fill at the bench.", sheet_measuring},
    {"drawing", Kind::sheet, "sheet-drawing", "image/svg+xml", "One drawing of that sheet.", sheet_drawing},
};

std::string_view word_of(Kind kind) {
  switch (kind) {
    case Kind::ask:
      return "ask";
    case Kind::act:
      return "do";
    case Kind::run:
      return "run";
    case Kind::sheet:
      return "sheet";
  }
  return "ask";
}

std::vector<int> problems_of(Kind kind) {
  std::vector<int> out{401, 403, 404, 409, 413, 415, 422, 500, 503};
  if (kind == Kind::act) out.insert(out.end(), {428, 507});
  return out;
}

}  // namespace

std::span<const Route> routes() { return table; }

std::string path_of(const Route& route) {
  return "/api/" + std::string(word_of(route.kind)) + '/' + std::string(route.name);
}

const Route* find_route(std::string_view path) {
  const auto found =
      std::find_if(std::begin(table), std::end(table), [&](const Route& route) { return path_of(route) == path; });
  return found == std::end(table) ? nullptr : &*found;
}

std::vector<wire::Operation> operations() {
  std::vector<wire::Operation> out{
      {"post",
       "/api/enter",
       "Exchanges the one-time token of the address for a cookie.",
       "enter",
       "entered",
       "",
       {401, 403, 422}},
      {"get",
       "/api/events",
       "What the server tells by itself: hello, book, job, part, done, bye.",
       "",
       "",
       "text/event-stream",
       {401, 429}},
      {"get", "/api/openapi.json", "This document.", "", "", "application/json", {401}},
      {"post", "/api/stop", "Stops a job.", "ask-job", "started", "", {401, 403, 404, 422}}};
  for (const Route& route : table) {
    wire::Operation one{"post", path_of(route),         std::string(route.says), std::string(route.ask), "",
                        "",     problems_of(route.kind)};
    if (route.kind == Kind::sheet)
      one.media = route.answer;
    else
      one.answer = route.kind == Kind::run ? "started" : std::string(route.answer);
    if (route.kind == Kind::run) one.summary += " Its answer, " + std::string(route.answer) + ", comes as events.";
    out.push_back(std::move(one));
  }
  return out;
}

}  // namespace portwright::server
