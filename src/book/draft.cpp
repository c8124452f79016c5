#include "book/draft.hpp"

#include <set>
#include <utility>

#include "book/attempt.hpp"
#include "book/identity.hpp"
#include "book/sha256.hpp"

namespace portwright::book {

using base::ErrorCode;
using base::Result;

namespace {

Tree text_tree(std::string text) {
  Tree tree;
  tree.kind = Tree::Kind::text;
  tree.text = std::move(text);
  return tree;
}

std::string text_of(const Tree& tree, std::string_view path) {
  const Tree* leaf = find(tree, path);
  return leaf != nullptr && leaf->kind == Tree::Kind::text ? leaf->text : std::string{};
}

}  // namespace

std::string added_text(const Held& held) {
  Tree tree;
  if (!held.belongs_to.empty()) tree.parts.push_back({"belongs_to", text_tree(held.belongs_to)});
  if (!held.body.empty_branch()) tree.parts.push_back({"body", held.body});
  tree.parts.push_back({"kind", text_tree(held.kind)});
  return print(tree);
}

Result<Held> held_from(const Entry& entry) {
  const Result<Tree> tree = entry.after ? parse_tree(*entry.after, deepest_tree + 1) : Tree{};
  Held held;
  held.id = entry.document;
  if (tree) held.kind = text_of(*tree, "kind");
  if (held.kind.empty()) return base::fail(ErrorCode::damaged, "An entry of the journal cannot be read.");
  held.belongs_to = text_of(*tree, "belongs_to");
  if (const Tree* body = find(*tree, "body")) held.body = *body;
  return held;
}

std::string title_of(const Tree& body) { return text_of(body, "name"); }

Result<std::map<std::string, std::string>> facets_of(Database& database, const Tree& body) {
  Statement keys = database.prepare("SELECT value FROM fact WHERE key = 'facets'");
  BOOK_LET(there, keys.step());
  const Result<Tree> facets = there ? parse_tree(keys.text(0)) : Tree{};
  if (!facets) return tl::unexpected(facets.error());
  std::map<std::string, std::string> out;
  for (const std::string& key : facets->list)
    if (std::string value = text_of(body, key); !value.empty()) out.emplace(key, std::move(value));
  return out;
}

std::optional<std::string> value_at(const Held& held, std::string_view path) {
  if (path == hidden_path) return held.hidden ? "true" : "false";
  const Tree* tree = find(held.body, path);
  if (tree == nullptr) return std::nullopt;
  return print(*tree);
}

Result<void> put(Held& held, std::string_view path, const std::optional<std::string>& value) {
  if (path == hidden_path) {
    held.hidden = value == "true";
    return {};
  }
  if (!value) {
    remove(held.body, path);
    return {};
  }
  BOOK_LET(tree, parse_tree(*value));
  return set(held.body, path, std::move(tree));
}

bool fold(std::optional<Held>& held, const Entry& entry) {
  if (entry.path.empty()) {
    Result<Held> made = held_from(entry);
    if (held || !made) return false;
    held = std::move(*made);
    return true;
  }
  return held && value_at(*held, entry.path) == entry.before && put(*held, entry.path, entry.after) &&
         value_at(*held, entry.path) == entry.after;
}

Result<Held*> Draft::held(const std::string& id) {
  if (const auto found = held_.find(id); found != held_.end()) return &found->second;
  Statement row =
      database_->prepare("SELECT number, kind, belongs_to, body, hidden, revision, created FROM document WHERE id = ?");
  BOOK_LET(there, row.bind(id).step());
  if (!there) return base::fail(ErrorCode::not_found, "No document \u201C" + id + "\u201D is in the book.");
  BOOK_LET(body, parse_tree(row.text(3)));
  Held held{row.number(0), id,         row.text(1), row.text(2), std::move(body), row.number(4) != 0,
            row.number(5), row.text(6)};
  return &held_.emplace(id, std::move(held)).first->second;
}

Result<bool> Draft::taken(const std::string& id) {
  if (held_.contains(id)) return true;
  Statement row = database_->prepare("SELECT 1 FROM document WHERE id = ?");
  return row.bind(id).step();
}

void Draft::add(Held held) {
  Entry entry;
  entry.document = held.id;
  entry.after = added_text(held);
  entries_.push_back(std::move(entry));
  added_.push_back(held.id);
  held_.insert_or_assign(held.id, std::move(held));
}

Result<void> Draft::change(Held& held, std::string_view path, const std::optional<std::string>& value) {
  Entry entry;
  entry.document = held.id;
  entry.path = path;
  entry.before = value_at(held, path);
  BOOK_TRY(put(held, path, value));
  entry.after = value_at(held, path);
  if (entry.before != entry.after) entries_.push_back(std::move(entry));
  return {};
}

std::string chain_of(const std::string& previous, const Action& action, const Entry& entry) {
  Sha256 sum;
  sum.add_field("portwright journal 1");
  sum.add_field(previous);
  for (const std::int64_t number : {entry.sequence, action.number, action.root, std::int64_t{action.off_stack}})
    sum.add_field(std::to_string(number));
  for (const std::string* text :
       {&action.token, &action.author, &action.at, &action.label, &entry.document, &entry.path})
    sum.add_field(*text);
  for (const auto* value : {&entry.before, &entry.after}) {
    sum.add_field(value->has_value() ? "1" : "0");
    sum.add_field(value->value_or(""));
  }
  return sum.hexadecimal();
}

Result<void> Draft::write_action(const Action& action, const std::string& client) {
  Statement row = database_->prepare("INSERT INTO action VALUES (?, ?, ?, ?, ?, ?, ?, ?)");
  row.bind(action.number).bind(action.token).bind(action.root).bind(action.author).bind(action.at).bind(action.label);
  return row.bind(client).bind(std::int64_t{action.off_stack}).run();
}

Result<void> Draft::write_entry(const Action& action, const Entry& entry) {
  Statement row = database_->prepare("INSERT INTO journal VALUES (?, ?, ?, ?, ?, ?, ?)");
  row.bind(entry.sequence).bind(action.number).bind(entry.document).bind(entry.path);
  return row.bind(entry.before).bind(entry.after).bind(entry.chain).run();
}

Result<void> Draft::replay(const Action& action, Standing& standing) {
  BOOK_TRY(write_action(action, {}));
  for (const Entry& entry : action.entries) {
    if (entry.sequence <= standing.sequence || chain_of(standing.chain, action, entry) != entry.chain)
      return base::fail(ErrorCode::damaged, "Entry " + std::to_string(entry.sequence) + " does not fit the chain.");
    std::optional<Held> held;
    if (const auto found = held_.find(entry.document); found != held_.end()) held = std::move(found->second);
    if (!fold(held, entry) || (entry.path.empty() && !is_id(entry.document)))
      return base::fail(ErrorCode::damaged, "Entry " + std::to_string(entry.sequence) + " does not follow.");
    if (entry.path.empty()) added_.push_back(entry.document);
    held->revision = entry.sequence;
    if (held->created.empty()) held->created = action.at;
    held_.insert_or_assign(entry.document, std::move(*held));
    Action& last = last_[entry.document];
    last.at = action.at;
    last.author = action.author;
    standing.sequence = entry.sequence;
    standing.chain = entry.chain;
    standing.next = entry.sequence + 1;
    ++standing.entries;
    BOOK_TRY(write_entry(action, entry));
  }
  return {};
}

Result<void> Draft::write_replayed() {
  for (const std::string& id : added_) BOOK_TRY(write_document(held_.at(id), last_.at(id)));
  for (const std::string& id : added_)
    if (held_.at(id).belongs_to.empty()) BOOK_TRY(conceal(id));
  return {};
}

Result<void> Draft::write_entries(Action& action, Standing& standing) {
  for (Entry& entry : entries_) {
    entry.sequence = standing.next++;
    entry.chain = chain_of(standing.chain, action, entry);
    standing.chain = entry.chain;
    standing.sequence = entry.sequence;
    ++standing.entries;
    BOOK_TRY(write_entry(action, entry));
    held_.at(entry.document).revision = entry.sequence;
  }
  return {};
}

Result<void> Draft::write_document(Held& held, const Action& action) {
  const std::string title = title_of(held.body);
  const std::string body = print(held.body);
  if (held.number == 0) {
    if (held.created.empty()) held.created = action.at;
    Statement row = database_->prepare(
        "INSERT INTO document (id, kind, belongs_to, title, body, hidden, concealed, revision, created, changed, "
        "author) "
        "VALUES (?, ?, ?, ?, ?, ?, 0, ?, ?, ?, ?) RETURNING number");
    row.bind(held.id).bind(held.kind).bind(held.belongs_to).bind(title).bind(body).bind(std::int64_t{held.hidden});
    BOOK_TRY(row.bind(held.revision).bind(held.created).bind(action.at).bind(action.author).step());
    held.number = row.number(0);
  } else {
    Statement row = database_->prepare(
        "UPDATE document SET title = ?, body = ?, hidden = ?, revision = ?, changed = ?, author = ? WHERE number = ?");
    row.bind(title).bind(body).bind(std::int64_t{held.hidden}).bind(held.revision).bind(action.at).bind(action.author);
    BOOK_TRY(row.bind(held.number).run());
    BOOK_TRY(database_->prepare("DELETE FROM search WHERE rowid = ?").bind(held.number).run());
    BOOK_TRY(database_->prepare("DELETE FROM facet WHERE document = ?").bind(held.number).run());
  }
  return write_index(held);
}

Result<void> Draft::write_index(const Held& held) {
  Statement search = database_->prepare("INSERT INTO search (rowid, title, words) VALUES (?, ?, ?)");
  BOOK_TRY(search.bind(held.number).bind(title_of(held.body)).bind(texts(held.body)).run());
  BOOK_LET(facets, facets_of(*database_, held.body));
  for (const auto& [key, value] : facets)
    BOOK_TRY(database_->prepare("INSERT INTO facet VALUES (?, ?, ?)").bind(key).bind(value).bind(held.number).run());
  return {};
}

/// Says anew whether a document and what belongs to it are out of sight.
Result<void> Draft::conceal(const std::string& id) {
  Statement update = database_->prepare(
      "UPDATE document SET concealed = hidden OR coalesce((SELECT owner.concealed FROM document owner WHERE owner.id = "
      "document.belongs_to), 0) WHERE id = ?");
  BOOK_TRY(update.bind(id).run());
  std::vector<std::string> below;
  {
    Statement rows = database_->prepare("SELECT id FROM document WHERE belongs_to = ?");
    rows.bind(id);
    for (;;) {
      BOOK_LET(more, rows.step());
      if (!more) break;
      below.push_back(rows.text(0));
    }
  }
  for (const std::string& one : below) BOOK_TRY(conceal(one));
  return {};
}

Result<Action> Draft::write(Action action, const std::string& client) {
  BOOK_LET(standing, read_standing(*database_));
  BOOK_LET(newest, database_->number("SELECT max(number) FROM action"));
  action.number = newest + 1;
  if (action.root == 0) action.root = action.number;
  BOOK_TRY(write_action(action, client));
  BOOK_TRY(write_entries(action, standing));
  std::set<std::string> written;
  for (const std::string& id : added_) {
    BOOK_TRY(write_document(held_.at(id), action));
    written.insert(id);
  }
  standing.documents += static_cast<std::int64_t>(added_.size());
  for (const Entry& entry : entries_)
    if (written.insert(entry.document).second) BOOK_TRY(write_document(held_.at(entry.document), action));
  for (const Entry& entry : entries_)
    if (entry.path.empty() || entry.path == hidden_path) BOOK_TRY(conceal(entry.document));
  BOOK_TRY(write_standing(*database_, standing));
  action.entries = entries_;
  return action;
}

}  // namespace portwright::book
