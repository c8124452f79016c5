#include "seek/climb.hpp"

#include <algorithm>
#include <cmath>
#include <exception>
#include <memory>

#include <nlopt.h>

namespace portwright::seek {
namespace {

constexpr double step = 1e-6;             // of a difference quotient
constexpr double pair_gap = 5e-7;         // half the gap between the two sides that stand for an equality
constexpr double met = 1e-8;              // a condition, as the solver sees it
constexpr double far_outside = -1;        // stands for a condition that cannot be worked out
constexpr double unknown_height = -1e10;  // likewise

/// All conditions at one point: the flat sides, the curved ones, the further ones, then the equalities.
class Ground {
 public:
  explicit Ground(const Hill& hill)
      : hill_(hill),
        n_(hill.least.size()),
        no_less_(hill.space.sides.size() + hill.space.no_less + hill.further),
        values(no_less_ + hill.space.equal),
        slopes(values.size() * n_) {}

  [[nodiscard]] std::size_t no_less() const { return no_less_; }

  void look(const std::vector<double>& x) {
    if (x == at_) return;
    at_ = x;
    for (std::size_t s = 0; s < hill_.space.sides.size(); ++s) {
      const Space::Side& side = hill_.space.sides[s];
      values[s] = side.offset;
      for (std::size_t j = 0; j < side.slope.size(); ++j) {
        values[s] += side.slope[j] * x[j];
        slopes[s * n_ + j] = side.slope[j];
      }
    }
    if (hill_.space.curved) look_at_curved(x);
    if (hill_.further > 0) {
      const std::size_t from = no_less_ - hill_.further;
      hill_.conditions(x, std::span(values).subspan(from, hill_.further),
                       std::span(slopes).subspan(from * n_, hill_.further * n_));
    }
  }

  [[nodiscard]] bool inside() const {
    for (std::size_t c = 0; c < values.size(); ++c)
      if (!((c < no_less_ ? values[c] : -std::abs(values[c])) >= -inside_by)) return false;
    return true;
  }

 private:
  const Hill& hill_;
  std::size_t n_, no_less_;
  std::vector<double> at_;

  [[nodiscard]] std::size_t place(std::size_t curved) const {
    return curved < hill_.space.no_less ? hill_.space.sides.size() + curved : no_less_ + curved - hill_.space.no_less;
  }

  void look_at_curved(const std::vector<double>& x) {
    const std::size_t free = hill_.space.free, count = hill_.space.no_less + hill_.space.equal;
    Design here(x.begin(), x.begin() + static_cast<std::ptrdiff_t>(free));
    std::vector<double> value(count), up(count), down(count);
    hill_.space.curved(here, value);
    for (std::size_t c = 0; c < count; ++c) values[place(c)] = std::isfinite(value[c]) ? value[c] : far_outside;
    for (std::size_t j = 0; j < free; ++j) {
      const double high = std::min(x[j] + step, std::max(hill_.most[j], x[j])),
                   low = std::max(x[j] - step, std::min(hill_.least[j], x[j]));
      here[j] = high;
      hill_.space.curved(here, up);
      here[j] = low;
      hill_.space.curved(here, down);
      here[j] = x[j];
      for (std::size_t c = 0; c < count; ++c) {
        const double slope = high > low ? (up[c] - down[c]) / (high - low) : 0.0;
        slopes[place(c) * n_ + j] = std::isfinite(slope) ? slope : 0.0;
      }
    }
  }

 public:
  std::vector<double> values, slopes;
};

struct Destroy {
  void operator()(nlopt_opt solver) const { nlopt_destroy(solver); }
};

/// One way up: what the solver asks, and the best it came upon. How the solver says it ended is not looked at: what it
/// came upon until then stands.
class Way {
 public:
  Way(const Hill& hill, bool pairs) : hill_(hill), ground_(hill), pairs_(pairs) {}

  std::optional<Top> up(std::vector<double> x) {
    const auto n = static_cast<unsigned>(x.size());
    const std::unique_ptr<nlopt_opt_s, Destroy> owner(nlopt_create(NLOPT_LD_SLSQP, n));
    nlopt_opt solver = solver_ = owner.get();
    if (solver == nullptr) throw std::bad_alloc();
    nlopt_set_lower_bounds(solver, hill_.least.data());
    nlopt_set_upper_bounds(solver, hill_.most.data());
    nlopt_set_max_objective(solver, height, this);
    const auto equal = static_cast<unsigned>(hill_.space.equal);
    const unsigned sides = static_cast<unsigned>(ground_.no_less()) + (pairs_ ? 2 * equal : 0);
    const std::vector<double> near(std::max(sides, equal), met);
    if (sides > 0) nlopt_add_inequality_mconstraint(solver, sides, no_more, this, near.data());
    if (equal > 0 && !pairs_) nlopt_add_equality_mconstraint(solver, equal, nought, this, near.data());
    nlopt_set_maxeval(solver, static_cast<int>(hill_.looks));
    nlopt_set_xtol_abs1(solver, hill_.fine);
    nlopt_set_ftol_abs(solver, 1e-10);
    double top = 0.0;
    nlopt_optimize(solver, x.data(), &top);
    if (broken_) std::rethrow_exception(broken_);
    return std::move(best_);
  }

 private:
  const Hill& hill_;
  Ground ground_;
  bool pairs_;
  nlopt_opt solver_ = nullptr;
  std::exception_ptr broken_;  // may not pass through the solver
  std::optional<Top> best_;
  std::vector<double> x_, slope_;

  /// Calls back out of the solver; a point that is no number, or a broken contract, stops it.
  template <class Answer>
  static void answer(void* self, const double* x, Answer&& give) {
    Way& way = *static_cast<Way*>(self);
    if (way.broken_) return;
    const std::size_t n = way.hill_.least.size();
    if (!std::all_of(x, x + n, [](double one) { return std::isfinite(one); })) {
      nlopt_force_stop(way.solver_);
      return;
    }
    try {
      way.x_.assign(x, x + n);
      for (std::size_t j = 0; j < n; ++j) way.x_[j] = std::clamp(x[j], way.hill_.least[j], way.hill_.most[j]);
      way.ground_.look(way.x_);
      give(way);
    } catch (...) {
      way.broken_ = std::current_exception();
      nlopt_force_stop(way.solver_);
    }
  }

  static double height(unsigned n, const double* x, double* slope, void* self) {
    double out = unknown_height;
    answer(self, x, [&](Way& way) {
      way.slope_.assign(n, 0.0);
      const double here = way.hill_.height(way.x_, way.slope_);
      if (!std::isfinite(here)) return;
      out = here;
      if (slope != nullptr) std::copy(way.slope_.begin(), way.slope_.end(), slope);
      if (way.ground_.inside() && (!way.best_ || here > way.best_->height)) way.best_ = Top{way.x_, here};
    });
    return out;
  }

  /// The solver's conditions are no more than 0: ours turned over.
  static void no_more(unsigned, double* result, unsigned n, const double* x, double* slope, void* self) {
    answer(self, x, [&](Way& way) {
      const Ground& ground = way.ground_;
      const auto put = [&](std::size_t to, std::size_t from, double sign, double offset) {
        result[to] = sign * ground.values[from] + offset;
        for (unsigned j = 0; slope != nullptr && j < n; ++j) slope[to * n + j] = sign * ground.slopes[from * n + j];
      };
      const std::size_t first = ground.no_less();
      for (std::size_t c = 0; c < first; ++c) put(c, c, -1.0, 0.0);
      for (std::size_t c = first; way.pairs_ && c < ground.values.size(); ++c) {
        put(2 * c - first, c, -1.0, -pair_gap);
        put(2 * c - first + 1, c, 1.0, -pair_gap);
      }
    });
  }

  static void nought(unsigned m, double* result, unsigned n, const double* x, double* slope, void* self) {
    answer(self, x, [&](Way& way) {
      const std::size_t first = way.ground_.no_less();
      std::copy_n(&way.ground_.values[first], m, result);
      if (slope != nullptr) std::copy_n(&way.ground_.slopes[first * n], std::size_t{m} * n, slope);
    });
  }
};

}  // namespace

std::optional<Top> climb(const Hill& hill, std::vector<double> start) {
  for (std::size_t j = 0; j < start.size(); ++j) start[j] = std::clamp(start[j], hill.least[j], hill.most[j]);
  std::optional<Top> top = Way(hill, false).up(start);
  // Equalities that follow from each other stop the solver; two sides in the place of each do not.
  if (!top && hill.space.equal > 0) top = Way(hill, true).up(start);
  return top;
}

std::optional<Design> nearest_inside(const Space& space, const Design& x) {
  const auto height = [&](const std::vector<double>& at, std::span<double> slope) {
    double square = 0.0;
    for (std::size_t j = 0; j < x.size(); ++j) {
      square += (at[j] - x[j]) * (at[j] - x[j]);
      slope[j] = -2.0 * (at[j] - x[j]);
    }
    return -square;
  };
  const Hill hill{space, std::vector<double>(space.free, 0.0), std::vector<double>(space.free, 1.0), height};
  std::optional<Top> best;
  for (const Design& start : {x, Design(space.free, 0.5), Design(space.free, 0.0), Design(space.free, 1.0)}) {
    best = climb(hill, start);
    if (best) break;
  }
  return best ? std::optional(best->at) : std::nullopt;
}

}  // namespace portwright::seek
