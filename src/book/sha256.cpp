#include "book/sha256.hpp"

#include <algorithm>
#include <bit>
#include <cstring>

#include "book/book.hpp"

namespace portwright::book {
namespace {

// First 32 bits of the fractional parts of the cube roots of the first 64 primes.
constexpr std::array<std::uint32_t, 64> constants = {
    0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1, 0x923f82a4, 0xab1c5ed5,
    0xd807aa98, 0x12835b01, 0x243185be, 0x550c7dc3, 0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174,
    0xe49b69c1, 0xefbe4786, 0x0fc19dc6, 0x240ca1cc, 0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da,
    0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147, 0x06ca6351, 0x14292967,
    0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13, 0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85,
    0xa2bfe8a1, 0xa81a664b, 0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070,
    0x19a4c116, 0x1e376c08, 0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a, 0x5b9cca4f, 0x682e6ff3,
    0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208, 0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2};

using Schedule = std::array<std::uint32_t, 64>;

Schedule schedule_of(const unsigned char* block) {
  Schedule w{};
  for (std::size_t i = 0; i < 16; ++i)
    w[i] = std::uint32_t{block[4 * i]} << 24U | std::uint32_t{block[4 * i + 1]} << 16U |
           std::uint32_t{block[4 * i + 2]} << 8U | std::uint32_t{block[4 * i + 3]};
  for (std::size_t i = 16; i < 64; ++i) {
    const std::uint32_t a = w[i - 15];
    const std::uint32_t b = w[i - 2];
    w[i] = w[i - 16] + (std::rotr(a, 7) ^ std::rotr(a, 18) ^ (a >> 3U)) + w[i - 7] +
           (std::rotr(b, 17) ^ std::rotr(b, 19) ^ (b >> 10U));
  }
  return w;
}

}  // namespace

void Sha256::take_block(const unsigned char* block) {
  const Schedule w = schedule_of(block);
  auto [a, b, c, d, e, f, g, h] = state_;
  for (std::size_t i = 0; i < 64; ++i) {
    const std::uint32_t first =
        h + (std::rotr(e, 6) ^ std::rotr(e, 11) ^ std::rotr(e, 25)) + ((e & f) ^ (~e & g)) + constants[i] + w[i];
    const std::uint32_t second =
        (std::rotr(a, 2) ^ std::rotr(a, 13) ^ std::rotr(a, 22)) + ((a & b) ^ (a & c) ^ (b & c));
    h = g;
    g = f;
    f = e;
    e = d + first;
    d = c;
    c = b;
    b = a;
    a = first + second;
  }
  const std::array<std::uint32_t, 8> add{a, b, c, d, e, f, g, h};
  for (std::size_t i = 0; i < 8; ++i) state_[i] += add[i];
}

void Sha256::add(std::string_view bytes) {
  length_ += bytes.size();
  while (!bytes.empty()) {
    const std::size_t n = std::min(bytes.size(), waiting_.size() - held_);
    std::memcpy(waiting_.data() + held_, bytes.data(), n);
    held_ += n;
    bytes.remove_prefix(n);
    if (held_ < waiting_.size()) return;
    take_block(waiting_.data());
    held_ = 0;
  }
}

void Sha256::add_field(std::string_view bytes) {
  const auto size = static_cast<std::uint64_t>(bytes.size());
  std::array<char, 8> length{};
  for (unsigned i = 0; i < 8; ++i) length[i] = static_cast<char>(size >> (8U * (7U - i)) & 0xffU);
  add({length.data(), length.size()});
  add(bytes);
}

std::string Sha256::hexadecimal() {
  const std::uint64_t bits = length_ * 8;
  add(std::string_view("\x80", 1));
  while (held_ != 56) add(std::string_view("\0", 1));
  for (unsigned i = 0; i < 8; ++i) {
    const char one = static_cast<char>(bits >> (8U * (7U - i)) & 0xffU);
    add({&one, 1});
  }
  static constexpr char digits[] = "0123456789abcdef";
  std::string out;
  for (const std::uint32_t word : state_)
    for (unsigned i = 8; i-- > 0;) out += digits[word >> (4U * i) & 0xfU];
  return out;
}

std::string hash_of(std::string_view bytes) {
  Sha256 sum;
  sum.add(bytes);
  return sum.hexadecimal();
}

}  // namespace portwright::book
