#pragma once
// A short list in place: a saw has few ports and rings, and the sampled path may not allocate.

#include <array>
#include <cassert>
#include <cstddef>

namespace portwright::geometry {

template <class T, std::size_t N>
class Few {
 public:
  static constexpr std::size_t capacity = N;
  T& add(T item) {
    assert(size_ < N);
    return items_[size_++] = std::move(item);
  }
  void clear() { size_ = 0; }
  [[nodiscard]] std::size_t size() const { return size_; }
  [[nodiscard]] bool empty() const { return size_ == 0; }
  T& operator[](std::size_t i) { return items_[i]; }
  const T& operator[](std::size_t i) const { return items_[i]; }
  T* begin() { return items_.data(); }
  T* end() { return items_.data() + size_; }
  const T* begin() const { return items_.data(); }
  const T* end() const { return items_.data() + size_; }

 private:
  std::array<T, N> items_{};
  std::size_t size_ = 0;
};

}  // namespace portwright::geometry
