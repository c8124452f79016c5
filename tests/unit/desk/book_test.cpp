// The use cases of the book, on books in folders of their own.
#include "desk/book.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <functional>
#include <map>

#include "desk/desk.hpp"
#include "saw/file.hpp"
#include "unit/cli/program.hpp"

namespace {

using namespace portwright;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::SizeIs;
namespace fs = std::filesystem;

const std::string samples = std::string(PORTWRIGHT_SOURCE_DIR) + "/data/samples/";

class bench_book : public ::testing::Test {
 protected:
  void SetUp() override {
    setenv("XDG_STATE_HOME", (folder.path() / "state").c_str(), 1);
    setenv("PORTWRIGHT_AUTHOR", "ann", 1);
  }
  program::Folder folder;
  std::string book = (folder.path() / "b" / "book.portwright").string();

  wire::BookAddAnswer add(const std::vector<std::string>& files, const std::string& to = {}) const {
    auto answer = desk::book_add({book, files, to});
    EXPECT_TRUE(answer) << (answer ? "" : answer.error().front().message);
    return answer ? *answer : wire::BookAddAnswer{};
  }
  wire::BookAddAnswer add_larch() const { return add({folder.file("larch.saw.toml", program::larch)}); }
  [[nodiscard]] desk::BookSetRequest setting(const std::string& field, const std::string& value) const {
    desk::BookSetRequest request;
    request.book = book;
    request.saw = "larch";
    request.field = field;
    request.value = value;
    return request;
  }
  [[nodiscard]] wire::BookField field(const std::string& path) const {
    const auto shown = desk::book_show({book, "larch"});
    if (shown)
      for (const wire::BookField& one : shown->fields)
        if (one.path == path) return one;
    return {};
  }
  [[nodiscard]] wire::StudyAnswer study(const std::string& cuts = {}) const {
    auto answer = desk::study({"book:larch-70", cuts, {}, base::UnitStyle::shop, book});
    EXPECT_TRUE(answer) << (answer ? "" : answer.error().front().message);
    return answer ? *answer : wire::StudyAnswer{};
  }
};

TEST_F(bench_book, a_saw_of_the_book_answers_as_its_file_does) {
  for (const fs::path& sample : program::samples()) {
    const auto added = add({sample.string()});
    ASSERT_THAT(added.added, SizeIs(1));
    const auto file = desk::study({sample.string(), "", {}}),
               kept = desk::study({"book:" + added.added[0].saw, "", {}, base::UnitStyle::shop, book});
    ASSERT_TRUE(file && kept) << sample;
    ASSERT_EQ(file->figures.size(), kept->figures.size());
    for (std::size_t i = 0; i < file->figures.size(); ++i) {
      EXPECT_EQ(file->figures[i].value, kept->figures[i].value) << file->figures[i].id;
      EXPECT_EQ(file->figures[i].text, kept->figures[i].text) << file->figures[i].id;
    }
    EXPECT_EQ(file->head.saw->name, kept->head.saw->name);
    EXPECT_EQ(file->head.saw->casting, kept->head.saw->casting);
  }
}

TEST_F(bench_book, the_same_file_is_added_once_and_all_files_or_none) {
  const auto first = add_larch();
  const auto second = add_larch();
  EXPECT_FALSE(first.added[0].already);
  EXPECT_TRUE(second.added[0].already);
  EXPECT_EQ(second.added[0].saw, first.added[0].saw);
  const std::string bad = folder.file("bad.saw.toml", "name = \"A\n");
  const auto refused = desk::book_add({book, {samples + "oak-110.saw.toml", bad}, ""});
  ASSERT_FALSE(refused);
  EXPECT_THAT(refused.error().front().message, HasSubstr("bad.saw.toml"));
  EXPECT_THAT(desk::book_list({book})->saws, SizeIs(1));
}

TEST_F(bench_book, two_saws_of_one_name_are_told_apart_by_their_ids) {
  const auto one = add_larch();
  const auto other = add({folder.file("other.saw.toml", program::replaced(program::larch, "50.0 mm", "50.1 mm"))});
  EXPECT_THAT(other.head.notices, Contains(HasSubstr("2 saws called Larch 70")));
  const auto shown = desk::book_show({book, "Larch 70"});
  ASSERT_FALSE(shown);
  EXPECT_EQ(base::exit_status(shown.error().front().code), 4);
  EXPECT_THAT(shown.error().front().readings, SizeIs(2));
  EXPECT_THAT(shown.error().front().readings, Contains(HasSubstr(one.added[0].saw)));
  EXPECT_TRUE(desk::book_show({book, other.added[0].saw}));
}

TEST_F(bench_book, names_are_found_without_capitals_by_their_beginning_and_mistyped_ones_have_a_nearest) {
  add_larch();
  for (const char* name : {"Larch 70", "larch-70", "LARCH", "lar", "Larch70"})
    EXPECT_TRUE(desk::book_show({book, name})) << name;
  const auto none = desk::book_show({book, "Lrach 70"});
  ASSERT_FALSE(none);
  EXPECT_EQ(none.error().front().code, base::ErrorCode::not_found);
  EXPECT_EQ(none.error().front().hint, "Did you mean Larch 70?");
  EXPECT_FALSE(desk::book_show({book, ""}));
}

TEST_F(bench_book, a_reading_is_kept_as_typed_with_instrument_and_repeats) {
  add_larch();
  auto request = setting("port.exhaust.opens", "101,5 deg");
  request.with = "wheel";
  const auto set = desk::book_set(request);
  ASSERT_TRUE(set) << set.error().front().message;
  EXPECT_THAT(set->action->label, HasSubstr("port.exhaust.opens 103 deg \u2192 101,5 deg"));
  EXPECT_THAT(set->head.errors, IsEmpty());
  request = setting("port.exhaust.opens", "101 deg");
  request.again = true;
  ASSERT_TRUE(desk::book_set(request));
  const wire::BookField field = this->field("port.exhaust.opens");
  EXPECT_THAT(field.typed, ElementsAre("101,5 deg", "101 deg"));
  EXPECT_EQ(field.with, "wheel");
  EXPECT_EQ(study().figures[0].value.has_value(), true);
  request = setting("port.exhaust.opens", "");
  request.clear = true;
  ASSERT_TRUE(desk::book_set(request));
  EXPECT_EQ(this->field("port.exhaust.opens").path, "");
}

TEST_F(bench_book, a_text_that_cannot_be_read_is_kept_and_named_until_it_is_mended) {
  add_larch();
  const auto set = desk::book_set(setting("crank.stroke", "36 cc"));
  ASSERT_TRUE(set);
  ASSERT_THAT(set->head.errors, SizeIs(1));
  EXPECT_EQ(set->head.errors[0].path, "crank.stroke");
  EXPECT_THAT(field("crank.stroke").typed, ElementsAre("36 cc"));
  EXPECT_THAT(study().head.errors, SizeIs(1));
  ASSERT_TRUE(desk::book_set(setting("crank.stroke", "36 mm")));
  EXPECT_THAT(study().head.errors, IsEmpty());
}

TEST_F(bench_book, what_would_leave_no_saw_to_read_is_refused_and_nothing_is_written) {
  add_larch();
  const auto before = desk::book_journal({book})->actions.size();
  for (const auto& [path, value] : std::vector<std::pair<std::string, std::string>>{
           {"port.exhaust.kind", "chimney"}, {"port.primary.name", "Primary!"}, {"port.primary.name", "exhaust"}})
    EXPECT_FALSE(desk::book_set(setting(path, value))) << path;
  auto request = setting("name", "");
  request.clear = true;
  EXPECT_FALSE(desk::book_set(request));
  EXPECT_EQ(desk::book_journal({book})->actions.size(), before);
}

TEST_F(bench_book, an_unknown_field_is_answered_with_the_nearest_and_nothing_is_written) {
  add_larch();
  for (const auto& [typed, near] : std::vector<std::pair<std::string, std::string>>{
           {"port.exhaust.opns", "port.exhaust.opens"}, {"crank.strok", "crank.stroke"}, {"strok", "crank.stroke"}}) {
    const auto set = desk::book_set(setting(typed, "1 mm"));
    ASSERT_FALSE(set) << typed;
    EXPECT_EQ(set.error().front().code, base::ErrorCode::not_found);
    EXPECT_EQ(set.error().front().hint, "Did you mean " + near + '?');
  }
  const auto several = desk::book_set(setting("width", "1 mm"));
  ASSERT_FALSE(several);
  EXPECT_THAT(several.error().front().readings, Contains("port.exhaust.width"));
  EXPECT_EQ(desk::book_journal({book})->actions.size(), 1u);
}

TEST_F(bench_book, ports_rings_places_flags_and_lists_are_begun_by_setting_them) {
  add_larch();
  for (const auto& [path, value] :
       std::vector<std::pair<std::string, std::string>>{{"port.booster.kind", "boost"},
                                                        {"port.booster.opens", "122 deg"},
                                                        {"port.booster.mirrored", "yes"},
                                                        {"piston.ring.2.below_crown", "5.5 mm"},
                                                        {"cylinder.squish.left", "0.91 mm"},
                                                        {"drive.teeth", "8"},
                                                        {"muffler.outlets", "1.4 cm2; 0.9 cm2"},
                                                        {"ignition.curve", "800 rpm, 8 deg; 9000 rpm, 26 deg"}}) {
    const auto set = desk::book_set(setting(path, value));
    ASSERT_TRUE(set) << path << ": " << set.error().front().message;
    EXPECT_THAT(set->head.errors, IsEmpty()) << path;
  }
  EXPECT_THAT(field("port.booster.mirrored").typed, ElementsAre("true"));
  EXPECT_THAT(field("muffler.outlets").typed, ElementsAre("1.4 cm2", "0.9 cm2"));
  EXPECT_THAT(field("ignition.curve").typed, ElementsAre("800 rpm", "8 deg", "9000 rpm", "26 deg"));
  EXPECT_EQ(study().head.saw->ports.size(), 4u);
  EXPECT_FALSE(desk::book_set(setting("piston.ring.5.peg", "10 deg")));
  EXPECT_FALSE(desk::book_set(setting("port.nowhere.opens", "10 deg")));
}

TEST_F(bench_book, a_reading_that_contradicts_another_is_kept_and_said) {
  add_larch();
  const auto set = desk::book_set(setting("port.exhaust.roof", "45 mm"));
  ASSERT_TRUE(set);
  EXPECT_THAT(set->head.notices, ::testing::Not(IsEmpty()));
}

TEST_F(bench_book, undo_and_redo_go_by_author_and_every_deed_has_its_inverse) {
  add_larch();
  const auto text = [&] {
    std::string out;
    const auto shown = desk::book_show({book, "larch"});
    if (!shown) return std::string("hidden");
    for (const wire::BookField& field : shown->fields)
      out += field.path + '=' + ::testing::PrintToString(field.typed) + '\n';
    for (const wire::BookRecord& record : shown->records)
      for (const wire::BookDetail& detail : record.details)
        out += detail.name + '=' + ::testing::PrintToString(detail.texts) + '\n';
    return out + (shown->saw.hidden ? "hidden" : "");
  };
  const std::vector<std::function<bool()>> deeds{
      [&] { return desk::book_set(setting("crank.stroke", "35 mm")).has_value(); },
      [&] { return desk::book_set(setting("port.x.kind", "boost")).has_value(); },
      [&] {
        return desk::book_note({book, "larch", "a note"}).has_value();
      },
      [&] {
        return desk::book_wood({book, "larch", "", "oak", "", "", "12 s"}).has_value();
      },
      [&] {
        return desk::book_result({book, "larch", "gasket out", "a try"}).has_value();
      },
      [&] {
        return desk::book_failure({book, "larch", "ring caught"}).has_value();
      },
      [&] {
        return desk::book_cut({book, "larch", "gasket out"}).has_value();
      },
      [&] {
        return desk::book_cut({book, "larch", "gasket out", "", true}).has_value();
      },
      [&] {
        return desk::book_accept({book, "larch", "exhaust.specific_time_area", "a reason"}).has_value();
      },
      [&] {
        return desk::book_hide({book, "larch"}).has_value();
      }};
  for (std::size_t i = 0; i < deeds.size(); ++i) {
    const std::string before = text();
    ASSERT_TRUE(deeds[i]()) << i;
    const std::string after = text();
    EXPECT_NE(before, after) << i;
    ASSERT_TRUE(desk::book_undo({book})) << i;
    EXPECT_EQ(text(), before) << i;
    ASSERT_TRUE(desk::book_redo({book})) << i;
    EXPECT_EQ(text(), after) << i;
  }
  setenv("PORTWRIGHT_AUTHOR", "ben", 1);
  const auto nothing = desk::book_undo({book});
  ASSERT_FALSE(nothing);
  EXPECT_EQ(nothing.error().front().code, base::ErrorCode::not_found);
}

TEST_F(bench_book, a_result_keeps_its_figures_with_their_case_and_tells_when_the_readings_are_others) {
  add({samples + "larch-70.saw.toml"});
  ASSERT_TRUE(desk::book_result({book, "larch", "", "as it came"}));
  const auto turned = desk::book_result({book, "larch", "gasket out; roof exhaust +0.5 mm", "", "8000"});
  ASSERT_TRUE(turned) << turned.error().front().message;
  const auto results = [&] {
    const auto shown = desk::book_show({book, "larch"});
    EXPECT_TRUE(shown);
    std::vector<std::map<std::string, std::vector<std::string>>> out;
    for (const wire::BookRecord& record : shown->records) {
      if (record.kind != "result") continue;
      out.emplace_back();
      for (const wire::BookDetail& detail : record.details) out.back()[detail.name] = detail.texts;
    }
    return out;
  };
  auto kept = results();
  ASSERT_THAT(kept, SizeIs(2));
  const std::size_t stock = kept[0].contains("title") ? 0 : 1, cut = 1 - stock;
  EXPECT_THAT(kept[cut]["cuts"], ElementsAre("gasket out", "roof exhaust +0.5 mm"));
  EXPECT_THAT(kept[stock]["version"], ElementsAre(wire::program_name()));
  EXPECT_FALSE(kept[stock].contains("stale"));
  EXPECT_THAT(kept[cut]["curve"], ElementsAre(HasSubstr("8000 rpm")));
  // The figures are those of the study, each with its range.
  const wire::StudyAnswer now = study();
  std::size_t with_value = 0;
  for (const study::Figure& figure : now.figures)
    if (figure.value) {
      ++with_value;
      EXPECT_THAT(kept[stock]["figures"], Contains(HasSubstr(figure.id + ": " + figure.text)));
    }
  EXPECT_THAT(kept[stock]["figures"], SizeIs(with_value));
  EXPECT_NE(kept[stock]["figures"], kept[cut]["figures"]);

  ASSERT_TRUE(desk::book_set(setting("crank.stroke", "35 mm")));
  auto later = results();
  EXPECT_THAT(later[stock]["stale"], ElementsAre("the readings are others now"));
  EXPECT_EQ(later[stock]["figures"], kept[stock]["figures"]);
  ASSERT_TRUE(desk::book_undo({book}));
  EXPECT_FALSE(results()[stock].contains("stale"));
  EXPECT_FALSE(desk::book_result({book, "larch", "lower the moon"}));
  EXPECT_THAT(results(), SizeIs(2));
}

TEST_F(bench_book, a_hidden_saw_is_out_of_sight_and_comes_back) {
  add_larch();
  ASSERT_TRUE(desk::book_hide({book, "larch"}));
  EXPECT_THAT(desk::book_list({book})->saws, IsEmpty());
  EXPECT_EQ(desk::book_list({book})->hidden, 1);
  EXPECT_FALSE(desk::study({"book:larch", "", {}, base::UnitStyle::shop, book}));
  EXPECT_THAT(desk::book_find({book, "larch"})->found, IsEmpty());
  ASSERT_TRUE(desk::book_bring_back({book, "larch"}));
  EXPECT_THAT(desk::book_list({book})->saws, SizeIs(1));
}

TEST_F(bench_book, an_accepted_finding_is_held_until_its_value_changes) {
  add_larch();
  const auto is_accepted = [](const wire::StudyAnswer& answer) {
    return std::any_of(answer.findings.begin(), answer.findings.end(),
                       [](const auto& f) { return f.figure == "squish.working" && f.accepted; });
  };
  ASSERT_TRUE(desk::book_set(setting("cylinder.squish.exhaust", "0.40 mm")));
  ASSERT_TRUE(desk::book_set(setting("cylinder.squish.intake", "0.40 mm")));
  ASSERT_FALSE(is_accepted(study()));
  EXPECT_FALSE(desk::book_accept({book, "larch", "squish.working", "  "}));
  EXPECT_FALSE(desk::book_accept({book, "larch", "squish.wrking", "x"}));
  ASSERT_TRUE(desk::book_accept({book, "larch", "working", "read twice with solder"}));
  wire::StudyAnswer answer = study();
  EXPECT_TRUE(is_accepted(answer));
  ASSERT_THAT(answer.acceptances, SizeIs(1));
  EXPECT_FALSE(answer.acceptances[0].stale);
  EXPECT_EQ(answer.acceptances[0].reason, "read twice with solder");
  ASSERT_TRUE(desk::book_set(setting("cylinder.squish.exhaust", "0.38 mm")));
  answer = study();
  EXPECT_FALSE(is_accepted(answer));
  EXPECT_TRUE(answer.acceptances[0].stale);
  ASSERT_TRUE(desk::book_accept({book, "larch", "squish.working", "and again"}));
  EXPECT_TRUE(is_accepted(study()));
  EXPECT_THAT(study().acceptances, SizeIs(1));
  EXPECT_FALSE(is_accepted(study("gasket out")));
}

TEST_F(bench_book, a_plan_is_marked_done_and_a_bad_one_is_refused) {
  add_larch();
  ASSERT_TRUE(desk::book_cut({book, "larch", "gasket out; roof exhaust +0.5 mm", "mild"}));
  EXPECT_EQ(desk::book_list({book})->saws[0].planned, 1);
  ASSERT_TRUE(desk::book_cut({book, "larch", "gasket out;roof exhaust +0.5 mm", "", true}));
  EXPECT_EQ(desk::book_list({book})->saws[0].planned, 0);
  EXPECT_EQ(desk::book_list({book})->saws[0].done, 1);
  EXPECT_EQ(desk::book_cut({book, "larch", "sand exhaust"}).error().front().code, base::ErrorCode::bad_cut);
  EXPECT_FALSE(desk::book_cut({book, "larch", "roof nowhere +1 mm"}));
}

TEST_F(bench_book, a_test_in_the_wood_keeps_what_cannot_be_read) {
  add_larch();
  desk::BookWoodRequest request{book, "larch"};
  request.times = "12,1 s; quick";
  request.rpm = "8700 rpm";
  const auto done = desk::book_wood(request);
  ASSERT_TRUE(done);
  ASSERT_THAT(done->head.errors, SizeIs(1));
  EXPECT_THAT(done->head.errors[0].message, HasSubstr("quick"));
  EXPECT_FALSE(desk::book_wood({book, "larch"}));
}

TEST_F(bench_book, the_search_finds_notes_and_readings) {
  add_larch();
  ASSERT_TRUE(desk::book_note({book, "larch", "The gasket was torn."}));
  const auto found = desk::book_find({book, "gasket tor"});
  ASSERT_TRUE(found);
  ASSERT_THAT(found->found, SizeIs(1));
  EXPECT_EQ(found->found[0].kind, "note");
  EXPECT_EQ(found->found[0].name, "Larch 70");
}

TEST_F(bench_book, a_file_is_written_again_and_never_over_another) {
  add_larch();
  const std::string out = (folder.path() / "again.saw.toml").string();
  ASSERT_TRUE(desk::book_toml({book, "larch", out}));
  const auto first = saw::read_saw(program::larch), again = saw::read_saw_file(out);
  ASSERT_TRUE(again);
  EXPECT_EQ(again->readings, first->readings);
  EXPECT_FALSE(desk::book_toml({book, "larch", out}));
}

TEST_F(bench_book, of_two_sets_the_newest_is_the_saw) {
  const auto added = add_larch();
  const auto cut = add({folder.file("cut.saw.toml", program::replaced(program::larch, "103 deg", "101 deg"))}, "larch");
  EXPECT_EQ(cut.added[0].saw, added.added[0].saw);
  EXPECT_THAT(field("port.exhaust.opens").typed, ElementsAre("101 deg"));
  EXPECT_THAT(desk::book_show({book, "larch"})->sets, SizeIs(2));
  const auto older = desk::book_show({book, added.added[0].readings});
  ASSERT_TRUE(older);
  EXPECT_THAT(older->fields, Contains(::testing::Field(&wire::BookField::typed, ElementsAre("103 deg"))));
}

TEST_F(bench_book, a_book_that_is_none_is_refused_and_left_as_it_is) {
  fs::create_directories(folder.path() / "b");
  const std::string text = std::string(5000, 'x');
  program::write_file(book, text);
  EXPECT_FALSE(desk::book_list({book}));
  EXPECT_FALSE(desk::book_add({book, {samples + "oak-110.saw.toml"}, ""}));
  EXPECT_EQ(program::read_file(book), text);
  EXPECT_FALSE(desk::book_list({(folder.path() / "none" / "book").string()}));
  EXPECT_FALSE(fs::exists(folder.path() / "none"));
}

}  // namespace
