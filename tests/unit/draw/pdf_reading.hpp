#pragma once
// Reads our PDF back with the ordinary tools (qpdf, pdftotext), so that the file is judged from outside.

#include <unistd.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

namespace portwright::test {

struct Ran {
  int status = -1;
  std::string out;
};

inline Ran run(const std::string& command) {
  Ran ran;
  FILE* pipe = ::popen((command + " 2>/dev/null").c_str(), "r");
  if (pipe == nullptr) return ran;
  char part[4096];
  for (std::size_t n = 0; (n = std::fread(part, 1, sizeof part, pipe)) > 0;) ran.out.append(part, n);
  ran.status = ::pclose(pipe);
  return ran;
}

/// A PDF in a file of its own that goes away with it.
class PdfFile {
 public:
  explicit PdfFile(const std::string& bytes) {
    char name[] = "/tmp/portwright-draw-XXXXXX";
    const int fd = ::mkstemp(name);
    path_ = name;
    if (fd >= 0) ::close(fd);
    std::ofstream(path_, std::ios::binary) << bytes;
  }
  PdfFile(const PdfFile&) = delete;
  ~PdfFile() { std::filesystem::remove(path_); }

  bool is_sound() const { return run("qpdf --check " + path_).status == 0; }
  std::string text() const { return run("pdftotext -layout " + path_ + " -").out; }
  std::string plain() const { return run("qpdf --qdf --object-streams=disable " + path_ + " -").out; }

 private:
  std::string path_;
};

/// A path operator of a content stream with its numbers [pt].
struct Operator {
  std::string name;
  std::vector<double> numbers;
};

inline std::vector<Operator> path_operators(const std::string& plain) {
  std::vector<Operator> found;
  std::istringstream in(plain);
  for (std::string text; std::getline(in, text);) {
    std::istringstream words(text);
    std::vector<double> numbers;
    for (std::string word; words >> word;) {
      char* end = nullptr;
      const double v = std::strtod(word.c_str(), &end);
      if (end != word.c_str() && *end == '\0') {
        numbers.push_back(v);
        continue;
      }
      const std::size_t wanted = word == "m" || word == "l" ? 2 : word == "c" ? 6 : 0;
      if (wanted > 0 && numbers.size() == wanted) found.push_back({word, numbers});
      numbers.clear();
    }
  }
  return found;
}

}  // namespace portwright::test
