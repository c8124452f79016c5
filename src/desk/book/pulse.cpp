// The book as a server holds it: begun, asked whether it has something new.
#include <filesystem>

#include "desk/book.hpp"
#include "desk/book/shelf.hpp"

namespace portwright::desk {

base::Result<void> book_begin(const BookRequest& request) {
  auto shelf = open_shelf(request.book, Reach::begin, request.by);
  if (!shelf) return tl::unexpected(shelf.error());
  return {};
}

BookStanding book_standing(const std::string& asked) {
  BookPlace place = book_place(asked);
  std::error_code trouble;
  const bool there = std::filesystem::exists(place.path, trouble);
  return {std::move(place.path), std::move(place.chosen_by), there};
}

base::Result<std::int64_t> book_last(const BookRequest& request) { return BookPulse(request.book).last(); }

base::Result<std::string> book_revision(const BookSawRequest& request) {
  auto shelf = open_shelf(request.book, Reach::read);
  if (!shelf) return tl::unexpected(shelf.error());
  const auto found = find_saw(*shelf, request.saw, true);
  if (!found) return tl::unexpected(found.error());
  return revision_of(*found);
}

std::string usual_author() { return book_author(); }

struct BookPulse::Inside {
  std::string path;
  std::optional<Shelf> shelf;
};

BookPulse::BookPulse(std::string path) : inside_(std::make_unique<Inside>(Inside{std::move(path), {}})) {}
BookPulse::BookPulse(BookPulse&&) noexcept = default;
BookPulse& BookPulse::operator=(BookPulse&&) noexcept = default;
BookPulse::~BookPulse() = default;

base::Result<std::int64_t> BookPulse::last() {
  if (!inside_->shelf) {
    auto opened = open_shelf(inside_->path, Reach::read);
    if (!opened) return tl::unexpected(opened.error());
    inside_->shelf = std::move(*opened);
  }
  auto last = inside_->shelf->book.sequence();
  if (!last) inside_->shelf.reset();
  return last;
}

}  // namespace portwright::desk
