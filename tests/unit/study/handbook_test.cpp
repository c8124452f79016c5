// The handbook's page of figures against the list of figures.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "base/file.hpp"
#include "larch.hpp"
#include "study/figures.hpp"
#include "tables/limits.hpp"

namespace portwright::study {
namespace {

using testing::HasSubstr;

std::string as_written(const FigureRow& row) {
  const std::string_view name = row.over == Over::groups ? "<kind>" : row.over == Over::rings ? "<k>" : "<port>";
  return "`" + filled(row.id, name, 0.0) + "`";
}

TEST(handbook, names_every_figure_with_its_unit) {
  const auto page = base::read_file(std::string(PORTWRIGHT_SOURCE_DIR) + "/docs/handbook/figures.md", 1 << 20);
  ASSERT_TRUE(page.has_value());
  for (const FigureRow& row : figure_rows())
    EXPECT_THAT(*page, HasSubstr("| " + as_written(row) + " | " + row.unit + " |"));
}

TEST(figures, have_ids_of_their_own) {
  std::set<std::string> seen;
  for (const Entry& entry : entries(survey_of(larch_text))) EXPECT_TRUE(seen.insert(entry.id).second) << entry.id;
}

TEST(figures, are_held_in_the_unit_of_their_limit) {
  const std::vector<Entry> all = entries(survey_of(larch_text));
  for (const Entry& entry : all)
    for (const tables::LimitRow* row : tables::limits_of(entry.match, entry.port_kind))
      EXPECT_EQ(row->unit, entry.row->unit) << row->rule;
}

TEST(figures, of_a_mirrored_side_that_differs_have_ids_of_their_own) {
  std::string text = larch_text;
  text.replace(text.find("mirrored = true"), 15, "mirrored = true\ntwin = { opens = \"123 deg\" }");
  const Study s = study_of(text);
  EXPECT_NEAR(*figure(s, "port.primary.opens").value, 121.0, 1e-9);
  EXPECT_NEAR(*figure(s, "port.primary.twin.opens").value, 123.0, 1e-9);
  EXPECT_NEAR(*figure(s, "timing.stagger").value, 2.0, 1e-9);
  EXPECT_EQ(figure(s, "port.primary.opens").count, 1);
}

}  // namespace
}  // namespace portwright::study
