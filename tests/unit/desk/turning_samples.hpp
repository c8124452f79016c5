#pragma once
// Saws to turn in tests: a sample as it is, and the same with a line changed.

#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>

namespace turning_samples {

namespace fs = std::filesystem;

inline std::string sample(const std::string& name) {
  return (fs::path(PORTWRIGHT_SOURCE_DIR) / "data/samples" / (name + ".saw.toml")).string();
}

inline std::string text_of(const std::string& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

inline std::string changed(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  if (at == std::string::npos) throw std::runtime_error("no " + from);
  return text.replace(at, from.size(), to);
}

/// A folder of its own that goes with the test.
class Folder {
 public:
  Folder() {
    static int count = 0;
    path_ = fs::temp_directory_path() /
            ("portwright_turning_" + std::to_string(::getpid()) + "_" + std::to_string(++count));
    fs::create_directories(path_);
  }
  ~Folder() {
    std::error_code ignored;
    fs::remove_all(path_, ignored);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  std::string file(const std::string& name, const std::string& text) const {
    std::ofstream(path_ / name, std::ios::binary) << text;
    return at(name);
  }
  std::string at(const std::string& name) const { return (path_ / name).string(); }

 private:
  fs::path path_;
};

/// The skirt-timed sample with its stock power known, so that no rated speed has to be looked for.
inline std::string anchored_text() {
  return changed(text_of(sample("alder-60")), "gauge_compression = \"145 psi\"",
                 "gauge_compression = \"145 psi\"\nstock_power = \"2.4 kW at 9000 rpm\"");
}

}  // namespace turning_samples
