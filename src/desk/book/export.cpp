// The whole book as a folder that needs no program of ours to read; one saw as one file.
#include <fcntl.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <set>

#include "desk/book.hpp"
#include "desk/book/carried.hpp"
#include "desk/book/field_path.hpp"
#include "desk/book/parcel.hpp"
#include "desk/book/photos.hpp"
#include "desk/book/saw_tree.hpp"
#include "desk/book/shelf.hpp"
#include "desk/written.hpp"

namespace portwright::desk {
namespace {

namespace fs = std::filesystem;

constexpr const char* readme =
    "A workshop's book, exported by Portwright. Everything here is plain text, and photos as JPEG.\n\n"
    "saws/           the newest readings of every saw, as saw files (TOML)\n"
    "readings.csv    the same as one table: saw, field, as typed, instrument, set-up, note\n"
    "records.csv     cut lists, notes, tests in the wood, failures, accepted findings\n"
    "photos.csv      photos: saw, caption, file in blobs/, when it was taken and added, who\n"
    "journal.csv     every edit: when, who, what, before, after\n"
    "documents.jsonl every document of the book, one a line (JSON)\n"
    "journal.jsonl   the journal whole: a line for each action, one for each of its entries (JSON)\n"
    "book.json       what this folder is\n"
    "blobs/          files that were kept, each named by the SHA-256 of its bytes\n\n"
    "portwright book import FOLDER makes the same book of it. It reads book.json, journal.jsonl, documents.jsonl and\n"
    "blobs/; the other files are for people.\n";

// Everything of the book, of one moment; kept files by name and type alone.
struct Everything {
  book::Whole whole;
  std::vector<book::Document> documents;
  std::vector<book::Blob> blobs;
  std::string hash;
};

base::Result<void> read_everything(book::Book& book, Everything& out) {
  auto facets = book.facets();
  if (!facets) return tl::unexpected(facets.error());
  auto actions = book.journal({});
  if (!actions) return tl::unexpected(actions.error());
  std::reverse(actions->begin(), actions->end());
  book::Query query;
  query.hidden = true;
  auto documents = book.list(query);
  if (!documents) return tl::unexpected(documents.error());
  auto blobs = book.blobs();
  if (!blobs) return tl::unexpected(blobs.error());
  auto hash = book.hash();
  if (!hash) return tl::unexpected(hash.error());
  out.whole.book = book.id();
  out.whole.facets = std::move(*facets);
  out.whole.actions = std::move(*actions);
  out.documents = std::move(*documents);
  out.blobs = std::move(*blobs);
  out.hash = std::move(*hash);
  return {};
}

// A folder in the making: written beside its place, renamed into it whole.
class Folder {
 public:
  explicit Folder(const std::string& target) : target_(target) {
    while (target_.size() > 1 && target_.ends_with('/')) target_.pop_back();
    making_ = target_ + ".part-" + book::new_id();
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  ~Folder() {
    std::error_code ignored;
    fs::remove_all(making_, ignored);
  }
  base::Result<void> begin() {
    std::error_code trouble;
    if (fs::exists(fs::symlink_status(target_, trouble)) &&
        !(fs::is_directory(target_, trouble) && fs::is_empty(target_, trouble)))
      return base::fail(base::ErrorCode::storage, "\u201C" + target_ + "\u201D is already there.", {},
                        "Choose another name; an export writes over nothing.");
    for (const char* below : {"", "/saws", "/blobs"})
      if (!fs::create_directory(making_ + below, trouble))
        return base::fail(base::ErrorCode::storage, "Cannot make " + making_ + below + ": " + trouble.message() + '.');
    return {};
  }
  base::Result<void> put(const std::string& name, const std::string& bytes) {
    bytes_ += static_cast<std::int64_t>(bytes.size());
    std::ofstream out(making_ + '/' + name, std::ios::binary);
    out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    out.close();
    if (!out) return base::fail(base::ErrorCode::storage, "Cannot write " + name + " into " + making_ + '.');
    return {};
  }
  base::Result<void> finish() {
    if (!flushed()) return base::fail(base::ErrorCode::storage, "Cannot write " + making_ + " to the disk.");
    std::error_code trouble;
    fs::rename(making_, target_, trouble);
    if (trouble)
      return base::fail(base::ErrorCode::storage, "Cannot write " + target_ + ": " + trouble.message() + '.');
    return {};
  }
  [[nodiscard]] std::int64_t bytes() const { return bytes_; }

 private:
  // All files at once, before the folder gets its name.
  [[nodiscard]] bool flushed() const {
    const int folder = ::open(making_.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (folder < 0) return false;
    const bool done = ::syncfs(folder) == 0;
    ::close(folder);
    return done;
  }

  std::string target_, making_;
  std::int64_t bytes_ = 0;
};

std::string file_name(const book::Document& saw) {
  std::string out;
  for (const char c : saw.title) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    const bool capital = c >= 'A' && c <= 'Z';
    if (plain || capital)
      out += capital ? static_cast<char>(c - 'A' + 'a') : c;
    else if (!out.empty() && out.back() != '-')
      out += '-';
    if (out.size() >= 60) break;
  }
  if (out.empty() || out.back() != '-') out += '-';
  return out + saw.id + ".saw.toml";
}

std::string row(const std::vector<std::string>& cells) {
  std::string out;
  for (const std::string& cell : cells) out += (out.empty() ? "" : ",") + csv_cell(cell);
  return out + "\r\n";
}

std::string typed_text(const std::vector<std::string>& texts) {
  std::string out;
  for (const std::string& text : texts) out += (out.empty() ? "" : "; ") + text;
  return out;
}

std::string photo_row(const book::Document& saw, const book::Document& photo) {
  const wire::BookPhoto line = photo_line(photo);
  return row(
      {saw.id, saw.title, line.name, "blobs/" + kept_hash(photo, "picture") + ".jpg", line.taken, line.at, line.by});
}

// Saw files and tables for people.
base::Result<void> put_for_people(Shelf& shelf, const Everything& all, Folder& folder) {
  std::string readings = row({"saw", "name", "field", "typed", "with", "setup", "note", "borrowed_from"});
  std::string records = row({"saw", "name", "kind", "when", "who", "what"});
  std::string photos = row({"saw", "name", "caption", "file", "taken", "when", "who"});
  std::map<std::string, std::vector<const book::Document*>> below;
  for (const book::Document& document : all.documents) below[document.belongs_to].push_back(&document);
  for (const book::Document& saw : all.documents) {
    if (saw.kind != "saw") continue;
    auto newest = newest_readings(shelf, saw.id);
    if (!newest) return tl::unexpected(newest.error());
    const ShelfSaw one{saw, *newest};
    const book::Tree tree = whole_tree(one);
    if (auto put = folder.put("saws/" + file_name(saw), saw::write_saw(readings_of(tree))); !put) return put;
    for (const wire::BookField& field : fields_of(tree))
      readings += row({saw.id, saw.title, field.path, typed_text(field.typed), field.with, field.setup, field.note,
                       field.borrowed_from});
    for (const book::Document* part : below[saw.id])
      if (part->kind == "photo")
        photos += photo_row(saw, *part);
      else if (part->kind != "readings")
        records += row({saw.id, saw.title, part->kind, part->created, part->author, shown_value(body_of(*part))});
  }
  if (auto put = folder.put("readings.csv", readings); !put) return put;
  if (auto put = folder.put("records.csv", records); !put) return put;
  if (auto put = folder.put("photos.csv", photos); !put) return put;
  std::string journal = row({"action", "when", "who", "what", "document", "path", "before", "after"});
  for (const book::Action& action : all.whole.actions)
    for (const book::Entry& entry : action.entries)
      journal += row({std::to_string(action.number), action.at, action.author, action.label, entry.document, entry.path,
                      entry.before.value_or(""), entry.after.value_or("")});
  return folder.put("journal.csv", journal);
}

base::Result<void> put_whole(const Everything& all, Folder& folder) {
  if (auto put = folder.put("README.txt", readme); !put) return put;
  if (auto put = folder.put("book.json", book_line(all.whole.book, all.whole.facets)); !put) return put;
  if (auto put = folder.put("journal.jsonl", journal_lines(all.whole.actions)); !put) return put;
  if (auto put = folder.put("documents.jsonl", document_lines(all.documents)); !put) return put;
  return {};
}

// Kept files, one at a time. Nothing leaves that an import would not take.
base::Result<void> put_blobs(book::Book& book, const std::vector<book::Blob>& named, Folder& folder) {
  const auto too_much = [] {
    return base::fail(base::ErrorCode::out_of_range, "The book's kept files are more than an import would take.", {},
                      "Copy the book's file instead: portwright book backup --to FOLDER.");
  };
  if (named.size() > most_files) return too_much();
  std::size_t sum = 0;
  for (const book::Blob& one : named) {
    auto blob = book.blob(one.hash);
    if (!blob) return tl::unexpected(blob.error());
    if (blob->bytes.size() > most_blob_bytes || (sum += blob->bytes.size()) > most_blobs_bytes) return too_much();
    const std::string ending = ending_of(blob->type);
    const std::string name = "blobs/" + blob->hash + (ending.empty() ? ".bin" : ending);
    if (auto put = folder.put(name, blob->bytes); !put) return put;
  }
  return {};
}

// Names of the bytes that leaves of these documents name and that the book has, each once.
base::Result<std::vector<std::string>> blobs_of(Shelf& shelf, const std::vector<book::Document>& documents) {
  constexpr std::string_view mark = "blob:";
  const auto kept = shelf.book.blobs();
  if (!kept) return tl::unexpected(kept.error());
  std::set<std::string> there;
  for (const book::Blob& one : *kept) there.insert(one.hash);
  std::vector<std::string> out;
  for (const book::Document& document : documents)
    for (std::size_t at = document.body.find(mark); at != std::string::npos; at = document.body.find(mark, at + 1))
      if (const auto found = there.extract(document.body.substr(at + mark.size(), 64)); !found.empty())
        out.push_back(found.value());
  return out;
}

book::BlobSource source_of(book::Book& book, const std::vector<std::string>& hashes) {
  return {hashes.size(), [&book, hashes](std::size_t index) -> base::Result<book::NewBlob> {
            auto blob = book.blob(hashes[index]);
            if (!blob) return tl::unexpected(blob.error());
            const std::string type = ending_of(blob->type).empty() ? "application/octet-stream" : blob->type;
            return book::NewBlob{std::move(blob->bytes), type};
          }};
}

}  // namespace

base::ResultAll<wire::BookExportAnswer> book_export(const BookExportRequest& request) {
  auto shelf = open_shelf(request.book, Reach::read);
  if (!shelf) return only_error(shelf);
  wire::BookExportAnswer answer;
  answer.head = shelf->head();
  answer.to = request.folder;
  Folder folder(request.folder);
  if (auto begun = folder.begin(); !begun) return only_error(begun);
  Everything all;
  const auto viewed = shelf->book.one_view([&]() -> base::Result<void> {
    if (auto read = read_everything(shelf->book, all); !read) return read;
    if (auto put = put_blobs(shelf->book, all.blobs, folder); !put) return put;
    return put_for_people(*shelf, all, folder);
  });
  if (!viewed) return only_error(viewed);
  if (auto put = put_whole(all, folder); !put) return only_error(put);
  if (auto finished = folder.finish(); !finished) return only_error(finished);
  answer.saws =
      std::count_if(all.documents.begin(), all.documents.end(), [](const auto& one) { return one.kind == "saw"; });
  answer.documents = static_cast<std::int64_t>(all.documents.size());
  answer.actions = static_cast<std::int64_t>(all.whole.actions.size());
  answer.blobs = static_cast<std::int64_t>(all.blobs.size());
  answer.bytes = folder.bytes();
  answer.hash = all.hash;
  return answer;
}

base::ResultAll<wire::BookExportAnswer> book_export_saw(const BookExportRequest& request) {
  auto shelf = open_shelf(request.book, Reach::read);
  if (!shelf) return only_error(shelf);
  auto found = find_saw(*shelf, request.saw, true);
  if (!found) return only_error(found);
  if (auto free = refuse_existing(request.folder); !free) return only_error(free);
  auto parts = parts_of(*shelf, found->saw.id);
  if (!parts) return only_error(parts);
  std::vector<book::Document> documents{found->saw};
  for (book::Document& part : *parts) documents.push_back(std::move(part));
  const auto blobs = blobs_of(*shelf, documents);
  if (!blobs) return only_error(blobs);
  const auto text = parcel_text(documents, source_of(shelf->book, *blobs));
  if (!text) return only_error(text);
  if (auto written = put(request.folder, *text); !written) return only_error(written);
  wire::BookExportAnswer answer;
  answer.head = shelf->head();
  answer.to = request.folder;
  answer.saws = 1;
  answer.documents = static_cast<std::int64_t>(documents.size());
  answer.blobs = static_cast<std::int64_t>(blobs->size());
  answer.bytes = static_cast<std::int64_t>(text->size());
  answer.hash = book::hash_of(*text);
  return answer;
}

}  // namespace portwright::desk
