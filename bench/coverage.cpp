// How often the 95 % ranges hold the truth, figure by figure, on three sample saws: 93 to 97 % is asked of every figure
// that is not one-sided. bench_coverage [trials [sample ...]], 10,000 and all three without.
#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

#include "../tests/property/coverage.hpp"
#include "saw/file.hpp"

namespace {

using namespace portwright;

int report(const std::string& sample, int trials) {
  int outside = 0;
  std::printf("%s\n", sample.c_str());
  const auto file = saw::read_saw_file(std::string(PORTWRIGHT_SOURCE_DIR "/data/samples/") + sample + ".saw.toml");
  if (!file) return 1;
  for (const study::Coverage& one : study::cover(geometry::survey(file->readings), trials, 512)) {
    if (one.ranges == 0) continue;
    const bool odd = one.share() < 0.93 || one.share() > 0.97;
    if (odd && !one.one_sided) ++outside;
    std::printf("  %-40s %6.2f %% of %d%s\n", one.id.c_str(), 100.0 * one.share(), one.ranges,
                one.one_sided ? "  one-sided"
                : odd         ? "  OUTSIDE"
                              : "");
  }
  return outside;
}

}  // namespace

int main(int count, char** words) {
  const int trials = count > 1 ? std::atoi(words[1]) : 10000;
  std::vector<std::string> samples(words + std::min(count, 2), words + count);
  if (samples.empty()) samples = {"alder-60", "spruce-92", "oak-110"};
  int outside = 0;
  for (const std::string& sample : samples) outside += report(sample, trials);
  std::printf("%d figures outside 93 to 97 %%\n", outside);
  return outside == 0 ? 0 : 1;
}
