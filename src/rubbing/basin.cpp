#include "rubbing/basin.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace portwright::rubbing {
namespace {

constexpr int steps = 512;  // levels told apart

std::size_t cells_in(double area) { return static_cast<std::size_t>(area / (cell * cell)); }

// Cells in the order in which they are taken: greatest value first.
std::vector<std::uint32_t> ordered(const std::vector<float>& value) {
  const auto bin = [](float v) { return static_cast<std::size_t>(std::clamp(v * 400.0F, 0.0F, steps - 1.0F)); };
  std::vector<std::uint32_t> first(steps + 1), out(value.size());
  for (const float v : value) ++first[steps - 1 - bin(v) + 1];
  std::partial_sum(first.begin(), first.end(), first.begin());
  for (std::size_t i = 0; i < value.size(); ++i)
    out[first[steps - 1 - bin(value[i])]++] = static_cast<std::uint32_t>(i);
  return out;
}

// Parts that grow together, cell by cell; the rim of the ground is one part from the start.
class Pouring {
 public:
  struct Part {
    std::uint32_t cells = 0, top = 0;  // top: its first cell
    float sum = 0.0F;
    bool rim = false;
    bool done = false;  // what is clear in it was told
  };

  explicit Pouring(int size, const std::vector<float>& value)
      : size_(size), value_(value), parent_(value.size(), none), part_(value.size()) {}

  /// met(a, b, cell): two parts meet over a cell, before they are joined; yes: something was told of them.
  template <class F>
  void pour(F&& met) {
    for (const std::uint32_t i : ordered(value_)) take(i, met);
  }
  std::uint32_t find(std::uint32_t i) {
    while (parent_[i] != i) i = parent_[i] = parent_[parent_[i]];
    return i;
  }
  [[nodiscard]] bool taken(std::uint32_t i) const { return parent_[i] != none; }

 private:
  static constexpr std::uint32_t none = ~std::uint32_t{0};

  template <class F>
  void take(std::uint32_t i, F&& met) {
    const auto n = static_cast<std::uint32_t>(size_);
    const std::uint32_t x = i % n, y = i / n;
    const bool rim = x == 0 || y == 0 || x + 1 == n || y + 1 == n;
    parent_[i] = i;
    part_[i] = {1, i, value_[i], rim};
    if (x > 0) join(i - 1, i, met);
    if (x + 1 < n) join(i + 1, i, met);
    if (y > 0) join(i - n, i, met);
    if (y + 1 < n) join(i + n, i, met);
  }
  template <class F>
  void join(std::uint32_t other, std::uint32_t i, F&& met) {
    if (!taken(other)) return;
    std::uint32_t a = find(other), b = find(i);
    if (a == b) return;
    if (part_[a].cells < part_[b].cells) std::swap(a, b);
    const bool told = met(part_[a], part_[b], i);
    part_[a].done = part_[a].done || part_[b].done || told;
    part_[a].cells += part_[b].cells;
    part_[a].sum += part_[b].sum;
    part_[a].rim = part_[a].rim || part_[b].rim;
    parent_[b] = a;
  }

  int size_;
  const std::vector<float>& value_;
  std::vector<std::uint32_t> parent_;
  std::vector<Part> part_;
};

// Values that grow toward the middle of what is looked for.
std::vector<float> values_of(const Ground& ground, bool dark) {
  if (!dark) return ground.level;
  std::vector<float> out(ground.level);
  for (float& v : out) v = 1.25F - v;
  return out;
}

Basin basin_of(const Pouring::Part& part, float value, std::uint32_t gap, bool dark) {
  const double inner = static_cast<double>(part.sum) / part.cells;
  return {dark,
          part.cells,
          dark ? 1.25 - inner : inner,
          dark ? 1.25 - static_cast<double>(value) : static_cast<double>(value),
          part.top,
          gap};
}

}  // namespace

std::vector<Basin> basins_of(const Ground& ground, bool dark) {
  const std::vector<float> value = values_of(ground, dark);
  const std::size_t least = cells_in(least_area);
  std::vector<Basin> out;
  Pouring(ground.size, value).pour([&](const Pouring::Part& a, const Pouring::Part& b, std::uint32_t i) {
    const std::size_t before = out.size();
    for (const auto& [part, other] : {std::pair{&a, &b}, std::pair{&b, &a}}) {
      if (part->rim || part->done || part->cells < least || (other->cells < least && !other->rim)) continue;
      const Basin basin = basin_of(*part, value[i], i, dark);
      if (basin.depth() >= clear_depth) out.push_back(basin);
    }
    return out.size() > before;
  });
  return out;
}

std::optional<Basin> basin_about(const Ground& ground, std::size_t touched) {
  std::optional<Basin> best;
  const std::size_t least = cells_in(least_area);
  for (const bool dark : {false, true}) {
    const std::vector<float> value = values_of(ground, dark);
    Pouring pouring(ground.size, value);
    std::optional<Basin> own;
    const auto at = static_cast<std::uint32_t>(touched);
    pouring.pour([&](const Pouring::Part& a, const Pouring::Part& b, std::uint32_t i) {
      if (own || !pouring.taken(at)) return false;
      const auto home = pouring.find(at);
      for (const auto& [mine, other] : {std::pair{&a, &b}, std::pair{&b, &a}}) {
        if (pouring.find(mine->top) != home || mine->rim || mine->cells < least) continue;
        if (other->cells < least && !other->rim) continue;
        const Basin basin = basin_of(*mine, value[i], i, dark);
        if (basin.depth() >= touched_depth) own = basin;
      }
      return false;
    });
    if (own && (!best || own->depth() > best->depth())) best = own;
  }
  return best;
}

std::vector<std::uint8_t> cells_of(const Ground& ground, const Basin& basin) {
  const std::vector<float> value = values_of(ground, basin.dark);
  const auto level = static_cast<float>(0.5 * (basin.inner + basin.rim));
  const float least = basin.dark ? 1.25F - level : level;
  const int n = ground.size;
  // From the rim inward: what the outside reaches is not the part, so that holes in it belong to it.
  std::vector<std::uint8_t> mask(value.size());
  const auto spread = [&](std::vector<std::size_t> todo, auto&& may, std::uint8_t mark) {
    while (!todo.empty()) {
      const std::size_t i = todo.back();
      todo.pop_back();
      if (mask[i] == mark || !may(i)) continue;
      mask[i] = mark;
      const int x = static_cast<int>(i) % n, y = static_cast<int>(i) / n;
      if (x > 0) todo.push_back(i - 1);
      if (x + 1 < n) todo.push_back(i + 1);
      if (y > 0) todo.push_back(i - static_cast<std::size_t>(n));
      if (y + 1 < n) todo.push_back(i + static_cast<std::size_t>(n));
    }
  };
  spread(
      {basin.start}, [&](std::size_t i) { return value[i] >= least; }, 1);
  std::vector<std::size_t> rim;
  for (int k = 0; k < n; ++k)
    for (const std::size_t i : {ground.index(k, 0), ground.index(k, n - 1), ground.index(0, k), ground.index(n - 1, k)})
      rim.push_back(i);
  spread(
      rim, [&](std::size_t i) { return mask[i] != 1; }, 2);
  for (std::uint8_t& m : mask) m = m == 2 ? 0 : 1;
  return mask;
}

Loop border_of(const Ground& ground, const std::vector<std::uint8_t>& mask, std::size_t start) {
  const int n = ground.size;
  const auto in = [&](int x, int y) { return x >= 0 && y >= 0 && x < n && y < n && mask[ground.index(x, y)] != 0; };
  // up from a cell inside to where the part ends, then along its edge with the part at the right hand
  int x = static_cast<int>(start) % n, y = static_cast<int>(start) / n;
  if (!in(x, y)) return {};
  while (in(x, y - 1)) --y;
  Loop out;
  const int first_x = x, first_y = y;
  int px = x, py = y, dx = 1, dy = 0;
  do {
    out.push_back({cell_rim + cell * (px + 0.5 * dx), cell_rim + cell * (py + 0.5 * dy)});
    px += dx, py += dy;
    // the two cells before the corner that was reached: at the right hand (1) and at the left one (-1)
    const auto ahead = [&](int hand) { return in(px + (dx - hand * dy - 1) / 2, py + (dy + hand * dx - 1) / 2); };
    const int turn = !ahead(1) ? 1 : ahead(-1) ? -1 : 0;
    if (turn != 0) {
      const int was = dx;
      dx = -turn * dy, dy = turn * was;
    }
  } while ((px != first_x || py != first_y || dx != 1) && out.size() < 4 * mask.size());
  return out;
}

std::optional<Gap> gap_in(const Ground& ground) {
  constexpr float dark = 0.8F, far = 12.0F;  // [of bare paper], [mm]
  const int n = ground.size;
  std::vector<float> off(ground.level.size());
  const auto step = [&](std::size_t i, int x, int y, int dx, int dy) {
    if (x + dx < 0 || y + dy < 0 || x + dx >= n || y + dy >= n) return;
    const float way = static_cast<float>(cell) * (dx != 0 && dy != 0 ? 1.414F : 1.0F);
    off[i] = std::min(off[i], off[ground.index(x + dx, y + dy)] + way);
  };
  for (std::size_t i = 0; i < off.size(); ++i) {
    const int x = static_cast<int>(i) % n, y = static_cast<int>(i) / n;
    off[i] = ground.level[i] < dark ? 0.0F : far;
    step(i, x, y, -1, 0), step(i, x, y, -1, -1), step(i, x, y, 0, -1), step(i, x, y, 1, -1);
  }
  for (std::size_t i = off.size(); i-- > 0;) {
    const int x = static_cast<int>(i) % n, y = static_cast<int>(i) / n;
    step(i, x, y, 1, 0), step(i, x, y, 1, 1), step(i, x, y, 0, 1), step(i, x, y, -1, 1);
  }
  for (float& d : off) d /= far;
  std::optional<Gap> out;
  std::uint32_t largest = 0;
  Pouring(n, off).pour([&](const Pouring::Part& a, const Pouring::Part& b, std::uint32_t i) {
    const float saddle = off[i] * far;
    for (const Pouring::Part* part : {&a, &b})
      if (!part->rim && part->cells > largest && part->cells * cell * cell > 0.5 * least_area &&
          off[part->top] * far > std::max(2.0F, 2.0F * saddle) && saddle > 0.0F && saddle < 2.0F) {
        largest = part->cells;
        out = Gap{ground.middle(i), 2.0 * static_cast<double>(saddle)};
      }
    return false;
  });
  return out;
}

bool touches_the_ring(const Ground& ground) {
  const int n = ground.size;
  int dark = 0;
  for (int k = 0; k < n; ++k)
    for (const std::size_t i : {ground.index(k, 0), ground.index(k, n - 1), ground.index(0, k), ground.index(n - 1, k)})
      dark += ground.level[i] < 0.6F ? 1 : 0;
  return dark * cell > 3.0;
}

}  // namespace portwright::rubbing
