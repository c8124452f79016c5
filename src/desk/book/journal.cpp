// The journal, undo and redo, search, and where the book is.
#include <algorithm>
#include <filesystem>
#include <map>

#include "desk/book.hpp"
#include "desk/book/shelf.hpp"

namespace portwright::desk {
namespace {

constexpr std::int64_t most_found = 50;

// A saw with all that ever belonged to it, hidden or not.
base::Result<std::vector<std::string>> ids_of(Shelf& shelf, const std::string& saw) {
  book::Query query;
  query.belongs_to = saw;
  query.hidden = true;
  auto parts = shelf.book.list(query);
  if (!parts) return tl::unexpected(parts.error());
  std::vector<std::string> ids{saw};
  for (const book::Document& part : *parts) ids.push_back(part.id);
  return ids;
}

// Newest actions first, one more than asked for where there is one.
base::Result<std::vector<book::Action>> actions_of(Shelf& shelf, const std::string& saw, int limit) {
  book::JournalQuery query;
  query.limit = limit < 0 ? -1 : limit + 1;
  if (saw.empty()) return shelf.book.journal(query);
  auto found = find_saw(shelf, saw, true);
  if (!found) return tl::unexpected(found.error());
  const auto ids = ids_of(shelf, found->saw.id);
  if (!ids) return tl::unexpected(ids.error());
  std::map<std::int64_t, book::Action, std::greater<>> all;
  for (const std::string& id : *ids) {
    query.document = id;
    auto some = shelf.book.journal(query);
    if (!some) return some;
    for (book::Action& action : *some) all.emplace(action.number, std::move(action));
  }
  std::vector<book::Action> out;
  for (auto& [number, action] : all) out.push_back(std::move(action));
  return out;
}

base::ResultAll<wire::BookDoneAnswer> toggled(Shelf& shelf, const base::Result<book::Action>& action) {
  if (!action) return only_error(action);
  wire::BookDoneAnswer answer;
  answer.head = shelf.head();
  answer.action = shown_action(shelf, *action);
  return answer;
}

}  // namespace

base::ResultAll<wire::BookJournalAnswer> book_journal(const BookJournalRequest& request) {
  auto shelf = open_shelf(request.book, Reach::read);
  if (!shelf) return only_error(shelf);
  auto actions = actions_of(*shelf, request.saw, request.limit);
  if (!actions) return only_error(actions);
  wire::BookJournalAnswer answer;
  answer.head = shelf->head();
  const auto limit = static_cast<std::size_t>(std::max(request.limit, 0));
  answer.more = request.limit >= 0 && actions->size() > limit;
  if (answer.more) actions->resize(limit);
  for (const book::Action& action : *actions) answer.actions.push_back(shown_action(*shelf, action));
  return answer;
}

base::ResultAll<wire::BookDoneAnswer> book_undo(const BookRequest& request) {
  auto shelf = open_shelf(request.book, Reach::write, request.by);
  if (!shelf) return only_error(shelf);
  return toggled(*shelf, shelf->book.undo(request.by.token, request.by.client));
}

base::ResultAll<wire::BookDoneAnswer> book_redo(const BookRequest& request) {
  auto shelf = open_shelf(request.book, Reach::write, request.by);
  if (!shelf) return only_error(shelf);
  return toggled(*shelf, shelf->book.redo(request.by.token, request.by.client));
}

base::ResultAll<wire::BookFindAnswer> book_find(const BookFindRequest& request) {
  auto shelf = open_shelf(request.book, Reach::read);
  if (!shelf) return only_error(shelf);
  const auto found = shelf->book.find(request.text, most_found);
  if (!found) return only_error(found);
  wire::BookFindAnswer answer;
  answer.head = shelf->head();
  answer.text = request.text;
  for (const book::Found& one : *found) {
    wire::BookFound row{one.document, one.kind, one.kind == "saw" ? one.document : one.belongs_to, one.title,
                        one.snippet};
    if (one.kind != "saw" && !one.belongs_to.empty())
      if (const auto saw = shelf->book.get(one.belongs_to)) row.name = saw->title;
    answer.found.push_back(std::move(row));
  }
  return answer;
}

base::ResultAll<wire::BookWhereAnswer> book_where(const BookRequest& request) {
  const BookPlace place = book_place(request.book);
  wire::BookWhereAnswer answer;
  answer.head.book = place.path;
  answer.chosen_by = place.chosen_by;
  std::error_code trouble;
  answer.there = std::filesystem::exists(place.path, trouble);
  answer.folder = (std::filesystem::path(place.path).parent_path() / "backups").string();
  if (!answer.there) return answer;
  auto shelf = open_shelf(request.book, Reach::read);
  if (!shelf) return only_error(shelf);
  auto saws = all_saws(*shelf);
  if (!saws) return only_error(saws);
  answer.saws = static_cast<std::int64_t>(saws->size());
  const auto where = shelf->book.where();
  if (!where) return only_error(where);
  answer.bytes = where->bytes;
  answer.documents = where->documents;
  answer.entries = where->entries;
  answer.blobs = where->blobs;
  if (where->alarm) answer.alarm = where->alarm->message;
  for (const book::Backup& backup : shelf->book.backups())
    answer.backups.push_back({backup.path, backup.at, backup.bytes, backup.documents, backup.entries});
  return answer;
}

}  // namespace portwright::desk
