#include <unistd.h>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <numbers>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "unit/cuts/bench_saw.hpp"
#include "unit/support/allocations.hpp"

namespace portwright::cuts {
namespace {

using bench::Bench;
using bench::degree;
using geometry::Engine;
using testing::Contains;
using testing::HasSubstr;
using testing::IsEmpty;

constexpr double mm = 1e-3, cc = 1e-6;
constexpr double area = std::numbers::pi * 25.0 * 25.0 * mm * mm;

double change(const base::Known& before, const base::Known& after) {
  EXPECT_TRUE(before && after);
  return *after - *before;
}

TEST(apply, a_gasket_out_leaves_window_heights_and_lifts_the_crown) {
  const Bench b;
  const Engine e = b.after("gasket out");
  EXPECT_NEAR(change(b.stock.crown_at_tdc, e.crown_at_tdc), 0.45 * mm, 1e-15);
  EXPECT_NEAR(*e.height(b.port(e, "exhaust").roof), *b.stock.height(b.port(b.stock, "exhaust").roof), 1e-15);
  EXPECT_EQ(*e.base_gasket, 0.0);
  EXPECT_NEAR(change(b.stock.spigot_clearance, e.spigot_clearance), -0.45 * mm, 1e-15);
  EXPECT_NEAR(change(b.stock.chamber, e.chamber), -area * 0.45 * mm, 1e-15);
  EXPECT_EQ(*e.case_at_tdc, *b.stock.case_at_tdc);
}

TEST(apply, a_base_cut_leaves_the_crown_and_lowers_windows) {
  const Bench b;
  const Engine e = b.after("base -0.5 mm");
  EXPECT_EQ(*e.crown_at_tdc, *b.stock.crown_at_tdc);
  EXPECT_NEAR(*e.height(b.port(e, "exhaust").floor), 24.7 * mm, 1e-12);
  EXPECT_NEAR(b.port(e, "exhaust").window.roof(), *b.port(e, "exhaust").roof, 1e-12);
  EXPECT_NEAR(b.port(e, "exhaust").window.area(), b.port(b.stock, "exhaust").window.area(), 1e-15);
}

TEST(apply, a_thinner_gasket_drops_by_the_difference) {
  const Bench b;
  EXPECT_NEAR(change(b.stock.squish, b.after("gasket to 0.2 mm").squish), -0.25 * mm, 1e-15);
}

TEST(apply, an_unknown_gasket_makes_what_it_moves_wait_for_it_and_nothing_else) {
  const Bench b(bench::with("base_gasket = \"0.45 mm\"\n", ""));
  const Engine e = b.after("gasket out");
  const auto waits = [&](const base::Known& k) {
    for (std::size_t i = 0; i < b.survey.needs.size(); ++i)
      if (k.needs().has(static_cast<int>(i)) && b.survey.needs[i] == "cylinder.base_gasket") return true;
    return false;
  };
  EXPECT_TRUE(waits(e.squish) && waits(e.chamber) && waits(e.spigot_clearance) && waits(e.crown_at_tdc));
  EXPECT_TRUE(waits(geometry::timing(e, b.port(e, "exhaust")).opens));
  EXPECT_TRUE(waits(b.port(e, "exhaust").window_known));
  EXPECT_TRUE(b.port(e, "exhaust").window.empty());
  EXPECT_TRUE(e.case_at_tdc && e.piston.dome && e.bore);
}

TEST(apply, a_crown_edge_turned_moves_the_piston_with_it) {
  const Bench b;
  const Engine e = b.after("crown edge -1 mm wide 6 mm");
  EXPECT_NEAR(change(b.stock.piston.skirt_exhaust, e.piston.skirt_exhaust), -1 * mm, 1e-15);
  EXPECT_NEAR(change(b.stock.piston.pin_below_crown, e.piston.pin_below_crown), -1 * mm, 1e-15);
  EXPECT_NEAR(change(b.stock.piston.rings[0].below_crown, e.piston.rings[0].below_crown), -1 * mm, 1e-15);
  EXPECT_NEAR(change(b.stock.piston.dome, e.piston.dome), 1 * mm, 1e-15);
  EXPECT_NEAR(change(b.stock.chamber, e.chamber), std::numbers::pi * (25.0 * 25 - 19.0 * 19) * mm * mm * mm, 1e-15);
  EXPECT_EQ(*geometry::timing(e, b.port(e, "intake")).opens,
            *geometry::timing(b.stock, b.port(b.stock, "intake")).opens);
}

TEST(apply, a_dome_turned_down_gives_its_cap_to_the_chamber) {
  const Bench b;
  const auto cap = [](double h) {
    return std::numbers::pi * h * (3 * 25.0 * 25 + h * h) / 6 * 1e-9;
  };  // textbook formula
  EXPECT_NEAR(change(b.stock.chamber, b.after("dome -0.5 mm").chamber), cap(2.0) - cap(1.5), 1e-14);
}

TEST(apply, edges_move_alone_and_up_is_plus) {
  const Bench b;
  const Engine e = b.after("roof exhaust +0.5 mm; floor exhaust -0.3 mm; floor intake -1 mm; weld primary roof 0.4 mm");
  EXPECT_NEAR(change(b.port(b.stock, "exhaust").roof, b.port(e, "exhaust").roof), -0.5 * mm, 1e-15);
  EXPECT_NEAR(change(b.port(b.stock, "exhaust").floor, b.port(e, "exhaust").floor), 0.3 * mm, 1e-15);
  EXPECT_NEAR(change(b.port(b.stock, "primary").roof, b.port(e, "primary").roof), 0.4 * mm, 1e-15);
  EXPECT_GT(*geometry::timing(e, b.port(e, "intake")).opens, 75.5 * degree);
  EXPECT_LT(*geometry::timing(e, b.port(e, "exhaust")).opens, 102.9 * degree);
  EXPECT_NEAR(b.port(e, "exhaust").window.floor() - b.port(e, "exhaust").window.roof(),
              *b.port(e, "exhaust").floor - *b.port(e, "exhaust").roof, 1e-12);
}

TEST(apply, widening_each_side_adds_twice_to_the_chord) {
  const Bench b;
  EXPECT_NEAR(*b.port(b.after("widen exhaust +1.5 mm"), "exhaust").width, 31 * mm, 1e-15);
}

TEST(apply, widening_one_side_leaves_the_other_edge_in_its_place) {
  const Bench b;
  const auto half = [](double w) { return std::asin(w / 50.0); };
  const Engine e = b.after("widen exhaust +2 mm right");
  const auto& port = b.port(e, "exhaust");
  EXPECT_NEAR(*port.width, 30 * mm, 1e-15);
  EXPECT_NEAR(*port.centre - half(30), 0.0 - half(28), 1e-12);
  EXPECT_NEAR(*b.port(b.after("widen exhaust +2 mm left"), "exhaust").centre + half(30), half(28), 1e-12);
}

TEST(apply, a_shorter_intake_skirt_opens_the_intake_earlier) {
  const Bench b;
  const Engine e = b.after("skirt intake -1 mm");
  EXPECT_GT(*geometry::timing(e, b.port(e, "intake")).opens, 76 * degree);
  EXPECT_EQ(*geometry::timing(e, b.port(e, "exhaust")).opens,
            *geometry::timing(b.stock, b.port(b.stock, "exhaust")).opens);
}

TEST(apply, a_cut_on_a_mirrored_port_cuts_its_twin_too) {
  const Bench b(bench::with("mirrored = true\nopens = \"121 deg\"",
                            "mirrored = true\ntwin = { opens = \"122 deg\" }\nopens = \"121 deg\""));
  const Engine e = b.after("roof primary +0.5 mm");
  int cut = 0;
  for (std::size_t i = 0; i < e.ports.size(); ++i) {
    if (b.survey.ports[i].name != "primary") continue;
    EXPECT_NEAR(change(b.stock.ports[i].roof, e.ports[i].roof), -0.5 * mm, 1e-15);
    ++cut;
  }
  EXPECT_EQ(cut, 2);
}

TEST(apply, settings_and_sizes_change_what_they_name) {
  const Bench b;
  const Engine e = b.after(
      "case +5 cc; stuff 2 cc; venturi to 21 mm; outlets to 1.4 cm2 0.8 cm2; advance +4 deg; mouth primary to 2 cm2; "
      "octane to \"95 research\"; corner exhaust roof to 6 mm");
  EXPECT_NEAR(*e.case_at_tdc, 253 * cc, 1e-15);
  EXPECT_NEAR(*e.venturi, 21 * mm, 1e-15);
  EXPECT_NEAR(*e.muffler_outlets, 2.2e-4, 1e-15);
  EXPECT_NEAR(*e.advance, 30 * degree, 1e-12);
  EXPECT_NEAR(*e.advance_added, 4 * degree, 1e-12);
  EXPECT_NEAR(*b.port(e, "primary").passage.mouth, 2e-4, 1e-15);
  EXPECT_EQ(*e.octane, 95.0);
  EXPECT_LT(b.port(e, "exhaust").window.area(), b.port(b.stock, "exhaust").window.area());
}

TEST(apply, a_sleeve_closes_the_ring_between_the_bores) {
  const Bench b;
  const Engine e = b.after("sleeve to 46 mm");
  EXPECT_NEAR(*e.bore, 46 * mm, 1e-15);
  EXPECT_NEAR(*e.squish_band, 4 * mm, 1e-15);
  EXPECT_NEAR(change(b.stock.chamber, e.chamber), -std::numbers::pi * (25.0 * 25 - 23.0 * 23) * 0.89 * 1e-9, 1e-15);
  EXPECT_EQ(*b.port(e, "exhaust").width, *b.port(b.stock, "exhaust").width);
}

TEST(apply, forgets_a_read_timing_only_where_the_edge_moved) {
  const Bench b(bench::with("stroke = \"36.0 mm\"\n", ""));
  const auto opens = [&](const Engine& e, const char* port) { return geometry::timing(e, b.port(e, port)).opens; };
  ASSERT_NEAR(*opens(b.stock, "exhaust"), 103 * degree, 1e-12);
  EXPECT_FALSE(opens(b.after("base -0.5 mm"), "exhaust").known());
  EXPECT_FALSE(opens(b.after("roof exhaust +0.5 mm"), "exhaust").known());
  EXPECT_TRUE(opens(b.after("roof exhaust +0.5 mm"), "primary").known());
  EXPECT_TRUE(opens(b.after("crown edge -0.5 mm wide 6 mm"), "intake").known());
}

TEST(apply, does_not_allocate) {
  const Bench b;
  const auto cuts = parse_cuts(
      "gasket out; base -0.5 mm; band -0.2 mm; crown edge -0.5 mm wide 6 mm; dome -0.2 mm; roof exhaust +0.5 mm; "
      "widen primary +1 mm left; corner intake floor to 5 mm; skirt intake -1 mm; weld exhaust floor 0.5 mm; sleeve to "
      "49 mm");
  ASSERT_TRUE(cuts);
  const auto prepared = prepare(*cuts, b.survey, ".");
  ASSERT_TRUE(prepared);
  Engine e = b.stock;
  const long before = bench::allocations();
  apply(**prepared, e);
  EXPECT_EQ(bench::allocations() - before, 0);
}

TEST(prepare, names_the_nearest_port_and_all_errors_at_once) {
  const Bench b;
  const auto cuts =
      parse_cuts("roof exaust +1 mm; base -1 mm; floor boost -1 mm; piston to not_there.saw.toml; petal to 0.3 mm");
  ASSERT_TRUE(cuts);
  const auto prepared = prepare(*cuts, b.survey, ".");
  ASSERT_FALSE(prepared);
  ASSERT_EQ(prepared.error().size(), 4u);
  EXPECT_THAT(prepared.error()[0].hint, HasSubstr("exhaust"));
  EXPECT_EQ(prepared.error()[1].path, "cuts.3");
  EXPECT_THAT(prepared.error()[1].hint, HasSubstr("primary"));
  EXPECT_THAT(prepared.error()[2].message, HasSubstr("piston to not_there"));
  EXPECT_THAT(prepared.error()[3].message, HasSubstr("no reed"));
}

/// A folder of its own for files of a test.
struct Folder {
  Folder() : path(std::filesystem::temp_directory_path() / ("cuts_test_" + std::to_string(::getpid()))) {
    std::filesystem::create_directories(path);
  }
  ~Folder() { std::filesystem::remove_all(path); }
  void put(const char* name, std::string_view text) const { std::ofstream(path / name) << text; }
  std::filesystem::path path;
};

constexpr const char* rubbing =
    "# invented\nseen wall side\n-14 mm  3 mm\n-10,0 mm, 0 mm\n 9 mm 0 mm\n14 mm 3 mm\n14 mm 12 mm\n-14 mm 12 mm\n";

TEST(outline, replaces_a_window_and_is_cut_by_halves) {
  const Bench b;
  const Folder folder;
  folder.put("rubbing.txt", rubbing);
  const Engine e = b.after("outline exhaust to rubbing.txt", folder.path);
  const auto& port = b.port(e, "exhaust");
  EXPECT_TRUE(port.traced);
  EXPECT_NEAR(port.window.area(), (28 * 9 + 0.5 * (19 + 28) * 3) * 1e-6, 1e-12);
  EXPECT_NEAR(*port.floor - *port.roof, 12 * mm, 1e-12);
  EXPECT_NEAR(port.window.roof(), *b.port(b.stock, "exhaust").roof, 1e-12);
  const Engine more =
      b.after("outline exhaust to rubbing.txt; roof exhaust +1 mm; widen exhaust +1 mm; base -0.5 mm", folder.path);
  EXPECT_NEAR(b.port(more, "exhaust").window.area(), (30 * 10 + 0.5 * (21 + 30) * 3) * 1e-6, 1e-12);
  EXPECT_NEAR(b.port(more, "exhaust").window.roof(), *b.port(more, "exhaust").roof, 1e-12);
  EXPECT_THROW(static_cast<void>(b.after("outline exhaust to rubbing.txt; corner exhaust roof to 3 mm", folder.path)),
               std::runtime_error);
}

TEST(outline, refuses_a_file_that_is_none) {
  const Bench b;
  const Folder folder;
  folder.put("bad.txt", "1 mm 2 mm\n3 mm\n");
  const auto cuts = parse_cuts("outline exhaust to bad.txt; outline exhaust to missing.txt");
  const auto prepared = prepare(*cuts, b.survey, folder.path);
  ASSERT_FALSE(prepared);
  EXPECT_THAT(prepared.error()[0].message, HasSubstr("line 2"));
  EXPECT_EQ(prepared.error()[1].code, base::ErrorCode::not_found);
}

TEST(swap, a_piston_with_a_higher_pin_lowers_the_crown) {
  const Bench b;
  const Folder folder;
  folder.put("other.saw.toml", bench::with("pin_below_crown = \"22.0 mm\"", "pin_below_crown = \"21.5 mm\"",
                                           bench::with("skirt_intake = \"38.0 mm\"", "skirt_intake = \"37.0 mm\"")));
  const Engine e = b.after("piston to other.saw.toml", folder.path);
  EXPECT_NEAR(change(b.stock.squish, e.squish), 0.5 * mm, 1e-12);
  EXPECT_NEAR(change(b.stock.chamber, e.chamber), area * 0.5 * mm, 1e-14);
  EXPECT_NEAR(change(b.port(b.stock, "exhaust").passed, b.port(e, "exhaust").passed), -0.5 * mm, 1e-12);
  // the floor is 0.5 mm nearer to the crown edge, the skirt 1 mm shorter: passed 0.5 mm later in the drop
  EXPECT_NEAR(change(b.port(b.stock, "intake").passed, b.port(e, "intake").passed), 0.5 * mm, 1e-12);
}

TEST(swap, a_piston_that_lacks_a_reading_is_told_by_its_path) {
  const Bench b;
  const Folder folder;
  folder.put("other.saw.toml", bench::with("pin_below_crown = \"22.0 mm\"\n", ""));
  const auto cuts = parse_cuts("piston to other.saw.toml");
  const auto prepared = prepare(*cuts, b.survey, folder.path);
  ASSERT_FALSE(prepared);
  EXPECT_EQ(prepared.error()[0].path, "piston.pin_below_crown");
}

TEST(swap, its_own_cylinder_changes_nothing) {
  const Bench b;
  const Folder folder;
  folder.put("same.saw.toml", bench::saw_text);
  const Engine e = b.after(
      "cylinder to same.saw.toml; muffler to same.saw.toml; carburettor to same.saw.toml; piston to same.saw.toml",
      folder.path);
  EXPECT_EQ(*e.squish, *b.stock.squish);
  EXPECT_NEAR(*e.chamber, *b.stock.chamber, 1e-18);
  for (const char* port : {"exhaust", "primary", "intake"})
    EXPECT_NEAR(*geometry::timing(e, b.port(e, port)).opens, *geometry::timing(b.stock, b.port(b.stock, port)).opens,
                1e-12);
}

TEST(swap, a_cylinder_with_other_ports_does_not_fit) {
  const Bench b;
  const Folder folder;
  folder.put("other.saw.toml", bench::with("name = \"primary\"", "name = \"first\""));
  const auto cuts = parse_cuts("cylinder to other.saw.toml");
  const auto prepared = prepare(*cuts, b.survey, folder.path);
  ASSERT_FALSE(prepared);
  EXPECT_THAT(prepared.error()[0].message, HasSubstr("fit"));
}

Account account_of(const Bench& b, const char* text) { return account(*parse_cuts(text), b.survey, b.stock, "."); }

TEST(account, counts_metal_and_warns_where_it_is_added) {
  const Bench b;
  EXPECT_EQ(*account_of(b, "gasket out").metal, 0.0);
  EXPECT_NEAR(*account_of(b, "band -0.5 mm").metal, std::numbers::pi * (25.0 * 25 - 19.0 * 19) * 0.5e-9, 1e-14);
  EXPECT_GT(*account_of(b, "roof exhaust +0.5 mm").metal, 0.0);
  EXPECT_THAT(account_of(b, "roof exhaust +0.5 mm; widen primary +1 mm; base -0.5 mm; skirt intake -1 mm").warnings,
              IsEmpty());
  const Account added = account_of(b, "widen exhaust -1 mm");
  EXPECT_LT(*added.metal, 0.0);
  EXPECT_THAT(added.warnings, Contains("widen exhaust \u22121 mm adds metal: weld or sleeve"));
  for (const char* text : {"base +1 mm", "weld exhaust roof 1 mm", "sleeve to 46 mm", "corner intake roof to 6 mm",
                           "stuff 5 cc", "mouth primary to 1 cm2"})
    EXPECT_THAT(account_of(b, text).warnings, testing::SizeIs(1)) << text;
}

TEST(account, warns_when_the_crown_meets_the_head_and_when_a_window_is_gone) {
  const Bench b;
  EXPECT_THAT(account_of(b, "base -1 mm").warnings, Contains(HasSubstr("meets the head")));
  EXPECT_THAT(account_of(b, "floor exhaust +30 mm").warnings, Contains(HasSubstr("cannot be")));
}

}  // namespace
}  // namespace portwright::cuts
