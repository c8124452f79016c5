#include "server/app.hpp"

#include <charconv>
#include <exception>
#include <utility>

#include "desk/book.hpp"
#include "server/gate.hpp"
#include "server/openapi.hpp"
#include "server/problem.hpp"
#include "server/routes.hpp"
#include "wire/asks.hpp"

namespace portwright::server {
namespace {

constexpr const char* epoch_header = "X-Portwright-Epoch";

Response json(std::string body) {
  Response out;
  out.headers.emplace_back("Content-Type", "application/json");
  out.body = std::move(body);
  return out;
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

std::string hello(const Standing& now, const std::vector<wire::JobState>& jobs) {
  std::string out = one_line(wire::ask_text(wire::Changed{now.last, now.epoch, now.demo}));
  out.pop_back();
  out += ",\"jobs\":[";
  for (std::size_t i = 0; i < jobs.size(); ++i) out += (i ? "," : "") + one_line(wire::ask_text(jobs[i]));
  return out + "]}";
}

}  // namespace

App::App(AppSetting setting)
    : setting_(std::move(setting)),
      author_(desk::usual_author()),
      jobs_(hub_),
      host_(setting_.book, setting_.make_demo) {}

App::~App() { hub_.close(); }

base::Result<void> App::start() {
  if (auto opened = host_.open(); !opened) return opened;
  host_.watch([this](const Standing& now) {
    hub_.tell("book", one_line(wire::ask_text(wire::Changed{now.last, now.epoch, now.demo})));
  });
  return {};
}

std::string App::address() const { return "http://127.0.0.1:" + std::to_string(port_) + "/#token=" + entry_.token(); }

std::optional<Response> App::refused(const Request& head) const {
  const auto why = gate(head, {port_, [this](const std::string& word) { return entry_.is_known(word); }});
  if (!why) return std::nullopt;
  Response out = problem(*why);
  add_common_headers(out);
  return out;
}

bool App::takes_long(const Request& request) const {
  return request.method == "POST" && path_of(request) != enter_path;
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

std::string App::cookie(const Request& request) const { return cookie_of(request, cookie_name(port_)); }

Response App::routed(const Request& request) {
  const std::string path = path_of(request);
  const bool get = request.method == "GET";
  if (!is_api(path)) return get ? page_file(setting_.page, request) : elsewhere(path == "/");
  if (path == "/api/openapi.json") return get ? json(openapi()) : elsewhere(true);
  if (path == "/api/events") return get ? events(request) : elsewhere(true);
  if (path == enter_path) return get ? elsewhere(true) : enter(request);
  if (path == "/api/stop") return get ? elsewhere(true) : stop(request);
  if (find_route(path) == nullptr || get) return elsewhere(find_route(path) != nullptr);
  return called(request);
}

Response App::enter(const Request& request) {
  const auto ask = wire::read_ask<wire::Enter>(request.body);
  if (!ask) return problem(base::Errors{ask.error()});
  const auto given = entry_.enter(ask->token);
  if (!given)
    return problem(401, "token", "Not entered",
                   "This address was used already, or is another one. Start portwright serve anew for a fresh one.");
  const Standing now = host_.standing();
  Response out = json(wire::ask_text(wire::Entered{now.epoch, now.last, now.demo, author_}));
  out.headers.emplace_back("Set-Cookie", cookie_name(port_) + '=' + *given + "; HttpOnly; SameSite=Strict; Path=/");
  return out;
}

Response App::events(const Request& request) {
  const Listener who{cookie(request), query_value(request, "client")};
  Response out;
  out.headers.emplace_back("Content-Type", "text/event-stream");
  out.stream = hub_.open(who, hello(host_.standing(), jobs_.running(who)));
  if (!out.stream)
    return problem(429, "streams", "Too many windows", "As many pages listen as may; close one of them.");
  return out;
}

Response App::stop(const Request& request) {
  const auto ask = wire::read_ask<wire::AskJob>(request.body);
  if (!ask) return problem(base::Errors{ask.error()});
  if (!jobs_.stop(cookie(request), ask->job))
    return problem(base::Errors{
        {base::ErrorCode::not_found, "No job of that name waits or runs.", "job", "It may be done already.", {}}});
  return json(wire::ask_text(wire::Started{ask->job}));
}

Response App::called(const Request& request) {
  const Standing now = host_.standing();
  if (is_of_another(request, now.epoch))
    return problem(409, "epoch", "The book was changed", "Another book is open now; load what it has.");
  const Route& route = *find_route(path_of(request));
  const Jobs::Quiet quiet(jobs_);
  Response out = route.run({request, now, author_, {cookie(request), ""}, host_, jobs_, opened_});
  if (route.kind == Kind::act) host_.look();
  return out;
}

}  // namespace portwright::server
