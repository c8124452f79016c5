#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "desk/book.hpp"
#include "desk/desk.hpp"
#include "unit/cli/program.hpp"

namespace {

using namespace portwright;
using ::testing::HasSubstr;
using ::testing::SizeIs;

const std::string samples = std::string(PORTWRIGHT_SOURCE_DIR) + "/data/samples/";

class sisters : public ::testing::Test {
 protected:
  void SetUp() override {
    setenv("XDG_STATE_HOME", (folder.path() / "state").c_str(), 1);
    ASSERT_TRUE(desk::book_add({book, {samples + "hornbeam-66-a.saw.toml", samples + "hornbeam-66-b.saw.toml"}, ""}));
  }
  // A third one, like B but for its name.
  void add_third() const {
    std::string text = program::read_file(samples + "hornbeam-66-b.saw.toml");
    text = program::replaced(text, "Hornbeam 66 B", "Hornbeam 66 C");
    ASSERT_TRUE(desk::book_add({book, {folder.file("c.saw.toml", text)}, ""}));
  }
  [[nodiscard]] wire::SisterFigure figure(const std::string& id) const {
    const auto answer = desk::book_sisters({book, "hornbeam 66"});
    EXPECT_TRUE(answer);
    if (answer)
      for (const wire::SisterFigure& one : answer->figures)
        if (one.id == id) return one;
    return {};
  }
  program::Folder folder;
  std::string book = (folder.path() / "b" / "book.portwright").string();
};

TEST_F(sisters, the_casting_that_opens_earlier_is_named_and_its_range_says_it_is_real) {
  add_third();
  const wire::SisterFigure opens = figure("port.exhaust.opens");
  ASSERT_THAT(opens.saws, SizeIs(3));
  EXPECT_TRUE(opens.saws[0].real);
  EXPECT_NEAR(*opens.saws[0].apart, -1.6, 0.15);
  EXPECT_THAT(opens.saws[0].sentence, HasSubstr("deg earlier than the two others"));
  EXPECT_THAT(opens.saws[0].sentence, HasSubstr("the range says it is real"));
  EXPECT_GT(*opens.spread, 0.5);
}

TEST_F(sisters, a_floor_that_opens_at_a_greater_angle_before_tdc_is_earlier) {
  const wire::SisterFigure rear = figure("port.rear.opens");
  ASSERT_THAT(rear.saws, SizeIs(2));
  EXPECT_GT(*rear.saws[0].apart, 0.0);
  EXPECT_THAT(rear.saws[0].sentence, HasSubstr("earlier than Hornbeam 66 B"));
}

TEST_F(sisters, what_errors_of_reading_explain_is_no_spread_and_nobody_stands_apart) {
  const wire::SisterFigure rod = figure("crank.rod_ratio");
  ASSERT_THAT(rod.saws, SizeIs(2));
  EXPECT_EQ(*rod.spread, 0.0);
  EXPECT_FALSE(rod.saws[0].real || rod.saws[1].real);
}

TEST_F(sisters, a_model_is_found_by_a_saw_and_a_mistyped_one_has_a_nearest) {
  EXPECT_TRUE(desk::book_sisters({book, "hornbeam-66-a"}));
  const auto none = desk::book_sisters({book, "Hornbaem 66"});
  ASSERT_FALSE(none);
  EXPECT_EQ(none.error().front().hint, "Did you mean Hornbeam 66?");
  ASSERT_TRUE(desk::book_hide({book, "hornbeam-66-b"}));
  EXPECT_FALSE(desk::book_sisters({book, "Hornbeam 66"}));
}

TEST_F(sisters, a_borrowed_saw_is_wide_marked_and_gives_way_to_what_is_read) {
  const auto borrowed = desk::book_borrow({book, "hornbeam-66-a", "Hornbeam 66 D"});
  ASSERT_TRUE(borrowed) << borrowed.error().front().message;
  const auto shown = desk::book_show({book, "hornbeam-66-d"});
  ASSERT_TRUE(shown);
  int marked = 0;
  for (const wire::BookField& field : shown->fields) marked += field.borrowed_from == "Hornbeam 66 A" ? 1 : 0;
  EXPECT_GT(marked, 60);
  EXPECT_EQ(shown->saw.model, "Hornbeam 66");
  EXPECT_TRUE(std::none_of(shown->fields.begin(), shown->fields.end(),
                           [](const auto& field) { return field.path.starts_with("readings."); }));
  const auto width = [&](const std::string& saw) {
    const auto answer = desk::study({"book:" + saw, "", {}, base::UnitStyle::shop, book});
    EXPECT_TRUE(answer && answer->head.errors.empty());
    for (const auto& figure : answer->figures)
      if (figure.id == "port.exhaust.opens") return *figure.high - *figure.low;
    return 0.0;
  };
  EXPECT_GT(width("hornbeam-66-d"), 2.0 * width("hornbeam-66-a"));
  desk::BookSetRequest request;
  request.book = book;
  request.saw = "hornbeam-66-d";
  request.field = "port.exhaust.opens";
  request.value = "105.5 deg";
  ASSERT_TRUE(desk::book_set(request));
  const auto read = desk::book_show({book, "hornbeam-66-d"});
  ASSERT_TRUE(read);
  for (const wire::BookField& field : read->fields)
    if (field.path == request.field) {
      EXPECT_EQ(field.borrowed_from, "");
      EXPECT_EQ(field.note, "");
    }
}

}  // namespace
