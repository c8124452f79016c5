#include <utility>

#include "book/attempt.hpp"
#include "book/inside.hpp"
#include "book/tree.hpp"

namespace portwright::book {

using base::Result;

namespace {

/// The words as typed, each quoted for FTS5, the last as the beginning of a word; empty when there is none.
std::string match_of(const std::string& text) {
  std::string out, word;
  const auto end_word = [&](bool last) {
    if (word.empty()) return;
    out += (out.empty() ? "\"" : " \"") + word + (last ? "\"*" : "\"");
    word.clear();
  };
  const bool open_end = !text.empty() && text.back() != ' ';
  for (const char c : text) {
    if (c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == '"')
      end_word(false);
    else
      word += c;
  }
  end_word(open_end);
  return out;
}

/// Whether FTS5 would see a letter or digit in it: bytes beyond ASCII are left to it.
bool has_word(const std::string& text) {
  for (const char c : text)
    if ((c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
        (static_cast<unsigned char>(c) & 0x80U))
      return true;
  return false;
}

/// Adds the document of a row of the index, unless it is hidden.
Result<void> add_found(Database& database, const std::string& match, std::int64_t number, std::vector<Found>& out) {
  Statement document =
      database.prepare("SELECT id, kind, belongs_to, title FROM document WHERE number = ? AND concealed = 0");
  BOOK_LET(seen, document.bind(number).step());
  if (!seen) return {};
  Statement words = database.prepare(
      "SELECT snippet(search, 1, '', '', '\u2026', 12) FROM search WHERE search MATCH ? AND rowid = ?");
  BOOK_LET(there, words.bind(match).bind(number).step());
  out.push_back({document.text(0), document.text(1), document.text(2), document.text(3), there ? words.text(0) : ""});
  return {};
}

}  // namespace

Result<std::vector<Found>> Book::find(const std::string& text, std::int64_t limit) {
  std::vector<Found> out;
  const std::string match = match_of(text);
  if (!is_text(text) || text.size() > 1000)
    return base::fail(base::ErrorCode::usage, "What is looked for is no text of 1,000 bytes.");
  if (match.empty() || !has_word(text)) return out;
  BOOK_TRY(inside_->ready());
  BOOK_LET(view, Transaction::reading(inside_->database));
  // Best first; the ones out of sight are passed by until there are enough.
  Statement matches = inside_->database.prepare("SELECT rowid FROM search WHERE search MATCH ? ORDER BY rank");
  matches.bind(match);
  while (limit < 0 || static_cast<std::int64_t>(out.size()) < limit) {
    BOOK_LET(more, matches.step());
    if (!more) break;
    BOOK_TRY(add_found(inside_->database, match, matches.number(0), out));
  }
  BOOK_TRY(view.commit());
  return out;
}

}  // namespace portwright::book
