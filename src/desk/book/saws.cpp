// Saws put into the book, listed, shown, hidden.
#include <algorithm>
#include <filesystem>

#include "base/file.hpp"
#include "base/quantity/normal.hpp"
#include "desk/book.hpp"
#include "desk/book/field_path.hpp"
#include "desk/book/photos.hpp"
#include "desk/book/results.hpp"
#include "desk/book/saw_tree.hpp"
#include "desk/book/shelf.hpp"
#include "desk/written.hpp"

namespace portwright::desk {
namespace {

constexpr std::size_t longest_file = 64 * 1024 + 1;
constexpr std::size_t longest_list = 200;

struct TakenFile {
  std::string file, bytes;
  saw::ReadSaw read;
};

// All files, or everything that is wrong with any of them.
base::ResultAll<std::vector<TakenFile>> take(const BookAddRequest& request) {
  std::vector<TakenFile> out;
  base::Errors errors;
  const bool several = request.files.size() + request.texts.size() > 1;
  const auto take_one = [&](const std::string& file, const base::Result<std::string>& bytes) {
    auto read =
        bytes ? saw::read_saw(*bytes) : base::ResultAll<saw::ReadSaw>(tl::unexpected(base::Errors{bytes.error()}));
    if (read) {
      out.push_back({file, *bytes, std::move(*read)});
      return;
    }
    for (base::Error error : read.error()) {
      if (several && error.message.find(file) == std::string::npos) error.message = file + ": " + error.message;
      errors.push_back(std::move(error));
    }
  };
  for (const std::string& file : request.files) take_one(file, base::read_file(file, longest_file));
  for (const SawText& one : request.texts) take_one(one.name, one.text);
  if (!errors.empty()) return tl::unexpected(std::move(errors));
  return out;
}

book::Tree saw_body(const saw::Readings& readings) {
  book::Tree out;
  put_part(out, "name", text_leaf(readings.name));
  put_part(out, "model", text_leaf(readings.model));
  put_part(out, "casting", text_leaf(readings.casting));
  return out;
}

book::Tree readings_body(const TakenFile& taken, const std::string& blob) {
  book::Tree out = tree_of(taken.read.readings);
  for (const char* own : {"format", "name", "model", "casting"}) book::remove(out, own);
  put_part(out, "source", text_leaf(blob));
  put_part(out, "file", text_leaf(std::filesystem::path(taken.file).filename().string()));
  return out;
}

// The set of readings that was made from these very bytes.
base::Result<std::optional<book::Document>> same_source(Shelf& shelf, const std::string& hash) {
  book::Query query;
  query.kind = "readings";
  query.leaf = "blob:" + hash;
  auto found = shelf.book.list(query);
  if (!found) return tl::unexpected(found.error());
  for (book::Document& set : *found)
    if (text_at(body_of(set), "source") == query.leaf) return std::move(set);
  return std::optional<book::Document>();
}

// One file on its way into a deed.
base::Result<wire::BookAdded> add_one(Shelf& shelf, const TakenFile& taken, const book::Document* to,
                                      book::Deed& deed) {
  const std::string hash = book::hash_of(taken.bytes), blob = "blob:" + hash;
  const saw::Readings& readings = taken.read.readings;
  auto same = same_source(shelf, hash);
  if (!same) return tl::unexpected(same.error());
  wire::BookAdded out{taken.file, to ? to->id : "", readings.name, "", 0, false};
  const book::Tree body = readings_body(taken, blob);
  out.fields = static_cast<int>(fields_of(body).size());
  if (*same && (!to || (*same)->belongs_to == to->id)) {
    out.saw = (*same)->belongs_to;
    out.readings = (*same)->id;
    out.already = true;
    return out;
  }
  if (!to) {
    out.saw = book::new_id();
    deed.added.push_back({out.saw, "saw", "", book::print(saw_body(readings))});
  } else {
    out.name = to->title;
  }
  out.readings = book::new_id();
  deed.added.push_back({out.readings, "readings", out.saw, book::print(body)});
  const auto known = [&](const book::NewBlob& one) { return one.bytes == taken.bytes; };
  if (std::none_of(deed.blobs.begin(), deed.blobs.end(), known))
    deed.blobs.push_back({taken.bytes, "application/toml"});
  deed.label += (deed.label.empty() ? "added " : ", ") + out.name;
  return out;
}

void note_same_names(Shelf& shelf, wire::BookAddAnswer& answer) {
  const auto saws = all_saws(shelf);
  if (!saws) return;
  for (const wire::BookAdded& added : answer.added) {
    const auto others =
        std::count_if(saws->begin(), saws->end(), [&](const auto& saw) { return saw.title == added.name; });
    if (!added.already && others > 1)
      answer.head.notices.push_back("There are now " + std::to_string(others) + " saws called " + added.name +
                                    ": name this one by its id, " + added.saw +
                                    ". Further readings of one saw are added with --to.");
  }
}

void record(wire::BookShowAnswer& answer, const book::Document& part) {
  wire::BookRecord out{part.id, part.kind, part.created, part.author, {}};
  for (const book::Part& leaf : body_of(part).parts) {
    if (leaf.tree.kind == book::Tree::Kind::branch) continue;
    out.details.push_back({leaf.name, leaf.tree.kind == book::Tree::Kind::list
                                          ? leaf.tree.list
                                          : std::vector<std::string>{shown_value(leaf.tree)}});
  }
  answer.records.push_back(std::move(out));
}

}  // namespace

base::ResultAll<wire::BookAddAnswer> book_add(const BookAddRequest& request) {
  const auto taken = take(request);
  if (!taken) return tl::unexpected(taken.error());
  auto shelf = open_shelf(request.book, Reach::begin, request.by);
  if (!shelf) return only_error(shelf);
  std::optional<ShelfSaw> to;
  if (!request.to.empty()) {
    auto found = find_saw(*shelf, request.to);
    if (!found) return only_error(found);
    to = std::move(*found);
  }
  wire::BookAddAnswer answer;
  answer.head = shelf->head();
  book::Deed deed;
  for (const TakenFile& file : *taken) {
    auto added = add_one(*shelf, file, to ? &to->saw : nullptr, deed);
    if (!added) return only_error(added);
    if (!added->already)
      for (const base::Error& error : file.read.errors) answer.head.errors.push_back(error);
    answer.added.push_back(std::move(*added));
  }
  deed.label = short_label(std::move(deed.label));
  deed.token = request.by.token;
  deed.client = request.by.client;
  if (!deed.added.empty())
    if (auto action = shelf->book.act(deed); !action) return only_error(action);
  note_same_names(*shelf, answer);
  return answer;
}

base::ResultAll<wire::BookDoneAnswer> book_new(const BookNewRequest& request) {
  if (base::typed::trimmed(request.name).empty())
    return tl::unexpected(base::Errors{{base::ErrorCode::usage, "A new saw needs a name.", "name", "", {}}});
  const std::string text = saw::blank_saw(request.name);
  auto read = saw::read_saw(text);
  if (!read) return tl::unexpected(read.error());
  read->readings.model = request.model;
  auto shelf = open_shelf(request.book, Reach::begin, request.by);
  if (!shelf) return only_error(shelf);
  book::Deed deed;
  deed.label = "began " + request.name;
  const std::string saw = book::new_id();
  book::Tree set = tree_of(read->readings);
  for (const char* own : {"format", "name", "model", "casting"}) book::remove(set, own);
  deed.added.push_back({saw, "saw", "", book::print(saw_body(read->readings))});
  deed.added.push_back({book::new_id(), "readings", saw, book::print(set)});
  auto answer = done(*shelf, nullptr, std::move(deed));
  if (!answer || !answer->action) return answer;
  answer->saw = answer->added.empty() ? saw : answer->added.front();
  answer->name = request.name;
  if (const auto now = find_saw(*shelf, answer->saw, true)) answer->revision = revision_of(*now);
  return answer;
}

base::ResultAll<wire::BookListAnswer> book_list(const BookListRequest& request) {
  auto shelf = open_shelf(request.book, Reach::read);
  if (!shelf) return only_error(shelf);
  auto saws = all_saws(*shelf, true);
  if (!saws) return only_error(saws);
  wire::BookListAnswer answer;
  answer.head = shelf->head();
  answer.hidden =
      static_cast<int>(std::count_if(saws->begin(), saws->end(), [](const auto& saw) { return saw.hidden; }));
  std::erase_if(*saws, [&](const book::Document& saw) { return saw.hidden != request.hidden; });
  for (book::Document& saw : *saws) {
    answer.more = !request.all && answer.saws.size() == longest_list;
    if (answer.more) break;
    auto readings = newest_readings(*shelf, saw.id);
    if (!readings) return only_error(readings);
    auto line = saw_line(*shelf, {std::move(saw), std::move(*readings)});
    if (!line) return only_error(line);
    answer.saws.push_back(std::move(*line));
  }
  return answer;
}

base::ResultAll<wire::BookShowAnswer> book_show(const BookSawRequest& request) {
  auto shelf = open_shelf(request.book, Reach::read);
  if (!shelf) return only_error(shelf);
  auto found = find_saw(*shelf, request.saw, true);
  if (!found) return only_error(found);
  auto line = saw_line(*shelf, *found);
  if (!line) return only_error(line);
  auto parts = parts_of(*shelf, found->saw.id);
  if (!parts) return only_error(parts);
  const auto newest = newest_readings(*shelf, found->saw.id);
  if (!newest) return only_error(newest);
  wire::BookShowAnswer answer;
  answer.head = shelf->head();
  answer.saw = std::move(*line);
  answer.revision = revision_of(*found);
  for (const book::Document& part : *parts) {
    if (part.kind != "readings") {
      if (part.kind == "photo")
        answer.photos.push_back(photo_line(part));
      else
        record(answer, part);
      if (part.kind == "result")
        if (std::string why = stale_because(part, *found); !why.empty())
          answer.records.back().details.push_back({"stale", {std::move(why)}});
      continue;
    }
    const book::Tree body = body_of(part);
    const ShelfSaw one{found->saw, part};
    auto counted = saw_line(*shelf, one);
    if (!counted) return only_error(counted);
    answer.sets.insert(answer.sets.begin(),
                       {part.id, text_at(body, "state"), part.author, part.created, text_at(body, "borrowed_from"),
                        *newest && (*newest)->id == part.id, counted->readings});
  }
  if (!found->readings) return answer;
  for (wire::BookField& field : fields_of(body_of(*found->readings))) answer.fields.push_back(std::move(field));
  if (auto read = read_tree(whole_tree(*found)); read)
    answer.head.errors = read->errors;
  else
    answer.head.errors = read.error();
  return answer;
}

base::ResultAll<wire::WrittenAnswer> book_toml(const BookTomlRequest& request) {
  auto shelf = open_shelf(request.book, Reach::read);
  if (!shelf) return only_error(shelf);
  auto found = find_saw(*shelf, request.saw, true);
  if (!found) return only_error(found);
  if (auto free = refuse_existing(request.output); !free) return only_error(free);
  saw::Readings readings = readings_of(whole_tree(*found));
  readings.format = "portwright saw 1";
  const std::string text = saw::write_saw(readings);
  if (auto written = put(request.output, text); !written) return only_error(written);
  wire::WrittenAnswer answer;
  answer.kind = "saw";
  answer.file = request.output;
  answer.format = "toml";
  answer.bytes = static_cast<int>(text.size());
  return answer;
}

base::ResultAll<wire::BookDoneAnswer> book_hide(const BookSawRequest& request) {
  auto shelf = open_shelf(request.book, Reach::write, request.by);
  if (!shelf) return only_error(shelf);
  auto found = find_saw(*shelf, request.saw);
  if (!found) return only_error(found);
  book::Deed deed;
  deed.label = "hidden";
  deed.hidden = {found->saw.id};
  return done(*shelf, &found->saw, std::move(deed));
}

base::ResultAll<wire::BookDoneAnswer> book_bring_back(const BookSawRequest& request) {
  auto shelf = open_shelf(request.book, Reach::write, request.by);
  if (!shelf) return only_error(shelf);
  auto found = find_saw(*shelf, request.saw, true);
  if (!found) return only_error(found);
  book::Deed deed;
  deed.label = "brought back";
  deed.brought_back = {found->saw.id};
  return done(*shelf, &found->saw, std::move(deed));
}

}  // namespace portwright::desk
