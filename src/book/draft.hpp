#pragma once
// Documents while entries are applied to them: by an act, an undo, a fold of the whole journal.

#include <map>
#include <string>
#include <vector>

#include "book/action.hpp"
#include "book/database.hpp"
#include "book/inside.hpp"
#include "book/tree.hpp"

namespace portwright::book {

/// A document with its body as a tree.
struct Held {
  std::int64_t number = 0;  ///< row; 0 while it is not written yet
  std::string id, kind, belongs_to;
  Tree body;
  bool hidden = false;
  std::int64_t revision = 0;
  std::string created;
};

inline constexpr std::string_view hidden_path = "#hidden";

/// `after` of the entry that adds a document.
[[nodiscard]] std::string added_text(const Held& held);

/// The document that an adding entry makes. Error damaged: `after` is not what added_text writes.
[[nodiscard]] base::Result<Held> held_from(const Entry& entry);

/// The text leaf `name`; empty when there is none.
[[nodiscard]] std::string title_of(const Tree& body);

/// The facets that a body has.
[[nodiscard]] base::Result<std::map<std::string, std::string>> facets_of(Database& database, const Tree& body);

/// JSON of what is at a path now; "true" or "false" for `#hidden`.
[[nodiscard]] std::optional<std::string> value_at(const Held& held, std::string_view path);

/// Sets what is at a path. Error usage: see set(Tree&).
[[nodiscard]] base::Result<void> put(Held& held, std::string_view path, const std::optional<std::string>& value);

/// The documents that a transaction touches, and the entries it makes.
class Draft {
 public:
  explicit Draft(Database& database) : database_(&database) {}

  /// Reads the document once. Error not_found.
  base::Result<Held*> held(const std::string& id);
  /// Whether the id is taken, here or in the book.
  base::Result<bool> taken(const std::string& id);
  void add(Held held);
  /// Sets what is at a path and notes the entry; nothing when it is there already.
  base::Result<void> change(Held& held, std::string_view path, const std::optional<std::string>& value);

  [[nodiscard]] const std::vector<Entry>& entries() const { return entries_; }
  /// Takes an action of another book as it stands: its entries must follow from what is there and fit the chain.
  /// Error damaged.
  base::Result<void> replay(const Action& action, Standing& standing);
  /// Writes all documents after the last replay.
  base::Result<void> write_replayed();

  /// Writes action, entries with their chain, and the documents.
  base::Result<Action> write(Action action, const std::string& client);

 private:
  base::Result<void> write_action(const Action& action, const std::string& client);
  base::Result<void> write_entry(const Action& action, const Entry& entry);
  base::Result<void> write_entries(Action& action, Standing& standing);
  base::Result<void> write_document(Held& held, const Action& action);
  base::Result<void> write_index(const Held& held);
  base::Result<void> conceal(const std::string& id);

  Database* database_;
  std::map<std::string, Held> held_;
  std::vector<std::string> added_;  // in order: owners before what belongs to them
  std::vector<Entry> entries_;
  std::map<std::string, Action> last_;  // of a replay: who changed a document last, without entries
};

/// Applies an entry to the document, which it makes when it adds it. False when it does not follow from what is there.
[[nodiscard]] bool fold(std::optional<Held>& held, const Entry& entry);

/// Chain of an entry. Fields are length-prefixed; absent values are told from empty ones.
[[nodiscard]] std::string chain_of(const std::string& previous, const Action& action, const Entry& entry);

}  // namespace portwright::book
