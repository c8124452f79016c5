// How often the 95 % ranges hold the truth, figure by figure, on three saws: 93 to 97 % is asked of every figure that
// is not one-sided. bench_coverage [trials], 10,000 without.
#include <cstdio>
#include <cstdlib>

#include "../tests/property/coverage.hpp"
#include "../tests/unit/study/larch.hpp"

namespace {

using namespace portwright;

std::string changed(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  return at == std::string::npos ? text : text.replace(at, from.size(), to);
}

int report(const char* name, const std::string& text, int trials) {
  int outside = 0;
  std::printf("%s\n", name);
  for (const study::Coverage& one : study::cover(study::survey_of(text), trials, 512)) {
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
  const std::string& all = study::larch_text;
  int outside = report("every reading", all, trials);
  outside +=
      report("rod not measured, one height of the transfer",
             changed(changed(all, "rod = \"65.0 mm\"\n", ""), "opens = \"121 deg\"", "roof = \"31.9 mm\""), trials);
  outside +=
      report("chamber built from its parts", changed(all, "chamber = \"8.9 cc\"\n", "bowl = \"7.5 cc\"\n"), trials);
  std::printf("%d figures outside 93 to 97 %%\n", outside);
  return outside == 0 ? 0 : 1;
}
