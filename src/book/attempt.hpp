#pragma once
// Passing an error on, inside this module only.

#include <utility>

#include <tl/expected.hpp>

// Ends the function with the error of `expression` when it has one.
#define BOOK_TRY(expression) \
  if (auto tried = (expression); !tried) return tl::unexpected(std::move(tried).error())

// The same, and otherwise names the value.
#define BOOK_LET(name, expression)                                             \
  auto name##_result = (expression);                                           \
  if (!name##_result) return tl::unexpected(std::move(name##_result).error()); \
  [[maybe_unused]] auto& name = *name##_result
