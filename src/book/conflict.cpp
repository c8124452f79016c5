#include "book/conflict.hpp"

#include <algorithm>

#include "book/attempt.hpp"

namespace portwright::book {

using base::ErrorCode;
using base::Result;

namespace {

Result<void> collect(Statement& rows, std::vector<Told>& out) {
  for (;;) {
    BOOK_LET(more, rows.step());
    if (!more) return {};
    Told told;
    told.entry = {rows.number(0), rows.text(1), rows.text(2), rows.maybe_text(3), rows.maybe_text(4), {}};
    told.action = rows.number(5);
    told.root = rows.number(6);
    told.author = rows.text(7);
    told.at = rows.text(8);
    told.client = rows.text(9);
    told.off_stack = rows.number(10) != 0;
    told.live = rows.maybe_text(11) == "0";
    out.push_back(std::move(told));
  }
}

#define BOOK_TOLD                                                                                          \
  "SELECT j.sequence, j.document, j.path, j.before, j.after, j.action, a.root, a.author, a.at, a.client, " \
  "a.off_stack, "                                                                                          \
  "r.state FROM journal j JOIN action a ON a.number = j.action LEFT JOIN root r ON r.action = j.action "

constexpr std::string_view on_path = BOOK_TOLD "WHERE j.document = ? AND j.path = ? AND j.sequence > ?";
constexpr std::string_view below_path =
    BOOK_TOLD "WHERE j.document = ? AND j.path > ? AND j.path < ? AND j.sequence > ?";
constexpr std::string_view anywhere = BOOK_TOLD "WHERE j.document = ? AND j.sequence > ?";

std::string shown(const std::optional<std::string>& value) { return value.value_or(""); }

}  // namespace

Result<std::vector<Told>> entries_touching(Database& database, const std::string& document, std::string_view path,
                                           std::int64_t sequence) {
  std::vector<Told> out;
  if (path.empty() || path == hidden_path) {
    Statement rows = database.prepare(anywhere);
    rows.bind(document).bind(sequence);
    BOOK_TRY(collect(rows, out));
  } else {
    std::vector<std::string> exact{"", std::string(hidden_path), std::string(path)};
    for (std::size_t dot = path.find('.'); dot != std::string_view::npos; dot = path.find('.', dot + 1))
      exact.emplace_back(path.substr(0, dot));
    for (const std::string& one : exact) {
      Statement rows = database.prepare(on_path);
      rows.bind(document).bind(one).bind(sequence);
      BOOK_TRY(collect(rows, out));
    }
    Statement rows = database.prepare(below_path);
    rows.bind(document).bind(std::string(path) + '.').bind(std::string(path) + '/').bind(sequence);
    BOOK_TRY(collect(rows, out));
  }
  std::sort(out.begin(), out.end(), [](const Told& a, const Told& b) { return a.entry.sequence < b.entry.sequence; });
  return out;
}

base::Error conflict_error(const Told& other, const std::string& path, const std::optional<std::string>& mine,
                           const std::optional<std::string>& theirs) {
  const std::string who = other.author.empty() ? "somebody" : other.author;
  return {ErrorCode::conflict,
          "Changed since you saw it, by " + who + " at " + other.at + ".",
          path,
          "Look at both values, then write again.",
          {shown(mine), shown(theirs)}};
}

Result<void> check_conflict(Database& database, const Held& held, const Change& change,
                            const std::optional<std::string>& value, const std::string& client) {
  BOOK_LET(standing, read_standing(database));
  if (change.base > standing.sequence || change.base < 0)
    return base::fail(ErrorCode::usage, "The change rests on a revision that the book does not have.", change.path);
  const std::optional<std::string> now = value_at(held, change.path);
  if (change.base >= held.revision || now == value) return {};
  BOOK_LET(touching, entries_touching(database, held.id, change.path, change.base));
  // What this client itself set at the path or above it is what it saw last.
  const auto own = [&](const Told& told) { return !client.empty() && told.client == client; };
  std::size_t first = 0;
  for (std::size_t i = 0; i < touching.size(); ++i)
    if (own(touching[i]) && touching[i].entry.path.size() <= change.path.size() &&
        touching[i].entry.path != hidden_path)
      first = i + 1;
  const auto begin = touching.begin() + static_cast<std::ptrdiff_t>(first);
  const auto other = std::find_if_not(begin, touching.end(), own);
  if (other == touching.end()) return {};
  Held then = held;
  for (auto told = touching.end(); told != begin;) {
    --told;
    if (told->entry.path.empty())
      then.body = {};
    else
      BOOK_TRY(put(then, told->entry.path, told->entry.before));
  }
  if (value_at(then, change.path) == now && then.hidden == held.hidden) return {};
  auto last = std::find_if_not(std::make_reverse_iterator(touching.end()), std::make_reverse_iterator(other), own);
  const bool put_away = then.hidden != held.hidden && value_at(then, change.path) == now;
  const std::optional<std::string> theirs = put_away ? (held.hidden ? "hidden" : "brought back") : now;
  return tl::unexpected(conflict_error(*last, change.path, value, theirs));
}

}  // namespace portwright::book
