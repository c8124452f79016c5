#include "plan/own_hand.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "plan/work.hpp"

namespace portwright::plan {
namespace {

constexpr double sigma_per_median = 1.4826;  // of a normal
constexpr double winsorized_at = 3.0;
constexpr double as_planned = 1e-9;  // [m]

double median_size(std::span<const double> all) {
  std::vector<double> sizes;
  for (const double one : all) sizes.push_back(std::abs(one));
  const auto middle = sizes.begin() + static_cast<std::ptrdiff_t>(sizes.size() / 2);
  std::nth_element(sizes.begin(), middle, sizes.end());
  return *middle;
}

}  // namespace

std::optional<Tool> tool_of(const cuts::Cut& cut) {
  switch (cut.act) {
    case cuts::Act::base:
    case cuts::Act::band:
    case cuts::Act::crown_edge:
    case cuts::Act::dome:
      return Tool::turned;
    case cuts::Act::roof:
    case cuts::Act::floor:
    case cuts::Act::widen:
    case cuts::Act::skirt:
      return Tool::ground;
    default:
      return std::nullopt;
  }
}

double CutPair::past() const { return std::abs(cut.amount) - std::abs(planned.amount); }

std::vector<CutPair> pairs_of(const cuts::CutList& planned, const cuts::CutList& done) {
  std::vector<CutPair> out;
  std::vector<bool> taken(planned.size(), false);
  for (const cuts::Cut& cut : done) {
    if (!tool_of(cut)) continue;
    for (std::size_t k = 0; k < planned.size(); ++k) {
      if (taken[k] || !same_place(planned[k], cut)) continue;
      taken[k] = true;
      if (const CutPair pair{planned[k], cut}; std::abs(pair.past()) > as_planned) out.push_back(pair);
      break;
    }
  }
  return out;
}

OwnHand own_hand(std::span<const double> past, double prior) {
  OwnHand out{prior, static_cast<int>(past.size()), 0.0, false};
  if (past.empty()) return out;
  const auto n = static_cast<double>(past.size());
  const double most = winsorized_at * std::max(prior, sigma_per_median * median_size(past));
  double squares = 0.0;
  for (const double one : past) {
    const double counted = std::clamp(one, -most, most);
    squares += counted * counted;
    out.mean += counted / n;
  }
  const double variance = (prior_weight * prior * prior + squares) / (prior_weight + n);
  out.sigma = std::max(std::sqrt(variance), surest_share * prior);
  out.leans = std::abs(out.mean) > 2.0 * out.sigma / std::sqrt(n);
  return out;
}

}  // namespace portwright::plan
