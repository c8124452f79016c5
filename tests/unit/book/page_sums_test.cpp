#include <gmock/gmock.h>

#include <fstream>
#include <iterator>

#include "book/page_sums.hpp"
#include "unit/book/workshop.hpp"

// Every page of the main file carries the sum over itself.
namespace book_test {
namespace {

std::string bytes_of(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

TEST(page_sums, a_change_of_any_bit_or_of_the_place_changes_the_sum) {
  std::string page(4088, 'x');
  const auto sum = book::page_sum(7, page);
  EXPECT_NE(book::page_sum(8, page), sum);
  for (std::size_t i = 0; i < page.size(); ++i)
    for (const char bit : {'\x01', '\x10', '\x80'}) {
      page[i] = static_cast<char>(page[i] ^ bit);
      EXPECT_NE(book::page_sum(7, page), sum) << i;
      page[i] = static_cast<char>(page[i] ^ bit);
    }
}

TEST(page_sums, stand_at_the_end_of_every_page_of_a_closed_book) {
  const Folder folder;
  {
    auto book = taken(book::Book::open(place_in(folder)));
    for (int i = 0; i < 40; ++i)
      taken(
          book.act(adding("saw" + std::to_string(i), R"({"name":"Alder","note":")" + std::string(3000, 'a') + "\"}")));
  }
  const std::string file = bytes_of(place_in(folder).path);
  ASSERT_EQ(file[20], 8);
  ASSERT_GT(file.size(), 50u * 4096);
  ASSERT_EQ(file.size() % 4096, 0u);
  for (std::size_t page = 0; page < file.size() / 4096; ++page) {
    std::uint64_t kept = 0;
    for (std::size_t i = 8; i-- > 0;) kept = kept << 8U | static_cast<unsigned char>(file[page * 4096 + 4088 + i]);
    EXPECT_EQ(kept, book::page_sum(page + 1, std::string_view(file).substr(page * 4096, 4088))) << page;
  }
}

TEST(page_sums, hold_while_a_book_grows_shrinks_and_grows_again) {
  const Folder folder;
  auto place = place_in(folder);
  place.backs_up = false;
  std::string hash;
  for (int round = 0; round < 4; ++round) {
    auto book = taken(book::Book::open(place));
    for (int i = 0; i < 12; ++i) {
      const std::string id = "saw" + std::to_string(i);
      if (round == 0) taken(book.act(adding(id, "{}")));
      const std::size_t size = (round + i) % 2 == 0 ? 200000u : 10u;
      const std::string text(size, static_cast<char>('a' + round));
      book::Deed deed = setting(id, "note", "\"" + text + "\"", taken(book.sequence()));
      EXPECT_LE(taken(book.act(deed)).label.size(), 1000u) << "a label is cut";
      if (i % 3 == 0) taken(book.undo());
    }
    EXPECT_EQ(taken(book.back_up()).documents, 12);
    hash = taken(book.hash());
  }
  auto book = taken(book::Book::open(place));
  EXPECT_EQ(taken(book.hash()), hash);
  EXPECT_THAT(taken(book.verify()).faults, testing::IsEmpty());
}

}  // namespace
}  // namespace book_test
