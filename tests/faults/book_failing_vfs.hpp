#pragma once
// A file system that fails when it is told to.

#include <string>

namespace book_test {

/// How calls of the failing file system fail from the given one on.
enum class Trouble {
  none,       ///< all is well; calls are counted
  once,       ///< one call fails with an I/O error
  for_good,   ///< it and all after it fail with an I/O error
  disk_full,  ///< it and all writes after it find no room
};

/// Arms the file system "failing" (registered when first called): the n-th call from now on fails, n from 1.
void fail_at(int n, Trouble trouble);

/// Calls since it was armed that could have failed.
int calls_made();

/// Whether the trouble came.
bool has_failed();

}  // namespace book_test
