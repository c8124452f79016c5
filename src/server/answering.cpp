#include "server/answering.hpp"

#include <algorithm>
#include <utility>

namespace portwright::server {
namespace {

constexpr double least_rpm = 500.0, greatest_rpm = 30000.0;
constexpr std::size_t longest_id = 40;

bool is_id(const std::string& id) {
  return !id.empty() && id.size() <= longest_id && std::all_of(id.begin(), id.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_';
  });
}

}  // namespace

Screen& Screen::id(const std::string& id, const char* field) {
  if (!is_id(id))
    errors_.push_back({base::ErrorCode::usage,
                       "This is no id of the book.",
                       field,
                       "Ids have letters and digits alone; ask/bench gives them.",
                       {}});
  return *this;
}

Screen& Screen::id_or_nothing(const std::string& id, const char* field) {
  return id.empty() ? *this : this->id(id, field);
}

Screen& Screen::cuts(const std::string& cuts) {
  if (const auto plain = desk::without_files(cuts); !plain)
    errors_.insert(errors_.end(), plain.error().begin(), plain.error().end());
  return *this;
}

Screen& Screen::cut(const wire::StepIn& step) {
  for (const std::string& rest :
       {std::string(" to \"x\""), " to \"" + step.words + '"', ' ' + step.words, std::string()})
    if (auto plain = desk::without_files(step.act + rest); !plain) {
      errors_.insert(errors_.end(), plain.error().begin(), plain.error().end());
      break;
    }
  return *this;
}

Screen& Screen::rpm(const std::optional<double>& rpm) {
  if (rpm && !(*rpm >= least_rpm && *rpm <= greatest_rpm))
    errors_.push_back(
        {base::ErrorCode::out_of_range, "This is no speed a saw runs at.", "rpm", "Give 500 to 30000 rpm.", {}});
  return *this;
}

std::optional<Response> Screen::refusal() const {
  if (errors_.empty()) return std::nullopt;
  return problem(errors_);
}

Response sheet_response(std::string bytes, const char* type, const char* file) {
  Response out;
  out.headers.emplace_back("Content-Type", type);
  out.headers.emplace_back("Content-Security-Policy", "sandbox; default-src 'none'; style-src 'unsafe-inline'");
  out.headers.emplace_back("Content-Disposition",
                           file ? std::string("attachment; filename=\"") + file + '"' : std::string("inline"));
  out.body = std::move(bytes);
  return out;
}

std::string own_word(const Call& call, const std::string& word) {
  if (word.empty() || call.who.device == 0) return word;
  return "device " + std::to_string(call.who.device) + ' ' + word;
}

std::string of_book(const std::string& id) { return "book:" + id; }

}  // namespace portwright::server
