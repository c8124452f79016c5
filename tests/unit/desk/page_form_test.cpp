// Readings as a form: every field has its words, everything typed appears.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <set>

#include "desk/book/field_path.hpp"
#include "desk/book/saw_tree.hpp"
#include "desk/page.hpp"
#include "desk/page/fields_seen.hpp"
#include "saw/file.hpp"
#include "saw/guide.hpp"
#include "sheet/measuring_drawings.hpp"
#include "wire/json_page.hpp"

namespace {

using namespace portwright;
using testing::Contains;
using testing::HasSubstr;
using testing::IsEmpty;
namespace fs = std::filesystem;

const fs::path samples = fs::path(PORTWRIGHT_SOURCE_DIR) / "data/samples";

wire::FormAnswer form_of(const std::string& file) {
  const auto answer = desk::form({file});
  if (!answer) throw std::runtime_error(answer.error().front().message);
  return *answer;
}

const wire::FormField* find(const wire::FormAnswer& form, const std::string& path) {
  for (const wire::FormGroup& group : form.groups)
    for (const wire::FormField& field : group.fields)
      if (field.path == path) return &field;
  return nullptr;
}

TEST(guide, has_words_a_step_and_an_example_for_every_field_and_none_for_what_is_none) {
  std::set<std::string> groups, drawings, seen_paths;
  for (const saw::GuideGroup& group : saw::guide_groups()) groups.insert(std::string(group.id));
  desk::see_fields(saw::example_readings(), [&](const desk::FieldSeen& seen) {
    seen_paths.insert(seen.general);
    if (seen.general == "format") return;
    const saw::GuideRow* row = saw::guide_row(seen.general);
    ASSERT_NE(row, nullptr) << seen.general;
    EXPECT_FALSE(row->label.empty()) << seen.general;
    EXPECT_TRUE(row->how.ends_with(".") || row->how.ends_with("?")) << seen.general;
    EXPECT_THAT(groups, Contains(std::string(row->group))) << seen.general;
  });
  for (const saw::GuideRow& row : saw::guide_rows()) {
    EXPECT_THAT(seen_paths, Contains(std::string(row.path)));
    if (row.drawing.empty()) continue;
    const auto all = sheet::named_drawings();
    const auto drawing = std::find_if(all.begin(), all.end(), [&](const auto& d) { return d.name == row.drawing; });
    ASSERT_NE(drawing, all.end()) << row.path;
    EXPECT_GE(row.number, 1) << row.path;
    EXPECT_LE(row.number, drawing->numbers) << row.path;
  }
}

TEST(form, shows_every_text_that_was_typed_in_every_sample) {
  for (const auto& entry : fs::directory_iterator(samples)) {
    const std::string file = entry.path().string();
    const wire::FormAnswer form = form_of(file);
    const auto read = saw::read_saw_file(file);
    ASSERT_TRUE(read);
    int taken = 0;
    desk::see_fields(read->readings, [&](const desk::FieldSeen& seen) {
      if (seen.typed.empty() || seen.general == "format") return;
      const wire::FormField* field = find(form, seen.path);
      ASSERT_NE(field, nullptr) << seen.path;
      EXPECT_EQ(field->typed, seen.typed) << seen.path;
      if (field->kind == "reading" && field->errors.empty()) {
        EXPECT_FALSE(field->read.empty()) << seen.path;
      }
      ++taken;
    });
    EXPECT_EQ(form.taken, taken) << file;
    EXPECT_GE(form.asked, form.taken) << file;
  }
}

TEST(form, names_each_field_once_and_as_the_book_finds_it) {
  const std::string file = (samples / "alder-60.saw.toml").string();
  const book::Tree tree = desk::tree_of(saw::read_saw_file(file)->readings);
  std::set<std::string> paths;
  for (const wire::FormGroup& group : form_of(file).groups) {
    EXPECT_FALSE(group.label.empty());
    for (const wire::FormField& field : group.fields) {
      EXPECT_TRUE(paths.insert(field.path).second) << field.path;
      EXPECT_FALSE(field.label.empty()) << field.path;
      const auto place = desk::find_field(tree, field.path);
      ASSERT_TRUE(place) << field.path << ": " << place.error().message;
      EXPECT_EQ(place->shown, field.path);
    }
  }
  EXPECT_GT(paths.size(), 100u);
}

TEST(form, gives_each_window_an_example_of_its_own_kind) {
  const wire::FormAnswer form = form_of((samples / "alder-60.saw.toml").string());
  const auto typical = [&](const std::string& path) {
    const wire::FormField* field = find(form, path);
    return field == nullptr ? "no field" : field->typical;
  };
  EXPECT_EQ(typical("port.exhaust.opens"), "103 deg");
  EXPECT_EQ(typical("port.primary.opens"), "121 deg");
  EXPECT_EQ(typical("port.rear.opens"), "68 deg");   // before TDC
  EXPECT_EQ(typical("port.rear.closes"), "68 deg");  // after TDC
  EXPECT_EQ(typical("port.rear.roof"), "16.5 mm");   // under the exhaust's floor
  EXPECT_EQ(typical("port.primary.roof"), typical("port.exhaust.roof"));
}

TEST(form, says_what_is_wrong_beside_the_field_and_offers_the_only_words) {
  const fs::path file = fs::path(testing::TempDir()) / "page_form.saw.toml";
  std::ofstream(file) << "format = \"portwright saw 1\"\nname = \"Bad\"\n[crank]\nbore = \"48 cc\"\n"
                         "[intake]\nkind = \"skirt\"\n";
  const wire::FormAnswer form = form_of(file.string());
  const wire::FormField* bore = find(form, "crank.bore");
  ASSERT_NE(bore, nullptr);
  ASSERT_EQ(bore->errors.size(), 1u);
  EXPECT_THAT(bore->typed, testing::ElementsAre("48 cc"));
  EXPECT_TRUE(bore->read.empty());
  EXPECT_THAT(bore->units, Contains("thou"));
  EXPECT_EQ(bore->drawing, "section");
  const wire::FormField* kind = find(form, "intake.kind");
  ASSERT_NE(kind, nullptr);
  EXPECT_EQ(kind->kind, "choice");
  EXPECT_THAT(kind->choices, Contains("skirt"));
  EXPECT_TRUE(find(form, "intake.reed.petals")->seldom);
  EXPECT_FALSE(form.missing.empty());
  for (const wire::FormMissing& one : form.missing) EXPECT_FALSE(one.gain.empty()) << one.path;
  EXPECT_THAT(form.may_add.front().path, HasSubstr("port.exhaust.kind"));
}

TEST(form, comes_back_through_the_reader_as_it_was) {
  const std::string json = wire::to_json(form_of((samples / "spruce-92.saw.toml").string()));
  const auto again = wire::from_json<wire::FormAnswer>(json);
  ASSERT_TRUE(again) << again.error().message;
  EXPECT_EQ(wire::to_json(*again), json);
}

TEST(drawing, each_by_its_name_with_the_reading_in_hand_in_blue) {
  for (const sheet::NamedDrawing& one : sheet::named_drawings()) {
    const auto plain = desk::drawing({std::string(one.name)}), marked = desk::drawing({std::string(one.name), 1});
    ASSERT_TRUE(plain && marked) << one.name;
    EXPECT_THAT(*plain, HasSubstr("<svg")) << one.name;
    EXPECT_TRUE(*plain != *marked) << one.name;
  }
  const auto none = desk::drawing({"solderr"});
  ASSERT_FALSE(none);
  EXPECT_EQ(none.error().front().code, base::ErrorCode::not_found);
  EXPECT_THAT(none.error().front().hint, HasSubstr("solder"));
}

}  // namespace
