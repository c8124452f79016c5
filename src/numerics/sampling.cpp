#include "numerics/sampling.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numeric>
#include <random>

#include <boost/random/sobol.hpp>

#include "numerics/normal.hpp"

namespace portwright::numerics {

namespace {

/// A 64-bit fraction of one as a share strictly between 0 and 1: the middle of one of 2^52 equal parts.
double to_share(std::uint64_t digits) { return (static_cast<double>(digits >> 12) + 0.5) * 0x1p-52; }

/// Sobol points with a digital shift through the inverse normal law. Boost leaves out the sequence's first point, the
/// origin; it is put back, so that a power of two of points keeps its balance.
std::vector<double> shifted_sobol(int dimension, int count, unsigned seed) {
  std::mt19937_64 random(seed);
  std::vector<std::uint64_t> shift(static_cast<std::size_t>(dimension));
  for (std::uint64_t& s : shift) s = random();
  boost::random::sobol sequence(static_cast<std::size_t>(dimension));
  std::vector<double> values;
  values.reserve(shift.size() * static_cast<std::size_t>(count));
  for (int k = 0; k < count; ++k) {
    for (const std::uint64_t s : shift) values.push_back(normal_quantile(to_share((k == 0 ? 0 : sequence()) ^ s)));
  }
  return values;
}

/// The draws column by column.
using Columns = std::vector<std::vector<double>>;

double dot(const std::vector<double>& a, const std::vector<double>& b) {
  return std::inner_product(a.begin(), a.end(), b.begin(), 0.0);
}

/// Modified Gram-Schmidt: every column gets mean 0 and variance 1, no two stay correlated.
void decorrelate(Columns& columns) {
  for (std::size_t j = 0; j < columns.size(); ++j) {
    std::vector<double>& column = columns[j];
    const auto count = static_cast<double>(column.size());
    const double mean = std::accumulate(column.begin(), column.end(), 0.0) / count;
    for (double& x : column) x -= mean;
    for (std::size_t i = 0; i < j; ++i) {
      const double share = dot(columns[i], column) / count;
      for (std::size_t k = 0; k < column.size(); ++k) column[k] -= share * columns[i][k];
    }
    const double scale = std::sqrt(count / dot(column, column));
    for (double& x : column) x *= scale;
  }
}

/// Gives every column the normal scores of its ranks, so that its law is the normal one again.
void take_scores(Columns& columns) {
  for (std::vector<double>& column : columns) {
    std::vector<std::size_t> order(column.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::ranges::sort(order, {}, [&](std::size_t k) { return column[k]; });
    const auto count = static_cast<double>(column.size());
    for (std::size_t rank = 0; rank < order.size(); ++rank)
      column[order[rank]] = normal_quantile((static_cast<double>(rank) + 0.5) / count);
  }
}

void standardise(std::vector<double>& rows, std::size_t dimension) {
  Columns columns(dimension, std::vector<double>(rows.size() / dimension));
  for (std::size_t i = 0; i < rows.size(); ++i) columns[i % dimension][i / dimension] = rows[i];
  for (int pass = 0; pass < 2; ++pass) {
    decorrelate(columns);
    take_scores(columns);
  }
  for (std::size_t i = 0; i < rows.size(); ++i) rows[i] = columns[i % dimension][i / dimension];
}

}  // namespace

NormalDraws::NormalDraws(int dimension, int count, unsigned seed)
    : dimension_(dimension),
      count_(count),
      values_(dimension > 0 ? shifted_sobol(dimension, count, seed) : std::vector<double>{}) {
  if (dimension > 0 && count >= 4 * dimension) standardise(values_, static_cast<std::size_t>(dimension));
}

}  // namespace portwright::numerics
