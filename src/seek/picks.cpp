#include "seek/picks.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>

#include "seek/tops.hpp"

namespace portwright::seek {
namespace {

constexpr std::size_t pool_size = 60;       // points looked over by guess
constexpr std::size_t pool_size_thin = 10;  // where each has to be looked for
constexpr double least_weight = 0.02;
constexpr double beyond = 0.1;  // of the front's width: what is wished for beyond the best known of each gain
/// What a round is made of, over and over.
constexpr std::array turns = {For::aim, For::balance, For::aim, For::exploring, For::aim, For::balance};
/// How much the guess weighs against being far from what is known, over and over. @source{regis_shoemaker2007}
constexpr std::array daring = {0.3, 0.6, 0.8, 0.95};

class Picker {
 public:
  Picker(const Space& space, std::span<const Tried> tried, const Guess& guess, const Look& look, double apart,
         Walk& walk, Walk& turning)
      : space_(space),
        tried_(tried),
        guess_(guess),
        look_(look),
        apart_(apart),
        walk_(walk),
        turning_(turning),
        climber_(space, guess, look) {
    for (const Tried& one : tried) taken_.push_back(one.design);
    centre_ = tried[centre_of(tried)].design;
    choose_parts();
    measure_front();
  }

  Picks picks(std::size_t count) {
    std::size_t aims = 0;
    for (std::size_t i = 0; i < count; ++i) {
      For why = turns[(look_.picked + i) % turns.size()];
      if (why == For::balance && (guess_.gains() < 2 || front_.empty())) why = For::aim;
      if (why == For::aim && !look_.aim) why = guess_.gains() < 2 ? For::exploring : For::balance;
      const std::size_t before = out_.designs.size();
      if (why == For::aim) pick_aim(aims++);
      if (why == For::balance) pick_balance();
      if (why == For::exploring || out_.designs.size() == before)
        take(scattered(Box(centre_, 1.0), daring[(look_.picked + i) % daring.size()]), For::exploring);
    }
    return std::move(out_);
  }

 private:
  const Space& space_;
  std::span<const Tried> tried_;
  const Guess& guess_;
  const Look& look_;
  double apart_;
  Walk& walk_;
  Walk& turning_;
  Climber climber_;
  std::vector<Design> taken_;
  Design centre_;
  std::vector<Part> aim_;  // what is climbed: the aim, or where nothing holds yet what is to hold
  std::vector<std::size_t> front_;
  std::vector<double> ideal_, width_;  // of the front, a gain each
  Picks out_;

  /// Width of a figure among what was tried; 1 where it does not differ.
  [[nodiscard]] double width_of(std::size_t figure) const {
    double low = std::numeric_limits<double>::infinity(), high = -low;
    for (const Tried& one : tried_) {
      if (!one.judged.possible) continue;
      const std::size_t gains = guess_.gains();
      const double value = figure < gains ? one.judged.gains[figure] : one.judged.holds[figure - gains];
      low = std::min(low, value);
      high = std::max(high, value);
    }
    return high - low > 1e-9 ? high - low : 1.0;
  }

  void choose_parts() {
    if (best_of(tried_) < tried_.size()) {
      aim_ = {{0, guess_.at(centre_)[0], 1.0 / width_of(0)}};
      return;
    }
    for (std::size_t c = 0; c < look_.margin.size(); ++c)
      aim_.push_back({guess_.gains() + c, look_.margin[c], 1.0 / width_of(guess_.gains() + c)});
  }

  void measure_front() {
    front_ = front_of(tried_);
    if (front_.empty()) return;
    for (std::size_t k = 0; k < guess_.gains(); ++k) {
      double low = std::numeric_limits<double>::infinity(), high = -low;
      for (const std::size_t place : front_) {
        low = std::min(low, tried_[place].judged.gains[k]);
        high = std::max(high, tried_[place].judged.gains[k]);
      }
      ideal_.push_back(high);
      width_.push_back(high - low > 1e-9 ? high - low : width_of(k));
    }
  }

  bool take(const std::optional<Design>& design, For why, bool nearby = false) {
    if (!design || !is_inside(space_, *design) || nearest(taken_, *design) < apart_) return false;
    taken_.push_back(*design);
    out_.designs.push_back({*design, why, nearby});
    return true;
  }

  /// Points of a box that are inside, from the known designs outwards.
  [[nodiscard]] std::vector<Design> pool(const Box& box, bool from_centre) {
    std::vector<Design> out;
    const std::size_t size = space_.equal > 0 ? pool_size_thin : pool_size;
    for (std::size_t i = 0; i < size; ++i) {
      Design to = walk_.next();
      for (std::size_t j = 0; j < to.size(); ++j) to[j] = box.least[j] + to[j] * (box.most[j] - box.least[j]);
      const Design& from = from_centre ? centre_ : tried_[i % tried_.size()].design;
      if (auto point = towards(space_, is_inside(space_, from) ? from : centre_, to)) out.push_back(std::move(*point));
    }
    return out;
  }

  /// Of a pool the point with the most of both, a high guess and a far place.
  [[nodiscard]] std::optional<Design> scattered(const Box& box, double daring_now) {
    const std::vector<Design> points = pool(box, distance(box.least, box.most) < 1.0);
    std::vector<double> high, far;
    for (const Design& point : points) {
      const std::vector<double> figures = guess_.at(point);
      high.push_back(least_of(aim_, figures) - 2.0 * climber_.missed(figures));
      far.push_back(nearest(taken_, point));
    }
    if (points.empty()) return std::nullopt;
    const auto share = [](const std::vector<double>& all, std::size_t i) {
      const auto [low, top] = std::minmax_element(all.begin(), all.end());
      return *top > *low ? (all[i] - *low) / (*top - *low) : 1.0;
    };
    std::optional<std::size_t> best;
    double most = -1.0;
    for (std::size_t i = 0; i < points.size(); ++i) {
      const double score = daring_now * share(high, i) + (1.0 - daring_now) * share(far, i);
      if (far[i] < apart_ || score <= most) continue;
      most = score;
      best = i;
    }
    return best ? std::optional(points[*best]) : std::nullopt;
  }

  /// The best tried ones as some parts see them, and the best of a pool by guess.
  [[nodiscard]] std::vector<Design> starts(const std::vector<Part>& parts, const Box& box, std::size_t known) {
    struct Start {
      double height;
      const Design* design;
    };
    const std::vector<Design> points = pool(box, true);
    std::vector<Start> from_tried, from_pool;
    for (const Tried& one : tried_) {
      if (!one.judged.possible) continue;
      const std::vector<double> figures = guess_.at(one.design);
      from_tried.push_back({least_of(parts, figures) - 10.0 * climber_.missed(figures), &one.design});
    }
    for (const Design& point : points) {
      const std::vector<double> figures = guess_.at(point);
      from_pool.push_back({least_of(parts, figures) - 10.0 * climber_.missed(figures), &point});
    }
    std::vector<Design> out;
    const auto add = [&](std::vector<Start>& all, std::size_t count) {
      const auto middle = all.begin() + static_cast<std::ptrdiff_t>(std::min(count, all.size()));
      std::partial_sort(all.begin(), middle, all.end(),
                        [](const Start& a, const Start& b) { return a.height > b.height; });
      for (auto one = all.begin(); one != middle; ++one) out.push_back(*one->design);
    };
    add(from_tried, known);
    add(from_pool, 1);
    return out;
  }

  /// By how much more of the aim, or where nothing holds yet by how much less missed, than the centre has.
  [[nodiscard]] double promise_of(const std::vector<double>& figures) const {
    if (!front_.empty()) return figures[0] - guess_.at(centre_)[0];
    const auto least = [&](const std::vector<double>& holds, std::size_t from) {
      return *std::min_element(holds.begin() + static_cast<std::ptrdiff_t>(from),
                               holds.begin() + static_cast<std::ptrdiff_t>(from + look_.margin.size()));
    };
    return least(figures, guess_.gains()) - least(tried_[centre_of(tried_)].judged.holds, 0);
  }

  /// Near the best, then anywhere, then about the best where little is known.
  void pick_aim(std::size_t turn) {
    const bool reached = !front_.empty();
    const bool anywhere = turn % 3 == 1;
    const Box near(centre_, look_.radius);
    if (turn % 3 < 2) {
      const Box box = anywhere ? Box(centre_, 1.0) : near;
      const auto top = climber_.top(aim_, reached, box, starts(aim_, box, anywhere ? 2 : 1));
      if (top) out_.promise = std::max(out_.promise, promise_of(guess_.at(*top)));
      if (take(top, For::aim, !anywhere)) return;
    }
    take(scattered(near, daring[1 + turn % 3]), For::aim);
  }

  /// The gains weighed against each other by how much each lacks of more than the best known of it, the weights
  /// turning; every third time one of them alone.
  [[nodiscard]] std::vector<Part> balance() {
    const Design turned = turning_.next();
    const std::size_t gains = turned.size(), turn = look_.balanced + out_.balanced++;
    const auto part = [&](std::size_t k, double weight) {
      return Part{k, ideal_[k] + beyond * width_[k], weight / width_[k]};
    };
    if (turn % 3 == 0) return {part(1 + turn / 3 % (gains - 1), 1.0)};
    double sum = 0.0;
    for (const double one : turned) sum -= std::log(std::max(one, 1e-6));
    std::vector<Part> parts;
    for (std::size_t k = 0; k < gains; ++k)
      parts.push_back(part(k, std::max(-std::log(std::max(turned[k], 1e-6)) / sum, least_weight)));
    return parts;
  }

  void pick_balance() {
    const std::vector<Part> parts = balance();
    const auto by_parts = [&](std::size_t a, std::size_t b) {
      return least_of(parts, tried_[a].judged.gains) < least_of(parts, tried_[b].judged.gains);
    };
    const Design& known = tried_[*std::max_element(front_.begin(), front_.end(), by_parts)].design;
    const Box box(known, out_.designs.size() % 2 == 0 ? 1.0 : 0.25);
    std::vector<Design> from = starts(parts, box, 1);
    from.push_back(known);
    const auto top = climber_.top(parts, true, box, from);
    if (!top) return;
    out_.widening = std::max(out_.widening, widened(guess_.at(*top)));
    if (!take(top, For::balance)) take(scattered(Box(known, 0.1), 0.6), For::balance);
  }

  /// By how much of the front's widths a point passes every one of the front in some gain.
  [[nodiscard]] double widened(std::span<const double> figures) const {
    double least = std::numeric_limits<double>::infinity();
    for (const std::size_t place : front_) {
      double most = -std::numeric_limits<double>::infinity();
      for (std::size_t k = 0; k < guess_.gains(); ++k)
        most = std::max(most, (figures[k] - tried_[place].judged.gains[k]) / width_[k]);
      least = std::min(least, most);
    }
    return least;
  }
};

}  // namespace

std::size_t centre_of(std::span<const Tried> tried) {
  const std::size_t best = best_of(tried);
  if (best < tried.size()) return best;
  const auto worst = [](const Judged& judged) {
    if (!judged.possible) return -std::numeric_limits<double>::infinity();
    return judged.holds.empty() ? 0.0 : *std::min_element(judged.holds.begin(), judged.holds.end());
  };
  const auto by_worst = [&](const Tried& a, const Tried& b) { return worst(a.judged) < worst(b.judged); };
  return static_cast<std::size_t>(std::max_element(tried.begin(), tried.end(), by_worst) - tried.begin());
}

Picks pick(const Space& space, std::span<const Tried> tried, const Guess& guess, const Look& look, std::size_t count,
           double apart, Walk& walk, Walk& turning) {
  return Picker(space, tried, guess, look, apart, walk, turning).picks(count);
}

}  // namespace portwright::seek
