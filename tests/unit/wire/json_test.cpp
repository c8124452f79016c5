#include "wire/json.hpp"

#include <gtest/gtest.h>

#include <limits>
#include <stdexcept>

namespace {

using namespace portwright;

// One of every kind of field: text, number, null, word, list, object, object left out.
wire::StudyAnswer an_answer() {
  wire::StudyAnswer answer;
  answer.head.saw =
      wire::Saw{"portwright saw 1", "Larch \u201C70\u201D", "", "", "as received", "work", {{"exhaust", "exhaust", 1}}};
  answer.head.cuts = {"base -0.5 mm"};
  answer.head.errors = {{base::ErrorCode::wrong_unit, "No length.", "crank.bore", "mm", {"50 mm", "50 in"}}};
  answer.rpm = 9000.0;
  answer.rpm_from = "usual";
  study::Figure known;
  known.id = "timing.blowdown";
  known.unit = "deg";
  known.value = 18.1;
  known.low = 16.0;
  known.high = 19.9;
  known.stock = base::Spread{18.0, 16.0, 19.9};
  known.change = study::Change{0.1, -0.1, 0.3, false};
  study::Figure waiting;
  waiting.id = "case.ratio";
  waiting.waits_for = {"case.volume"};
  answer.figures = {known, waiting};
  study::Finding finding;
  finding.rule = "skirt_cover";
  finding.state = study::State::caution;
  finding.limit = 1.0;
  answer.findings = {finding};
  answer.metal_mm3 = 12.5;
  return answer;
}

TEST(json, an_answer_reads_back_as_it_was_written) {
  const std::string text = wire::to_json(an_answer());
  const auto back = wire::from_json<wire::StudyAnswer>(text);
  ASSERT_TRUE(back) << back.error().message;
  EXPECT_EQ(wire::to_json(*back), text);
  EXPECT_EQ(back->head.saw->name, "Larch \u201C70\u201D");
  EXPECT_EQ(back->findings.at(0).state, study::State::caution);
  EXPECT_EQ(back->head.errors.at(0), an_answer().head.errors.at(0));
  EXPECT_FALSE(back->figures.at(1).value);
  EXPECT_FALSE(back->figures.at(1).change);
}

TEST(json, a_missing_value_is_null_and_a_missing_change_is_left_out) {
  const std::string text = wire::to_json(an_answer());
  const std::string waiting = text.substr(text.find("case.ratio"), text.find("findings") - text.find("case.ratio"));
  EXPECT_NE(waiting.find("\"value\": null"), std::string::npos);
  EXPECT_EQ(waiting.find("\"change\""), std::string::npos);
}

TEST(json, a_number_that_is_not_finite_is_never_written) {
  for (const double bad : {std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity()}) {
    wire::StudyAnswer answer = an_answer();
    answer.figures[0].high = bad;
    EXPECT_THROW(static_cast<void>(wire::to_json(answer)), std::logic_error);
  }
}

TEST(json, text_that_is_not_utf8_is_written_all_the_same) {
  wire::StudyAnswer answer = an_answer();
  answer.head.saw->name = "Larch \xFF";
  EXPECT_NE(wire::to_json(answer).find("Larch \uFFFD"), std::string::npos);
}

TEST(json, an_answer_of_another_kind_is_refused) {
  const auto back = wire::from_json<wire::CheckAnswer>(wire::to_json(an_answer()));
  ASSERT_FALSE(back);
  EXPECT_EQ(back.error().path, "schema");
}

TEST(json, a_missing_field_and_a_misfit_are_named_by_their_place) {
  std::string text = wire::to_json(an_answer());
  const std::string field = "\"unit\": \"deg\"";
  std::string without = text;
  without.replace(without.find(field), field.size(), "\"unti\": \"deg\"");
  const auto missing = wire::from_json<wire::StudyAnswer>(without);
  ASSERT_FALSE(missing);
  EXPECT_EQ(missing.error().path, "figures.1.unit");
  text.replace(text.find("\"caution\""), 9, "\"soon\"");
  const auto misfit = wire::from_json<wire::StudyAnswer>(text);
  ASSERT_FALSE(misfit);
  EXPECT_EQ(misfit.error().path, "findings.1.state");
}

TEST(json, a_key_that_is_not_known_is_passed_over) {
  std::string text = wire::to_json(an_answer());
  text.insert(text.find('{') + 1, "\"later\": {\"a\": 1},");
  EXPECT_TRUE(wire::from_json<wire::StudyAnswer>(text));
}

TEST(json, what_is_no_json_is_refused) {
  for (const char* text : {"", "{", "[]", "null", "{\"schema\": 1}"})
    EXPECT_FALSE(wire::from_json<wire::ErrorAnswer>(text)) << text;
}

TEST(json, every_kind_of_answer_has_a_schema_of_its_own) {
  const auto all = wire::schemas();
  EXPECT_EQ(all.size(), 36U);
  for (const wire::Schema& schema : all)
    EXPECT_NE(schema.text.find("\"portwright " + schema.name + " 1\""), std::string::npos) << schema.name;
}

}  // namespace
