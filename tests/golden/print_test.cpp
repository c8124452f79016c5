// Templates of every sample as the program prints them, judged from outside: read back as PDF and as a raster.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <numbers>
#include <sstream>

#include "saw/file.hpp"
#include "unit/cli/program.hpp"
#include "unit/draw/pdf_reading.hpp"

namespace portwright {
namespace {

namespace fs = std::filesystem;
constexpr double mm = 72.0 / 25.4;
constexpr double dots = 600.0 / 25.4;  ///< pixels a millimetre
constexpr double page_height = 297.0;

struct Line {
  double x1, y1, x2, y2;  ///< [mm] from the page's top left
};

std::vector<Line> lines_of(const std::string& plain) {
  std::vector<Line> lines;
  double x = 0, y = 0;
  for (const test::Operator& op : test::path_operators(plain)) {
    const double nx = op.numbers[op.numbers.size() - 2] / mm, ny = page_height - op.numbers.back() / mm;
    if (op.name == "l") lines.push_back({x, y, nx, ny});
    x = nx, y = ny;
  }
  return lines;
}

/// A grey raster of the first page.
struct Raster {
  int width = 0, height = 0;
  std::string pixels;
  [[nodiscard]] bool dark(int x, int y) const {
    return x >= 0 && y >= 0 && x < width && y < height && static_cast<unsigned char>(pixels[static_cast<std::size_t>(y) * width + x]) < 128;
  }
};

Raster raster_of(const fs::path& pdf, const fs::path& stem) {
  test::run("pdftoppm -r 600 -gray -f 1 -l 1 -singlefile " + pdf.string() + " " + stem.string());
  std::ifstream in(stem.string() + ".pgm", std::ios::binary);
  Raster raster;
  std::string magic;
  int depth = 0;
  in >> magic >> raster.width >> raster.height >> depth;
  in.get();
  raster.pixels.assign(std::istreambuf_iterator<char>(in), {});
  return raster;
}

/// Middle of the dark stretch nearest to `near` on a row (or a column) of the raster [pixels], or nothing within a millimetre.
std::optional<double> mark_near(const Raster& raster, bool along_x, int fixed, double near) {
  const auto dark = [&](int at) { return along_x ? raster.dark(at, fixed) : raster.dark(fixed, at); };
  for (int away = 0; away < static_cast<int>(dots); ++away) {
    for (const int start : {static_cast<int>(near) + away, static_cast<int>(near) - away}) {
      if (!dark(start)) continue;
      int low = start, high = start;
      while (dark(low - 1)) --low;
      while (dark(high + 1)) ++high;
      return 0.5 * (low + high + 1);
    }
  }
  return std::nullopt;
}

class Printed : public testing::TestWithParam<std::string> {
 protected:
  void SetUp() override {
    folder_ = fs::temp_directory_path() / ("portwright-print-" + GetParam() + "-" + std::to_string(::getpid()));
    fs::create_directories(folder_);
    ::setenv("SOURCE_DATE_EPOCH", "1700000000", 1);
  }
  void TearDown() override { fs::remove_all(folder_); }
  std::string sample() const { return std::string(PORTWRIGHT_SOURCE_DIR "/data/samples/") + GetParam() + ".saw.toml"; }
  fs::path print(const std::string& name) {
    const fs::path path = folder_ / name;
    const auto ran = program::run({"template", sample(), "-o", path.string()});
    EXPECT_EQ(ran.status, 0) << ran.err;
    return path;
  }
  fs::path folder_;
};

TEST_P(Printed, bars_are_true_within_one_pixel_at_600_dpi) {
  const fs::path pdf = print("t.pdf");
  const std::vector<Line> lines = lines_of(test::run("qpdf --qdf --object-streams=disable " + pdf.string() + " -").out);
  const Raster raster = raster_of(pdf, folder_ / "page");
  ASSERT_GT(raster.width, 4900);
  bool across = false, along = false;
  for (const Line& line : lines) {
    const double dx = std::abs(line.x2 - line.x1), dy = std::abs(line.y2 - line.y1);
    const bool level = std::abs(dx - 100.0) < 0.01 && dy < 0.01, upright = std::abs(dy - 100.0) < 0.01 && dx < 0.01;
    if (!level && !upright) continue;
    const double from = level ? std::min(line.x1, line.x2) : std::min(line.y1, line.y2);
    // One millimetre beside the bar's own line stand the marks of 0 and 100 mm.
    for (const double beside : {-1.0, 1.0}) {
      const int fixed = static_cast<int>(((level ? line.y1 : line.x1) + beside) * dots);
      const auto first = mark_near(raster, level, fixed, from * dots);
      const auto last = mark_near(raster, level, fixed, (from + 100.0) * dots);
      if (!first || !last) continue;
      EXPECT_NEAR(*last - *first, 100.0 * dots, 1.0) << (level ? "across" : "along");
      (level ? across : along) = true;
    }
  }
  EXPECT_TRUE(across);
  EXPECT_TRUE(along);
}

TEST_P(Printed, the_strip_closes_round_its_bore) {
  const double bore = saw::read_saw_file(sample()).value().readings.crank.bore.repeats.front().value->si * 1e3;
  const double length = std::numbers::pi * (bore - 0.10);
  const std::vector<Line> lines =
      lines_of(test::run("qpdf --qdf --object-streams=disable " + print("t.pdf").string() + " -").out);
  // Strips that do not fit on one page go on in pieces; then the pieces' borders add up, which the unit tests hold.
  double longest = 0.0;
  for (const Line& line : lines)
    if (std::abs(line.y2 - line.y1) < 0.01) longest = std::max(longest, std::abs(line.x2 - line.x1));
  if (longest < length) GTEST_SKIP() << "printed in pieces";
  EXPECT_NEAR(longest, length + 10.0, 0.1) << "border with its overlap tab";
}

TEST_P(Printed, the_same_bytes_every_time) {
  const auto read = [](const fs::path& path) {
    std::ifstream in(path, std::ios::binary);
    return std::string(std::istreambuf_iterator<char>(in), {});
  };
  const std::string first = read(print("a.pdf"));
  EXPECT_GT(first.size(), 1000U);
  EXPECT_EQ(first, read(print("b.pdf")));
}

INSTANTIATE_TEST_SUITE_P(samples, Printed,
                         testing::Values("alder-60", "birch-50", "hornbeam-66-a", "hornbeam-66-b", "larch-70", "oak-110",
                                         "spruce-92"),
                         [](const auto& sample) {
                           std::string name = sample.param;
                           for (char& c : name)
                             if (c == '-') c = '_';
                           return name;
                         });

}  // namespace
}  // namespace portwright
