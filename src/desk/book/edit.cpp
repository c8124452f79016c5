// One field of a saw set as a hand typed it.
#include <algorithm>

#include "base/quantity/normal.hpp"
#include "desk/book.hpp"
#include "desk/book/field_path.hpp"
#include "desk/book/saw_tree.hpp"
#include "desk/book/shelf.hpp"
#include "geometry/survey.hpp"

namespace portwright::desk {
namespace {

std::vector<std::string> parted(const std::string& text, const char* marks) {
  std::vector<std::string> out;
  std::size_t at = 0;
  while (at <= text.size()) {
    const std::size_t end = std::min(text.find_first_of(marks, at), text.size());
    const std::string part(base::typed::trimmed(std::string_view(text).substr(at, end - at)));
    if (!part.empty()) out.push_back(part);
    at = end + 1;
  }
  return out;
}

// "-12 mm, 0 mm; 0 mm, 1 mm": halves one after the other; a decimal comma has no blank behind it.
std::vector<std::string> halves_of(const std::string& text) {
  std::vector<std::string> out;
  for (const std::string& row : parted(text, ";")) {
    const std::size_t comma = row.find(", ");
    out.emplace_back(base::typed::trimmed(row.substr(0, comma)));
    out.emplace_back(comma == std::string::npos ? "" : base::typed::trimmed(row.substr(comma + 1)));
  }
  return out;
}

book::Tree leaf_of(FieldKind kind, const std::string& value) {
  if (kind == FieldKind::several) return list_leaf(parted(value, ";"));
  if (kind == FieldKind::pairs) return list_leaf(halves_of(value));
  if (kind != FieldKind::flag) return text_leaf(value);
  const bool yes = value == "true" || value == "yes", no = value == "false" || value == "no";
  if (!yes && !no) return text_leaf(value);
  book::Tree flag;
  flag.kind = book::Tree::Kind::flag;
  flag.flag = yes;
  return flag;
}

// What a request does to one document: a list of places with their new values.
class Edit {
 public:
  Edit(const BookSetRequest& request, const FieldPlace& place, const book::Tree& before)
      : request_(request), place_(place), before_(before) {}

  [[nodiscard]] base::Result<std::vector<book::Change>> changes(const book::Document& document) {
    if (place_.kind != FieldKind::reading && (request_.again || request_.with || request_.setup || request_.note))
      return base::fail(base::ErrorCode::usage, place_.shown + " is no reading with an instrument or repeats.", {},
                        "--again, --with, --setup and --note are for readings.");
    if (request_.clear)
      set(place_.path, book::Tree{});
    else if (place_.kind == FieldKind::reading)
      reading();
    else
      set(place_.path, leaf_of(place_.kind, request_.value));
    for (const auto& [path, value] : place_.beside)
      if (!request_.clear) set(path, value);
    // Blanks are no value: they would stand in the place of one.
    const bool blank = !request_.value.empty() && base::typed::trimmed(request_.value).empty();
    if (request_.only_adds && (takes_out_ || blank))
      return base::fail(base::ErrorCode::usage, "Nothing is taken out from here.", place_.shown,
                        "The machine that the book lies on does that.");
    for (book::Change& change : changes_) {
      change.document = document.id;
      change.base = request_.base.value_or(document.revision);
    }
    return std::move(changes_);
  }

 private:
  void reading() {
    const book::Tree* now = book::find(before_, place_.path);
    const std::string borrowed = now ? text_at(*now, "borrowed_from") : std::string();
    const book::Tree* read = now ? book::find(*now, "read") : nullptr;
    if (!request_.value.empty()) {
      std::vector<std::string> repeats =
          request_.again && read && borrowed.empty() ? read->list : std::vector<std::string>();
      repeats.push_back(request_.value);
      set(place_.path + ".read", list_leaf(std::move(repeats)));
    }
    const auto word = [&](const char* leaf, const std::optional<std::string>& text) {
      if (text) set(place_.path + '.' + leaf, text_leaf(*text));
    };
    word("with", request_.with);
    word("setup", request_.setup);
    word("note", request_.note);
    if (borrowed.empty() || request_.value.empty()) return;
    put_out(place_.path + ".borrowed_from");  // read on this saw now
    if (!request_.note) put_out(place_.path + ".note");
  }
  void put_out(const std::string& path) {
    if (book::find(before_, path) != nullptr) changes_.push_back({{}, path, std::nullopt, 0});
  }
  void set(const std::string& path, const book::Tree& value) {
    const bool gone = value.empty_branch() || (value.kind == book::Tree::Kind::text && value.text.empty()) ||
                      (value.kind == book::Tree::Kind::list && value.list.empty());
    if (gone && book::find(before_, path) == nullptr) return;
    takes_out_ = takes_out_ || gone;
    changes_.push_back({{}, path, gone ? std::nullopt : std::optional(book::print(value)), 0});
  }

  const BookSetRequest& request_;
  const FieldPlace& place_;
  const book::Tree& before_;
  std::vector<book::Change> changes_;
  bool takes_out_ = false;
};

std::string text_of(const book::Tree& tree, const std::string& path) {
  const book::Tree* found = book::find(tree, path);
  const book::Tree* read = found ? book::find(*found, "read") : nullptr;
  const std::string text = read ? shown_value(*read) : found ? shown_value(*found) : std::string();
  return text.empty() ? "\u2014" : text;
}

base::Result<void> put_changes(book::Tree& tree, const std::vector<book::Change>& changes) {
  for (const book::Change& change : changes) {
    if (!change.value) {
      book::remove(tree, change.path);
      continue;
    }
    auto value = book::parse_tree(*change.value);
    if (!value) return tl::unexpected(value.error());
    if (auto set = book::set(tree, change.path, std::move(*value)); !set) return set;
  }
  return {};
}

bool speaks_of(const base::Error& error, const std::string& path) {
  return error.path == path || error.path.starts_with(path + '.');
}

// Readings that the new one does not agree with.
std::vector<std::string> contradictions(const saw::Readings& readings, const std::string& path) {
  std::vector<std::string> out;
  for (const base::Error& error : geometry::survey(readings).errors)
    if (speaks_of(error, path) ||
        std::any_of(error.readings.begin(), error.readings.end(), [&](const std::string& one) {
          return one == path || one.starts_with(path + ' ') || one.starts_with(path + ':');
        }))
      out.push_back(error.path + ": " + error.message + (error.hint.empty() ? "" : ' ' + error.hint));
  return out;
}

}  // namespace

base::ResultAll<wire::BookDoneAnswer> book_set(const BookSetRequest& request) {
  if (request.value.empty() && !request.clear && !request.with && !request.setup && !request.note)
    return tl::unexpected(base::Errors{{base::ErrorCode::usage,
                                        "There is no value to set.",
                                        "",
                                        "Type one, or take the reading out with --clear.",
                                        {}}});
  auto shelf = open_shelf(request.book, Reach::write, request.by);
  if (!shelf) return only_error(shelf);
  auto found = find_saw(*shelf, request.saw);
  if (!found) return only_error(found);
  const book::Tree whole = whole_tree(*found);
  const auto place = find_field(whole, request.field);
  if (!place) return only_error(place);
  if (!place->identity && !found->readings)
    return tl::unexpected(base::Errors{{base::ErrorCode::not_found,
                                        found->saw.title + " has no readings.",
                                        "",
                                        "portwright book add FILE --to " + found->saw.id + " adds some.",
                                        {}}});
  book::Deed deed;
  auto changes = Edit(request, *place, whole).changes(place->identity ? found->saw : *found->readings);
  if (!changes) return only_error(changes);
  book::Tree after = whole;
  if (auto applied = put_changes(after, *changes); !applied) return only_error(applied);
  const auto read = read_tree(after);
  if (!read) return tl::unexpected(read.error());
  deed.changes = std::move(*changes);
  const std::string was = text_of(whole, place->path), is = text_of(after, place->path);
  deed.label = place->shown + (was == is ? " noted" : ' ' + was + " \u2192 " + is);
  auto answer = done(*shelf, &found->saw, std::move(deed));
  if (!answer) return answer;
  for (const base::Error& error : read->errors)
    if (speaks_of(error, place->shown)) answer->head.errors.push_back(error);
  if (answer->head.errors.empty()) answer->head.notices = contradictions(read->readings, place->shown);
  return answer;
}

}  // namespace portwright::desk
