#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <numbers>
#include <set>
#include <stdexcept>

#include "tables/aims.hpp"
#include "tables/assumptions.hpp"
#include "tables/box.hpp"
#include "tables/document.hpp"
#include "tables/instruments.hpp"
#include "tables/limits.hpp"
#include "tables/materials.hpp"
#include "tables/pattern.hpp"

// The embedded tables: every row is read, has its source, and says what the trade says.
namespace {

using namespace portwright::tables;
using D = portwright::base::Dimension;
constexpr double degree = std::numbers::pi / 180.0;

std::string file_text(const std::string& name) {
  std::ifstream in(std::string(PORTWRIGHT_SOURCE_DIR) + "/data/" + name, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

// Keys of docs/references.bib.
std::set<std::string> reference_keys() {
  std::ifstream in(std::string(PORTWRIGHT_SOURCE_DIR) + "/docs/references.bib");
  std::set<std::string> keys;
  for (std::string line; std::getline(in, line);)
    if (line.starts_with("@")) keys.insert(line.substr(line.find('{') + 1, line.find(',') - line.find('{') - 1));
  return keys;
}

bool is_source(const std::string& source) {
  for (const char* kind : {"common practice", "memory", "own judgement", "own arithmetic"})
    if (source.starts_with(kind)) return true;
  const auto keys = reference_keys();
  for (std::size_t at = 0, end = 0; end != std::string::npos; at = end + 2) {  // "key" or "key, key"
    end = source.find(", ", at);
    if (!keys.contains(source.substr(at, end == std::string::npos ? end : end - at))) return false;
  }
  return true;
}

TEST(tables, are_the_files_of_the_tree_byte_for_byte) {
  for (const char* name : {"instruments.toml", "aims.toml", "assumptions.toml", "materials.toml", "limits/limits.toml",
                           "limits/box.toml"}) {
    EXPECT_FALSE(embedded(name).empty()) << name;
    EXPECT_EQ(embedded(name), file_text(name)) << name;
  }
  EXPECT_TRUE(embedded("no such file").empty());
}

TEST(tables, all_load_and_every_row_has_a_source_that_exists) {
  for (const auto& row : instruments()) EXPECT_TRUE(is_source(row.source)) << row.name << ": " << row.source;
  for (const auto& row : limits()) EXPECT_TRUE(is_source(row.source)) << row.rule << ": " << row.source;
  for (const auto& row : aims()) EXPECT_TRUE(is_source(row.source)) << row.figure << ": " << row.source;
  for (const auto& row : box()) EXPECT_TRUE(is_source(row.source)) << row.field << ": " << row.source;
  for (const auto& row : assumptions()) EXPECT_TRUE(is_source(row.source)) << row.name << ": " << row.source;
  for (const auto& row : materials()) EXPECT_TRUE(is_source(row.source)) << row.name << ": " << row.source;
  EXPECT_FALSE(usual_instruments().empty());
}

TEST(tables, a_broken_table_is_refused_with_its_place) {
  const auto refused = [](const char* text) {
    try {
      for (const Row& row : rows_of(text, "some.toml", "limit", {"limit"})) {
        static_cast<void>(row.text("rule"));
        row.done();
      }
    } catch (const std::logic_error& error) {
      return std::string(error.what());
    }
    return std::string();
  };
  EXPECT_EQ(refused("[[limit]]\nrule = \"x\"\n"), "");
  EXPECT_THAT(refused("[[limit]]\nrule = \n"), testing::HasSubstr("some.toml"));
  EXPECT_THAT(refused("[[limit]]\nrule = 3\n"), testing::HasSubstr("limit 1: rule must be a text"));
  EXPECT_THAT(refused("[[limit]]\nrule = \"x\"\nrul = 2\n"), testing::HasSubstr("unknown key rul"));
  EXPECT_THAT(refused("[[limits]]\nrule = \"x\"\n"), testing::HasSubstr("unknown key limits"));
  EXPECT_THAT(refused(""), testing::HasSubstr("no rows"));
}

TEST(pattern, star_stands_for_one_part_and_a_kind_for_a_port_of_that_kind) {
  EXPECT_TRUE(matches("crank.bore", "crank.bore"));
  EXPECT_FALSE(matches("crank.bore", "crank.stroke"));
  EXPECT_FALSE(matches("crank", "crank.bore"));
  EXPECT_FALSE(matches("crank.bore", "crank"));
  EXPECT_TRUE(matches("ring.*.peg_wall", "ring.2.peg_wall"));
  EXPECT_FALSE(matches("ring.*", "ring.2.peg_wall"));
  EXPECT_TRUE(matches("port[exhaust].width_of_bore", "port.main.width_of_bore", "exhaust"));
  EXPECT_FALSE(matches("port[exhaust].width_of_bore", "port.main.width_of_bore", "transfer"));
  EXPECT_FALSE(matches("port[exhaust].width_of_bore", "port.main.width_of_bore"));
  EXPECT_FALSE(matches("port[exhaust]", "port", "exhaust"));
  EXPECT_FALSE(matches("", "port"));
  EXPECT_FALSE(matches("port[", "port.x", "exhaust"));
}

// Values of the trade's table of instruments: common practice; the shared part from memory.
TEST(instruments, give_the_trades_usual_errors) {
  const InstrumentRow* exhaust = usual_instrument("port.exhaust.opens", D::angle, "exhaust");
  ASSERT_NE(exhaust, nullptr);
  EXPECT_NEAR(exhaust->sigma, 0.3 * degree, 1e-12);
  EXPECT_NEAR(exhaust->shared_sigma, 0.4 * degree, 1e-12);
  EXPECT_EQ(exhaust->shares, "wheel zero");
  const InstrumentRow* transfer = usual_instrument("port.primary.opens", D::angle, "transfer");
  ASSERT_NE(transfer, nullptr);
  EXPECT_NEAR(transfer->sigma, 1.0 * degree, 1e-12);
  EXPECT_EQ(transfer->shares, "wheel zero");
  EXPECT_NEAR(usual_instrument("port.exhaust.roof", D::length, "exhaust")->sigma, 0.05e-3, 1e-15);
  EXPECT_EQ(usual_instrument("port.exhaust.roof", D::length, "exhaust")->shares, "height datum");
  EXPECT_NEAR(usual_instrument("port.exhaust.width", D::length, "exhaust")->sigma, 0.1e-3, 1e-15);
  EXPECT_NEAR(usual_instrument("cylinder.squish.exhaust", D::length)->sigma, 0.02e-3, 1e-15);
  EXPECT_NEAR(usual_instrument("crank.bore", D::length)->sigma, 0.03e-3, 1e-15);
  EXPECT_NEAR(instrument("bore gauge", D::length, "crank.bore")->sigma, 0.005e-3, 1e-15);
  EXPECT_NEAR(usual_instrument("crank.stroke", D::length)->sigma, 0.03e-3, 1e-15);
  EXPECT_NEAR(usual_instrument("crank.rod", D::length)->sigma, 0.1e-3, 1e-15);
  EXPECT_NEAR(usual_instrument("cylinder.chamber", D::volume)->sigma, 0.1e-6, 1e-18);
  EXPECT_NEAR(usual_instrument("case.volume", D::volume)->sigma, 5e-6, 1e-18);
  EXPECT_NEAR(usual_instrument("piston.mass", D::mass)->sigma, 0.5e-3, 1e-15);
}

TEST(instruments, are_found_however_they_are_typed_and_only_for_what_they_read) {
  EXPECT_EQ(instrument("  Degree Wheel ", D::angle, "port.exhaust.opens", "exhaust"),
            usual_instrument("port.exhaust.opens", D::angle, "exhaust"));
  EXPECT_EQ(instrument("laser", D::length, "crank.bore"), nullptr);
  EXPECT_EQ(instrument("degree wheel", D::length, "crank.bore"), nullptr);
  EXPECT_EQ(instrument("solder", D::length, "crank.bore"), nullptr);
  EXPECT_TRUE(instrument_known("CALIPER"));
  EXPECT_FALSE(instrument_known("laser"));
  EXPECT_THAT(instrument_names(D::length, "crank.bore"), testing::IsSupersetOf({"caliper", "bore gauge"}));
  EXPECT_THAT(instrument_names(D::length, "crank.bore"), testing::Not(testing::Contains("solder")));
}

TEST(instruments, no_row_stands_behind_one_that_takes_all_its_fields) {
  const auto all = instruments();
  for (std::size_t i = 0; i < all.size(); ++i)
    for (std::size_t j = i + 1; j < all.size(); ++j)
      EXPECT_FALSE(all[i].name == all[j].name && all[i].dimension == all[j].dimension && all[i].fields.empty())
          << all[j].name << " is never reached";
}

TEST(instruments, every_usual_row_finds_its_instrument_for_its_kind_of_quantity) {
  for (const UsualRow& usual : usual_instruments()) {
    const BoxRow* bounds = box_of(usual.field, "exhaust");
    ASSERT_NE(bounds, nullptr) << usual.field;
    EXPECT_NE(usual_instrument(usual.field, bounds->dimension, "exhaust"), nullptr) << usual.field;
  }
}

TEST(limits, hold_the_trades_numbers) {
  EXPECT_EQ(limit("working_squish")->stop, 0.35);
  EXPECT_EQ(limit("working_squish")->side, Side::at_least);
  EXPECT_TRUE(limit("working_squish")->hard);
  EXPECT_EQ(limit("exhaust_width")->stop, 70.0);
  EXPECT_EQ(limit("exhaust_width")->when, When::no_bridge);
  EXPECT_EQ(limit("exhaust_width")->source, "jennings1973");
  EXPECT_EQ(limit("ring_peg_wall")->note, 3.0);
  EXPECT_EQ(limit("ring_peg_wall")->stop, 2.0);
  EXPECT_EQ(limit("skirt_cover")->stop, 1.0);
  EXPECT_EQ(limit("top_land")->stop, 2.0);
  EXPECT_EQ(limit("impulse_covered")->side, Side::is);
  EXPECT_EQ(limit("no such rule"), nullptr);
}

TEST(limits, published_racing_targets_are_notes) {
  for (const char* rule : {"exhaust_time_area", "transfer_time_area", "intake_time_area", "ring_flutter",
                           "mean_piston_speed", "mean_piston_speed_most", "trapped_ratio"}) {
    ASSERT_NE(limit(rule), nullptr) << rule;
    EXPECT_TRUE(limit(rule)->note.has_value()) << rule;
    EXPECT_FALSE(limit(rule)->caution || limit(rule)->stop) << rule;
  }
  // Jennings, 3,500 ft/min; Bell, 4,500 ft/min at most (both quoted).
  EXPECT_NEAR(*limit("mean_piston_speed")->note, 3500 * 0.3048 / 60, 0.005);
  EXPECT_NEAR(*limit("mean_piston_speed_most")->note, 4500 * 0.3048 / 60, 0.005);
  // Jennings: 0.00014 s cm2/cm3 and 1 s cm2/cm3 = 100 s/m.
  EXPECT_NEAR(*limit("exhaust_time_area")->note, 0.00014 * 100, 1e-12);
}

TEST(limits, where_no_number_is_agreed_none_is_invented_and_the_row_says_so) {
  for (const char* rule : {"wall_between_windows", "wall_on_pressed_sides", "gauge_compression", "spigot_clearance"}) {
    ASSERT_NE(limit(rule), nullptr) << rule;
    EXPECT_FALSE(limit(rule)->has_threshold()) << rule;
  }
  for (const LimitRow& row : limits())
    EXPECT_EQ(row.has_threshold(), row.why.find("No number is agreed") == std::string::npos) << row.rule;
}

TEST(limits, are_found_by_figure_and_kind) {
  EXPECT_EQ(limits_of("port.exhaust.width_of_bore", "exhaust").size(), 2u);
  EXPECT_TRUE(limits_of("port.primary.width_of_bore", "transfer").empty());
  EXPECT_EQ(limits_of("ring.2.peg_wall").size(), 1u);
}

TEST(aims, hold_the_trades_bands) {
  const AimRow* squish = aim("squish.clearance");
  ASSERT_NE(squish, nullptr);
  EXPECT_EQ(squish->of_use("work")->low, 0.45);
  EXPECT_EQ(squish->of_use("work")->high, 0.55);
  EXPECT_FALSE(squish->of_use("winter").has_value());
  const AimRow* width = aim("port.exhaust.width_of_bore", "exhaust", "no bridge");
  ASSERT_NE(width, nullptr);
  EXPECT_FALSE(width->race->low.has_value());
  EXPECT_EQ(width->race->high, 70.0);
  EXPECT_EQ(aim("port.exhaust.width_of_bore", "exhaust", "bridged")->race->high, 88.0);
  EXPECT_EQ(aim("port.exhaust.width_of_bore", "exhaust"), nullptr);
  EXPECT_EQ(aim("port.rear.opens", "intake", "skirt intake")->stock->high, 72.0);
}

TEST(box, bounds_are_in_si_and_the_rod_is_bound_by_the_stroke) {
  ASSERT_NE(box_of("crank.rod"), nullptr);
  ASSERT_NE(box_ratio_of("crank.rod"), nullptr);
  EXPECT_EQ(box_ratio_of("crank.rod")->of, "crank.stroke");
  EXPECT_EQ(box_ratio_of("crank.rod")->least, 1.5);
  EXPECT_EQ(box_ratio_of("crank.rod")->greatest, 2.1);
  EXPECT_NEAR(box_of("crank.displacement")->least, 30e-6, 1e-15);
  EXPECT_NEAR(box_of("crank.displacement")->greatest, 125e-6, 1e-15);
  EXPECT_EQ(box_of("port.exhaust.colour", "exhaust"), nullptr);
  EXPECT_NEAR(box_of("day.temperature")->least, 233.15, 1e-9);
}

TEST(box, catches_a_duration_typed_as_an_opening_and_an_opening_typed_as_a_duration) {
  const BoxRow* opens = box_of("port.exhaust.opens", "exhaust");
  const BoxRow* duration = box_of("port.exhaust.duration", "exhaust");
  EXPECT_GT(164 * degree, opens->greatest);
  EXPECT_LT(98 * degree, duration->least);
}

TEST(materials, are_found_by_any_of_their_words_and_hold_what_makers_say) {
  const MaterialRow* glass = material(" Glass Epoxy ");
  ASSERT_NE(glass, nullptr);
  EXPECT_EQ(glass, material("g10"));
  EXPECT_EQ(glass, material("FR4"));
  EXPECT_NEAR(glass->modulus, 18.6e9, 1.0);
  EXPECT_NEAR(glass->density, 1820.0, 1e-9);
  EXPECT_GE(glass->modulus + 2.0 * glass->sigma, 24.3e9) << "the stiffest sheet lies within two sigma";
  EXPECT_EQ(material("bakelite"), nullptr);
  EXPECT_EQ(material(""), nullptr);
}

TEST(materials, a_stiffer_one_of_less_weight_swings_faster) {
  const auto ratio = [](const char* word) { return material(word)->modulus / material(word)->density; };
  EXPECT_GT(ratio("carbon epoxy"), ratio("spring steel"));
  EXPECT_GT(ratio("spring steel"), ratio("glass epoxy"));
}

TEST(assumptions, are_named_and_an_unknown_name_is_a_broken_contract) {
  EXPECT_EQ(assumption("rod_ratio").value, 1.80);
  EXPECT_EQ(assumption("rod_ratio").sigma, 0.08);
  EXPECT_NEAR(assumption("squish_stretch").value, 0.075e-3, 1e-15);
  EXPECT_NEAR(assumption("squish_stretch").sigma, 0.025e-3, 1e-15);
  EXPECT_NEAR(assumption("ring_modulus").value, 110e9, 1);
  EXPECT_NEAR(assumption("temperature").value, 293.15, 1e-9);
  EXPECT_THROW(static_cast<void>(assumption("luck")), std::logic_error);
}

}  // namespace
