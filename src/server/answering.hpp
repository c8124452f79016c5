#pragma once
// From a body to an ask, from an answer to a response. Inside the module only.

#include <functional>
#include <initializer_list>
#include <optional>
#include <string>

#include "base/error.hpp"
#include "desk/book.hpp"
#include "desk/desk.hpp"
#include "server/problem.hpp"
#include "server/routes.hpp"
#include "wire/asks.hpp"
#include "wire/json.hpp"

namespace portwright::server {

[[nodiscard]] inline Response json_response(std::string body) {
  Response out;
  out.headers.emplace_back("Content-Type", "application/json");
  out.body = std::move(body);
  return out;
}

/// A drawing as bytes: it runs no script and asks for nothing, whoever opens it.
/// @param file name to keep it under; null: it is shown
[[nodiscard]] Response sheet_response(std::string bytes, const char* type, const char* file);

template <class A>
[[nodiscard]] Response reply(const base::ResultAll<A>& answer) {
  return answer ? json_response(wire::to_json(*answer)) : problem(answer.error());
}

/// Reads the body as an ask and answers it. A: the ask; `answer` gives a Response.
template <class A, class F>
[[nodiscard]] Response with(const Call& call, F&& answer) {
  const auto ask = wire::read_ask<A>(call.request.body);
  return ask ? answer(*ask) : problem(base::Errors{ask.error()});
}

/// Errors of what an ask names before the desk sees it: ids that are none, cut lists that name files, a speed that no
/// saw runs at. None: it may go on.
class Screen {
 public:
  /// Letters, digits, `-` and `_`, 40 at most: never a path.
  Screen& id(const std::string& id, const char* field = "saw");
  Screen& id_or_nothing(const std::string& id, const char* field = "saw");
  Screen& cuts(const std::string& cuts);
  /// A step of a page: no act that reads a file.
  Screen& cut(const wire::StepIn& step);
  Screen& rpm(const std::optional<double>& rpm);
  [[nodiscard]] std::optional<Response> refusal() const;

 private:
  base::Errors errors_;
};

/// A saw of the open book as the desk names it.
[[nodiscard]] std::string of_book(const std::string& id);

/// A word that a request names its writer or itself by. Those of a device are kept apart: it can pass for no window of
/// the machine, and gets no answer that was another's.
[[nodiscard]] std::string own_word(const Call& call, const std::string& word);

/// Whose hand writes.
template <class A>
[[nodiscard]] desk::Hand hand(const Call& call, const A& ask) {
  return {call.author, own_word(call, ask.token), own_word(call, ask.client)};
}

}  // namespace portwright::server
