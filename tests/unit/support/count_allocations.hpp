#pragma once
// Takes the place of operator new and counts. Included by one file of a test program, which holds nothing else, so that
// no compiler sees one half of a pair without the other.
#include "unit/support/allocations.hpp"

#include <atomic>
#include <cstdlib>
#include <new>

namespace {
std::atomic<long> count{0};
}  // namespace

void* operator new(std::size_t size) {
  ++count;
  if (void* p = std::malloc(size != 0 ? size : 1)) return p;
  throw std::bad_alloc();
}
void* operator new(std::size_t size, const std::nothrow_t&) noexcept {
  ++count;
  return std::malloc(size != 0 ? size : 1);
}
void operator delete(void* p) noexcept { std::free(p); }
void operator delete(void* p, const std::nothrow_t&) noexcept { std::free(p); }
void operator delete(void* p, std::size_t) noexcept { std::free(p); }

long portwright::bench::allocations() { return count; }
