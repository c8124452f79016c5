// What is left between values and limits, and the texts of ranges and changes.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <set>

#include "desk/desk.hpp"
#include "tables/limits.hpp"

namespace {

using namespace portwright;
namespace fs = std::filesystem;

wire::StudyAnswer study_of(const char* name, const std::string& cuts) {
  const fs::path file = fs::path(PORTWRIGHT_SOURCE_DIR) / "data/samples" / (std::string(name) + ".saw.toml");
  return *desk::study({file.string(), cuts, {}});
}

TEST(gaps, hold_a_row_for_every_finding_on_a_number_with_the_strictest_threshold) {
  const wire::StudyAnswer study = study_of("alder-60", "base -0.3 mm; roof exhaust +0.8 mm");
  std::size_t expected = 0;
  for (const study::Finding& finding : study.findings)
    if (tables::limit(finding.rule)->side != tables::Side::is) ++expected;
  EXPECT_EQ(study.gaps.size(), expected);
  int held = 0, passed = 0;
  for (const wire::Gap& gap : study.gaps) {
    const tables::LimitRow& row = *tables::limit(gap.rule);
    EXPECT_EQ(gap.limit, row.note ? row.note : row.caution ? row.caution : row.stop) << gap.rule;
    EXPECT_FALSE(gap.label.empty()) << gap.id;
    EXPECT_FALSE(gap.text.empty()) << gap.id;
    EXPECT_EQ(gap.limit.has_value(), !gap.limit_text.empty()) << gap.id;
    EXPECT_EQ(gap.letter.empty(), gap.state == study::State::ok) << gap.id;
    (gap.state == study::State::ok ? held : passed) += 1;
  }
  EXPECT_GT(held, 5);
  EXPECT_GT(passed, 1);
}

TEST(gaps, the_skirt_over_the_exhaust_shrinks_by_what_the_base_loses) {
  const wire::StudyAnswer study = study_of("alder-60", "base -0.3 mm");
  const auto gap =
      std::find_if(study.gaps.begin(), study.gaps.end(), [](const wire::Gap& g) { return g.rule == "skirt_cover"; });
  ASSERT_NE(gap, study.gaps.end());
  EXPECT_EQ(gap->side, "at least");
  ASSERT_TRUE(gap->stock && gap->low && gap->high);
  EXPECT_NEAR(*gap->stock - gap->value, 0.3, 1e-9);
  EXPECT_EQ(gap->stock_text.substr(0, 4), "3.10");
  EXPECT_EQ(gap->change_text, "\u22120.30");
  EXPECT_LT(*gap->low, gap->value);
  EXPECT_NE(gap->left_text.find("left"), std::string::npos);
}

TEST(gaps, letters_stand_for_findings_that_do_not_hold_once_each) {
  const wire::StudyAnswer study = study_of("spruce-92", "");
  std::set<std::string> letters;
  for (const study::Finding& finding : study.findings) {
    if (finding.state == study::State::ok) {
      EXPECT_TRUE(finding.letter.empty());
    } else {
      EXPECT_TRUE(letters.insert(finding.letter).second) << finding.rule;
    }
  }
  EXPECT_TRUE(letters.empty() || *letters.begin() == "A");
}

TEST(figure_texts, are_the_ends_of_the_range_the_stock_and_the_change) {
  const wire::StudyAnswer study = study_of("alder-60", "roof exhaust +0.8 mm");
  int told = 0, not_told = 0;
  for (const study::Figure& figure : study.figures) {
    EXPECT_EQ(figure.stock_text.empty(), !figure.stock) << figure.id;
    EXPECT_EQ(figure.change_text.empty(), !figure.change) << figure.id;
    const bool ranged = figure.low && figure.high && *figure.high - *figure.low > 1e-9;
    if (ranged && figure.unit != "s/m" && figure.id != "impulse.covered") {
      EXPECT_EQ(figure.low_text + " to " + figure.high_text,
                base::range_text({*figure.value, figure.low, figure.high}, figure.unit, base::UnitStyle::shop))
          << figure.id;
    }
    if (!figure.change) continue;
    const bool apart = figure.change->distinguishable;
    EXPECT_EQ(figure.change_text == "not told apart", !apart) << figure.id;
    (apart ? told : not_told) += 1;
  }
  EXPECT_GT(told, 5);
  EXPECT_GT(not_told, 5);
}

}  // namespace
