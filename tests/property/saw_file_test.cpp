#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cstdint>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>

#include "saw/fields.hpp"
#include "saw/file.hpp"
#include "saw/walk.hpp"

// Laws of the saw file over random readings.
namespace {

using namespace portwright;

// One seed a case: a saw has some three hundred draws.
class Draw {
 public:
  explicit Draw(std::uint32_t seed) : random_(seed) {}
  int below(int end) { return static_cast<int>(random_() % static_cast<std::uint32_t>(end)); }
  bool maybe() { return below(3) == 0; }
  template <class T>
  T of(const std::vector<T>& all) {
    return all[random_() % all.size()];
  }
  std::string text();
  saw::Typed typed() { return {text(), std::nullopt}; }
  saw::Reading reading();

 private:
  std::mt19937 random_;
};

// Texts as hands and spoilt files have them: readable, unreadable, with quotes, newlines, letters from elsewhere.
std::string Draw::text() {
  static const std::vector<std::string> parts = {
      "50.0 mm", "47 thou",  "103 deg +- 0.5",   "\"",   "\\",   "\n",     "\t", "#", "[x]",
      "'",       "\xC3\xA9", "\xF0\x9F\x8C\xB2", "\x7F", "\x01", "\"\"\"", "= ", "{", "nan"};
  std::string out;
  const int count = 1 + below(3);
  for (int i = 0; i < count; ++i) out += of(parts);
  return out;
}

saw::Reading Draw::reading() {
  saw::Reading out;
  const int count = below(4);
  for (int i = 0; i < count; ++i) out.repeats.push_back(typed());
  if (maybe()) out.with = text();
  if (maybe()) out.setup = text();
  if (maybe()) out.note = text();
  return out;
}

bool is_nothing(const saw::Reading& reading) { return reading == saw::Reading{}; }

// Fills a saw at random, one field in three.
struct Filler {
  Draw& draw;

  void reading(const char*, saw::Reading& to, base::Dimension) {
    if (draw.maybe()) to = draw.reading();
  }
  void turn(const char*, saw::Reading& to) {
    if (draw.maybe()) to = draw.reading();
  }
  void places(const char*, saw::Places& to, base::Dimension) {
    if (!draw.maybe()) return;
    const saw::Reading one = draw.reading();
    if (draw.maybe() && !is_nothing(one)) {
      to.places = {{"", one}};
      return;
    }
    for (const char* place : {"exhaust", "front left", "z \"odd\"\n", "a"})
      if (const saw::Reading reading = draw.reading(); draw.maybe() && !is_nothing(reading))
        to.places.emplace_back(place, reading);
  }
  void several(const char*, saw::Several& to, base::Dimension) {
    while (draw.maybe()) to.items.push_back(draw.typed());
  }
  void pairs(const char*, saw::Pairs& to, base::Dimension, base::Dimension) {
    while (draw.maybe()) to.rows.emplace_back(draw.typed(), draw.typed());
  }
  void number(const char*, saw::Number& to) {
    if (draw.maybe()) to = draw.of(std::vector<double>{0, 4, -1, 12.8, 1e-300, 1e300, 0.1, 9007199254740993.0, 1e18});
    if (!to && draw.maybe()) to.text = "seven" + draw.text();
  }
  void flag(const char*, saw::Flag& to) {
    if (draw.maybe()) to = draw.maybe();
    if (!to && draw.maybe()) to.text = draw.text();
  }
  void words(const char*, std::string& to) {
    if (draw.maybe()) to = draw.text();
  }
  void word(const char*, std::string& to, saw::Words allowed) {
    if (draw.maybe()) to = draw.of(std::vector<std::string>(allowed.begin(), allowed.end()));
  }
  void octane(const char*, saw::Octane& to) {
    if (draw.maybe()) to.text = draw.text();
  }
  void power_at(const char*, saw::PowerAt& to) {
    if (draw.maybe()) to.text = draw.text();
  }
  template <class T>
  void table(const char*, T& to) {
    if (draw.maybe()) fields(to, *this);
  }
  template <class T>
  void tables(const char*, std::vector<T>& to) {
    while (draw.maybe()) fields(to.emplace_back(), *this);
  }
  void tables(const char*, std::vector<saw::Port>& to) {
    while (draw.maybe()) {
      fields(to.emplace_back(), *this);
      to.back().name = "p" + std::to_string(to.size());
      to.back().kind = draw.of(std::vector<std::string>{"exhaust", "transfer", "boost", "intake", "air"});
    }
  }
};

saw::Readings any_saw(std::uint32_t seed) {
  saw::Readings out;
  Draw draw(seed);
  Filler filler{draw};
  fields(out, filler);
  out.format = "portwright saw 1";
  out.name = draw.text();
  return out;
}

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

std::vector<saw::Readings> samples() {
  std::vector<saw::Readings> out;
  for (const auto& entry : std::filesystem::directory_iterator(std::string(PORTWRIGHT_SOURCE_DIR) + "/data/samples")) {
    auto read = saw::read_saw_file(entry.path().string());
    EXPECT_TRUE(read.has_value()) << entry.path();
    if (!read) continue;
    for (const base::Error& error : read->errors)
      ADD_FAILURE() << entry.path() << ": " << error.path << " " << error.message;
    out.push_back(read->readings);
  }
  return out;
}

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
