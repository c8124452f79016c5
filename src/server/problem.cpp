#include "server/problem.hpp"

#include "wire/asks.hpp"

namespace portwright::server {
namespace {

using base::ErrorCode;

const char* title_of(ErrorCode code) {
  switch (code) {
    case ErrorCode::not_found:
      return "Not there";
    case ErrorCode::conflict:
      return "Changed meanwhile";
    case ErrorCode::busy:
      return "The book is held";
    case ErrorCode::storage:
      return "The disk refuses";
    case ErrorCode::damaged:
    case ErrorCode::newer:
      return "The book cannot be read";
    case ErrorCode::fault:
      return "A fault in the program";
    default:
      return "Not understood";
  }
}

}  // namespace

int status_of(ErrorCode code) {
  switch (code) {
    case ErrorCode::not_found:
      return 404;
    case ErrorCode::conflict:
      return 409;
    case ErrorCode::busy:
      return 503;
    case ErrorCode::storage:
      return 507;
    case ErrorCode::damaged:
    case ErrorCode::newer:
    case ErrorCode::fault:
      return 500;
    default:
      return 422;
  }
}

namespace {

Response response_of(const wire::Problem& told) {
  Response out;
  out.status = told.status;
  out.headers.emplace_back("Content-Type", "application/problem+json");
  if (told.status == 405) out.headers.emplace_back("Allow", "GET, POST");
  if (told.status == 503) out.headers.emplace_back("Retry-After", "1");
  out.body = wire::ask_text(told);
  return out;
}

wire::Problem told_of(const base::Errors& errors) {
  const base::Error first = errors.empty() ? base::Error{} : errors.front();
  wire::Problem told{std::string("urn:portwright:") + base::code_name(first.code),
                     title_of(first.code),
                     status_of(first.code),
                     first.message,
                     errors,
                     {},
                     {},
                     {}};
  if (first.code == ErrorCode::conflict && first.readings.size() == 2) {
    told.mine = first.readings[0];
    told.theirs = first.readings[1];
  }
  return told;
}

}  // namespace

Response problem(int status, const std::string& kind, const std::string& title, const std::string& detail,
                 base::Errors errors) {
  return response_of({"urn:portwright:" + kind, title, status, detail, std::move(errors), {}, {}, {}});
}

Response problem(const Refusal& refusal) { return problem(refusal.status, "refused", refusal.title, refusal.detail); }

Response problem(const base::Errors& errors) { return response_of(told_of(errors)); }

Response conflict_problem(const base::Errors& errors, const std::string& revision) {
  wire::Problem told = told_of(errors);
  if (!revision.empty()) told.revision = revision;
  return response_of(told);
}

void add_common_headers(Response& response) {
  const auto add = [&](const char* name, const char* value) {
    if (value_of(response.headers, name).empty()) response.headers.emplace_back(name, value);
  };
  add("Content-Security-Policy",
      "default-src 'self'; object-src 'none'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'");
  add("X-Content-Type-Options", "nosniff");
  add("Referrer-Policy", "no-referrer");
  add("Cross-Origin-Resource-Policy", "same-origin");
  add("Cross-Origin-Opener-Policy", "same-origin");
  add("Cache-Control", "no-store");
}

std::string one_line(const std::string& json) {
  std::string out;
  out.reserve(json.size());
  bool indent = false;
  for (const char c : json) {
    if (c == '\n')
      indent = true;
    else if (!indent || c != ' ') {
      indent = false;
      out += c;
    }
  }
  return out;
}

}  // namespace portwright::server
