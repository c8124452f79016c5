// What is asked and changes nothing.
#include <filesystem>

#include "desk/book.hpp"
#include "desk/desk.hpp"
#include "desk/page.hpp"
#include "server/answering.hpp"
#include "server/handlers.hpp"

namespace portwright::server {

Response ask_bench(const Call& call) {
  return with<wire::AskBench>(call, [&](const wire::AskBench& ask) {
    return reply(desk::book_list({call.book.path, ask.hidden, ask.all}));
  });
}

Response ask_saw(const Call& call) {
  return with<wire::AskSaw>(call, [&](const wire::AskSaw& ask) {
    if (auto refused = Screen().id(ask.saw).refusal()) return *refused;
    return reply(desk::book_show({call.book.path, ask.saw, {}}));
  });
}

Response ask_study(const Call& call) {
  return with<wire::AskStudy>(call, [&](const wire::AskStudy& ask) {
    if (auto refused = Screen().id(ask.saw).cuts(ask.cuts).rpm(ask.rpm).refusal()) return *refused;
    const auto saw = call.opened.open(call.book.path, ask.saw);
    return saw ? reply(desk::study(**saw, {ask.cuts, ask.rpm, ask.units})) : problem(saw.error());
  });
}

Response ask_bore(const Call& call) {
  return with<wire::AskBore>(call, [&](const wire::AskBore& ask) {
    if (auto refused = Screen().id(ask.saw).cuts(ask.cuts).refusal()) return *refused;
    const auto saw = call.opened.open(call.book.path, ask.saw);
    return saw ? reply(desk::bore(**saw, {ask.cuts, {}, ask.units})) : problem(saw.error());
  });
}

Response ask_form(const Call& call) {
  return with<wire::AskForm>(call, [&](const wire::AskForm& ask) {
    if (auto refused = Screen().id(ask.saw).refusal()) return *refused;
    return reply(desk::form({of_book(ask.saw), ask.units, call.book.path}));
  });
}

Response ask_steps(const Call& call) {
  return with<wire::AskSteps>(call, [&](const wire::AskSteps& ask) {
    Screen screen;
    screen.id(ask.saw).cuts(ask.cuts);
    for (const wire::StepIn& step : ask.steps) screen.cut(step);
    if (auto refused = screen.refusal()) return *refused;
    const auto saw = call.opened.open(call.book.path, ask.saw);
    return saw ? reply(desk::steps(**saw, {ask.cuts, ask.steps})) : problem(saw.error());
  });
}

Response ask_why(const Call& call) {
  return with<wire::AskWhy>(call, [&](const wire::AskWhy& ask) {
    if (auto refused = Screen().id(ask.saw).cuts(ask.cuts).rpm(ask.rpm).refusal()) return *refused;
    // What turns the engine is a job, and its figures carry their own reasons.
    return reply(desk::why({{of_book(ask.saw), ask.cuts, ask.rpm, ask.units, call.book.path}, ask.figure, false}));
  });
}

Response ask_check(const Call& call) {
  return with<wire::AskCheck>(call, [&](const wire::AskCheck& ask) {
    if (auto refused = Screen().id(ask.saw).refusal()) return *refused;
    return reply(desk::check({of_book(ask.saw), ask.units, call.book.path}));
  });
}

Response ask_compare(const Call& call) {
  return with<wire::AskCompare>(call, [&](const wire::AskCompare& ask) {
    Screen screen;
    screen.id(ask.saw).id_or_nothing(ask.saw_b, "saw_b").cuts(ask.cuts).cuts(ask.cuts_b).rpm(ask.rpm);
    if (auto refused = screen.refusal()) return *refused;
    return reply(desk::compare({of_book(ask.saw), ask.saw_b.empty() ? "" : of_book(ask.saw_b), ask.cuts, ask.cuts_b,
                                ask.rpm, ask.units, call.book.path}));
  });
}

Response ask_edge(const Call& call) {
  return with<wire::AskEdge>(call, [&](const wire::AskEdge& ask) {
    if (auto refused = Screen().id(ask.saw).cuts(ask.cuts).refusal()) return *refused;
    return reply(desk::edge({of_book(ask.saw), ask.port, ask.edge, ask.at, ask.cuts, ask.units, call.book.path}));
  });
}

Response ask_units(const Call& call) {
  return with<wire::AskUnits>(call, [&](const wire::AskUnits& ask) {
    return reply(desk::units({ask.text, ask.units}));
  });
}

Response ask_sisters(const Call& call) {
  return with<wire::AskSisters>(call, [&](const wire::AskSisters& ask) {
    return reply(desk::book_sisters({call.book.path, ask.model, ask.units}));
  });
}

Response ask_find(const Call& call) {
  return with<wire::AskFind>(call, [&](const wire::AskFind& ask) {
    return reply(desk::book_find({call.book.path, ask.text}));
  });
}

Response ask_journal(const Call& call) {
  return with<wire::AskJournal>(call, [&](const wire::AskJournal& ask) {
    if (auto refused = Screen().id_or_nothing(ask.saw).refusal()) return *refused;
    if (ask.limit < 1 || ask.limit > 1000)
      return problem(base::Errors{
          {base::ErrorCode::out_of_range, "That is no number of actions.", "limit", "Give 1 to 1000.", {}}});
    return reply(desk::book_journal({call.book.path, ask.saw, ask.limit}));
  });
}

namespace {

// The newest good backup that an error of the book names; when it was made stands in its name.
std::optional<wire::BookBackup> named_backup(const base::Error& error) {
  if (error.readings.empty()) return std::nullopt;
  wire::BookBackup out;
  out.file = error.readings.front();
  std::error_code gone;
  const auto size = std::filesystem::file_size(out.file, gone);
  if (!gone) out.bytes = static_cast<std::int64_t>(size);
  const std::string name = std::filesystem::path(out.file).stem().string();  // b.portwright.000117.20260301T093000Z
  const std::string at = name.substr(name.rfind('.') + 1);
  if (at.size() == 16)
    out.at = at.substr(0, 4) + '-' + at.substr(4, 2) + '-' + at.substr(6, 5) + ':' + at.substr(11, 2) + ':' +
             at.substr(13, 3);
  return out;
}

// Of a book that cannot be read: where it is, so that the way back can be told.
wire::BookWhereAnswer where_it_is(const Call& call, const base::Errors& errors) {
  const desk::BookStanding standing = desk::book_standing(call.book.path);
  wire::BookWhereAnswer out;
  out.head.book = standing.path;
  out.head.errors = errors;
  out.chosen_by = standing.chosen_by;
  out.there = standing.there;
  out.folder = (std::filesystem::path(standing.path).parent_path() / "backups").string();
  if (const auto backup = named_backup(errors.front())) out.backups.push_back(*backup);
  return out;
}

}  // namespace

Response ask_where(const Call& call) {
  return with<wire::AskNothing>(call, [&](const wire::AskNothing&) {
    const auto where = desk::book_where({call.book.path, {}});
    const bool broken = !where && (where.error().front().code == base::ErrorCode::damaged ||
                                   where.error().front().code == base::ErrorCode::newer);
    return broken ? json_response(wire::to_json(where_it_is(call, where.error()))) : reply(where);
  });
}

Response ask_verify(const Call& call) {
  return with<wire::AskNothing>(call, [&](const wire::AskNothing&) {
    return reply(desk::book_verify({call.book.path, {}}));
  });
}

Response ask_job(const Call& call) {
  return with<wire::AskJob>(call, [&](const wire::AskJob& ask) {
    const auto state = call.jobs.state(call.who.session, ask.job);
    return state ? json_response(wire::ask_text(*state)) : problem(base::Errors{state.error()});
  });
}

}  // namespace portwright::server
