#pragma once
// An open book and the saws in it: what every use case of the book starts from. Inside the module only.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "book/book.hpp"
#include "book/tree.hpp"
#include "desk/book.hpp"
#include "saw/file.hpp"
#include "wire/book_answer.hpp"

namespace portwright::desk {

/// Where the book is, and what said so.
struct BookPlace {
  std::string path;
  std::string chosen_by;  ///< --book, PORTWRIGHT_BOOK or the usual place
};
[[nodiscard]] BookPlace book_place(const std::string& asked);

/// Who acts: PORTWRIGHT_AUTHOR, else the name the system knows the user by.
[[nodiscard]] std::string book_author();

/// `begin` makes the book where there is none.
enum class Reach { read, write, begin };

struct Shelf {
  BookPlace place;
  book::Book book;
  Hand by = {};

  /// With what the book itself has to say.
  [[nodiscard]] wire::BookHead head();
};

/// Opens the book. Error not_found: it is not there.
[[nodiscard]] base::Result<Shelf> open_shelf(const std::string& asked, Reach reach, const Hand& by = {});

/// A saw of the book, with one set of its readings.
struct ShelfSaw {
  book::Document saw;
  std::optional<book::Document> readings;  ///< the newest set, or the one whose id was asked for
};

/// A saw by its name or id, or by the id of a set of its readings.
[[nodiscard]] base::Result<ShelfSaw> find_saw(Shelf& shelf, const std::string& asked, bool hidden = false);
/// All saws, in the order of their names.
[[nodiscard]] base::Result<std::vector<book::Document>> all_saws(Shelf& shelf, bool hidden = false);
/// What belongs to a saw, oldest first; without what is hidden itself.
[[nodiscard]] base::Result<std::vector<book::Document>> parts_of(Shelf& shelf, const std::string& saw);
/// The newest set of readings.
[[nodiscard]] base::Result<std::optional<book::Document>> newest_readings(Shelf& shelf, const std::string& saw);

/// Revision of a saw with its newest readings: what a writer who saw them gives as its base.
[[nodiscard]] std::string revision_of(const ShelfSaw& saw);

/// The whole tree of a saw file: readings with the saw's own name, model and casting.
[[nodiscard]] book::Tree whole_tree(const ShelfSaw& saw);
/// The body of a document as a tree.
[[nodiscard]] book::Tree body_of(const book::Document& document);

/// Letters and digits alone count, and no capitals: "Larch 70" and "larch-70" are one name.
[[nodiscard]] std::string folded(const std::string& name);

/// A saw as a line of a list.
[[nodiscard]] base::Result<wire::BookSaw> saw_line(Shelf& shelf, const ShelfSaw& saw);

/// An action with its paths and values as a person names them.
[[nodiscard]] wire::BookAction shown_action(Shelf& shelf, const book::Action& action);

/// Does a deed to a saw and says what was done.
[[nodiscard]] base::ResultAll<wire::BookDoneAnswer> done(Shelf& shelf, const book::Document* saw, book::Deed deed);

/// A label no longer than the book keeps.
[[nodiscard]] std::string short_label(std::string label);

template <class T>
tl::unexpected<base::Errors> only_error(const base::Result<T>& failed) {
  return tl::unexpected(base::Errors{failed.error()});
}

}  // namespace portwright::desk
