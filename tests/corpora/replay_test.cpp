// Every kept input of every target, run through the target it belongs to.

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>

#include <gtest/gtest.h>

#include "corpora/targets.hpp"

namespace portwright::corpora {
namespace {

namespace fs = std::filesystem;

fs::path folder() { return fs::path(PORTWRIGHT_SOURCE_DIR) / "tests" / "corpora"; }

std::vector<std::uint8_t> contents(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

int replay(const Target& target) {
  int count = 0;
  for (const auto& entry : fs::directory_iterator(folder() / target.name)) {
    const auto bytes = contents(entry.path());
    EXPECT_NO_THROW(target.run(bytes)) << entry.path().filename();
    ++count;
  }
  return count;
}

TEST(corpora, every_kept_input_keeps_its_targets_promises) {
  ASSERT_FALSE(targets().empty());
  for (const Target& target : targets()) {
    ASSERT_TRUE(fs::is_directory(folder() / target.name)) << target.name << " has no inputs";
    EXPECT_GT(replay(target), 0) << target.name;
  }
}

TEST(corpora, every_folder_of_inputs_has_a_target) {
  for (const auto& entry : fs::directory_iterator(folder())) {
    const std::string name = entry.path().filename().string();
    if (!entry.is_directory() || name == "targets") continue;
    const bool known = std::any_of(targets().begin(), targets().end(), [&](const Target& t) { return name == t.name; });
    EXPECT_TRUE(known) << name;
  }
}

}  // namespace
}  // namespace portwright::corpora
