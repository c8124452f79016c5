// Who may come in from outside: the machine's own deeds.
#include "desk/page.hpp"
#include "server/answering.hpp"
#include "server/handlers.hpp"

namespace portwright::server {
namespace {

Response told(const Call& call, const base::Result<void>& done = {}) {
  if (!done) return problem(base::Errors{done.error()});
  return json_response(wire::ask_text(call.visitors.told()));
}

}  // namespace

Response ask_network(const Call& call) {
  return with<wire::AskNothing>(call, [&](const wire::AskNothing&) { return told(call); });
}

Response do_network(const Call& call) {
  return with<wire::DoNetwork>(
      call, [&](const wire::DoNetwork& ask) { return told(call, call.visitors.switch_network(ask.on)); });
}

Response do_invite(const Call& call) {
  return with<wire::DoAct>(call, [&](const wire::DoAct&) { return told(call, call.visitors.invite()); });
}

Response do_revoke(const Call& call) {
  return with<wire::DoRevoke>(call,
                              [&](const wire::DoRevoke& ask) { return told(call, call.visitors.revoke(ask.device)); });
}

Response do_another_browser(const Call& call) {
  return with<wire::DoAct>(call, [&](const wire::DoAct&) {
    const std::string address = call.visitors.machine_address(call.visitors.entry().another());
    return json_response(wire::ask_text(wire::AnotherBrowser{address, Entry::lasts}));
  });
}

Response sheet_qr(const Call& call) {
  return with<wire::SheetQr>(call, [&](const wire::SheetQr& ask) {
    const auto link = call.visitors.link(ask.url);
    if (!link) return problem(base::Errors{link.error()});
    auto drawn = desk::qr_code(*link, "A link that a phone's camera reads; it lets one device in.");
    if (!drawn) return problem(drawn.error());
    return sheet_response(std::move(*drawn), "image/svg+xml", nullptr);
  });
}

}  // namespace portwright::server
