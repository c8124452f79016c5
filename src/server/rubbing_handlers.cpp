// Rubbings: measured on a photo of the book, and kept.
#include <charconv>

#include "desk/rubbing.hpp"
#include "server/answering.hpp"
#include "server/handlers.hpp"

namespace portwright::server {
namespace {

// A port's name is a word; what is none is not there.
bool is_word(const std::string& name) {
  return name.size() <= 40 && name.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789_") == std::string::npos;
}

std::optional<Response> refused(const std::string& photo, const std::string& port, const wire::RubbingHints& hints) {
  if (auto out = Screen().id(photo, "photo").refusal()) return out;
  const auto error = [](const char* path, const char* message) {
    return problem(base::Errors{{base::ErrorCode::usage, message, path, "", {}}});
  };
  if (!is_word(port)) return error("port", "This is no name of a port.");
  if (hints.across.size() > 40) return error("across", "This is no length.");
  if (hints.down.size() > 40) return error("down", "This is no length.");
  return std::nullopt;
}

}  // namespace

Response ask_rubbing(const Call& call) {
  return with<wire::AskRubbing>(call, [&](const wire::AskRubbing& ask) {
    if (auto no = refused(ask.photo, ask.port, ask.hints)) return *no;
    return reply(desk::rubbing({call.book.path, ask.photo, ask.port, ask.hints, ask.units}, &call.opened.rubbings()));
  });
}

Response do_rubbing(const Call& call) {
  return with<wire::DoRubbing>(call, [&](const wire::DoRubbing& ask) {
    if (auto no = Screen().id(ask.saw).refusal()) return *no;
    if (auto no = refused(ask.photo, ask.port, ask.hints)) return *no;
    std::optional<std::int64_t> base;
    if (!ask.base.empty()) {
      std::int64_t number = 0;
      const char* end = ask.base.data() + ask.base.size();
      const auto read = std::from_chars(ask.base.data(), end, number);
      if (read.ec != std::errc() || read.ptr != end || number < 0)
        return problem(base::Errors{{base::ErrorCode::usage, "This is no revision of a saw.", "base", "", {}}});
      base = number;
    }
    return reply(desk::book_rubbing({call.book.path, ask.saw, ask.photo, ask.port, ask.hints, base, hand(call, ask)},
                                    &call.opened.rubbings()));
  });
}

}  // namespace portwright::server
