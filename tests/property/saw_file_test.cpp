#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cstdint>
#include <string_view>

#include "property/random_saws.hpp"
#include "saw/fields.hpp"
#include "saw/file.hpp"

// Laws of the saw file over random readings.
namespace {

using namespace portwright;
using random_saws::any_saw;
using random_saws::Draw;
using random_saws::samples;

RC_GTEST_PROP(saw_file, what_is_written_reads_back_equal, (std::uint32_t seed)) {
  const saw::Readings readings = any_saw(seed);
  const std::string text = saw::write_saw(readings);
  const auto read = saw::read_saw(text);
  RC_LOG() << text;
  RC_ASSERT(read.has_value());
  RC_ASSERT(read->readings == readings);
  RC_ASSERT(saw::write_saw(read->readings) == text);
}

// Empties fields at random; name, format, and a port's name and kind stay.
struct Eraser {
  Draw& draw;
  bool in_port = false;

  template <class T>
  void drop(T& to) {
    if (draw.below(2) == 0) to = T{};
  }
  void reading(const char*, saw::Reading& to, base::Dimension) { drop(to); }
  void turn(const char*, saw::Reading& to) { drop(to); }
  void places(const char*, saw::Places& to, base::Dimension) { drop(to); }
  void several(const char*, saw::Several& to, base::Dimension) { drop(to); }
  void pairs(const char*, saw::Pairs& to, base::Dimension, base::Dimension) { drop(to); }
  void number(const char*, saw::Number& to) { drop(to); }
  void flag(const char*, saw::Flag& to) { drop(to); }
  void words(const char* key, std::string& to) {
    if (std::string_view(key) != "name") drop(to);
  }
  void word(const char* key, std::string& to, saw::Words) {
    if (!in_port || std::string_view(key) != "kind") drop(to);
  }
  void octane(const char*, saw::Octane& to) { drop(to); }
  void power_at(const char*, saw::PowerAt& to) { drop(to); }
  template <class T>
  void table(const char*, T& to) {
    Eraser inner{draw};
    fields(to, inner);
  }
  template <class T>
  void tables(const char*, std::vector<T>& to) {
    Eraser inner{draw};
    inner.in_port = std::is_same_v<T, saw::Port>;
    for (T& item : to) fields(item, inner);
  }
};

TEST(saw_file, every_sample_reads_without_an_error_and_reads_back_equal) {
  const auto all = samples();
  EXPECT_GE(all.size(), 8u);
  for (const saw::Readings& readings : all) {
    const auto read = saw::read_saw(saw::write_saw(readings));
    ASSERT_TRUE(read.has_value()) << readings.name;
    EXPECT_EQ(read->readings, readings) << readings.name;
  }
}

RC_GTEST_PROP(saw_file, any_fields_but_the_names_may_be_missing, (std::uint32_t seed)) {
  static const std::vector<saw::Readings> all = samples();
  saw::Readings readings;
  Draw draw(seed);
  readings = draw.of(all);
  Eraser eraser{draw};
  fields(readings, eraser);
  const auto read = saw::read_saw(saw::write_saw(readings));
  RC_ASSERT(read.has_value());
  RC_ASSERT(read->errors.empty());
  readings.format = "portwright saw 1";
  RC_ASSERT(read->readings == readings);
}

}  // namespace
