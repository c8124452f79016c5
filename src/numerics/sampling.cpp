#include "numerics/sampling.hpp"

#include <cmath>
#include <cstdint>
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

/// Columns of a table kept row by row.
struct Table {
  std::span<double> values;
  std::size_t columns;
  [[nodiscard]] std::size_t rows() const { return values.size() / columns; }
  double& at(std::size_t row, std::size_t column) { return values[row * columns + column]; }

  double dot(std::size_t a, std::size_t b) {
    double sum = 0.0;
    for (std::size_t k = 0; k < rows(); ++k) sum += at(k, a) * at(k, b);
    return sum;
  }
};

/// Modified Gram-Schmidt over the columns: mean 0, variance 1, no correlation.
void standardise(Table table) {
  for (std::size_t j = 0; j < table.columns; ++j) {
    double mean = 0.0;
    for (std::size_t k = 0; k < table.rows(); ++k) mean += table.at(k, j);
    mean /= static_cast<double>(table.rows());
    for (std::size_t k = 0; k < table.rows(); ++k) table.at(k, j) -= mean;
    for (std::size_t i = 0; i < j; ++i) {
      const double share = table.dot(i, j) / static_cast<double>(table.rows());
      for (std::size_t k = 0; k < table.rows(); ++k) table.at(k, j) -= share * table.at(k, i);
    }
    const double scale = std::sqrt(static_cast<double>(table.rows()) / table.dot(j, j));
    for (std::size_t k = 0; k < table.rows(); ++k) table.at(k, j) *= scale;
  }
}

}  // namespace

NormalDraws::NormalDraws(int dimension, int count, unsigned seed)
    : dimension_(dimension), count_(count), values_(dimension > 0 ? shifted_sobol(dimension, count, seed) : std::vector<double>{}) {
  if (dimension > 0 && count >= 4 * dimension) standardise({values_, static_cast<std::size_t>(dimension)});
}

}  // namespace portwright::numerics
