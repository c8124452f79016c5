// A request from the wire: read, judged at the gate, its body read as what a route asks for.
#include "corpora/targets.hpp"
#include "server/gate.hpp"
#include "server/listen.hpp"
#include "server/page_files.hpp"
#include "server/problem.hpp"
#include "server/routes.hpp"
#include "wire/asks.hpp"

namespace {

using namespace portwright;
using corpora::require;

// What was taken for an ask reads back the same from its own text.
template <class A>
void look(const std::string& body) {
  const auto ask = wire::read_ask<A>(body);
  if (!ask) {
    const auto problem = server::problem(base::Errors{ask.error()});
    require(problem.status == 422, "a body that is no ask is a problem of its own");
    return;
  }
  const std::string text = wire::ask_text(*ask);
  const auto again = wire::read_ask<A>(text);
  require(again && wire::ask_text(*again) == text, "an ask reads back from its own text");
}

void look_at_body(const std::string& body) {
  look<wire::AskStudy>(body);
  look<wire::AskSteps>(body);
  look<wire::AskJournal>(body);
  look<wire::DoSet>(body);
  look<wire::DoResult>(body);
  look<wire::DoWood>(body);
  look<wire::SheetTemplate>(body);
  look<wire::Enter>(body);
  look<wire::Pair>(body);
  look<wire::DoRevoke>(body);
  look<wire::KeptDevices>(body);
}

}  // namespace

PORTWRIGHT_TARGET(request) {
  const auto request = server::read_request(as_text(bytes), {});
  if (!request) return;
  const server::Allowed allowed{8470,
                                [](const server::Way&, const std::string& cookie) {
                                  return cookie == "key" ? server::Role::machine : server::Role::nobody;
                                },
                                [](const std::string& of) { return server::needed(of); }};
  if (const auto refused = server::gate(*request, allowed)) {
    require(refused->status >= 400 && refused->status < 500, "a refusal is the client's");
    require(server::problem(*refused).status == refused->status, "a refusal is a problem document");
    return;
  }
  const std::string path = server::path_of(*request);
  require(path.starts_with('/') && path.find("..") == std::string::npos && path.find('%') == std::string::npos,
          "only plain paths come in");
  require(server::values_of(request->headers, "Host").size() == 1, "one host");
  require(request->method == "GET" || server::value_of(request->headers, "X-Portwright") == "1", "our own header");
  require(!server::is_api(path) || path == server::enter_path ||
              server::cookie_of(*request, server::cookie_name(8470)) == "key",
          "the cookie below the API");
  if (request->method == "GET")
    require(!server::page_file({}, *request).body.empty(), "every page has something to say");
  else
    look_at_body(request->body);
}
