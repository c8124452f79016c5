// Laws of a set of readings as a tree of the book.
#include "desk/book/saw_tree.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cstdint>

#include "book/tree.hpp"
#include "desk/book/field_path.hpp"
#include "property/random_saws.hpp"

namespace {

using namespace portwright;
using random_saws::any_saw;

// Through the canonical text, as the book keeps it.
book::Tree kept(const book::Tree& tree) {
  auto back = book::parse_tree(book::print(tree));
  EXPECT_TRUE(back.has_value()) << (back ? "" : back.error().message);
  return back ? *back : book::Tree{};
}

RC_GTEST_PROP(saw_tree, a_tree_gives_the_same_saw_back_with_every_text_as_typed, (std::uint32_t seed)) {
  const saw::Readings readings = any_saw(seed);
  const saw::Readings back = desk::readings_of(kept(desk::tree_of(readings)));
  RC_ASSERT(back == readings);
  RC_ASSERT(saw::write_saw(back) == saw::write_saw(readings));
}

RC_GTEST_PROP(saw_tree, a_tree_is_read_as_the_file_would_be, (std::uint32_t seed)) {
  const saw::Readings readings = any_saw(seed);
  const auto file = saw::read_saw(saw::write_saw(readings));
  const auto tree = desk::read_tree(kept(desk::tree_of(readings)));
  RC_ASSERT(file.has_value() && tree.has_value());
  RC_ASSERT(tree->readings == file->readings);
  RC_ASSERT(tree->errors == file->errors);
}

RC_GTEST_PROP(saw_tree, the_same_saw_gives_the_same_bytes, (std::uint32_t seed)) {
  const saw::Readings readings = any_saw(seed);
  const std::string once = book::print(desk::tree_of(readings));
  RC_ASSERT(once == book::print(desk::tree_of(desk::readings_of(desk::tree_of(readings)))));
}

TEST(saw_tree, every_sample_comes_back) {
  const auto all = random_saws::samples();
  ASSERT_GE(all.size(), 8u);
  for (const saw::Readings& readings : all)
    EXPECT_EQ(desk::readings_of(kept(desk::tree_of(readings))), readings) << readings.name;
}

TEST(saw_tree, every_field_that_is_shown_is_found_where_it_is_kept) {
  for (const saw::Readings& readings : random_saws::samples()) {
    const book::Tree tree = desk::tree_of(readings);
    for (const wire::BookField& field : desk::fields_of(tree)) {
      const auto place = desk::find_field(tree, field.path);
      ASSERT_TRUE(place) << field.path << ": " << place.error().message;
      EXPECT_TRUE(place->beside.empty()) << field.path;
      EXPECT_NE(book::find(tree, place->path), nullptr) << field.path << " at " << place->path;
      EXPECT_EQ(desk::shown_path(tree, place->path), field.path);
    }
  }
}

}  // namespace
