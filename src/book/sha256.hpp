#pragma once
// SHA-256. @source{fips180_4, section 6.2}

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

namespace portwright::book {

/// Takes bytes in pieces of any size.
class Sha256 {
 public:
  void add(std::string_view bytes);
  /// Adds the length of the bytes before the bytes, so that two fields never run into each other.
  void add_field(std::string_view bytes);
  /// 64 hexadecimal digits. Nothing may be added afterwards.
  [[nodiscard]] std::string hexadecimal();

 private:
  void take_block(const unsigned char* block);
  std::array<std::uint32_t, 8> state_{0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a,
                                      0x510e527f, 0x9b05688c, 0x1f83d9ab, 0x5be0cd19};
  std::array<unsigned char, 64> waiting_{};
  std::size_t held_ = 0;
  std::uint64_t length_ = 0;  // bytes
};

}  // namespace portwright::book
