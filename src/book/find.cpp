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

Result<std::string> snippet_of(Database& database, const std::string& match, std::int64_t number) {
  Statement row = database.prepare(
      "SELECT snippet(search, 1, '', '', '\u2026', 12) FROM search WHERE search MATCH ? AND rowid = ?");
  BOOK_LET(there, row.bind(match).bind(number).step());
  return there ? row.text(0) : std::string{};
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
  std::vector<std::int64_t> numbers;
  {
    Statement rows = inside_->database.prepare(
        "SELECT d.number, d.id, d.kind, d.belongs_to, d.title FROM search JOIN document d ON d.number = search.rowid "
        "WHERE search MATCH ? AND d.concealed = 0 ORDER BY rank, d.number LIMIT ?");
    rows.bind(match).bind(limit);
    for (;;) {
      BOOK_LET(more, rows.step());
      if (!more) break;
      numbers.push_back(rows.number(0));
      out.push_back({rows.text(1), rows.text(2), rows.text(3), rows.text(4), {}});
    }
  }
  for (std::size_t i = 0; i < out.size(); ++i) {
    BOOK_LET(snippet, snippet_of(inside_->database, match, numbers[i]));
    out[i].snippet = std::move(snippet);
  }
  BOOK_TRY(view.commit());
  return out;
}

}  // namespace portwright::book
