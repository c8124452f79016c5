#pragma once
// Runs the built program as a shell would, with both streams kept apart.

#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

namespace program {

namespace fs = std::filesystem;

inline std::string read_file(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

inline void write_file(const fs::path& path, const std::string& text) { std::ofstream(path, std::ios::binary) << text; }

/// A folder of its own for one test, gone afterwards.
class Folder {
 public:
  Folder() {
    std::string pattern = (fs::temp_directory_path() / "portwright-test-XXXXXX").string();
    path_ = mkdtemp(pattern.data());
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  ~Folder() {
    std::error_code ignored;
    fs::permissions(path_, fs::perms::owner_all, ignored);
    fs::remove_all(path_, ignored);
  }
  [[nodiscard]] const fs::path& path() const { return path_; }
  /// Writes a file into the folder and gives its path.
  [[nodiscard]] std::string file(const std::string& name, const std::string& text) const {
    write_file(path_ / name, text);
    return (path_ / name).string();
  }

 private:
  fs::path path_;
};

struct Ran {
  int status = -1;
  std::string out, err;
};

inline std::string quoted(const std::string& word) {
  std::string out = "'";
  for (const char c : word) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return out + "'";
}

inline Ran run(const std::vector<std::string>& words, const std::string& input = {},
               const std::string& environment = {}) {
  const Folder folder;
  write_file(folder.path() / "in", input);
  std::string line = environment + ' ' + quoted(PORTWRIGHT_PROGRAM);
  for (const std::string& word : words) line += ' ' + quoted(word);
  const auto at = [&](const char* name) { return quoted((folder.path() / name).string()); };
  line += " <" + at("in") + " >" + at("out") + " 2>" + at("err");
  const int status = std::system(line.c_str());
  return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, read_file(folder.path() / "out"),
          read_file(folder.path() / "err")};
}

/// Invented saws of the repository.
inline std::vector<fs::path> samples() {
  std::vector<fs::path> out;
  for (const auto& entry : fs::directory_iterator(fs::path(PORTWRIGHT_SOURCE_DIR) / "data/samples"))
    if (entry.path().string().ends_with(".saw.toml")) out.push_back(entry.path());
  return out;
}

/// An invented saw with the readings that a careful hour gives.
inline constexpr const char* larch = R"(format = "portwright saw 1"
name = "Larch 70"
state = "as received"
[aim]
use = "work"
[crank]
bore = "50.0 mm"
stroke = "36.0 mm"
rod = "65.0 mm"
[piston]
skirt_exhaust = "38.0 mm"
skirt_intake = "38.0 mm"
skirt_side = "30.0 mm"
pin_below_crown = "22.0 mm"
pin_diameter = "11 mm"
[[piston.ring]]
below_crown = "3.0 mm"
height = "1.5 mm"
radial = "1.9 mm"
peg = "150 deg"
[cylinder]
crown_at_tdc = "61.0 mm"
base_gasket = "0.45 mm"
squish = { exhaust = "0.88 mm", intake = "0.90 mm" }
squish_band = "6.0 mm"
chamber = "8.9 cc"
[case]
volume = "250 cc"
volume_at = "tdc"
[[port]]
name = "exhaust"
kind = "exhaust"
centre = "0 deg"
opens = "103 deg"
floor = "25.2 mm"
width = "28.0 mm"
corner_roof = "5 mm"
corner_floor = "5 mm"
[[port]]
name = "primary"
kind = "transfer"
centre = "65 deg"
mirrored = true
opens = "121 deg"
floor = "25.2 mm"
width = "16.0 mm"
[[port]]
name = "intake"
kind = "intake"
centre = "180 deg"
opens = "75 deg"
roof = "19.5 mm"
width = "30 mm"
[intake]
kind = "skirt"
[muffler]
outlets = ["1.4 cm2"]
[readings]
in_cut = "9000 rpm"
)";

/// `text` with one line put in after another.
inline std::string with_line(std::string text, const std::string& after, const std::string& line) {
  const std::size_t at = text.find(after);
  if (at == std::string::npos) return text;
  return text.insert(text.find('\n', at) + 1, line + '\n');
}
inline std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  return at == std::string::npos ? text : text.replace(at, from.size(), to);
}

}  // namespace program
