#include "desk/nearest.hpp"

#include <algorithm>
#include <cctype>

namespace portwright::desk {
namespace {

char lower(char c) { return static_cast<char>(std::tolower(static_cast<unsigned char>(c))); }

}  // namespace

int typing_distance(std::string_view a, std::string_view b) {
  std::vector<std::vector<int>> steps(a.size() + 1, std::vector<int>(b.size() + 1));
  for (std::size_t i = 0; i <= a.size(); ++i) {
    for (std::size_t j = 0; j <= b.size(); ++j) {
      if (i == 0 || j == 0) {
        steps[i][j] = static_cast<int>(i + j);
        continue;
      }
      const bool same = lower(a[i - 1]) == lower(b[j - 1]);
      int least = std::min({steps[i - 1][j] + 1, steps[i][j - 1] + 1, steps[i - 1][j - 1] + (same ? 0 : 1)});
      const bool swapped = i > 1 && j > 1 && lower(a[i - 1]) == lower(b[j - 2]) && lower(a[i - 2]) == lower(b[j - 1]);
      if (swapped) least = std::min(least, steps[i - 2][j - 2] + 1);
      steps[i][j] = least;
    }
  }
  return steps[a.size()][b.size()];
}

std::string nearest(std::string_view word, const std::vector<std::string>& known) {
  constexpr std::size_t longest = 80;
  if (word.empty() || word.size() > longest) return {};
  std::string best;
  int least = std::max(1, static_cast<int>(word.size()) / 3) + 1;
  for (const std::string& candidate : known) {
    const int distance = typing_distance(word, candidate);
    if (distance >= least) continue;
    least = distance;
    best = candidate;
  }
  return best;
}

std::string did_you_mean(std::string_view word, const std::vector<std::string>& known) {
  const std::string best = nearest(word, known);
  return best.empty() ? std::string() : "Did you mean " + best + '?';
}

}  // namespace portwright::desk
