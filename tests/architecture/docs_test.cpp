// README.md and the pages under docs/, held against the tree and the program: links lead somewhere, every saw file
// shown can be read, every command shown runs and prints what the page says. After a change that was looked at,
// PORTWRIGHT_GOLDEN=write renews the printed text.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "architecture/documents.hpp"
#include "architecture/tree.hpp"
#include "saw/fields.hpp"

namespace {

namespace fs = std::filesystem;
using architecture::Block;
using architecture::Command;

const fs::path root = PORTWRIGHT_SOURCE_DIR;

std::vector<std::string> documents() {
  std::vector<std::string> paths{"README.md", "CONTRIBUTING.md", "CHANGELOG.md"};
  for (const auto& entry : fs::recursive_directory_iterator(root / "docs"))
    if (entry.path().extension() == ".md") paths.push_back(fs::relative(entry.path(), root).string());
  std::sort(paths.begin(), paths.end());
  return paths;
}

std::string read(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

void write(const fs::path& path, const std::string& text) { std::ofstream(path, std::ios::binary) << text; }

/// A folder as a reader of the page has it: data/ and ./run as in the repository, the program on the path.
class Bench {
 public:
  Bench() {
    std::string pattern = (fs::temp_directory_path() / "portwright-docs-XXXXXX").string();
    folder_ = mkdtemp(pattern.data());
    fs::create_directory(folder_ / "bin");
    fs::create_symlink(root / "data", folder_ / "data");
    fs::create_symlink(PORTWRIGHT_PROGRAM, folder_ / "run");
    fs::create_symlink(PORTWRIGHT_PROGRAM, folder_ / "bin" / "portwright");
  }
  Bench(const Bench&) = delete;
  Bench& operator=(const Bench&) = delete;
  ~Bench() {
    std::error_code ignored;
    fs::remove_all(folder_, ignored);
  }
  void put(const std::string& name, const std::string& text) const { write(folder_ / name, text); }
  /// Drawings that the commands wrote.
  [[nodiscard]] std::vector<fs::path> drawings() const {
    std::vector<fs::path> all;
    for (const auto& entry : fs::directory_iterator(folder_))
      if (entry.path().extension() == ".svg") all.push_back(entry.path());
    return all;
  }
  /// What the command prints on either stream; nothing when it fails.
  [[nodiscard]] std::string printed(const std::string& command, int& status) const {
    write(folder_ / "bin" / "command",
          "cd '" + folder_.string() + "'\nPATH=\"$PWD/bin:$PATH\" NO_COLOR=1 LC_ALL=C.UTF-8\n" +
              "export PATH NO_COLOR LC_ALL\nunset PORTWRIGHT_BOOK XDG_DATA_HOME XDG_STATE_HOME\n" +
              "HOME=\"$PWD\" PORTWRIGHT_AUTHOR=ann\nexport HOME PORTWRIGHT_AUTHOR\n" + command + '\n');
    const fs::path out = folder_ / "bin" / "printed";
    status = std::system(
        ("sh '" + (folder_ / "bin" / "command").string() + "' >'" + out.string() + "' 2>&1 </dev/null").c_str());
    return architecture::trimmed_end(read(out));
  }

 private:
  fs::path folder_;
};

bool renewing() {
  const char* mode = std::getenv("PORTWRIGHT_GOLDEN");
  return mode != nullptr && std::string(mode) == "write";
}

std::vector<Command> replay(const Bench& bench, const Block& block, const std::string& where) {
  std::vector<Command> commands = architecture::console_commands(block.text);
  EXPECT_FALSE(commands.empty()) << where << " shows no command";
  for (Command& command : commands) {
    int status = 0;
    const std::string now = bench.printed(command.line, status);
    EXPECT_EQ(status, 0) << where << ": $ " << command.line;
    if (!renewing()) {
      EXPECT_EQ(command.printed, now) << where << ": $ " << command.line;
    }
    command.printed = now;
  }
  return commands;
}

/// A drawing that a command of the page wrote and that is kept under docs/pictures is the one kept there.
void expect_kept(const fs::path& drawn) {
  const fs::path kept = root / "docs/pictures" / drawn.filename();
  if (!fs::exists(kept)) return;
  if (renewing()) write(kept, read(drawn));
  EXPECT_TRUE(read(kept) == read(drawn)) << kept << " is drawn otherwise than it was";
}

/// Runs the page's commands in order, its files put beside them first; gives the page as it would read now.
std::string replay_page(const std::string& path) {
  const Bench bench;
  std::string page = architecture::read_file(path);
  const std::vector<Block> blocks = architecture::fenced_blocks(page);
  for (const Block& block : blocks)
    if (const std::string name = architecture::file_name(block); !name.empty()) bench.put(name, block.text);
  std::vector<std::string> now;
  for (const Block& block : blocks)
    now.push_back(block.language == "console"
                      ? architecture::console_block(replay(bench, block, path + ":" + std::to_string(block.line)))
                      : block.text);
  for (const fs::path& drawn : bench.drawings()) expect_kept(drawn);
  for (std::size_t i = blocks.size(); i-- > 0;) page.replace(blocks[i].at, blocks[i].text.size(), now[i]);
  return page;
}

TEST(docs, every_command_shown_runs_and_prints_what_the_page_says) {
  std::size_t pages = 0;
  for (const std::string& path : documents()) {
    if (architecture::read_file(path).find("```console") == std::string::npos) continue;
    ++pages;
    const std::string now = replay_page(path);
    if (renewing()) write(root / path, now);
  }
  EXPECT_GE(pages, 3u) << "README.md and the handbook show the program at work";
}

TEST(docs, every_saw_file_shown_is_taken_whole) {
  std::size_t files = 0;
  for (const std::string& path : documents()) {
    const Bench bench;
    for (const Block& block : architecture::fenced_blocks(architecture::read_file(path))) {
      const std::string name = architecture::file_name(block);
      if (block.language != "toml" || !name.ends_with(".saw.toml") || name.starts_with("wrong")) continue;
      ++files;
      bench.put(name, block.text);
      int status = 0;
      const std::string out = bench.printed("portwright check " + name, status);
      EXPECT_EQ(status, 0) << path << ':' << block.line << '\n' << out;
    }
  }
  EXPECT_GE(files, 2u);
}

TEST(docs, every_link_into_the_tree_leads_to_a_file_and_a_heading) {
  for (const std::string& path : documents()) {
    for (const std::string& link : architecture::local_links(architecture::read_file(path))) {
      const std::size_t hash = link.find('#');
      const std::string file = link.substr(0, hash);
      const fs::path target = file.empty() ? fs::path(path) : (fs::path(path).parent_path() / file).lexically_normal();
      EXPECT_TRUE(fs::exists(root / target)) << path << " links to " << link;
      if (hash == std::string::npos || target.extension() != ".md" || !fs::exists(root / target)) continue;
      EXPECT_THAT(architecture::anchors(architecture::read_file(target.string())),
                  ::testing::Contains(link.substr(hash + 1)))
          << path << " links to " << link;
    }
  }
}

TEST(docs, pictures_stay_small_and_stand_alone) {
  std::size_t pictures = 0;
  for (const auto& entry : fs::directory_iterator(root / "docs/pictures")) {
    ++pictures;
    EXPECT_LE(entry.file_size(), 200u << 10U) << entry.path();
    if (entry.path().extension() != ".svg") continue;
    EXPECT_EQ(read(entry.path()).find("href"), std::string::npos) << entry.path() << " needs something else";
  }
  EXPECT_GE(pictures, 5u);
}

/// Collects the key of every field and table of a saw file.
struct Keys {
  std::vector<std::string>& all;
  void add(const char* key) { all.emplace_back(key); }
  void reading(const char* key, auto&, auto) { add(key); }
  void turn(const char* key, auto&) { add(key); }
  void places(const char* key, auto&, auto) { add(key); }
  void several(const char* key, auto&, auto) { add(key); }
  void pairs(const char* key, auto&, auto, auto) { add(key); }
  void number(const char* key, auto&) { add(key); }
  void flag(const char* key, auto&) { add(key); }
  void words(const char* key, auto&) { add(key); }
  void word(const char* key, auto&, portwright::saw::Words allowed) {
    add(key);
    for (const char* one : allowed) all.emplace_back(one);
  }
  void octane(const char* key, auto&) { add(key); }
  void power_at(const char* key, auto&) { add(key); }
  template <class T>
  void table(const char* key, T& from) {
    add(key);
    portwright::saw::fields(from, *this);
  }
  template <class T>
  void tables(const char* key, std::vector<T>&) {
    add(key);
    T one;
    portwright::saw::fields(one, *this);
  }
};

TEST(docs, the_reference_of_the_saw_file_names_every_field_and_every_word) {
  const std::string page = architecture::read_file("docs/saw_file.md");
  std::vector<std::string> keys;
  portwright::saw::Readings readings;
  Keys visitor{keys};
  portwright::saw::fields(readings, visitor);
  ASSERT_GE(keys.size(), 100u);
  for (const std::string& key : keys)
    EXPECT_NE(page.find('`' + key + '`'), std::string::npos) << "docs/saw_file.md does not name " << key;
}

TEST(docs, the_handbook_tells_how_to_take_every_reading) {
  const std::string page = architecture::read_file("docs/handbook/readings.md");
  std::vector<std::string> keys;
  portwright::saw::Readings readings;
  Keys visitor{keys};
  portwright::saw::fields(readings, visitor);
  for (const std::string& key : keys) {
    if (key.find('_') == std::string::npos) continue;  // shorter keys are everyday words, found anywhere
    EXPECT_NE(page.find(key), std::string::npos) << "docs/handbook/readings.md does not tell of " << key;
  }
}

}  // namespace
