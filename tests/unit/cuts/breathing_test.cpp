// Cuts and swapped parts on what a simulation needs beside the geometry.
#include <filesystem>
#include <fstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "unit/cuts/bench_saw.hpp"
#include "unit/support/allocations.hpp"

namespace portwright::cuts {
namespace {

using bench::Bench;
using bench::degree;
using geometry::Breathing;
using geometry::Engine;
using geometry::OctaneScale;
using testing::Contains;
using testing::Field;
using testing::HasSubstr;

constexpr double mm = 1e-3, cc = 1e-6, cm2 = 1e-4;

/// The bench saw with a reed, two boxes, a curve and a pipe.
std::string reed_saw() {
  std::string text = bench::with("kind = \"skirt\"",
                                 "kind = \"reed into case\"\n[intake.reed]\npetals = 4\nlength = \"30 mm\"\n"
                                 "width = \"20 mm\"\nthickness = \"0.40 mm\"\nmaterial = \"glass epoxy\"\n"
                                 "stop = \"8 mm\"");
  text = bench::with("venturi = \"20 mm\"", "venturi = \"20 mm\"\nthrottle = \"22 mm\"", text);
  text = bench::with("outlets = [\"1.4 cm2\"]",
                     "boxes = [\"350 cc\", \"100 cc\"]\nbaffles = [\"3 cm2\"]\noutlets = [\"1.4 cm2\"]\nscreen = true",
                     text);
  return bench::with("advance = \"26 deg\"", "curve = [[\"800 rpm\",\"8 deg\"], [\"9000 rpm\",\"26 deg\"]]", text);
}

struct Folder {
  Folder() {
    std::string name = (std::filesystem::temp_directory_path() / "cuts_breathing_XXXXXX").string();
    if (mkdtemp(name.data()) == nullptr) throw std::runtime_error("no folder");
    path = name;
  }
  ~Folder() { std::filesystem::remove_all(path); }
  void put(const std::string& name, std::string_view text) const { std::ofstream(path + "/" + name) << text; }
  std::string path;
};

base::Errors refused(const Bench& b, const char* text, const Folder& folder) {
  const auto prepared = prepare(*parse_cuts(text), b.survey, folder.path);
  return prepared ? base::Errors{} : prepared.error();
}

TEST(breathing_cuts, a_petal_is_as_thick_as_the_cut_says_and_nothing_else_of_the_reed_moves) {
  const Bench b(reed_saw());
  const Engine e = b.after("petal to 0.35 mm");
  EXPECT_NEAR(*b.stock.breathing.reed.thickness, 0.40 * mm, 1e-15);
  EXPECT_NEAR(*e.breathing.reed.thickness, 0.35 * mm, 1e-15);
  EXPECT_EQ(*e.breathing.reed.length, *b.stock.breathing.reed.length);
  EXPECT_EQ(*e.breathing.reed.modulus, *b.stock.breathing.reed.modulus);
}

TEST(breathing_cuts, a_petal_of_unknown_thickness_is_known_after_the_cut) {
  const Bench b(bench::with("thickness = \"0.40 mm\"\n", "", reed_saw()));
  EXPECT_FALSE(b.stock.breathing.reed.thickness);
  EXPECT_NEAR(*b.after("petal to 0.35 mm").breathing.reed.thickness, 0.35 * mm, 1e-15);
}

TEST(breathing_cuts, outlets_are_each_as_the_cut_says) {
  const Bench b(reed_saw());
  const Engine e = b.after("outlets to 1.4 cm2 0.8 cm2 0.5 cm2");
  ASSERT_EQ(b.stock.breathing.outlets.size(), 1U);
  ASSERT_EQ(e.breathing.outlets.size(), 3U);
  EXPECT_NEAR(*e.breathing.outlets[1], 0.8 * cm2, 1e-15);
  EXPECT_NEAR(*e.breathing.outlets[2], 0.5 * cm2, 1e-15);
  EXPECT_NEAR(*e.muffler_outlets, 2.7 * cm2, 1e-15);
  EXPECT_EQ(b.after("outlets to 1 cm2 1 cm2; outlets to 2 cm2").breathing.outlets.size(), 1U);
  const Bench bare(bench::with("outlets = [\"1.4 cm2\"]\n", ""));
  EXPECT_FALSE(bare.stock.breathing.outlets_known);
  EXPECT_TRUE(bare.after("outlets to 2 cm2").breathing.outlets_known);
}

TEST(breathing_cuts, octane_is_a_number_and_its_scale) {
  const Bench b(reed_saw());
  EXPECT_EQ(b.stock.breathing.octane_scale, OctaneScale::pump);
  for (const auto& [text, number, scale] : {std::tuple{"octane to \"95 research\"", 95.0, OctaneScale::research},
                                            {"octane to \"86 motor\"", 86.0, OctaneScale::motor},
                                            {"octane to \"93 pump\"", 93.0, OctaneScale::pump}}) {
    const Engine e = b.after(text);
    EXPECT_EQ(*e.octane, number);
    EXPECT_EQ(e.breathing.octane_scale, scale);
  }
}

TEST(breathing_cuts, an_advance_comes_on_top_of_a_curve_that_stays_as_read) {
  const Bench b(reed_saw());
  const Engine e = b.after("advance +4 deg; advance -1 deg");
  EXPECT_NEAR(*e.advance_added, 3 * degree, 1e-12);
  ASSERT_EQ(e.breathing.advance_curve.size(), 2U);
  EXPECT_NEAR(*e.breathing.advance_curve[1].advance, 26 * degree, 1e-12);
  EXPECT_FALSE(e.advance);  // there was none at one speed, and the cut makes none
}

TEST(breathing_cuts, a_cut_and_its_inverse_leave_it_as_it_was) {
  const Bench b(reed_saw());
  for (const char* text : {"case +5 cc", "stuff 4 cc", "advance +3 deg"}) {
    const Cut cut = parse_cuts(text)->front();
    const Engine there = b.after(text), back = b.after(std::string(text) + "; " + cut_text(*inverse(cut)));
    EXPECT_TRUE(*there.case_at_tdc != *b.stock.case_at_tdc || *there.advance_added != 0.0) << text;
    EXPECT_NEAR(*back.case_at_tdc, *b.stock.case_at_tdc, 1e-12) << text;
    EXPECT_NEAR(*back.advance_added, 0.0, 1e-12) << text;
  }
  for (const char* text : {"petal to 0.35 mm", "outlets to 2 cm2", "venturi to 21 mm", "octane to \"95 research\""})
    EXPECT_FALSE(inverse(parse_cuts(text)->front())) << text;
}

TEST(breathing_cuts, a_reed_from_another_file_comes_whole) {
  const Bench b(reed_saw());
  const Folder folder;
  folder.put("other.saw.toml",
             bench::with("\"glass epoxy\"", "\"carbon epoxy\"",
                         bench::with("petals = 4", "petals = 6", bench::with("0.40 mm", "0.30 mm", reed_saw()))));
  const geometry::ReedBlock reed = b.after("petal to 0.5 mm; reed to other.saw.toml", folder.path).breathing.reed;
  EXPECT_EQ(*reed.petals, 6.0);
  EXPECT_NEAR(*reed.thickness, 0.30 * mm, 1e-15);
  EXPECT_NEAR(*reed.modulus, 60e9, 1.0);
  EXPECT_NEAR(*reed.density, 1550.0, 1e-9);
  EXPECT_FALSE(reed.block_angle);  // neither file has it
  EXPECT_EQ(reed.block_angle.needs(), b.stock.breathing.reed.block_angle.needs());
}

TEST(breathing_cuts, a_part_that_lacks_a_reading_of_the_old_one_is_told_by_its_path) {
  const Bench b(reed_saw());
  const Folder folder;
  folder.put("reed.saw.toml", bench::with("stop = \"8 mm\"", "", reed_saw()));
  folder.put("carburettor.saw.toml", bench::with("throttle = \"22 mm\"", "", reed_saw()));
  folder.put("boxes.saw.toml", bench::with("boxes = [\"350 cc\", \"100 cc\"]", "", reed_saw()));
  folder.put("screen.saw.toml", bench::with("screen = true", "", reed_saw()));
  const auto told = [&](const char* text, const char* path) {
    EXPECT_THAT(refused(b, text, folder), Contains(Field(&base::Error::path, path))) << text;
  };
  told("reed to reed.saw.toml", "intake.reed.stop");
  told("carburettor to carburettor.saw.toml", "carburettor.throttle");
  told("muffler to boxes.saw.toml", "muffler.boxes");
  told("muffler to screen.saw.toml", "muffler.screen");
}

TEST(breathing_cuts, a_reed_from_a_saw_without_one_does_not_fit) {
  const Bench b(reed_saw());
  const Folder folder;
  folder.put("skirt.saw.toml", bench::saw_text);
  EXPECT_THAT(refused(b, "reed to skirt.saw.toml", folder),
              Contains(Field(&base::Error::message, HasSubstr("has no reed"))));
}

TEST(breathing_cuts, a_carburettor_brings_its_throttle) {
  const Bench b(reed_saw());
  const Folder folder;
  folder.put("other.saw.toml",
             bench::with("\"22 mm\"", "\"24 mm\"", bench::with("\"20 mm\"\nthr", "\"21.5 mm\"\nthr", reed_saw())));
  const Engine e = b.after("carburettor to other.saw.toml", folder.path);
  EXPECT_NEAR(*e.venturi, 21.5 * mm, 1e-15);
  EXPECT_NEAR(*e.breathing.throttle, 24 * mm, 1e-15);
}

TEST(breathing_cuts, a_muffler_brings_boxes_baffles_outlets_screen_and_pipe) {
  const Bench b(reed_saw());
  const Folder folder;
  folder.put(
      "other.saw.toml",
      bench::with("screen = true", "screen = false\n[pipe]\nprofile = [[\"0 mm\",\"30 mm\"], [\"150 mm\",\"34 mm\"]]",
                  bench::with("outlets = [\"1.4 cm2\"]", "outlets = [\"2 cm2\", \"1 cm2\"]",
                              bench::with("boxes = [\"350 cc\", \"100 cc\"]\nbaffles = [\"3 cm2\"]",
                                          "boxes = [\"500 cc\"]", reed_saw()))));
  const Engine e = b.after("muffler to other.saw.toml", folder.path);
  const Breathing& now = e.breathing;
  ASSERT_EQ(now.boxes.size(), 1U);
  EXPECT_NEAR(*now.boxes[0], 500 * cc, 1e-15);
  EXPECT_TRUE(now.baffles.empty());
  ASSERT_EQ(now.outlets.size(), 2U);
  EXPECT_NEAR(*e.muffler_outlets, 3 * cm2, 1e-15);
  EXPECT_FALSE(now.screen);
  EXPECT_TRUE(now.screen_known);
  EXPECT_EQ(now.pipe.size(), 2U);
}

TEST(breathing_cuts, its_own_parts_change_nothing) {
  const Bench b(reed_saw());
  const Folder folder;
  folder.put("same.saw.toml", reed_saw());
  const Engine e =
      b.after("reed to same.saw.toml; carburettor to same.saw.toml; muffler to same.saw.toml", folder.path);
  EXPECT_EQ(*e.breathing.reed.thickness, *b.stock.breathing.reed.thickness);
  EXPECT_EQ(*e.breathing.reed.modulus, *b.stock.breathing.reed.modulus);
  EXPECT_EQ(*e.breathing.throttle, *b.stock.breathing.throttle);
  ASSERT_EQ(e.breathing.boxes.size(), 2U);
  EXPECT_EQ(*e.breathing.boxes[1], *b.stock.breathing.boxes[1]);
  EXPECT_EQ(*e.breathing.baffles[0], *b.stock.breathing.baffles[0]);
  EXPECT_EQ(*e.muffler_outlets, *b.stock.muffler_outlets);
}

TEST(breathing_cuts, ask_for_no_memory) {
  const Bench b(reed_saw());
  const Folder folder;
  folder.put("same.saw.toml", reed_saw());
  const auto prepared = prepare(*parse_cuts("petal to 0.3 mm; outlets to 1 cm2 1 cm2; octane to \"95 research\"; "
                                            "reed to same.saw.toml; muffler to same.saw.toml"),
                                b.survey, folder.path);
  ASSERT_TRUE(prepared);
  Engine engine = b.stock;
  const long before = bench::allocations();
  apply(**prepared, engine);
  EXPECT_EQ(bench::allocations(), before);
}

}  // namespace
}  // namespace portwright::cuts
