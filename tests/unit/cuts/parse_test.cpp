#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "base/file.hpp"
#include "cuts/cut.hpp"
#include "cuts/grammar.hpp"

namespace portwright::cuts {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

Cut one(std::string_view text) {
  const auto read = parse_cuts(text);
  EXPECT_TRUE(read) << text << ": " << (read ? "" : read.error().front().message);
  if (!read || read->size() != 1) return {};
  return read->front();
}

base::Error refused(std::string_view text) {
  const auto read = parse_cuts(text);
  EXPECT_FALSE(read) << text << " was taken as " << (read ? cuts_text(*read) : "");
  return read ? base::Error{} : read.error().front();
}

TEST(parse_cuts, reads_a_list_of_cuts) {
  const auto cuts = parse_cuts("base -0.5 mm; roof exhaust +0.5 mm; widen exhaust +1 mm left");
  ASSERT_TRUE(cuts);
  ASSERT_THAT(*cuts, SizeIs(3));
  EXPECT_EQ((*cuts)[0].act, Act::base);
  EXPECT_DOUBLE_EQ((*cuts)[0].amount, -0.0005);
  EXPECT_EQ((*cuts)[0].text, "base -0.5 mm");
  EXPECT_EQ((*cuts)[1].port, "exhaust");
  EXPECT_EQ((*cuts)[2].side, "left");
}

TEST(parse_cuts, reads_every_form_and_writes_it_as_it_was) {
  for (const Form& form : forms()) {
    const Cut cut = one(form.example);
    EXPECT_EQ(cut.act, form.act) << form.example;
    EXPECT_EQ(cut_text(cut), form.example);
  }
}

TEST(parse_cuts, has_every_form_in_its_document) {
  const auto document = base::read_file(PORTWRIGHT_SOURCE_DIR "/docs/cuts.md", 1 << 20);
  ASSERT_TRUE(document);
  for (const Form& form : forms()) EXPECT_THAT(*document, HasSubstr("\"" + std::string(form.word) + "\""));
}

TEST(parse_cuts, takes_an_empty_list_as_no_cut) {
  for (const char* text : {"", "  ", ";", " ; ;\n; "}) {
    const auto cuts = parse_cuts(text);
    ASSERT_TRUE(cuts) << text;
    EXPECT_THAT(*cuts, IsEmpty());
  }
}

TEST(parse_cuts, takes_commas_minus_signs_blanks_and_capitals_as_hands_type_them) {
  const Cut plain = one("roof exhaust +0.5 mm");
  for (const char* text : {"roof exhaust +0,5 mm", "  roof   exhaust  + 0.5mm ; ", "Roof Exhaust +0.5 MM",
                           "roof\texhaust\u00a0+0.5\u202fmm", "roof exhaust +500 um", "roof exhaust +1/2 mm"}) {
    EXPECT_EQ(one(text), plain) << text;
  }
  for (const char* text : {"base \u22120.5 mm", "base \u20130.5 mm", "base - 0.5 mm", "base \u2212 0,5 mm"}) {
    EXPECT_EQ(one(text), one("base -0.5 mm")) << text;
  }
}

TEST(parse_cuts, takes_inch_marks_and_files_in_quotes_apart) {
  EXPECT_DOUBLE_EQ(one("base -1/32 \"").amount, -0.0254 / 32);
  const auto two = parse_cuts("base -1/32 \"; roof exhaust +1/32 \"");
  ASSERT_TRUE(two);
  EXPECT_THAT(*two, SizeIs(2));
  EXPECT_EQ(one("piston to \"my saw; 2.saw.toml\"").file, "my saw; 2.saw.toml");
  EXPECT_EQ(one("piston to my saw.toml").file, "my saw.toml");
  EXPECT_EQ(one("outline exhaust to \u201crubbing 1.txt\u201d").file, "rubbing 1.txt");
}

TEST(parse_cuts, reads_several_outlets) {
  const Cut cut = one("outlets to 1.4 cm2, 80 mm2 and 1 1/2 cm2");
  EXPECT_THAT(cut.amounts, ElementsAre(testing::DoubleEq(1.4e-4), testing::DoubleEq(8e-5), testing::DoubleEq(1.5e-4)));
}

TEST(parse_cuts, asks_for_a_unit_that_was_left_out) {
  const base::Error error = refused("base -0.5");
  EXPECT_THAT(error.message, HasSubstr("\"base -0.5\""));
  EXPECT_THAT(error.message, HasSubstr("no unit"));
  EXPECT_EQ(error.path, "cuts.1");
  EXPECT_THAT(error.readings, ElementsAre("base -0.5 mm", "base -0.5 in", "base -0.5 thou"));
  EXPECT_THAT(refused("widen exhaust +1 left").readings, Contains("widen exhaust +1 mm left"));
  EXPECT_THAT(refused("crown edge -1 mm wide 6").readings, Contains("crown edge -1 mm wide 6 mm"));
  EXPECT_THAT(refused("crown edge -1 wide 6 mm").readings, Contains("crown edge -1 mm wide 6 mm"));
  EXPECT_THAT(refused("outlets to 1.4 0.8 cm2").readings, IsEmpty());
  EXPECT_THAT(refused("outlets to 0.8 cm2 1.4").readings, Contains("outlets to 0.8 cm2 1.4 cm2"));
  EXPECT_THAT(refused("advance +4").readings, ElementsAre("advance +4 deg"));
}

TEST(parse_cuts, asks_which_way_when_the_sign_was_left_out) {
  EXPECT_THAT(refused("base 0.5 mm").readings, ElementsAre("base -0.5 mm", "base +0.5 mm"));
  EXPECT_THAT(refused("roof exhaust 1").readings, Contains("roof exhaust +1 mm"));
  EXPECT_EQ(one("base 0 mm").amount, 0.0);
  EXPECT_DOUBLE_EQ(one("weld exhaust floor 1 mm").amount, 0.001);
  EXPECT_DOUBLE_EQ(one("stuff -5 cc").amount, -5e-6);
}

TEST(parse_cuts, asks_for_the_method_of_an_octane_number) {
  EXPECT_THAT(refused("octane to 95").readings, Contains("octane to \"95 research\""));
  EXPECT_EQ(one("octane to 95 Research").part, "research");
}

TEST(parse_cuts, refuses_a_unit_of_another_kind) {
  EXPECT_EQ(refused("base -3 deg").code, base::ErrorCode::wrong_unit);
  EXPECT_EQ(refused("case +5 mm").code, base::ErrorCode::wrong_unit);
  EXPECT_EQ(refused("mouth primary to 2 mm").code, base::ErrorCode::wrong_unit);
}

TEST(parse_cuts, names_the_nearest_cut) {
  EXPECT_THAT(refused("rof exhaust +1 mm").hint, HasSubstr("roof"));
  EXPECT_THAT(refused("gaskets out").hint, HasSubstr("gasket"));
  EXPECT_THAT(refused("polish exhaust +1 mm").hint, HasSubstr("or sleeve"));
  EXPECT_THAT(refused("crown -1 mm").message, HasSubstr("crown edge -1 mm wide 6 mm"));
}

TEST(parse_cuts, tells_all_that_is_wrong_at_once) {
  const auto read =
      parse_cuts("base 0.5 mm; roof exhaust +0.5 mm; rof exhaust +1 mm; crown edge -1 wide 6; corner exhaust to 5");
  ASSERT_FALSE(read);
  std::vector<std::string> paths;
  for (const auto& error : read.error()) paths.push_back(error.path);
  EXPECT_THAT(paths, ElementsAre("cuts.1", "cuts.3", "cuts.4", "cuts.4", "cuts.5", "cuts.5"));
}

TEST(parse_cuts, refuses_what_no_cut_is) {
  for (const char* text : {"base",
                           "base mm",
                           "roof +0.5 mm",
                           "skirt -1 mm",
                           "corner exhaust roof 5 mm",
                           "gasket",
                           "gasket out now",
                           "piston",
                           "piston to",
                           "petal to 0 mm",
                           "venturi to -3 mm",
                           "base -80 mm",
                           "base -0.5 mm +- 0.1",
                           "outlets to",
                           "crown edge -1 mm",
                           "crown edge -1 mm wide 0 mm",
                           "outline exhaust to \"a",
                           "octane to fast",
                           "advance +90 deg",
                           "piston to \"a\" b",
                           "mouth to 2 cm2"}) {
    EXPECT_THAT(refused(text).message, HasSubstr("\"")) << text;
  }
  EXPECT_THAT(refused("base -1 mm \x01").message, HasSubstr("control"));
  EXPECT_THAT(refused("base \xff -1 mm").message, HasSubstr("UTF-8"));
}

TEST(parse_cuts, caps_the_length_and_the_number_of_cuts) {
  EXPECT_THAT(refused(std::string(64 * 1024 + 1, ' ')).message, HasSubstr("64 KiB"));
  EXPECT_TRUE(parse_cuts(std::string(64 * 1024, ' ')));
  std::string many;
  for (int i = 0; i < 200; ++i) many += "base -0.1 mm;";
  EXPECT_TRUE(parse_cuts(many));
  EXPECT_THAT(refused(many + "base -0.1 mm").message, HasSubstr("200"));
}

TEST(cut_text, gives_the_same_list_back) {
  const char* text =
      "base -20 thou; crown edge -1/64 in wide 0.25 in; corner exhaust roof to 1/4 in; outlets to 0.2 in2 1 cm2; "
      "octane to \"91.5 pump\"; piston to \"a b.toml\"; advance -0.05 rad; weld intake roof -7 thou; case +0.3 in3";
  const auto cuts = parse_cuts(text);
  ASSERT_TRUE(cuts);
  const auto again = parse_cuts(cuts_text(*cuts));
  ASSERT_TRUE(again);
  EXPECT_EQ(*again, *cuts);
  EXPECT_THAT(
      cuts_text(*cuts),
      testing::StartsWith("base -0.508 mm; crown edge -0.396875 mm wide 6.35 mm; corner exhaust roof to 6.35 mm"));
}

TEST(inverse, undoes_a_change_and_no_size) {
  EXPECT_EQ(cut_text(*inverse(one("base -0.5 mm"))), "base +0.5 mm");
  EXPECT_EQ(cut_text(*inverse(one("stuff 5 cc"))), "stuff -5 cc");
  for (const char* text :
       {"gasket out", "corner exhaust roof to 5 mm", "outline exhaust to a.txt", "piston to a.toml", "sleeve to 46 mm"})
    EXPECT_FALSE(inverse(one(text))) << text;
}

}  // namespace
}  // namespace portwright::cuts
