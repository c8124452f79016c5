#pragma once
// Numbers of many engines side by side: a table whose every place holds one number for each lane.

#include <hwy/aligned_allocator.h>

#include <algorithm>
#include <cstddef>

namespace portwright::flow {

/// `rows` times `columns` places of `lanes` numbers each, lanes side by side, aligned for the widest vector; all 0 to
/// begin with.
template <class T>
class Table {
 public:
  Table() = default;
  Table(int rows, int columns, int lanes) : rows_(rows), columns_(columns), lanes_(lanes) {
    numbers_ = hwy::AllocateAligned<T>(std::max<std::size_t>(size(), 1));
    std::fill_n(numbers_.get(), size(), T(0));
  }
  /// First number of a row: column c begins c * lanes() further on.
  [[nodiscard]] T* operator[](int row) { return numbers_.get() + offset(row); }
  [[nodiscard]] const T* operator[](int row) const { return numbers_.get() + offset(row); }
  [[nodiscard]] T& at(int row, int column, int lane) { return (*this)[row][column * lanes_ + lane]; }
  [[nodiscard]] const T& at(int row, int column, int lane) const { return (*this)[row][column * lanes_ + lane]; }
  [[nodiscard]] int rows() const { return rows_; }
  [[nodiscard]] int columns() const { return columns_; }
  [[nodiscard]] int lanes() const { return lanes_; }

 private:
  [[nodiscard]] std::ptrdiff_t offset(int row) const { return std::ptrdiff_t{row} * columns_ * lanes_; }
  [[nodiscard]] std::size_t size() const { return static_cast<std::size_t>(offset(rows_)); }
  int rows_ = 0, columns_ = 0, lanes_ = 0;
  hwy::AlignedFreeUniquePtr<T[]> numbers_;
};

}  // namespace portwright::flow
