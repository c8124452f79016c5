#include "server/app.hpp"

#include <charconv>
#include <exception>
#include <utility>

#include "desk/book.hpp"
#include "desk/devices.hpp"
#include "server/gate.hpp"
#include "server/handlers.hpp"
#include "server/openapi.hpp"
#include "server/problem.hpp"
#include "server/routes.hpp"
#include "wire/asks.hpp"

namespace portwright::server {
namespace {

constexpr std::string_view photo_path = "/api/photo/";
constexpr const char* epoch_header = "X-Portwright-Epoch";

Response json(std::string body) {
  Response out;
  out.headers.emplace_back("Content-Type", "application/json");
  out.body = std::move(body);
  return out;
}

Response too_fast() {
  return problem(429, "wait", "Too fast", "This device writes more than a hand does. Wait a minute, then try again.");
}

Response elsewhere(bool known) {
  if (known) return problem(405, "method", "Not done this way", "This is asked for in another way: GET or POST.");
  return problem(404, "not_found", "Not there", "The server answers to nothing of that name.");
}

// Whether a request speaks of a book that is not open any more.
bool is_of_another(const Request& request, std::int64_t epoch) {
  const auto told = values_of(request.headers, epoch_header);
  if (told.empty()) return false;
  std::int64_t number = -1;
  const std::string& text = told.front();
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  return told.size() > 1 || error != std::errc() || end != text.data() + text.size() || number != epoch;
}

// Wrong codes are no missing page, and waiting is no book that is held.
Response not_paired(const base::Error& error) {
  if (error.code == base::ErrorCode::not_found) return problem(401, "code", "Not paired", error.message, {error});
  if (error.code == base::ErrorCode::busy) return problem(429, "wait", "Wait a minute", error.message, {error});
  return problem(base::Errors{error});
}

std::string hello(const Standing& now, const wire::Here& here, const std::vector<wire::JobState>& jobs) {
  std::string out = one_line(wire::ask_text(wire::Changed{now.last, now.epoch, now.demo}));
  out.pop_back();
  out += ",\"here\":" + one_line(wire::ask_text(here)) + ",\"jobs\":[";
  for (std::size_t i = 0; i < jobs.size(); ++i) out += (i ? "," : "") + one_line(wire::ask_text(jobs[i]));
  return out + "]}";
}

}  // namespace

App::App(AppSetting setting)
    : setting_(std::move(setting)),
      author_(desk::usual_author()),
      jobs_(hub_),
      host_(setting_.book, setting_.make_demo),
      visitors_(hub_, jobs_, desk::devices_path(host_.own_path()), setting_.clock, setting_.addresses) {}

App::~App() { hub_.close(); }

base::Result<void> App::start() {
  if (auto opened = host_.open(); !opened) return opened;
  host_.watch([this](const Standing& now) {
    hub_.tell("book", one_line(wire::ask_text(wire::Changed{now.last, now.epoch, now.demo})));
  });
  return {};
}

std::string App::address() { return visitors_.machine_address(visitors_.entry().token()); }

std::optional<Response> App::refused(const Request& head) {
  const auto role = [this](const Way& way, const std::string& cookie) { return visitors_.role_of(way, cookie); };
  const auto why = gate(head, {port_, role, [](const std::string& path) { return needed(path); },
                               [](const std::string& path) { return taken_at(path); }});
  if (!why) return std::nullopt;
  Response out = problem(*why);
  add_common_headers(out);
  return out;
}

bool App::takes_picture(const Request& head) const { return head.method == "POST" && !taken_at(path_of(head)).empty(); }

std::optional<Response> App::picture_refused(const Request& head) {
  const auto who = visitors_.who(head.way, cookie_of(head, cookie_name(port_)), author_);
  if (!who || who->listener.device == 0 || visitors_.could_write(who->listener.device)) return std::nullopt;
  Response out = too_fast();
  add_common_headers(out);
  return out;
}

bool App::takes_long(const Request& request) const {
  const std::string path = path_of(request);
  return request.method == "POST" ? path != enter_path : path.starts_with(photo_path);
}

Response App::answer(const Request& request) {
  if (auto no = refused(request)) return *no;
  Response out;
  try {
    out = routed(request);
  } catch (const std::exception& broken) {
    out = problem(base::Errors{{base::ErrorCode::fault,
                                std::string("A fault in the program: ") + broken.what() + '.',
                                "",
                                "The book is as it was.",
                                {}}});
  }
  add_common_headers(out);
  if (is_api(path_of(request))) out.headers.emplace_back(epoch_header, std::to_string(host_.standing().epoch));
  return out;
}

Response App::routed(const Request& request) {
  const std::string path = path_of(request);
  const bool get = request.method == "GET";
  if (!is_api(path)) return get ? page_file(setting_.page, request) : elsewhere(path == "/");
  if (path == enter_path) return get ? elsewhere(true) : enter(request);
  if (path == pair_path) return get ? elsewhere(true) : pair(request);
  return let_in(request, path);
}

Response App::let_in(const Request& request, const std::string& path) {
  const bool get = request.method == "GET";
  const auto who = visitors_.who(request.way, cookie_of(request, cookie_name(port_)), author_);
  if (!who) return problem(401, "refused", "Not paired", "This device is not paired any more.");
  if (path == "/api/openapi.json") return get ? json(openapi()) : elsewhere(true);
  if (path == "/api/events") return get ? events(request, *who) : elsewhere(true);
  if (path == "/api/stop") return get ? elsewhere(true) : stop(request, *who);
  if (path.starts_with(photo_path)) return get ? photo_picture(request, host_.standing()) : elsewhere(true);
  if (find_route(path) == nullptr || get) return elsewhere(find_route(path) != nullptr);
  return called(request, *who);
}

Response App::enter(const Request& request) {
  const auto ask = wire::read_ask<wire::Enter>(request.body);
  if (!ask) return problem(base::Errors{ask.error()});
  const auto given = visitors_.entry().enter(ask->token);
  if (!given)
    return problem(401, "token", "Not entered",
                   "This address was used already, or is another one. Where the page is open, its settings give a "
                   "fresh one; else start portwright serve anew.");
  const Standing now = host_.standing();
  Response out = json(wire::ask_text(wire::Entered{now.epoch, now.last, now.demo, author_, "machine"}));
  out.headers.emplace_back("Set-Cookie", cookie_name(port_) + '=' + *given + "; HttpOnly; SameSite=Strict; Path=/");
  return out;
}

Response App::pair(const Request& request) {
  const auto ask = wire::read_ask<wire::Pair>(request.body);
  if (!ask) return problem(base::Errors{ask.error()});
  const auto added = visitors_.pair(*ask, request.way.from);
  if (!added) return not_paired(added.error());
  const Standing now = host_.standing();
  Response out = json(wire::ask_text(wire::Entered{now.epoch, now.last, now.demo, added->device.author(), "device"}));
  out.headers.emplace_back("Set-Cookie", cookie_name(port_) + '=' + added->cookie + "; HttpOnly; SameSite=Strict; " +
                                             "Path=/; Max-Age=" + std::to_string(Devices::forgotten_after));
  return out;
}

Response App::events(const Request& request, Visitors::Who who) {
  who.listener.client = query_value(request, "client");
  const wire::Here here{who.listener.device == 0 ? "machine" : "device", who.name};
  Response out;
  out.headers.emplace_back("Content-Type", "text/event-stream");
  out.stream = hub_.open(who.listener, hello(host_.standing(), here, jobs_.running(who.listener)));
  if (!out.stream)
    return problem(429, "streams", "Too many windows", "As many pages listen as may; close one of them.");
  // Revoked, or the network switched off, between the gate and here.
  if (who.listener.device != 0) visitors_.show_out();
  return out;
}

Response App::stop(const Request& request, const Visitors::Who& who) {
  const auto ask = wire::read_ask<wire::AskJob>(request.body);
  if (!ask) return problem(base::Errors{ask.error()});
  if (!jobs_.stop(who.listener.session, ask->job))
    return problem(base::Errors{
        {base::ErrorCode::not_found, "No job of that name waits or runs.", "job", "It may be done already.", {}}});
  return json(wire::ask_text(wire::Started{ask->job}));
}

Response App::called(const Request& request, const Visitors::Who& who) {
  const Standing now = host_.standing();
  if (is_of_another(request, now.epoch))
    return problem(409, "epoch", "The book was changed", "Another book is open now; load what it has.");
  const Route& route = *find_route(path_of(request));
  if (who.listener.device > 0) visitors_.devices().saw(who.listener.device, request.way.from);
  if (who.listener.device > 0 && route.kind == Kind::act && !visitors_.may_write(who.listener.device))
    return too_fast();
  const Jobs::Quiet quiet(jobs_);
  Response out = route.run({request, now, who.author, who.listener, host_, jobs_, opened_, visitors_});
  if (route.kind == Kind::act) host_.look();
  return out;
}

}  // namespace portwright::server
