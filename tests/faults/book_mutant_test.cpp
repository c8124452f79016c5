#include <gmock/gmock.h>

#include <cstdlib>
#include <fstream>
#include <iterator>
#include <map>
#include <random>

#include "unit/book/workshop.hpp"

// Spoilt files: flipped bits, cut ends, blank and exchanged stretches, in a closed book and in one that was left open.
// Every one is refused with a reason, or announced by the alarm, or gives exactly the answers of the sound book. Longer
// run: PORTWRIGHT_BOOK_MUTANTS (tools/book_endurance).
namespace book_test {
namespace {

using testing::AnyOf;
using testing::IsEmpty;

#ifdef PORTWRIGHT_SANITIZED
constexpr int default_mutants = 200;
#else
constexpr int default_mutants = 1000;
#endif

std::string bytes_of(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

void put_bytes(const std::string& path, const std::string& bytes) {
  std::ofstream(path, std::ios::binary | std::ios::trunc) << bytes;
}

std::string spoilt(std::string bytes, std::mt19937& chance) {
  if (bytes.empty()) return "x";
  const auto place = [&] { return chance() % bytes.size(); };
  switch (chance() % 8) {
    case 0:
      bytes.resize(place());
      return bytes;
    case 1:
      return bytes.substr(0, place() / 512 * 512);
    case 2: {
      const std::size_t at = place();
      const std::size_t n = std::min<std::size_t>(1 + chance() % 5000, bytes.size() - at);
      return bytes.replace(at, n, std::string(n, '\0'));
    }
    case 3: {
      const std::size_t pages = bytes.size() / 4096;
      if (pages < 2) break;
      const std::size_t one = chance() % pages * 4096, other = chance() % pages * 4096;
      const std::string kept = bytes.substr(one, 4096);
      bytes.replace(one, 4096, bytes.substr(other, 4096));
      bytes.replace(other, 4096, kept);
      return bytes;
    }
    case 4:
      bytes[chance() % std::min<std::size_t>(bytes.size(), 200)] ^= static_cast<char>(1U << chance() % 8);
      return bytes;
    default:
      break;
  }
  for (unsigned flips = 1 + static_cast<unsigned>(chance()) % 3; flips-- > 0;)
    bytes[place()] ^= static_cast<char>(1U << static_cast<unsigned>(chance()) % 8);
  return bytes;
}

/// Everything that a book answers, as one text; the first error instead.
base::Result<std::string> answers(book::Book& book, const std::string& photo) {
  std::string out;
  book::Query all;
  all.hidden = true;
  const auto documents = book.list(all);
  if (!documents) return tl::unexpected(documents.error());
  for (const auto& one : *documents)
    out += one.id + one.kind + one.belongs_to + one.title + one.body + std::to_string(one.revision) + one.created +
           one.changed + one.author + (one.hidden ? "h" : "s") + '\n';
  const auto actions = book.journal({});
  if (!actions) return tl::unexpected(actions.error());
  for (const auto& action : *actions) {
    out += std::to_string(action.number) + std::to_string(action.root) + action.author + action.at + action.label +
           action.token;
    for (const auto& entry : action.entries)
      out +=
          std::to_string(entry.sequence) + entry.path + entry.before.value_or("-") + entry.after.value_or("-") + '\n';
  }
  for (const char* word : {"alder", "frost", "b"}) {
    const auto found = book.find(word, 100);
    if (!found) return tl::unexpected(found.error());
    for (const auto& one : *found) out += one.document + one.snippet + '\n';
  }
  book::Query facet;
  facet.facet = "model";
  facet.value = "A60";
  const auto some = book.list(facet);
  if (!some) return tl::unexpected(some.error());
  for (const auto& one : *some) out += one.id;
  const auto blob = book.blob(photo);
  if (!blob) return tl::unexpected(blob.error());
  return out + blob->bytes;
}

struct Case {
  Folder folder;
  book::Place place;
  std::string photo, sound;
  Case() {
    place = place_in(folder);
    place.backs_up = false;
    auto book = taken(book::Book::open(place));
    for (int i = 0; i < 15; ++i) {
      const std::string id = "saw" + std::to_string(i);
      taken(book.act(
          adding(id, R"({"name":"Alder )" + id + R"(","model":"A60","note":")" + std::string(500, 'b') + "\"}")));
      taken(book.act(setting(id, "port.p1.opens", "\"10" + std::to_string(i) + "\"", taken(book.sequence()))));
    }
    book::Deed photo_deed = adding("photo", R"({"text":")" + std::string(9000, 'f') + R"( frost"})", "saw1", "photo");
    const std::string bytes(20000, 'p');
    photo = book::hash_of(bytes);
    photo_deed.blobs.push_back({bytes, "image/png"});
    taken(book.act(photo_deed));
    taken(book.undo());
    taken(book.redo());
    fs::copy(folder / "books", folder / "left_open", fs::copy_options::recursive);
    sound = taken(answers(book, photo));
    book = taken(book::Book::open(place));
  }
};

/// What became of one spoilt book; "silent" when it answered otherwise than the sound one and said nothing.
std::string fate(const Case& all, std::string& said) {
  auto opened = book::Book::open(all.place);
  if (!opened) {
    said = opened.error().message;
    EXPECT_THAT(opened.error().code,
                AnyOf(base::ErrorCode::damaged, base::ErrorCode::out_of_range, base::ErrorCode::newer))
        << said;
    return "refused";
  }
  const auto now = answers(*opened, all.photo);
  if (!now) {
    said = now.error().message;
    const bool gone = opened->alarm().has_value() && now.error().code == base::ErrorCode::not_found;
    EXPECT_TRUE(gone || now.error().code == base::ErrorCode::damaged) << said;
    return "refused";
  }
  if (*now == all.sound) return "same";
  if (!opened->alarm()) return "silent";
  EXPECT_THAT(taken(opened->verify()).faults, IsEmpty()) << "older, and sound";
  return "alarm";
}

TEST(mutant, of_any_kind_is_refused_or_announced_or_answers_exactly_the_same) {
  const Case all;
  const char* text = std::getenv("PORTWRIGHT_BOOK_MUTANTS");
  const int mutants = text == nullptr ? default_mutants : std::atoi(text);
  std::mt19937 chance(text == nullptr ? 11 : std::random_device{}());
  std::map<std::string, int> fates;
  for (const std::string state : {"books", "left_open"}) {
    fs::copy(all.folder / state, all.folder / "kept", fs::copy_options::recursive);
    const std::vector<std::string> files = state == "books"
                                               ? std::vector<std::string>{"", "", "", ".tally"}
                                               : std::vector<std::string>{"", "-wal", "-wal", "-shm", ".tally"};
    for (int i = 0; i < mutants / 2; ++i) {
      fs::remove_all(all.folder / "books");
      fs::copy(all.folder / "kept", all.folder / "books", fs::copy_options::recursive);
      const std::string file = all.place.path + files[chance() % files.size()];
      put_bytes(file, spoilt(bytes_of(file), chance));
      std::string said;
      const std::string what = fate(all, said);
      ++fates[state + " " + what];
      if (what == "silent") {
        ADD_FAILURE() << state << " mutant " << i << " of " << file << " answers otherwise and says nothing";
        fs::copy(file, fs::temp_directory_path() / ("silent" + std::to_string(i)),
                 fs::copy_options::overwrite_existing);
      }
    }
    fs::remove_all(all.folder / "kept");
  }
  for (const auto& [what, n] : fates) std::printf("%s: %d\n", what.c_str(), n);
  EXPECT_GT(fates["books refused"], mutants / 10);
  EXPECT_GT(fates["books same"], 0);
}

TEST(mutant, a_file_of_something_else_is_no_book_and_stays_as_it_is) {
  for (const std::string& bytes :
       {std::string("hello"), std::string(5000, 'x'), std::string("SQLite format 3\0", 16) + std::string(4080, '\0')}) {
    const Folder folder;
    const book::Place place = place_in(folder);
    fs::create_directories(folder / "books");
    put_bytes(place.path, bytes);
    const auto opened = book::Book::open(place);
    ASSERT_FALSE(opened.has_value());
    EXPECT_EQ(opened.error().code, base::ErrorCode::out_of_range) << opened.error().message;
    EXPECT_EQ(bytes_of(place.path), bytes);
  }
}

}  // namespace
}  // namespace book_test
