#pragma once
// Saws at random, with texts as hands and spoilt files have them; and the sample saws.

#include <gtest/gtest.h>

#include <cstdint>
#include <filesystem>
#include <random>
#include <string>
#include <vector>

#include "saw/fields.hpp"
#include "saw/file.hpp"

namespace random_saws {

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
inline std::string Draw::text() {
  static const std::vector<std::string> parts = {
      "50.0 mm", "47 thou",  "103 deg +- 0.5",   "\"",   "\\",   "\n",     "\t", "#", "[x]",
      "'",       "\xC3\xA9", "\xF0\x9F\x8C\xB2", "\x7F", "\x01", "\"\"\"", "= ", "{", "nan"};
  std::string out;
  const int count = 1 + below(3);
  for (int i = 0; i < count; ++i) out += of(parts);
  return out;
}

inline saw::Reading Draw::reading() {
  saw::Reading out;
  const int count = below(4);
  for (int i = 0; i < count; ++i) out.repeats.push_back(typed());
  if (maybe()) out.with = text();
  if (maybe()) out.setup = text();
  if (maybe()) out.note = text();
  return out;
}

inline bool is_nothing(const saw::Reading& reading) { return reading == saw::Reading{}; }

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

inline saw::Readings any_saw(std::uint32_t seed) {
  saw::Readings out;
  Draw draw(seed);
  Filler filler{draw};
  fields(out, filler);
  out.format = "portwright saw 1";
  out.name = draw.text();
  return out;
}

inline std::vector<saw::Readings> samples() {
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

}  // namespace random_saws
