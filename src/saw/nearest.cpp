#include "saw/nearest.hpp"

#include <algorithm>

namespace portwright::saw {
namespace {

char small(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

}  // namespace

std::size_t edit_distance(std::string_view a, std::string_view b) {
  const std::size_t n = b.size();
  std::vector<std::size_t> before(n + 1), last(n + 1), row(n + 1);
  for (std::size_t j = 0; j <= n; ++j) last[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j <= n; ++j) {
      const bool same = small(a[i - 1]) == small(b[j - 1]);
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + (same ? 0 : 1)});
      const bool swapped = i > 1 && j > 1 && small(a[i - 1]) == small(b[j - 2]) && small(a[i - 2]) == small(b[j - 1]);
      if (swapped) row[j] = std::min(row[j], before[j - 2] + 1);
    }
    before = last;
    last = row;
  }
  return last[n];
}

std::string nearest(std::string_view typed, const std::vector<std::string>& words) {
  std::string best;
  std::size_t least = 0;
  if (typed.size() > 64) return best;
  for (const std::string& word : words) {
    const std::size_t distance = edit_distance(typed, word);
    if (distance > std::max<std::size_t>(2, word.size() / 3) || distance >= std::max(typed.size(), word.size()))
      continue;
    if (best.empty() || distance < least) {
      best = word;
      least = distance;
    }
  }
  return best;
}

}  // namespace portwright::saw
