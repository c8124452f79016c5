#include <gtest/gtest.h>

#include "saw/nearest.hpp"
#include "saw/walk.hpp"
#include "tables/box.hpp"
#include "tables/instruments.hpp"
#include "tables/pattern.hpp"

// No field of the saw file is without its bounds and its instrument, and no row is for a field that is not there.
namespace {

using namespace portwright;

saw::Readings roomy() {
  saw::Readings readings;
  readings.piston.ring.resize(1);
  readings.piston.window.resize(1);
  readings.cooling.fins.resize(1);
  for (const char* kind : {"exhaust", "transfer", "boost", "intake", "air"}) {
    saw::Port port;
    port.name = std::string(kind) + "_one";
    port.kind = kind;
    readings.ports.push_back(port);
  }
  return readings;
}

TEST(every_field, has_a_row_in_the_allowed_box_of_its_own_kind) {
  int count = 0;
  saw::for_each_field(roomy(), [&](const saw::FieldAt& field) {
    if (!field.dimension) return;
    ++count;
    const tables::BoxRow* row = tables::box_of(field.path, field.kind);
    ASSERT_NE(row, nullptr) << field.path;
    EXPECT_EQ(row->dimension, *field.dimension) << field.path;
  });
  EXPECT_GT(count, 250);
}

TEST(every_field, is_usually_read_with_an_instrument_that_can_read_it) {
  saw::for_each_field(roomy(), [&](const saw::FieldAt& field) {
    if (!field.dimension || *field.dimension == base::Dimension::count) return;
    const tables::InstrumentRow* row = tables::usual_instrument(field.path, *field.dimension, field.kind);
    ASSERT_NE(row, nullptr) << field.path;
    EXPECT_EQ(row->dimension, *field.dimension) << field.path;
  });
}

bool is_field(const std::string& pattern) {
  if (pattern == "crank.displacement" || pattern.ends_with("squish.*")) return true;
  bool found = false;
  saw::for_each_field(roomy(), [&](const saw::FieldAt& field) {
    found = found || (field.dimension && tables::matches(pattern, field.path, field.kind));
  });
  return found;
}

TEST(every_field, rows_name_fields_that_are_there) {
  for (const tables::BoxRow& row : tables::box()) EXPECT_TRUE(is_field(row.field)) << row.field;
  for (const tables::UsualRow& row : tables::usual_instruments()) EXPECT_TRUE(is_field(row.field)) << row.field;
  for (const tables::InstrumentRow& row : tables::instruments())
    for (const std::string& field : row.fields) EXPECT_TRUE(is_field(field)) << row.name << " " << field;
}

TEST(nearest, counts_letters_changed_left_out_put_in_and_swapped) {
  EXPECT_EQ(saw::edit_distance("opens", "opens"), 0u);
  EXPECT_EQ(saw::edit_distance("opnes", "opens"), 1u);
  EXPECT_EQ(saw::edit_distance("open", "opens"), 1u);
  EXPECT_EQ(saw::edit_distance("", "opens"), 5u);
  EXPECT_EQ(saw::edit_distance("OPENS", "opens"), 0u);
  EXPECT_EQ(saw::edit_distance("kitten", "sitting"), 3u);
}

TEST(nearest, offers_only_what_may_have_been_meant) {
  const std::vector<std::string> words = {"opens", "closes", "duration", "roof"};
  EXPECT_EQ(saw::nearest("durration", words), "duration");
  EXPECT_EQ(saw::nearest("close", words), "closes");
  EXPECT_EQ(saw::nearest("colour", words), "");
  EXPECT_EQ(saw::nearest(std::string(1000, 'o'), words), "");
}

}  // namespace
