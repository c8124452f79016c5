#pragma once
// Doors that take bytes from outside. Each is one target: the fuzzer throws bytes at it, and the ordinary tests replay
// its kept inputs (tests/corpora/<name>/, one file each). A target throws when a promise is broken.
//
// A new one is two files: tests/corpora/targets/<name>_target.cpp with PORTWRIGHT_TARGET(name) { ... bytes ... }, and
// tests/fuzz/fuzz_<name>.cpp with PORTWRIGHT_FUZZ_ENTRY(name).

#include <cstddef>
#include <cstdint>
#include <span>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace portwright::corpora {

using Bytes = std::span<const std::uint8_t>;

struct Target {
  const char* name;
  void (*run)(Bytes);
};

/// Every target linked in.
inline std::vector<Target>& targets() {
  static std::vector<Target> all;
  return all;
}

struct Enrolled {
  Enrolled(const char* name, void (*run)(Bytes)) { targets().push_back({name, run}); }
};

/// Throws std::logic_error when a promise is broken.
inline void require(bool kept, const std::string& promise) {
  if (!kept) throw std::logic_error("broken: " + promise);
}

inline std::string_view as_text(Bytes bytes) { return {reinterpret_cast<const char*>(bytes.data()), bytes.size()}; }

}  // namespace portwright::corpora

#define PORTWRIGHT_TARGET(name)                                \
  namespace portwright::corpora {                              \
  void name##_target(Bytes bytes);                             \
  static const Enrolled name##_enrolled(#name, name##_target); \
  }                                                            \
  void portwright::corpora::name##_target([[maybe_unused]] portwright::corpora::Bytes bytes)

#define PORTWRIGHT_FUZZ_ENTRY(name)                                                   \
  namespace portwright::corpora {                                                     \
  void name##_target(Bytes bytes);                                                    \
  }                                                                                   \
  extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);  \
  extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) { \
    portwright::corpora::name##_target({data, size});                                 \
    return 0;                                                                         \
  }
