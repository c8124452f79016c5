#include "server/routes.hpp"

#include <algorithm>

#include "server/handlers.hpp"

namespace portwright::server {
namespace {

constexpr Route table[] = {
    {"bench", Kind::ask, Role::device, "ask-bench", "book-list", "The saws of the book.", ask_bench},
    {"saw", Kind::ask, Role::device, "ask-saw", "book-show", "One saw with all that belongs to it.", ask_saw},
    {"study", Kind::ask, Role::device, "ask-study", "study", "What a saw is, what cuts would make of it, what is left.",
     ask_study},
    {"bore", Kind::ask, Role::device, "ask-bore", "bore", "The bore unrolled, the piston, what is open at each degree.",
     ask_bore},
    {"form", Kind::ask, Role::device, "ask-form", "form", "A saw's readings in the order of the work, taken or not.",
     ask_form},
    {"steps", Kind::ask, Role::device, "ask-steps", "steps", "A cut list as steps, and the cuts that may follow.",
     ask_steps},
    {"why", Kind::ask, Role::device, "ask-why", "why", "Where one figure comes from.", ask_why},
    {"check", Kind::ask, Role::device, "ask-check", "check", "Readings held against each other.", ask_check},
    {"compare", Kind::ask, Role::device, "ask-compare", "compare", "Two saws, or two cut lists of one.", ask_compare},
    {"edge", Kind::ask, Role::device, "ask-edge", "edge", "One edge in all its forms.", ask_edge},
    {"units", Kind::ask, Role::device, "ask-units", "units", "A typed quantity in every unit of its kind.", ask_units},
    {"sisters", Kind::ask, Role::device, "ask-sisters", "book-sisters", "Saws of one model side by side.", ask_sisters},
    {"find", Kind::ask, Role::device, "ask-find", "book-find", "Words in the book.", ask_find},
    {"journal", Kind::ask, Role::device, "ask-journal", "book-journal", "What was done, newest first.", ask_journal},
    {"where", Kind::ask, Role::device, "ask-nothing", "book-where", "Where the book is and what it holds.", ask_where},
    {"verify", Kind::ask, Role::machine, "ask-nothing", "book-verify", "Whether the book is sound.", ask_verify},
    {"network", Kind::ask, Role::machine, "ask-nothing", "network", "Whether other devices may come in, and which.",
     ask_network},
    {"rubbing", Kind::ask, Role::device, "ask-rubbing", "rubbing", "A window measured on the photo of its rubbing.",
     ask_rubbing},
    {"plan", Kind::ask, Role::device, "ask-plan", "plan", "From wishes to cuts: every way to reach them.", ask_plan},
    {"job", Kind::ask, Role::device, "ask-job", "job", "How far a job is.", ask_job},

    {"add", Kind::act, Role::machine, "do-add", "book-add", "Takes the text of a saw file into the book.", do_add},
    {"new", Kind::act, Role::device, "do-new", "book-done", "Begins a saw with nothing read yet.", do_new},
    {"set", Kind::act, Role::device, "do-set", "book-done", "Sets one field of the newest readings.", do_set},
    {"note", Kind::act, Role::device, "do-note", "book-done", "Adds a note.", do_note},
    {"result", Kind::act, Role::device, "do-result", "book-done", "Keeps the figures as they are now.", do_result},
    {"wood", Kind::act, Role::device, "do-wood", "book-done", "Adds a test in the wood.", do_wood},
    {"failure", Kind::act, Role::device, "do-failure", "book-done", "Adds something that broke.", do_failure},
    {"photo", Kind::act, Role::device, "", "book-done", "Adds a photo to a saw; the body is the picture itself.",
     do_photo, "image/jpeg image/png"},
    {"caption", Kind::act, Role::device, "do-caption", "book-done", "Puts words under a photo.", do_caption},
    {"hide-photo", Kind::act, Role::device, "do-hide-photo", "book-done", "Puts a photo out of sight.", do_hide_photo},
    {"cut", Kind::act, Role::device, "do-cut", "book-done", "Plans a cut list, or marks it done.", do_cut},
    {"accept", Kind::act, Role::device, "do-accept", "book-done", "Accepts a finding with a reason.", do_accept},
    {"borrow", Kind::act, Role::device, "do-borrow", "book-done", "Begins a saw from a sister's readings.", do_borrow},
    {"rubbing", Kind::act, Role::device, "do-rubbing", "book-done",
     "Keeps a window that was measured on a photo as the outline of a port.", do_rubbing},
    {"hide", Kind::act, Role::machine, "do-saw", "book-done", "Puts a saw out of sight.", do_hide},
    {"bring-back", Kind::act, Role::machine, "do-saw", "book-done", "Brings a hidden saw back.", do_bring_back},
    {"undo", Kind::act, Role::device, "do-act", "book-done", "Takes back the newest thing the author did.", do_undo},
    {"redo", Kind::act, Role::device, "do-act", "book-done", "Does again what was taken back last.", do_redo},
    {"own-book", Kind::act, Role::machine, "do-act", "changed", "Opens one's own book, makes it where there is none.",
     do_own_book},
    {"demo-book", Kind::act, Role::machine, "do-act", "changed", "Opens the demo workshop.", do_demo_book},
    {"backup", Kind::act, Role::machine, "do-act", "book-backup", "Copies the book beside itself.", do_backup},
    {"network", Kind::act, Role::machine, "do-network", "network", "Lets devices of the network in, or none.",
     do_network},
    {"invite", Kind::act, Role::machine, "do-act", "network", "Makes a code that lets one device in.", do_invite},
    {"revoke", Kind::act, Role::machine, "do-revoke", "network", "Lets a device in no more.", do_revoke},
    {"another-browser", Kind::act, Role::machine, "do-act", "another-browser",
     "An address for one more browser of this machine.", do_another_browser},

    {"curve", Kind::run, Role::device, "run-curve", "curve", "Power and torque over the speed.", run_curve},
    {"traces", Kind::run, Role::device, "run-traces", "traces", "A turn instant by instant.", run_traces},
    {"airflow", Kind::run, Role::device, "run-airflow", "airflow", "The air's way at one speed.", run_airflow},
    {"crank", Kind::run, Role::device, "run-crank", "crank", "The engine cranked by hand.", run_crank},
    {"revs", Kind::run, Role::device, "run-revs", "revs", "What the bottom end carries, and how many rpm it stands.",
     run_revs},
    {"heat", Kind::run, Role::device, "run-heat", "heat", "Where cylinder and piston run hot.", run_heat},
    {"chain", Kind::run, Role::device, "run-chain", "chain", "What reaches the chain, and which sprocket.", run_chain},
    {"seek", Kind::run, Role::device, "run-seek", "seek", "Cut lists for a wish about the engine.", run_seek},
    {"bands", Kind::run, Role::device, "run-bands", "run", "How far a change can be told.", run_bands},

    {"map", Kind::sheet, Role::device, "sheet-map", "image/svg+xml", "True-scale map of the bore.", sheet_map},
    {"template", Kind::sheet, Role::device, "sheet-template", "application/pdf", "True-scale template.",
     sheet_template},
    {"cuts", Kind::sheet, Role::device, "sheet-cuts", "application/pdf", "A plan as a cut sheet.", sheet_cuts},
    {"measuring", Kind::sheet, Role::device, "sheet-measuring", "application/pdf", "Sheet to fill at the bench.",
     sheet_measuring},
    {"drawing", Kind::sheet, Role::device, "sheet-drawing", "image/svg+xml", "One drawing of that sheet.",
     sheet_drawing},
    {"qr", Kind::sheet, Role::machine, "sheet-qr", "image/svg+xml", "The standing invitation for a camera.", sheet_qr},
};

constexpr Fixed fixed_table[] = {
    {"post", "/api/enter", Role::nobody, "enter", "entered", "",
     "Exchanges the one-time token of the address for a cookie; on the machine itself."},
    {"post", "/api/pair", Role::nobody, "pair", "entered", "",
     "Exchanges the code that the machine shows for a device's cookie; by the network."},
    {"get", "/api/events", Role::device, "", "", "text/event-stream",
     "What the server tells by itself: hello, book, network, job, part, done, bye."},
    {"get", "/api/photo/{photo}", Role::device, "", "", "image/jpeg",
     "A photo, its longer side at most 2,560 pixels, or 480 with size=small.", "size"},
    {"get", "/api/openapi.json", Role::device, "", "", "application/json", "This document."},
    {"post", "/api/stop", Role::device, "ask-job", "started", "", "Stops a job."},
};

std::string who_of(Role role) {
  return role == Role::machine ? "machine" : role == Role::device ? "device" : "anybody";
}

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

std::vector<std::string> words_of(std::string_view list) {
  std::vector<std::string> out;
  while (!list.empty()) {
    const std::size_t end = std::min(list.find(' '), list.size());
    out.emplace_back(list.substr(0, end));
    list.remove_prefix(std::min(end + 1, list.size()));
  }
  return out;
}

std::vector<int> problems_of(Kind kind) {
  std::vector<int> out{401, 403, 404, 409, 413, 415, 422, 500, 503};
  if (kind == Kind::act) out.insert(out.end(), {428, 429, 507});
  return out;
}

std::vector<int> problems_of(const Fixed& one) {
  if (one.path == "/api/enter") return {401, 403, 422};
  if (one.path == "/api/pair") return {401, 403, 422, 429, 507};
  if (one.path == "/api/events") return {401, 429};
  if (one.path == "/api/photo/{photo}") return {401, 404, 422, 500, 503};
  if (one.path == "/api/stop") return {401, 403, 404, 422};
  return {401};
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

std::span<const Fixed> fixed_routes() { return fixed_table; }

std::string_view taken_at(std::string_view path) {
  const Route* route = find_route(path);
  return route == nullptr ? std::string_view() : route->takes;
}

Role needed(std::string_view path) {
  if (const Route* route = find_route(path)) return route->needs;
  for (const Fixed& one : fixed_table)
    if (one.path == path) return one.needs;
  return Role::device;
}

std::vector<wire::Operation> operations() {
  std::vector<wire::Operation> out;
  for (const Fixed& one : fixed_table)
    out.push_back({std::string(one.method),
                   std::string(one.path),
                   std::string(one.says),
                   std::string(one.ask),
                   std::string(one.answer),
                   std::string(one.media),
                   problems_of(one),
                   who_of(one.needs),
                   {},
                   words_of(one.query)});
  for (const Route& route : table) {
    wire::Operation one{"post", path_of(route),          std::string(route.says), std::string(route.ask), "",
                        "",     problems_of(route.kind), who_of(route.needs)};
    if (!route.takes.empty()) {
      one.takes = words_of(route.takes);
      one.query = {"saw", "token", "client"};
    }
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
