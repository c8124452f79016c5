#include "book/sha256.hpp"

#include <gtest/gtest.h>

#include "book/book.hpp"

// Examples of FIPS 180-4's companion (SHA256.pdf): one block, two blocks; and the million times "a" of its older
// edition.
namespace {

using portwright::book::hash_of;
using portwright::book::Sha256;

TEST(sha256, gives_the_examples_of_the_standard) {
  EXPECT_EQ(hash_of(""), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  EXPECT_EQ(hash_of("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  EXPECT_EQ(hash_of("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"),
            "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  EXPECT_EQ(hash_of(std::string(1000000, 'a')), "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

TEST(sha256, does_not_mind_how_the_bytes_are_cut) {
  const std::string bytes(300, 'x');
  for (std::size_t cut = 0; cut <= bytes.size(); ++cut) {
    Sha256 sum;
    sum.add(std::string_view(bytes).substr(0, cut));
    sum.add(std::string_view(bytes).substr(cut));
    ASSERT_EQ(sum.hexadecimal(), hash_of(bytes)) << cut;
  }
}

TEST(sha256, fields_do_not_run_into_each_other) {
  Sha256 one, other;
  one.add_field("ab");
  one.add_field("c");
  other.add_field("a");
  other.add_field("bc");
  EXPECT_NE(one.hexadecimal(), other.hexadecimal());
}

}  // namespace
