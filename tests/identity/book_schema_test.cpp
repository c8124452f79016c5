// Answers of the book against their published schemas.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "cli/commands.hpp"
#include "identity/json_schema_check.hpp"
#include "unit/cli/program.hpp"
#include "unit/support/photo.hpp"

namespace {

using namespace portwright;
using json_schema::Json;
using ::testing::IsEmpty;
namespace fs = std::filesystem;

const fs::path root = PORTWRIGHT_SOURCE_DIR;

TEST(book_schema, every_command_of_the_book_answers_in_its_published_shape) {
  const program::Folder folder;
  const auto place = [&](const char* name) { return (folder.path() / name).string(); };
  const std::string environment = "PORTWRIGHT_BOOK=" + program::quoted(place("b/book.portwright")) +
                                  " XDG_STATE_HOME=" + program::quoted(place("state"));
  const std::string a = (root / "data/samples/hornbeam-66-a.saw.toml").string(),
                    b = (root / "data/samples/hornbeam-66-b.saw.toml").string(), saw = "hornbeam-66-a",
                    photo = folder.file("photo.jpg", photo_test::jpeg());
  std::set<std::string> walked;
  for (const std::vector<std::string>& words :
       std::vector<std::vector<std::string>>{{"where"},
                                             {"list"},
                                             {"add", a, b},
                                             {"list"},
                                             {"show", saw},
                                             {"show", saw, "--toml", "-o", place("a.saw.toml")},
                                             {"set", saw, "crank.bore", "48.02 mm"},
                                             {"set", saw, "crank.stroke", "36 cc"},
                                             {"set", saw, "crank.strok", "3"},
                                             {"undo"},
                                             {"redo"},
                                             {"undo"},
                                             {"find", "wheel"},
                                             {"sisters", "Hornbeam 66"},
                                             {"borrow", saw, "C"},
                                             {"note", saw, "a note"},
                                             {"result", saw, "--title", "as it came"},
                                             {"photo", saw, photo, "--caption", "as found"},
                                             {"photo", saw, a},
                                             {"photos", saw},
                                             {"wood", saw, "--times", "12 s; quick"},
                                             {"failure", saw, "ring"},
                                             {"accept", saw, "wall.least", "--reason", "looked at"},
                                             {"cut", saw, "gasket out"},
                                             {"cut", saw, "gasket out", "--done"},
                                             {"journal"},
                                             {"journal", saw, "--last", "2"},
                                             {"hide", saw},
                                             {"list", "--hidden"},
                                             {"bring-back", saw},
                                             {"export", place("out")},
                                             {"export", place("one.json"), "--saw", saw},
                                             {"import", place("out")},
                                             {"import", place("one.json"), "--yes"},
                                             {"backup", place("stick")},
                                             {"verify"},
                                             {"where"},
                                             {"restore", place("none")}}) {
    std::vector<std::string> asked{"book"};
    asked.insert(asked.end(), words.begin(), words.end());
    asked.push_back("--json");
    walked.insert("book " + words[0]);
    const auto ran = program::run(asked, "", environment);
    const Json answer = Json::parse(ran.out, nullptr, false);
    ASSERT_FALSE(answer.is_discarded()) << words[0] << ": " << ran.out.substr(0, 300) << ran.err;
    EXPECT_THAT(ran.err, IsEmpty()) << words[0];
    const std::string named = answer.at("schema").get<std::string>();
    const std::string name = named.substr(11, named.rfind(' ') - 11);
    const Json schema = Json::parse(program::read_file(root / "docs/schema" / (name + ".json")), nullptr, false);
    ASSERT_TRUE(schema.is_object()) << name;
    EXPECT_THAT(json_schema::faults(schema, answer), IsEmpty()) << words[0];
    std::vector<std::string> extra;
    json_schema::unpublished(schema, schema, answer, "answer", extra);
    EXPECT_THAT(extra, IsEmpty()) << words[0];
  }
  for (const cli::Command* command : cli::members_of(*cli::find_command(std::string_view("book"))))
    EXPECT_EQ(walked.count(std::string(command->name)), 1u) << command->name << " is not walked here";
}

}  // namespace
