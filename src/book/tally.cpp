#include "book/tally.hpp"

#include <unistd.h>

#include <charconv>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <utility>

#include "base/file.hpp"
#include "book/attempt.hpp"
#include "book/tree.hpp"

namespace portwright::book {

using base::ErrorCode;
using base::Result;
namespace fs = std::filesystem;

namespace {

constexpr std::size_t longest_tally = 4096;
constexpr int patience = 2000;  // [ms]

void put_text(Tree& tree, const char* name, std::string text) {
  Tree leaf;
  leaf.kind = Tree::Kind::text;
  leaf.text = std::move(text);
  (void)set(tree, name, std::move(leaf));  // a name of our own: it cannot fail
}

std::string text_at(const Tree& tree, const char* name) {
  const Tree* leaf = find(tree, name);
  return leaf == nullptr ? std::string{} : leaf->text;
}

std::int64_t number_at(const Tree& tree, const char* name) {
  const std::string text = text_at(tree, name);
  std::int64_t out = -1;
  const auto [end, trouble] = std::from_chars(text.data(), text.data() + text.size(), out);
  return trouble == std::errc{} && end == text.data() + text.size() ? out : -1;
}

std::string counted(std::int64_t n, const char* what) { return std::to_string(n) + ' ' + what; }

Alarm alarm_of(const Tally& then, const Tally& now, const std::string& what) {
  Alarm out;
  out.entries_then = then.entries;
  out.entries_now = now.entries;
  out.documents_then = then.documents;
  out.documents_now = now.documents;
  out.message = what + ": " + counted(then.entries, "entries") + " and " + counted(then.documents, "documents") +
                " then, " + counted(now.entries, "entries") + " and " + counted(now.documents, "documents") + " now.";
  return out;
}

Result<std::string> chain_at(Database& database, std::int64_t sequence) {
  Statement row = database.prepare("SELECT chain FROM journal WHERE sequence = ?");
  BOOK_LET(there, row.bind(sequence).step());
  return there ? row.text(0) : std::string{};
}

}  // namespace

std::optional<Tally> read_tally(const std::string& path) {
  if (path.empty()) return std::nullopt;
  const Result<std::string> text = base::read_file(path, longest_tally);
  if (!text) return std::nullopt;
  const Result<Tree> tree = parse_tree(*text);
  if (!tree) return std::nullopt;
  Tally out{text_at(*tree, "book"),        number_at(*tree, "sequence"), text_at(*tree, "chain"),
            number_at(*tree, "documents"), number_at(*tree, "entries"),  number_at(*tree, "blobs")};
  if (out.book.empty() || out.sequence < 0 || out.documents < 0 || out.entries < 0 || out.blobs < 0)
    return std::nullopt;
  return out;
}

Result<void> write_tally(const std::string& path, const Tally& tally) {
  Tree tree;
  put_text(tree, "book", tally.book);
  put_text(tree, "sequence", std::to_string(tally.sequence));
  put_text(tree, "chain", tally.chain);
  put_text(tree, "documents", std::to_string(tally.documents));
  put_text(tree, "entries", std::to_string(tally.entries));
  put_text(tree, "blobs", std::to_string(tally.blobs));
  const std::string temporary = path + "." + std::to_string(getpid());
  std::ofstream out(temporary, std::ios::binary | std::ios::trunc);
  out << print(tree);
  out.close();
  if (out && std::rename(temporary.c_str(), path.c_str()) == 0) return {};
  std::remove(temporary.c_str());
  return base::fail(ErrorCode::storage, "The tally " + path + " could not be written.");
}

std::string state_tally(const Place& place, const std::string& book) {
  fs::path folder = place.state_folder;
  const char* state = std::getenv("XDG_STATE_HOME");
  const char* home = std::getenv("HOME");
  if (folder.empty() && state != nullptr && *state == '/') folder = fs::path(state) / "portwright";
  if (folder.empty() && home != nullptr && *home == '/') folder = fs::path(home) / ".local/state/portwright";
  if (folder.empty() || book.empty()) return {};
  return (folder / "tallies" / book).string();
}

Result<Tally> sighting(Database& database, const std::string& book) {
  BOOK_LET(standing, read_standing(database));
  return Tally{book, standing.sequence, standing.chain, standing.documents, standing.entries, standing.blobs};
}

Result<std::optional<Alarm>> compare(Database& database, const std::string& book, const Tally& seen) {
  BOOK_LET(now, sighting(database, book));
  if (seen.book != book) return alarm_of(seen, now, "This is another book than the one last seen here");
  if (now.sequence < seen.sequence) return alarm_of(seen, now, "This book is older than the one last seen here");
  if (seen.sequence == 0) return std::nullopt;
  BOOK_LET(chain, chain_at(database, seen.sequence));
  if (chain != seen.chain) return alarm_of(seen, now, "This book has another history than the one last seen here");
  return std::nullopt;
}

void keep_tallies(Book::Inside& inside, const Tally& now, bool always) {
  const Files files(inside.place.path);
  const Result<Lock> lock = Lock::take(files.lock, Lock::Kind::alone, patience, false, Lock::tally_byte);
  if (!lock) return inside.notices.push_back(lock.error().message);
  for (const std::string& path : {files.tally, state_tally(inside.place, now.book)}) {
    if (path.empty()) continue;
    const std::optional<Tally> before = always ? std::nullopt : read_tally(path);
    if (before && before->book == now.book && before->sequence >= now.sequence) continue;
    std::error_code ignored;
    if (path != files.tally) fs::create_directories(fs::path(path).parent_path(), ignored);
    if (const Result<void> written = write_tally(path, now); !written)
      inside.notices.push_back(written.error().message);
  }
}

}  // namespace portwright::book
