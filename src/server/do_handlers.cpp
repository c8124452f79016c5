// What writes into the book, or opens another one.
#include <charconv>

#include "desk/book.hpp"
#include "server/answering.hpp"
#include "server/handlers.hpp"

namespace portwright::server {
namespace {

// The revision that the writer saw: of the body, else of If-Match.
std::string base_of(const Call& call, const wire::DoSet& ask) {
  if (!ask.base.empty()) return ask.base;
  const std::string header = value_of(call.request.headers, "If-Match");
  std::string_view text = without_blanks(header);
  if (text.size() >= 2 && text.front() == '"' && text.back() == '"') text = text.substr(1, text.size() - 2);
  return std::string(text);
}

std::optional<std::int64_t> number_of(const std::string& text) {
  std::int64_t out = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), out);
  if (error != std::errc() || end != text.data() + text.size() || out < 0) return std::nullopt;
  return out;
}

// A conflict also says what the saw is now, so that the page can write again.
Response conflict(const Call& call, const std::string& saw, const base::Errors& errors) {
  const auto revision = desk::book_revision({call.book.path, saw, {}});
  return conflict_problem(errors, revision ? *revision : std::string());
}

desk::BookSetRequest set_request(const Call& call, const wire::DoSet& ask, std::int64_t base) {
  desk::BookSetRequest request;
  request.book = call.book.path;
  request.saw = ask.saw;
  request.field = ask.field;
  request.value = ask.value;
  request.clear = ask.clear;
  request.again = ask.again;
  request.with = ask.with;
  request.setup = ask.setup;
  request.note = ask.note;
  request.base = base;
  request.only_adds = call.who.device != 0;
  request.by = hand(call, ask);
  return request;
}

Response changed(const Call& call, const base::Result<void>& done) {
  if (!done) return problem(base::Errors{done.error()});
  const Standing now = call.host.standing();
  return json_response(wire::ask_text(wire::Changed{now.last, now.epoch, now.demo}));
}

}  // namespace

Response do_add(const Call& call) {
  return with<wire::DoAdd>(call, [&](const wire::DoAdd& ask) {
    if (auto refused = Screen().id_or_nothing(ask.to, "to").refusal()) return *refused;
    const std::string name = ask.name.substr(ask.name.find_last_of("/\\") + 1);
    return reply(desk::book_add(
        {call.book.path, {}, ask.to, {{name.empty() ? "typed.saw.toml" : name, ask.text}}, hand(call, ask)}));
  });
}

Response do_new(const Call& call) {
  return with<wire::DoNew>(call, [&](const wire::DoNew& ask) {
    return reply(desk::book_new({call.book.path, ask.name, ask.model, hand(call, ask)}));
  });
}

Response do_set(const Call& call) {
  return with<wire::DoSet>(call, [&](const wire::DoSet& ask) {
    if (auto refused = Screen().id(ask.saw).refusal()) return *refused;
    const std::string told = base_of(call, ask);
    if (told.empty())
      return problem(428, "base_needed", "Say what you saw",
                     "A change names the revision of the saw that the writer saw: base, or If-Match.");
    if (ask.clear && call.who.device != 0)
      return problem(403, "refused", "The machine's own",
                     "A reading is taken out on the machine that the book lies on. Here it can be read anew.");
    const auto base = number_of(told);
    if (!base) return problem(base::Errors{{base::ErrorCode::usage, "This is no revision of a saw.", "base", "", {}}});
    if (ask.clear && !ask.value.empty())
      return problem(base::Errors{{base::ErrorCode::usage,
                                   "clear takes the reading out; there is a value, too.",
                                   "clear",
                                   "Give one of both.",
                                   {}}});
    const auto answer = desk::book_set(set_request(call, ask, *base));
    if (!answer && answer.error().front().code == base::ErrorCode::conflict)
      return conflict(call, ask.saw, answer.error());
    return reply(answer);
  });
}

Response do_note(const Call& call) {
  return with<wire::DoNote>(call, [&](const wire::DoNote& ask) {
    if (auto refused = Screen().id(ask.saw).refusal()) return *refused;
    return reply(desk::book_note({call.book.path, ask.saw, ask.text, hand(call, ask)}));
  });
}

Response do_result(const Call& call) {
  return with<wire::DoResult>(call, [&](const wire::DoResult& ask) {
    if (auto refused = Screen().id(ask.saw).cuts(ask.cuts).refusal()) return *refused;
    return reply(desk::book_result({call.book.path, ask.saw, ask.cuts, ask.title, {}, hand(call, ask)}));
  });
}

Response do_wood(const Call& call) {
  return with<wire::DoWood>(call, [&](const wire::DoWood& ask) {
    if (auto refused = Screen().id(ask.saw).refusal()) return *refused;
    return reply(desk::book_wood({call.book.path, ask.saw, ask.date, ask.wood, ask.bar, ask.chain, ask.times, ask.rpm,
                                  ask.gauge, ask.felt, hand(call, ask)}));
  });
}

Response do_failure(const Call& call) {
  return with<wire::DoFailure>(call, [&](const wire::DoFailure& ask) {
    if (auto refused = Screen().id(ask.saw).refusal()) return *refused;
    return reply(
        desk::book_failure({call.book.path, ask.saw, ask.text, ask.where, ask.cause, ask.seen, hand(call, ask)}));
  });
}

Response do_cut(const Call& call) {
  return with<wire::DoCut>(call, [&](const wire::DoCut& ask) {
    if (auto refused = Screen().id(ask.saw).cuts(ask.cuts).cuts(ask.planned).id_or_nothing(ask.list, "list").refusal())
      return *refused;
    return reply(desk::book_cut(
        {call.book.path, ask.saw, ask.cuts, ask.title, ask.done, true, hand(call, ask), ask.planned, ask.list}));
  });
}

Response do_accept(const Call& call) {
  return with<wire::DoAccept>(call, [&](const wire::DoAccept& ask) {
    if (auto refused = Screen().id(ask.saw).cuts(ask.cuts).refusal()) return *refused;
    return reply(desk::book_accept({call.book.path, ask.saw, ask.finding, ask.reason, ask.cuts, hand(call, ask)}));
  });
}

Response do_borrow(const Call& call) {
  return with<wire::DoBorrow>(call, [&](const wire::DoBorrow& ask) {
    if (auto refused = Screen().id(ask.sister, "sister").refusal()) return *refused;
    return reply(desk::book_borrow({call.book.path, ask.sister, ask.name, hand(call, ask)}));
  });
}

Response do_hide(const Call& call) {
  return with<wire::DoSaw>(call, [&](const wire::DoSaw& ask) {
    if (auto refused = Screen().id(ask.saw).refusal()) return *refused;
    return reply(desk::book_hide({call.book.path, ask.saw, hand(call, ask)}));
  });
}

Response do_bring_back(const Call& call) {
  return with<wire::DoSaw>(call, [&](const wire::DoSaw& ask) {
    if (auto refused = Screen().id(ask.saw).refusal()) return *refused;
    return reply(desk::book_bring_back({call.book.path, ask.saw, hand(call, ask)}));
  });
}

Response do_undo(const Call& call) {
  return with<wire::DoAct>(call, [&](const wire::DoAct& ask) {
    return reply(desk::book_undo({call.book.path, hand(call, ask)}));
  });
}

Response do_redo(const Call& call) {
  return with<wire::DoAct>(call, [&](const wire::DoAct& ask) {
    return reply(desk::book_redo({call.book.path, hand(call, ask)}));
  });
}

Response do_own_book(const Call& call) {
  return with<wire::DoAct>(call, [&](const wire::DoAct&) { return changed(call, call.host.own_book()); });
}

Response do_demo_book(const Call& call) {
  return with<wire::DoAct>(call, [&](const wire::DoAct&) { return changed(call, call.host.demo_book()); });
}

Response do_backup(const Call& call) {
  return with<wire::DoAct>(call, [&](const wire::DoAct&) { return reply(desk::book_backup({call.book.path, {}})); });
}

}  // namespace portwright::server
