#include <gmock/gmock.h>

#include <cstdlib>
#include <fstream>

#include "book/migrations.hpp"
#include "book/upgrade.hpp"
#include "unit/book/workshop.hpp"

// One book of each released schema, kept as it was written: it opens, is whole, and is the same by hash.
// A book of a new schema is written once with PORTWRIGHT_GOLDEN=write.
namespace book_test {
namespace {

using testing::IsEmpty;
using testing::SizeIs;

fs::path kept(int schema) {
  return fs::path(PORTWRIGHT_SOURCE_DIR) / "tests/golden/book" / ("schema_" + std::to_string(schema) + ".portwright");
}

void write_golden(int schema) {
  const Folder folder;
  const auto place = place_in(folder);
  std::string hash;
  {
    auto book = taken(book::Book::open(place));
    taken(book.act(
        adding("alder", R"({"name":"Alder","model":"A60","port":{"p1":{"opens":{"read":["101 deg","101.5 deg"]}}}})")));
    taken(book.act(adding("note", R"({"text":"Held its edge in frost"})", "alder", "note")));
    auto photo = setting("alder", "photo", "\"blob:" + book::hash_of("bytes") + "\"", taken(book.sequence()));
    photo.blobs.push_back({"bytes", "image/png"});
    taken(book.act(photo));
    taken(book.undo());
    auto bea = taken(book::Book::open(place_in(folder, "Bea")));
    taken(bea.act(setting("alder", "note", R"("hers")", taken(bea.sequence()))));
    book::Deed hide;
    hide.label = "hide the note";
    hide.hidden = {"note"};
    taken(book.act(hide));
    hash = taken(book.hash());
  }
  fs::create_directories(kept(schema).parent_path());
  fs::copy_file(place.path, kept(schema), fs::copy_options::overwrite_existing);
  std::ofstream(kept(schema).string() + ".hash") << hash << '\n';
}

TEST(golden_book, of_every_released_schema_opens_whole_and_the_same) {
  const char* mode = std::getenv("PORTWRIGHT_GOLDEN");
  if (mode != nullptr && std::string(mode) == "write" && !fs::exists(kept(book::newest_schema())))
    write_golden(book::newest_schema());
  for (int schema = 1; schema <= book::newest_schema(); ++schema) {
    ASSERT_TRUE(fs::exists(kept(schema))) << schema;
    const Folder folder;
    const auto place = place_in(folder);
    fs::create_directories(folder / "books");
    fs::copy_file(kept(schema), place.path);
    auto book = taken(book::Book::open(place));
    EXPECT_EQ(book.opening(), schema == book::newest_schema() ? book::Opening::current : book::Opening::upgraded);
    std::string hash;
    std::ifstream(kept(schema).string() + ".hash") >> hash;
    EXPECT_EQ(taken(book.hash()), hash);
    EXPECT_THAT(taken(book.verify()).faults, IsEmpty());
    EXPECT_THAT(taken(book.find("alder")), SizeIs(1));
    EXPECT_EQ(taken(book.undo()).label, "undo: hide the note");
  }
}

TEST(upgrade, leads_step_by_step_after_a_backup_that_opens_and_an_older_program_refuses_the_outcome) {
  const Folder folder;
  const auto place = place_in(folder);
  {
    auto book = taken(book::Book::open(place));
    taken(book.act(adding("alder", R"({"name":"Alder"})")));
  }
  std::vector<const char*> steps(book::migrations().begin(), book::migrations().end());
  const auto present = static_cast<std::int64_t>(steps.size());
  steps.push_back("CREATE TABLE tool (name TEXT) STRICT; INSERT INTO tool VALUES ('wheel')");
  steps.push_back("ALTER TABLE tool ADD COLUMN note TEXT");
  fs::remove_all(folder / "books/backups");
  book::Book::Inside inside;
  inside.place = place;
  inside.database = taken(book::connect(place, place.path, false));
  EXPECT_TRUE(taken(book::upgrade(inside, steps)));
  EXPECT_FALSE(taken(book::upgrade(inside, steps))) << "there is nothing left to do";
  EXPECT_EQ(taken(inside.database.number("PRAGMA user_version")), present + 2);
  EXPECT_EQ(taken(inside.database.number("SELECT count(*) FROM tool WHERE note IS NULL")), 1);
  inside.database = {};
  std::size_t backups = 0;
  for (const auto& entry : fs::directory_iterator(folder / "books/backups"))
    backups += entry.path().extension() == ".backup";
  EXPECT_EQ(backups, 1u);
  const auto refused = book::Book::open(place);
  ASSERT_FALSE(refused.has_value());
  EXPECT_EQ(refused.error().code, base::ErrorCode::newer);
}

TEST(upgrade, a_step_that_fails_leaves_the_book_at_the_schema_before_it) {
  const Folder folder;
  const auto place = place_in(folder);
  { taken(book::Book::open(place)); }
  std::vector<const char*> steps(book::migrations().begin(), book::migrations().end());
  steps.push_back("CREATE TABLE tool (name TEXT) STRICT; INSERT INTO nowhere VALUES (1)");
  book::Book::Inside inside;
  inside.place = place;
  inside.database = taken(book::connect(place, place.path, false));
  EXPECT_FALSE(book::upgrade(inside, steps).has_value());
  inside.database = {};
  EXPECT_THAT(taken(taken(book::Book::open(place)).verify()).faults, IsEmpty());
}

TEST(upgrade, an_open_book_notices_that_another_program_brought_it_further) {
  const Folder folder;
  const auto place = place_in(folder);
  auto book = taken(book::Book::open(place));
  auto other = taken(book::connect(place, place.path, false));
  taken(other.number("SELECT 1"));
  ASSERT_TRUE(other.run("PRAGMA user_version = 99").has_value());
  EXPECT_EQ(book.act(adding("x", "{}")).error().code, base::ErrorCode::newer);
}

}  // namespace
}  // namespace book_test
