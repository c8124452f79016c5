#pragma once
// The one table of what may be asked: parser, router and OpenAPI are all made from it.

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "server/book_host.hpp"
#include "server/events.hpp"
#include "server/jobs.hpp"
#include "server/network/visitors.hpp"
#include "server/opened_saws.hpp"
#include "server/request.hpp"
#include "wire/openapi.hpp"

namespace portwright::server {

/// ask: changes nothing; act: writes ("do" in the address); run: starts a job; sheet: a drawing as bytes.
enum class Kind { ask, act, run, sheet };

/// What a route has to work with.
struct Call {
  const Request& request;
  Standing book;
  std::string author;
  Listener who;
  BookHost& host;
  Jobs& jobs;
  OpenedSaws& opened;
  Visitors& visitors;
};

struct Route {
  std::string_view name;  ///< "study"
  Kind kind;
  Role needs;               ///< who may ask: a device, and the machine itself; or the machine alone
  std::string_view ask;     ///< schema of the body
  std::string_view answer;  ///< schema of the answer, or of what the job answers; sheets: the media type
  std::string_view says;    ///< one sentence
  Response (*run)(const Call&);
  std::string_view takes = {};  ///< media types of a body that is no JSON, parted by blanks; `ask` is empty then
};

[[nodiscard]] std::span<const Route> routes();

/// What is answered beside the table: doors, events, this description, the stopping of a job.
struct Fixed {
  std::string_view method;      ///< "get" | "post"
  std::string_view path;        ///< "/api/events"
  Role needs;                   ///< nobody: it asks for no cookie
  std::string_view ask;         ///< schema of the body
  std::string_view answer;      ///< schema of the answer; empty: see media
  std::string_view media;       ///< of an answer that is no JSON
  std::string_view says;        ///< one sentence
  std::string_view query = {};  ///< names in the query, parted by blanks
};
[[nodiscard]] std::span<const Fixed> fixed_routes();

/// "/api/ask/study".
[[nodiscard]] std::string path_of(const Route& route);
/// The route at a path, or null.
[[nodiscard]] const Route* find_route(std::string_view path);

/// Media types that a path takes instead of JSON, parted by blanks; empty: JSON.
[[nodiscard]] std::string_view taken_at(std::string_view path);

/// Who may ask at a path; at one that is nowhere, whoever came in.
[[nodiscard]] Role needed(std::string_view path);

/// Everything that the server answers to below /api/, with what is no route of the table.
[[nodiscard]] std::vector<wire::Operation> operations();

}  // namespace portwright::server
