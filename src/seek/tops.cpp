#include "seek/tops.hpp"

#include <algorithm>
#include <limits>

#include "seek/climb.hpp"

namespace portwright::seek {
namespace {

constexpr double all_round = 0.02;  // what the sum of all parts weighs beside the least of them
constexpr double fine = 1e-4;       // of a climb on a guess [share]
constexpr std::size_t looks = 60;   // on its way up
constexpr double far = 100.0;       // no part is as far from nothing

}  // namespace

double least_of(std::span<const Part> parts, std::span<const double> figures) {
  double least = std::numeric_limits<double>::infinity(), sum = 0.0;
  for (const Part& part : parts) {
    least = std::min(least, part.of(figures));
    sum += part.of(figures);
  }
  return parts.size() > 1 ? least + all_round * sum : least;
}

Box::Box(const Design& centre, double radius) : least(centre), most(centre) {
  for (double& one : least) one = std::clamp(one - radius, 0.0, 1.0);
  for (double& one : most) one = std::clamp(one + radius, 0.0, 1.0);
}

std::optional<Design> Climber::top(const std::vector<Part>& parts, bool hold, const Box& box,
                                   std::span<const Design> starts) {
  parts_ = &parts;
  lifted_ = parts.size() > 1;
  first_held_ = hold ? 0 : look_.margin.size();
  Hill hill{space_,
            box.least,
            box.most,
            [this](const std::vector<double>& x, std::span<double> slope) { return height(x, slope); },
            (lifted_ ? parts.size() : 0) + guess_.conditions() - first_held_,
            [this](const std::vector<double>& x, std::span<double> values, std::span<double> slopes) {
              conditions(x, values, slopes);
            },
            looks,
            fine};
  if (lifted_) {
    hill.least.push_back(-far);
    hill.most.push_back(far);
  }
  std::optional<Top> best;
  for (std::vector<double> start : starts) {
    if (lifted_) start.push_back(least_of(parts, guess_.at(start)));
    std::optional<Top> found = climb(hill, std::move(start));
    if (found && (!best || found->height > best->height)) best = std::move(found);
  }
  if (!best) return std::nullopt;
  best->at.resize(space_.free);
  return best->at;
}

double Climber::missed(std::span<const double> figures) const {
  double most = 0.0;
  for (std::size_t c = 0; c < guess_.conditions(); ++c) most = std::max(most, margin(c) - figures[guess_.gains() + c]);
  return most;
}

double Climber::margin(std::size_t condition) const {
  return condition < look_.margin.size() ? look_.margin[condition] : look_.doubt;
}

void Climber::look(const std::vector<double>& x) {
  if (x == at_) return;
  at_ = x;
  guess_.at(std::span(x).first(space_.free), values_, slopes_);
}

void Climber::add(std::span<double> to, const Part& part, double by) const {
  for (std::size_t j = 0; j < space_.free; ++j) to[j] += by * part.scale * slopes_[part.figure * space_.free + j];
}

double Climber::height(const std::vector<double>& x, std::span<double> slope) {
  look(x);
  std::fill(slope.begin(), slope.end(), 0.0);
  if (!lifted_) {
    add(slope, parts_->front(), 1.0);
    return parts_->front().of(values_);
  }
  double sum = 0.0;
  for (const Part& part : *parts_) {
    sum += part.of(values_);
    add(slope, part, all_round);
  }
  slope[space_.free] = 1.0;
  return x[space_.free] + all_round * sum;
}

// Lifted: what is climbed is a number of its own, and no part may be less than it.
void Climber::conditions(const std::vector<double>& x, std::span<double> values, std::span<double> slopes) {
  look(x);
  const std::size_t n = x.size(), lifted = lifted_ ? parts_->size() : 0;
  std::fill(slopes.begin(), slopes.end(), 0.0);
  for (std::size_t c = 0; c < lifted; ++c) {
    values[c] = (*parts_)[c].of(values_) - x[space_.free];
    add(slopes.subspan(c * n, n), (*parts_)[c], 1.0);
    slopes[c * n + space_.free] = -1.0;
  }
  for (std::size_t c = first_held_; c < guess_.conditions(); ++c) {
    const std::size_t row = lifted + c - first_held_;
    const Part part{guess_.gains() + c, margin(c), 1.0};
    values[row] = part.of(values_);
    add(slopes.subspan(row * n, n), part, 1.0);
  }
}

}  // namespace portwright::seek
