#include "desk/book/shelf.hpp"

#include <pwd.h>
#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <map>

#include "desk/book/field_path.hpp"
#include "desk/book/saw_tree.hpp"
#include "desk/nearest.hpp"

namespace portwright::desk {
namespace {

std::string environment(const char* name) {
  const char* value = std::getenv(name);
  return value ? value : "";
}

// One word that the system knows of this user; empty where it knows none. For several threads at a time.
std::string of_this_user(char* passwd::*word) {
  passwd user{};
  passwd* found = nullptr;
  std::vector<char> room(std::size_t{16} << 10U);
  const bool known = getpwuid_r(getuid(), &user, room.data(), room.size(), &found) == 0 && found != nullptr;
  return known && user.*word != nullptr ? user.*word : "";
}

std::string home() {
  if (std::string told = environment("HOME"); !told.empty()) return told;
  const std::string known = of_this_user(&passwd::pw_dir);
  return known.empty() ? "." : known;
}

std::string quoted(const std::string& text) { return "\u201C" + text + "\u201D"; }

base::Error several(const std::string& asked, const std::vector<book::Document>& found) {
  std::vector<std::string> readings;
  for (const book::Document& saw : found) readings.push_back(saw.id + "  " + saw.title);
  return {base::ErrorCode::unreadable, quoted(asked) + " could be several saws.", "", "Name one by its id.", readings};
}

base::Error unknown_saw(const std::string& asked, const std::vector<book::Document>& saws) {
  std::vector<std::string> names;
  for (const book::Document& saw : saws) names.push_back(saw.title);
  std::string hint = did_you_mean(asked, names);
  if (hint.empty()) hint = "portwright book list shows the saws.";
  return {base::ErrorCode::not_found, "The book has no saw " + quoted(asked) + '.', "", hint, {}};
}

// The saws of a name: the same name, else all that begin so.
std::vector<book::Document> called(const std::vector<book::Document>& saws, const std::string& asked) {
  std::vector<book::Document> same, begin;
  for (const book::Document& saw : saws) {
    if (saw.title == asked) same.push_back(saw);
    if (!folded(asked).empty() && folded(saw.title).starts_with(folded(asked))) begin.push_back(saw);
  }
  if (!same.empty()) return same;
  for (const book::Document& saw : begin)
    if (folded(saw.title) == folded(asked)) same.push_back(saw);
  return same.empty() ? begin : same;
}

int count_readings(const book::Tree& tree) {
  int count = 0;
  for (const wire::BookField& field : fields_of(tree)) {
    const std::string last = field.path.substr(field.path.rfind('.') + 1);
    if (!field.typed.empty() && last != "name" && last != "kind" && field.path != "state" && field.path != "aim.use" &&
        field.path != "model" && field.path != "casting")
      ++count;
  }
  return count;
}

// Trees of documents by id, to name their places.
class Trees {
 public:
  explicit Trees(Shelf& shelf) : shelf_(shelf) {}
  const book::Document* document(const std::string& id) {
    if (const auto found = known_.find(id); found != known_.end()) return &found->second;
    auto got = shelf_.book.get(id);
    return got ? &known_.emplace(id, std::move(*got)).first->second : nullptr;
  }
  const book::Document* saw_of(const std::string& id) {
    const book::Document* one = document(id);
    while (one && one->kind != "saw" && !one->belongs_to.empty()) one = document(one->belongs_to);
    return one && one->kind == "saw" ? one : nullptr;
  }

 private:
  Shelf& shelf_;
  std::map<std::string, book::Document> known_;
};

std::optional<std::string> shown_json(const std::optional<std::string>& json) {
  if (!json) return std::nullopt;
  const auto tree = book::parse_tree(*json);
  return tree ? shown_value(*tree) : *json;
}

// Both values of a conflict, and its place, as a person names them.
base::Error shown_conflict(Shelf& shelf, const book::Deed& deed, base::Error error) {
  if (error.code != base::ErrorCode::conflict) return error;
  for (const book::Change& change : deed.changes) {
    if (change.path != error.path) continue;
    if (const auto document = shelf.book.get(change.document)) error.path = shown_path(body_of(*document), error.path);
    break;
  }
  for (std::string& reading : error.readings)
    if (!reading.empty()) reading = *shown_json(reading);
  return error;
}

wire::BookChange shown_change(const book::Entry& entry, const book::Document* document) {
  wire::BookChange out{entry.document, entry.path, {}, {}};
  if (entry.path.empty()) {
    out.after = document ? document->kind : std::string("document");
  } else if (entry.path == "#hidden") {
    out.path = "hidden";
    out.before = entry.before == "true" ? "yes" : "no";
    out.after = entry.after == "true" ? "yes" : "no";
  } else {
    if (document) out.path = shown_path(body_of(*document), entry.path);
    out.before = shown_json(entry.before);
    out.after = shown_json(entry.after);
  }
  return out;
}

}  // namespace

wire::BookHead Shelf::head() {
  wire::BookHead out{place.path, book.take_notices(), {}};
  if (const auto alarm = book.alarm()) out.notices.insert(out.notices.begin(), alarm->message);
  return out;
}

BookPlace book_place(const std::string& asked) {
  if (!asked.empty()) return {asked, "--book"};
  if (const std::string told = environment("PORTWRIGHT_BOOK"); !told.empty()) return {told, "PORTWRIGHT_BOOK"};
  std::string folder = environment("XDG_DATA_HOME");
  if (folder.empty() || folder[0] != '/') folder = home() + "/.local/share";
  return {folder + "/portwright/book.portwright", usual_place};
}

std::string book_author() {
  for (const char* name : {"PORTWRIGHT_AUTHOR", "USER", "LOGNAME"})
    if (std::string value = environment(name); !value.empty()) return value;
  const std::string known = of_this_user(&passwd::pw_name);
  return known.empty() ? "builder" : known;
}

base::Result<Shelf> open_shelf(const std::string& asked, Reach reach, const Hand& by) {
  BookPlace place = book_place(asked);
  std::error_code trouble;
  if (reach != Reach::begin && !std::filesystem::exists(place.path, trouble) &&
      !std::filesystem::exists(place.path + ".tally", trouble))
    return base::fail(base::ErrorCode::not_found, "There is no book yet at " + place.path + '.', {},
                      "portwright book add FILE begins one.");
  book::Place at;
  at.path = place.path;
  at.author = by.author.empty() ? book_author() : by.author;
  at.read_only = reach == Reach::read;
  auto opened = book::Book::open(std::move(at));
  if (!opened) return tl::unexpected(opened.error());
  return Shelf{std::move(place), std::move(*opened), by};
}

std::string folded(const std::string& name) {
  std::string out;
  for (const char c : name) {
    const auto byte = static_cast<unsigned char>(c);
    if (byte >= 0x80 || (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z'))
      out += c;
    else if (c >= 'A' && c <= 'Z')
      out += static_cast<char>(c - 'A' + 'a');
  }
  return out;
}

base::Result<std::vector<book::Document>> all_saws(Shelf& shelf, bool hidden) {
  book::Query query;
  query.kind = "saw";
  query.hidden = hidden;
  auto saws = shelf.book.list(query);
  if (!saws) return saws;
  std::stable_sort(saws->begin(), saws->end(), [](const auto& a, const auto& b) { return a.title < b.title; });
  return saws;
}

base::Result<std::vector<book::Document>> parts_of(Shelf& shelf, const std::string& saw) {
  book::Query query;
  query.belongs_to = saw;
  query.hidden = true;
  auto parts = shelf.book.list(query);
  if (parts) std::erase_if(*parts, [](const book::Document& part) { return part.hidden_itself; });
  return parts;
}

base::Result<std::optional<book::Document>> newest_readings(Shelf& shelf, const std::string& saw) {
  book::Query query;
  query.kind = "readings";
  query.belongs_to = saw;
  query.hidden = true;
  auto sets = shelf.book.list(query);
  if (!sets) return tl::unexpected(sets.error());
  std::optional<book::Document> out;
  for (book::Document& set : *sets)
    if (!set.hidden_itself) out = std::move(set);
  return out;
}

base::Result<ShelfSaw> find_saw(Shelf& shelf, const std::string& asked, bool hidden) {
  if (auto got = shelf.book.get(asked); got && (hidden || !got->hidden)) {
    if (got->kind == "readings") {
      auto saw = shelf.book.get(got->belongs_to);
      if (!saw) return tl::unexpected(saw.error());
      return ShelfSaw{std::move(*saw), std::move(*got)};
    }
    if (got->kind == "saw") {
      auto readings = newest_readings(shelf, got->id);
      if (!readings) return tl::unexpected(readings.error());
      return ShelfSaw{std::move(*got), std::move(*readings)};
    }
  } else if (!got && got.error().code != base::ErrorCode::not_found && got.error().code != base::ErrorCode::usage) {
    return tl::unexpected(got.error());
  }
  auto saws = all_saws(shelf, hidden);
  if (!saws) return tl::unexpected(saws.error());
  std::vector<book::Document> found = called(*saws, asked);
  if (found.empty()) return tl::unexpected(unknown_saw(asked, *saws));
  if (found.size() > 1) return tl::unexpected(several(asked, found));
  auto readings = newest_readings(shelf, found.front().id);
  if (!readings) return tl::unexpected(readings.error());
  return ShelfSaw{std::move(found.front()), std::move(*readings)};
}

book::Tree body_of(const book::Document& document) {
  auto tree = book::parse_tree(document.body);
  return tree ? std::move(*tree) : book::Tree{};
}

std::string revision_of(const ShelfSaw& saw) {
  return std::to_string(std::max(saw.saw.revision, saw.readings ? saw.readings->revision : 0));
}

book::Tree whole_tree(const ShelfSaw& saw) {
  book::Tree out = saw.readings ? body_of(*saw.readings) : book::Tree{};
  const book::Tree own = body_of(saw.saw);
  for (const char* leaf : {"name", "model", "casting"}) put_part(out, leaf, text_leaf(text_at(own, leaf)));
  return out;
}

base::Result<wire::BookSaw> saw_line(Shelf& shelf, const ShelfSaw& saw) {
  const book::Tree own = body_of(saw.saw);
  wire::BookSaw out;
  out.id = saw.saw.id;
  out.name = saw.saw.title;
  out.model = text_at(own, "model");
  out.casting = text_at(own, "casting");
  out.hidden = saw.saw.hidden;
  out.added = saw.saw.created;
  out.changed = saw.saw.changed;
  out.author = saw.saw.author;
  if (saw.readings) {
    const book::Tree readings = body_of(*saw.readings);
    out.state = text_at(readings, "state");
    out.use = text_at(readings, "aim.use");
    out.readings = count_readings(readings);
  }
  auto parts = parts_of(shelf, saw.saw.id);
  if (!parts) return tl::unexpected(parts.error());
  for (const book::Document& part : *parts) {
    if (part.changed > out.changed) {
      out.changed = part.changed;
      out.author = part.author;
    }
    if (part.kind == "readings") ++out.sets;
    if (part.kind == "cuts") ++(text_at(body_of(part), "state") == "done" ? out.done : out.planned);
    if (part.kind == "photo") ++out.photos;
    if (part.kind == "note" || part.kind == "wood" || part.kind == "failure") ++out.notes;
  }
  return out;
}

wire::BookAction shown_action(Shelf& shelf, const book::Action& action) {
  wire::BookAction out{action.number, action.at, action.author, action.label, {}, {}};
  Trees trees(shelf);
  for (const book::Entry& entry : action.entries) {
    out.changes.push_back(shown_change(entry, trees.document(entry.document)));
    const book::Document* saw = trees.saw_of(entry.document);
    if (saw && std::find(out.saws.begin(), out.saws.end(), saw->title) == out.saws.end())
      out.saws.push_back(saw->title);
  }
  return out;
}

std::string short_label(std::string label) {
  constexpr std::size_t longest = 300;
  if (label.size() <= longest) return label;
  std::size_t end = longest;
  while (end > 0 && (static_cast<unsigned char>(label[end]) & 0xC0U) == 0x80U) --end;
  return label.substr(0, end) + "\u2026";
}

base::ResultAll<wire::BookDoneAnswer> done(Shelf& shelf, const book::Document* saw, book::Deed deed) {
  deed.label = short_label(std::move(deed.label));
  deed.token = shelf.by.token;
  deed.client = shelf.by.client;
  auto action = shelf.book.act(deed);
  if (!action) return tl::unexpected(base::Errors{shown_conflict(shelf, deed, action.error())});
  wire::BookDoneAnswer out;
  out.head = shelf.head();
  if (saw) {
    out.saw = saw->id;
    out.name = saw->title;
    if (const auto now = find_saw(shelf, saw->id, true)) out.revision = revision_of(*now);
  }
  if (action->number == 0) return out;
  for (const book::Entry& entry : action->entries)
    if (entry.path.empty()) out.added.push_back(entry.document);
  out.action = shown_action(shelf, *action);
  return out;
}

}  // namespace portwright::desk
