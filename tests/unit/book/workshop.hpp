#pragma once
// A folder with a book of its own for one test.

#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>
#include <string>

#include "book/book.hpp"

namespace book_test {

namespace fs = std::filesystem;
using namespace portwright;

/// A folder that goes with the test; in memory where there is such a place, so that flushing costs little.
class Folder {
 public:
  Folder() {
    const char* memory = "/dev/shm";
    const fs::path above = ::access(memory, W_OK) == 0 ? fs::path(memory) : fs::path(testing::TempDir());
    std::string pattern = (above / "portwright-book-XXXXXX").string();
    path_ = mkdtemp(pattern.data());
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  ~Folder() {
    std::error_code ignored;
    fs::remove_all(path_, ignored);
  }
  [[nodiscard]] std::string operator/(const std::string& name) const { return (path_ / name).string(); }
  [[nodiscard]] fs::path path() const { return path_; }

 private:
  fs::path path_;
};

/// Where the book of a test lies; every call of the clock is a second later.
inline book::Place place_in(const Folder& folder, const std::string& author = "Ann") {
  book::Place place;
  place.path = folder / "books/book.portwright";
  place.author = author;
  place.state_folder = folder / "state";
  place.clock = [second = std::int64_t{1772357400}]() mutable { return second++; };
  return place;
}

template <class T>
T taken(base::Result<T> result) {
  if (!result) {
    ADD_FAILURE() << base::code_name(result.error().code) << ": " << result.error().message;
    throw std::runtime_error(result.error().message);
  }
  return std::move(*result);
}

inline book::Deed adding(const std::string& id, const std::string& body, const std::string& owner = {},
                         const std::string& kind = "saw") {
  book::Deed deed;
  deed.label = "add " + id;
  deed.added.push_back({id, kind, owner, body});
  return deed;
}

inline book::Deed setting(const std::string& id, const std::string& path, const std::string& value, std::int64_t base) {
  book::Deed deed;
  deed.label = path + " is " + value;
  deed.changes.push_back({id, path, value, base});
  return deed;
}

}  // namespace book_test
