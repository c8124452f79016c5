#pragma once
// What went wrong, as RFC 9457 has it.

#include <string>

#include "base/error.hpp"
#include "server/gate.hpp"
#include "server/request.hpp"

namespace portwright::server {

/// HTTP status of an error.
[[nodiscard]] int status_of(base::ErrorCode code);

/// application/problem+json. `kind`: a short word for the program.
[[nodiscard]] Response problem(int status, const std::string& kind, const std::string& title, const std::string& detail,
                               base::Errors errors = {});
[[nodiscard]] Response problem(const Refusal& refusal);
/// Of what the desk says; status and kind are those of the first.
[[nodiscard]] Response problem(const base::Errors& errors);
/// Of a conflict: with both values, and the revision as it is now (empty: not known).
[[nodiscard]] Response conflict_problem(const base::Errors& errors, const std::string& revision);

/// The headers that every response carries.
void add_common_headers(Response& response);

/// JSON without line ends and indents.
[[nodiscard]] std::string one_line(const std::string& json);

}  // namespace portwright::server
