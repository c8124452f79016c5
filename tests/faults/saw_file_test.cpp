#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <chrono>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>

#include "saw/file.hpp"

// Spoilt files: said in words, never a crash, never a hang.
namespace {

using namespace portwright;
using testing::HasSubstr;
namespace fs = std::filesystem;

class spoilt_saw_file : public testing::Test {
 protected:
  spoilt_saw_file() : folder_(fs::path(testing::TempDir()) / ("saw_file_" + std::to_string(std::random_device{}()))) {
    fs::create_directories(folder_);
  }
  ~spoilt_saw_file() override { fs::remove_all(folder_); }

  std::string file(const std::string& bytes) const {
    const fs::path path = folder_ / "one.saw.toml";
    std::ofstream(path, std::ios::binary) << bytes;
    return path.string();
  }
  static base::Error refused(const std::string& path) {
    const auto read = saw::read_saw_file(path);
    EXPECT_FALSE(read.has_value()) << path;
    return read ? base::Error{} : read.error().at(0);
  }

  fs::path folder_;
};

std::string sample(const std::string& name) {
  std::ifstream in(std::string(PORTWRIGHT_SOURCE_DIR) + "/data/samples/" + name, std::ios::binary);
  std::string text{std::istreambuf_iterator<char>(in), {}};
  EXPECT_GT(text.size(), 500u) << name;
  return text;
}

TEST_F(spoilt_saw_file, that_is_not_there_or_is_a_folder) {
  EXPECT_EQ(refused((folder_ / "none.saw.toml").string()).code, base::ErrorCode::not_found);
  EXPECT_EQ(refused(folder_.string()).code, base::ErrorCode::not_a_saw_file);
}

TEST_F(spoilt_saw_file, that_is_too_long_or_never_ends) {
  EXPECT_EQ(refused(file("name = \"a\"\n" + std::string(80 * 1024, '#'))).code, base::ErrorCode::not_a_saw_file);
  EXPECT_EQ(refused("/dev/zero").code, base::ErrorCode::not_a_saw_file);
  EXPECT_EQ(refused("/dev/null").path, "name");
}

TEST_F(spoilt_saw_file, that_is_as_long_as_allowed_is_read) {
  std::string text = "name = \"a\"\n#";
  text.resize(64 * 1024, 'x');
  EXPECT_TRUE(saw::read_saw_file(file(text)).has_value());
  EXPECT_FALSE(saw::read_saw_file(file(text + "x")).has_value());
}

TEST_F(spoilt_saw_file, that_is_not_utf8_names_the_line) {
  for (const char* bytes : {"\xFF", "\xC3", "\xC0\xAF", "\xED\xA0\x80", "\xF5\x80\x80\x80", "\xE2\x82", "\x80"})
    EXPECT_THAT(refused(file("name = \"a\"\n# " + std::string(bytes) + "\n")).message, HasSubstr("line 2")) << bytes;
  EXPECT_THAT(refused(file(std::string("name = \"a\"\n\0\n", 12))).message, HasSubstr("line 2"));
}

std::string many(const std::string& part, int count) {
  std::string out;
  for (int i = 0; i < count; ++i) out += part;
  return out;
}

TEST_F(spoilt_saw_file, that_nests_deep_in_any_way) {
  for (const int depth : {9, 100, 10000}) {
    EXPECT_THAT(refused(file(many("a.", depth) + "a = 1")).message, HasSubstr("deeper")) << depth;
    EXPECT_THAT(refused(file("[" + many("a.", depth) + "a]")).message, HasSubstr("deeper")) << depth;
    EXPECT_THAT(refused(file(many("\"a\" . ", depth) + "a = 1")).message, HasSubstr("deeper")) << depth;
    EXPECT_THAT(refused(file("a = " + many("[", depth) + many("]", depth))).message, HasSubstr("deeper")) << depth;
    EXPECT_THAT(refused(file("a = " + many("{a = ", depth) + "1" + many("}", depth))).message, HasSubstr("deeper"))
        << depth;
  }
  EXPECT_THAT(refused(file("[a.b.c.d.e]\nf.g.h.i.j = 1")).message, HasSubstr("deeper"));
}

TEST_F(spoilt_saw_file, with_letters_outside_quotes_that_toml_does_not_know_names_the_line) {
  EXPECT_THAT(refused(file("name = \"a\"\nmodel = \xE2\x80\x9C"
                           "b\xE2\x80\x9D\n"))
                  .message,
              HasSubstr("line 2 has \"\xE2\x80\x9C\""));
  EXPECT_THAT(refused(file("\xEF\xBA\xBF"
                           "a.a = 1"))
                  .message,
              HasSubstr("line 1"));  // once reached what the parser holds unreachable
  EXPECT_TRUE(saw::read_saw("\xEF\xBB\xBFname = \"\xC3\xA9\" # \xC3\xA9\nmodel = '\xC3\xA9'").has_value());
}

TEST_F(spoilt_saw_file, brackets_and_dots_inside_texts_do_not_count) {
  const auto read =
      saw::read_saw("name = \"" + many("[", 50) + "\"\nmodel = '" + many(".", 50) + "'\nstate = \"\"\"\n" +
                    many("{\n", 30) + "\\\" \"\" \"\"\"\n# " + many("[.", 50) + "\n");
  ASSERT_TRUE(read.has_value()) << read.error()[0].message;
  EXPECT_EQ(read->readings.name, many("[", 50));
}

TEST_F(spoilt_saw_file, with_thousands_of_unknown_keys_is_refused_in_good_time) {
  std::string text = "name = \"a\"\n";
  for (int i = 0; text.size() < 63 * 1024; ++i) text += "k" + std::to_string(i) + "=1\n";
  const auto start = std::chrono::steady_clock::now();
  EXPECT_EQ(refused(file(text)).code, base::ErrorCode::unknown_key);
  EXPECT_LT(std::chrono::steady_clock::now() - start, std::chrono::seconds(20));
}

TEST_F(spoilt_saw_file, cut_off_at_any_byte_is_read_or_refused_in_words) {
  for (const char* name : {"larch-70.saw.toml", "birch-50.saw.toml"}) {
    const std::string text = sample(name);
    for (std::size_t size = 0; size < text.size(); ++size) {
      const auto read = saw::read_saw(std::string_view(text).substr(0, size));
      if (read) continue;
      ASSERT_FALSE(read.error().empty()) << name << " " << size;
      EXPECT_FALSE(read.error()[0].message.empty()) << name << " " << size;
    }
  }
}

TEST_F(spoilt_saw_file, with_flipped_bits_is_read_or_refused_and_what_is_read_can_be_written) {
  std::mt19937 random(20);  // any seed; fixed so that a failure can be repeated
  int taken = 0;
  for (const char* name : {"larch-70.saw.toml", "oak-110.saw.toml"}) {
    const std::string whole = sample(name);
    for (int turn = 0; turn < 500; ++turn) {
      std::string text = whole;
      const int flips = 1 + static_cast<int>(random() % 3);
      for (int i = 0; i < flips; ++i) text[random() % text.size()] ^= static_cast<char>(1 << (random() % 8));
      const auto read = saw::read_saw(text);
      if (!read) {
        ASSERT_FALSE(read.error().empty());
        continue;
      }
      ++taken;
      const auto again = saw::read_saw(saw::write_saw(read->readings));
      ASSERT_TRUE(again.has_value());
      EXPECT_EQ(again->readings, read->readings);
    }
  }
  EXPECT_GT(taken, 50);
}

}  // namespace
