// A book from an exported folder, or a saw from its parcel: looked at first, and taken whole or not at all.
#include <algorithm>
#include <filesystem>
#include <set>

#include "base/file.hpp"
#include "desk/book.hpp"
#include "desk/book/carried.hpp"
#include "desk/book/field_path.hpp"
#include "desk/book/parcel.hpp"
#include "desk/book/shelf.hpp"

namespace portwright::desk {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t most_lines_bytes = std::size_t{1} << 30U;

/// What was found in a folder or a parcel.
struct Load {
  std::optional<book::Whole> whole;  ///< of a folder
  std::vector<book::Document> documents;
  book::BlobSource blobs;
};

base::Error refused(const std::string& message) {
  return {base::ErrorCode::damaged, message, "", "Nothing was imported.", {}};
}

// A plain file of the folder; a link is none.
base::Result<std::string> plain_file(const fs::path& path, std::size_t cap) {
  std::error_code trouble;
  const fs::file_status status = fs::symlink_status(path, trouble);
  if (status.type() == fs::file_type::not_found)
    return base::fail(base::ErrorCode::not_found, "There is no " + path.string() + '.', {},
                      "Only what portwright book export wrote can be imported.");
  if (status.type() != fs::file_type::regular)
    return tl::unexpected(refused(path.string() + " is no plain file; links are not followed."));
  if (fs::file_size(path, trouble) > cap || trouble)
    return tl::unexpected(
        refused(path.string() + " is longer than the " + std::to_string(cap >> 20U) + " MiB that are taken."));
  return base::read_file(path.string(), cap);
}

// A kept file of the folder, under the hash that is its name.
base::Result<book::NewBlob> kept_file(const fs::path& file) {
  const std::string type = type_of(file.extension().string());
  if (type.empty()) return tl::unexpected(refused(file.string() + " is no picture and no saw file."));
  auto bytes = plain_file(file, most_blob_bytes);
  if (!bytes) return tl::unexpected(bytes.error());
  if (book::hash_of(*bytes) != file.stem().string())
    return tl::unexpected(refused(file.string() + " is not the file that its name says."));
  return book::NewBlob{std::move(*bytes), type};
}

// All of them once, so that nothing is found wrong after something was taken; then one at a time as they are asked for.
base::Result<book::BlobSource> blobs_in(const fs::path& folder) {
  std::error_code trouble;
  const fs::file_status status = fs::symlink_status(folder, trouble);
  if (status.type() == fs::file_type::not_found) return book::BlobSource{};
  if (status.type() != fs::file_type::directory)
    return tl::unexpected(refused(folder.string() + " is no folder; links are not followed."));
  std::vector<fs::path> files;
  for (fs::directory_iterator at(folder, trouble), end; at != end && !trouble; at.increment(trouble)) {
    files.push_back(at->path());
    if (files.size() > most_files) return tl::unexpected(refused(folder.string() + " holds too many files."));
  }
  if (trouble) return tl::unexpected(refused(folder.string() + " cannot be read: " + trouble.message() + '.'));
  std::sort(files.begin(), files.end());
  std::size_t sum = 0;
  for (const fs::path& file : files) {
    const auto one = kept_file(file);
    if (!one) return tl::unexpected(one.error());
    if ((sum += one->bytes.size()) > most_blobs_bytes)
      return tl::unexpected(refused("The kept files are too long together."));
  }
  const std::size_t count = files.size();
  return book::BlobSource{count, [files = std::move(files)](std::size_t index) { return kept_file(files[index]); }};
}

base::Result<Load> load_folder(const fs::path& folder) {
  const auto line = plain_file(folder / "book.json", std::size_t{1} << 20U);
  if (!line) return tl::unexpected(line.error());
  auto what = book_from(*line);
  if (!what) return tl::unexpected(what.error());
  const auto journal = plain_file(folder / "journal.jsonl", most_lines_bytes);
  if (!journal) return tl::unexpected(journal.error());
  auto actions = actions_from(*journal);
  if (!actions) return tl::unexpected(refused("journal.jsonl: " + actions.error().message));
  const auto lines = plain_file(folder / "documents.jsonl", most_lines_bytes);
  if (!lines) return tl::unexpected(lines.error());
  auto documents = documents_from(*lines);
  if (!documents) return tl::unexpected(refused("documents.jsonl: " + documents.error().message));
  auto blobs = blobs_in(folder / "blobs");
  if (!blobs) return tl::unexpected(blobs.error());
  Load out;
  out.blobs = std::move(*blobs);
  out.whole = book::Whole{what->id, what->facets, std::move(*actions), out.blobs};
  out.documents = std::move(*documents);
  return out;
}

base::Result<Load> load_file(const fs::path& file) {
  auto text = plain_file(file, most_parcel_bytes);
  if (!text) return tl::unexpected(text.error());
  auto parcel = parcel_from(std::move(*text));
  if (!parcel) return tl::unexpected(parcel.error());
  return Load{std::nullopt, std::move(parcel->documents), parcel->source()};
}

base::Result<Load> load(const std::string& from) {
  std::error_code trouble;
  const fs::file_status status = fs::symlink_status(from, trouble);
  if (status.type() == fs::file_type::not_found)
    return base::fail(base::ErrorCode::not_found, "There is no " + from + '.');
  return status.type() == fs::file_type::directory ? load_folder(from) : load_file(from);
}

void count(wire::BookImportAnswer& answer, const std::vector<book::Document>& documents) {
  for (const book::Document& document : documents) answer.saws += document.kind == "saw" ? 1 : 0;
  answer.documents = static_cast<std::int64_t>(documents.size());
}

// The folder as a book of its own, to see whether it holds; gone afterwards.
base::Result<std::string> tried(const book::Whole& whole) {
  std::string folder = (fs::temp_directory_path() / ("portwright-" + book::new_id())).string();
  book::Place place;
  place.path = folder + "/book.portwright";
  place.state_folder = folder + "/state";
  place.author = book_author();
  place.backs_up = false;
  place.synced = false;
  const auto outcome = [&]() -> base::Result<std::string> {
    auto book = book::Book::open(place);
    if (!book) return tl::unexpected(book.error());
    if (auto filled = book->fill(whole); !filled) return tl::unexpected(filled.error());
    return book->hash();
  }();
  std::error_code ignored;
  fs::remove_all(folder, ignored);
  return outcome;
}

base::ResultAll<wire::BookImportAnswer> fill_empty(const BookImportRequest& request, const Load& load,
                                                   wire::BookImportAnswer answer) {
  answer.into_empty = true;
  count(answer, load.documents);
  answer.blobs = static_cast<std::int64_t>(load.blobs.count);
  auto hash = tried(*load.whole);
  if (!hash) return only_error(hash);
  answer.hash = *hash;
  if (!request.yes) return answer;
  auto shelf = open_shelf(request.book, Reach::begin);
  if (!shelf) return only_error(shelf);
  if (auto filled = shelf->book.fill(*load.whole); !filled) return only_error(filled);
  answer.done = true;
  answer.head = shelf->head();
  return answer;
}

// Places where two bodies differ, with both values.
std::vector<wire::BookDiffers> differences(const book::Document& mine, const book::Document& theirs) {
  std::vector<wire::BookDiffers> out;
  const book::Tree a = body_of(mine), b = body_of(theirs);
  std::set<std::string> names;
  for (const book::Tree* tree : {&a, &b})
    for (const book::Part& part : tree->parts) names.insert(part.name);
  for (const std::string& name : names) {
    const book::Tree *one = book::find(a, name), *other = book::find(b, name);
    if (one && other && *one == *other) continue;
    out.push_back(
        {mine.id, mine.kind, mine.title, name, one ? shown_value(*one) : "", other ? shown_value(*other) : ""});
  }
  return out;
}

// Owners before what belongs to them.
std::vector<const book::Document*> owners_first(const std::vector<book::Document>& documents) {
  std::vector<const book::Document*> out;
  for (const bool alone : {true, false})
    for (const book::Document& document : documents)
      if (document.belongs_to.empty() == alone) out.push_back(&document);
  return out;
}

base::ResultAll<wire::BookImportAnswer> merge(const BookImportRequest& request, const Load& load,
                                              wire::BookImportAnswer answer) {
  auto shelf = open_shelf(request.book, Reach::begin);
  if (!shelf) return only_error(shelf);
  answer.head = shelf->head();
  book::Deed deed;
  std::int64_t saws = 0;
  for (const book::Document* theirs : owners_first(load.documents)) {
    auto mine = shelf->book.get(theirs->id);
    if (mine) {
      const auto differ = differences(*mine, *theirs);
      answer.same += differ.empty() ? 1 : 0;
      answer.differing.insert(answer.differing.end(), differ.begin(), differ.end());
      continue;
    }
    if (mine.error().code != base::ErrorCode::not_found && mine.error().code != base::ErrorCode::usage)
      return only_error(mine);
    deed.added.push_back({theirs->id, theirs->kind, theirs->belongs_to, theirs->body});
    if (auto owner = shelf->book.get(theirs->belongs_to); owner && theirs->kind == "readings")
      answer.head.notices.push_back(owner->title + " gets further readings: figures come from the newest.");
    if (theirs->hidden_itself) deed.hidden.push_back(theirs->id);
    saws += theirs->kind == "saw" ? 1 : 0;
  }
  answer.saws = saws;
  answer.documents = static_cast<std::int64_t>(deed.added.size());
  deed.further_blobs = load.blobs;
  answer.blobs = static_cast<std::int64_t>(load.blobs.count);
  if (!request.yes || deed.added.empty()) return answer;
  deed.label =
      "imported " + std::to_string(deed.added.size()) + " documents from " + fs::path(request.from).filename().string();
  deed.label = short_label(std::move(deed.label));
  if (auto action = shelf->book.act(deed); !action) {
    base::Error error = action.error();  // what the book does not take is the import's fault, not the command's
    return tl::unexpected(
        base::Errors{error.code == base::ErrorCode::usage ? refused(error.message) : std::move(error)});
  }
  answer.done = true;
  return answer;
}

// Whether there is nothing yet that an import could meet.
base::Result<bool> is_empty(const std::string& asked) {
  std::error_code trouble;
  if (!fs::exists(book_place(asked).path, trouble)) return true;
  auto shelf = open_shelf(asked, Reach::read);
  if (!shelf) return tl::unexpected(shelf.error());
  const auto sequence = shelf->book.sequence();
  if (!sequence) return tl::unexpected(sequence.error());
  return *sequence == 0;
}

}  // namespace

base::ResultAll<wire::BookImportAnswer> book_import(const BookImportRequest& request) {
  const auto taken = load(request.from);
  if (!taken) return only_error(taken);
  const auto empty = is_empty(request.book);
  if (!empty) return only_error(empty);
  wire::BookImportAnswer answer;
  answer.head.book = book_place(request.book).path;
  answer.from = request.from;
  return *empty && taken->whole ? fill_empty(request, *taken, std::move(answer))
                                : merge(request, *taken, std::move(answer));
}

}  // namespace portwright::desk
