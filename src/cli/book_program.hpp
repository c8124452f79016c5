#pragma once
// The commands of the book.

#include <span>

#include "cli/words.hpp"

namespace portwright::cli {

struct BookAction {
  const char* command;
  int (*run)(const Words&);
};
[[nodiscard]] std::span<const BookAction> book_actions();

}  // namespace portwright::cli
