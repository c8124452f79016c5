// Lines of JSON in and out.
#include <fstream>
#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "desk/batch.hpp"
#include "unit/desk/turning_samples.hpp"
#include "wire/batch.hpp"

namespace portwright::desk {
namespace {

using ::testing::HasSubstr;

const std::string oak = PORTWRIGHT_SOURCE_DIR "/data/samples/oak-110.saw.toml";

std::string lines() {
  return "{\"file\": \"" + oak + "\", \"rpm\": 7000, \"id\": \"first\"}\n" +              // 1
         "\n" +                                                                           // 2: blank, counts
         "{\"file\": \"nowhere.saw.toml\", \"rpm\": 7000}\n" +                            // 3
         "no JSON\n" +                                                                    // 4
         "{\"file\": \"" + oak + "\", \"rpm\": 7000, \"power\": 3}\n" +                   // 5
         "{\"file\": \"" + oak + "\", \"rpm\": 900}\n" +                                  // 6
         "{\"file\": \"" + oak + "\", \"cuts\": \"widen exhaust 1 mm\", \"rpm\": 7000}";  // 7: a sign is asked for
}

std::string read(const std::string& path) {
  std::ostringstream out;
  out << std::ifstream(path, std::ios::binary).rdbuf();
  return out.str();
}

std::vector<std::string> parted(const std::string& text) {
  std::vector<std::string> out;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) out.push_back(line);
  return out;
}

struct Lines {
  turning_samples::Folder folder;
  BatchRequest request;
  explicit Lines(const std::string& text = lines()) {
    request.input = folder.at("cases.jsonl");
    request.output = folder.at("answers.jsonl");
    std::ofstream(request.input) << text;
  }
};

TEST(batch, every_line_is_answered_in_its_place_or_says_why_not) {
  Lines here;
  const auto count = batch(here.request);
  ASSERT_TRUE(count) << count.error().message;
  EXPECT_EQ(count->lines, 6);
  EXPECT_EQ(count->failed, 5);
  const auto out = parted(read(here.request.output));
  ASSERT_EQ(out.size(), 6u);
  const int numbers[] = {1, 3, 4, 5, 6, 7};
  for (std::size_t i = 0; i < out.size(); ++i) EXPECT_EQ(wire::batch_line_number(out[i]), numbers[i]);
  EXPECT_THAT(out[0], HasSubstr("\"id\":\"first\""));
  EXPECT_THAT(out[0], HasSubstr("\"label\":\"stable\""));
  EXPECT_THAT(out[1], HasSubstr("not_found"));
  EXPECT_THAT(out[2], HasSubstr("not JSON"));
  EXPECT_THAT(out[3], HasSubstr("power"));
  EXPECT_THAT(out[4], HasSubstr("1,000"));
  EXPECT_THAT(out[5], HasSubstr("widen exhaust"));

  // Torn in the writing of line 6, and gone on from: the same to the last byte.
  const std::string whole = read(here.request.output);
  std::ofstream(here.request.output, std::ios::binary) << whole.substr(0, whole.size() - out[5].size() - 20);
  EXPECT_FALSE(batch(here.request)) << "what is there is not written over";
  here.request.go_on = true;
  const auto again = batch(here.request);
  ASSERT_TRUE(again) << again.error().message;
  EXPECT_EQ(again->before, 4);
  EXPECT_EQ(read(here.request.output), whole);
  EXPECT_EQ(batch(here.request)->before, 6);
  EXPECT_EQ(read(here.request.output), whole);
}

TEST(batch, parts_make_the_whole) {
  Lines here("{\"file\":\"a\",\"rpm\":9000}\n{\"file\":\"b\",\"rpm\":9000}\n{\"file\":\"c\",\"rpm\":9000}\n");
  std::vector<std::string> files;
  here.request.of = 2;
  for (int part = 1; part <= 2; ++part) {
    here.request.part = part;
    here.request.output = here.folder.at("answers." + std::to_string(part));
    EXPECT_EQ(batch(here.request)->lines, part == 1 ? 2 : 1);
    for (const std::string& line : parted(read(here.request.output))) files.push_back(line);
  }
  ASSERT_EQ(files.size(), 3u);
  EXPECT_EQ(wire::batch_line_number(files[1]), 3);
  EXPECT_EQ(wire::batch_line_number(files[2]), 2);
}

TEST(batch, an_output_of_other_lines_is_left_alone) {
  Lines here("{\"file\":\"a\",\"rpm\":9000}\n");
  here.request.go_on = true;
  for (const char* text :
       {"# a saw file\n", "{\"line\":2,\"id\":\"\",\"file\":\"\",\"cuts\":\"\",\"rpm\":1.0}\n", "torn"}) {
    std::ofstream(here.request.output, std::ios::binary) << text;
    const auto answer = batch(here.request);
    ASSERT_FALSE(answer) << text;
    EXPECT_THAT(answer.error().message, HasSubstr("other lines")) << text;
    EXPECT_EQ(read(here.request.output), text);
  }
}

TEST(batch, stopped_it_keeps_whole_lines_and_no_part_that_is_none) {
  Lines here;
  const auto count = batch(here.request, [](int, int) { return true; });
  ASSERT_TRUE(count);
  EXPECT_TRUE(count->stopped);
  EXPECT_EQ(read(here.request.output), "");
  here.request.part = 3;
  here.request.of = 2;
  EXPECT_FALSE(batch(here.request));
  here.request.part = here.request.of = 1;
  here.request.input = here.folder.at("nothing.jsonl");
  EXPECT_FALSE(batch(here.request));
}

}  // namespace
}  // namespace portwright::desk
