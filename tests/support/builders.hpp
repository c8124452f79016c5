#pragma once
// Simulated builders at a planned piece of work: a true saw that differs from the one that was read, a hand and a gauge
// with errors, and the sheet's own rules of where to stop, how often to read and when to put the tool down. What they
// leave is measured on the true engine, by the cuts themselves.

#include <cmath>
#include <random>
#include <vector>

#include "plan/work.hpp"
#include "study/samples.hpp"

namespace portwright::bench {

/// What a builder is like beside what the sheet assumes.
struct Builder {
  double scatter = 1.0;   ///< of readings and hand, times what is assumed
  double bias = 0.0;      ///< of the hand, every ground cut too deep by this [mm]
  double slips = 0.0;     ///< share of cuts that slip by 0.3 mm
  bool straight = false;  ///< cuts the whole amount in one go, and reads nothing
};

struct Tally {
  int edges = 0, inside = 0, past = 0;  ///< windows and faces
  int saws = 0, all_inside = 0, any_past = 0;
  int under_squish = 0;   ///< saws whose true working squish is under 0.35 mm
  double readings = 0.0;  ///< taken, all together
  double share(int count, int of) const { return of > 0 ? static_cast<double>(count) / of : 0.0; }
};

class Workshop {
 public:
  Workshop(const plan::Work& work, const geometry::Survey& survey, const plan::Bench& bench, unsigned seed)
      : work_(work), survey_(survey), bench_(bench), random_(seed) {}

  void port(const Builder& builder, Tally& tally) {
    draw_saw();
    cuts::CutList done;
    bool all = true, none_past = true;
    for (const plan::WorkStep& step : work_.steps) {
      cuts::Cut cut = step.cut;
      if (step.guard) {
        const double off = cut_it(step, builder, done, cut, tally);
        const bool in = std::abs(off) <= step.guard->half_band, past = off > step.guard->half_band;
        ++tally.edges;
        tally.inside += in ? 1 : 0;
        tally.past += past ? 1 : 0;
        all = all && in;
        none_past = none_past && !past;
      }
      done.push_back(cut);
    }
    ++tally.saws;
    tally.all_inside += all ? 1 : 0;
    tally.any_past += none_past ? 0 : 1;
    const geometry::Engine engine = after(done);
    tally.under_squish += *engine.squish_least - *engine.squish_stretch < 0.35e-3 ? 1 : 0;
  }

 private:
  double normal(double sigma) { return sigma * std::normal_distribution<double>()(random_); }

  /// The true saw: the readings, each wrong by an error of its source.
  void draw_saw() {
    std::vector<double> errors(std::max<std::size_t>(1, survey_.sources.size()));
    for (double& e : errors) e = normal(1.0);
    std::vector<double> values = survey_.values();
    study::draw_values(survey_, errors, values);
    geometry::resolve(survey_, values, saw_);
  }

  geometry::Engine after(const cuts::CutList& list) const {
    geometry::Engine engine = saw_;
    if (const auto prepared = cuts::prepare(list, survey_, ".")) cuts::apply(**prepared, engine);
    return engine;
  }

  /// The figure that the step reads, on the true saw, with so much of its cut done [mm].
  double figure(const plan::WorkStep& step, const cuts::CutList& done, cuts::Cut cut, double mm) const {
    if (cut.act == cuts::Act::dome) return mm;
    cuts::CutList list = done;
    cut.amount = std::copysign(1e-3 * mm, cut.amount);
    list.push_back(cut);
    const geometry::Engine engine = after(list);
    if (step.unit == "deg") {
      int entry = survey_.find_port(cut.port);
      for (std::size_t i = 0; cut.act == cuts::Act::skirt && i < survey_.ports.size(); ++i)
        if (survey_.ports[i].kind == geometry::PortKind::intake) entry = static_cast<int>(i);
      return 180.0 / std::numbers::pi * *geometry::timing(engine, engine.ports[static_cast<std::size_t>(entry)]).opens;
    }
    if (cut.act == cuts::Act::widen)
      return 1e3 * *engine.ports[static_cast<std::size_t>(survey_.find_port(cut.port))].width;
    return 1e3 * *engine.squish;
  }

  /// One step. Returns how far past its target the true figure lies at the end, in the step's unit.
  double cut_it(const plan::WorkStep& step, const Builder& builder, const cuts::CutList& done, cuts::Cut& cut,
                Tally& tally) {
    const plan::Guard& guard = *step.guard;
    const double way = step.per_mm > 0.0 ? 1.0 : -1.0, steep = std::abs(step.per_mm);
    const bool ground = cut.act == cuts::Act::roof || cut.act == cuts::Act::floor || cut.act == cuts::Act::widen;
    const bool turned = !ground && cut.act != cuts::Act::skirt;
    const double both = cut.act == cuts::Act::widen ? std::sqrt(0.5) : 1.0;
    const double hand = 1e3 * both * (turned ? bench_.lathe : bench_.hand), fine = turned ? hand : 0.3 * hand;
    double mm = 0.0;
    const auto take = [&](double wanted, double scatter) {
      double cut_now = wanted + normal(scatter * builder.scatter) + (turned ? 0.0 : builder.bias);
      if (!turned && std::uniform_real_distribution<double>()(random_) < builder.slips) cut_now += 0.3;
      mm += std::max(0.0, cut_now);
    };
    const auto off = [&] { return way * (figure(step, done, cut, mm) - step.target); };
    if (builder.straight) {
      take(1e3 * step.amount, hand);
      cut.amount = std::copysign(1e-3 * mm, cut.amount);
      return off();
    }
    const Gauges sigma = gauge_of(step);
    const double fixed = normal(sigma.fixed * builder.scatter);
    // The stop mark is a place, not an amount: what stands nearer before it gets less.
    if (step.stop_amount > 0.0) {
      const double before = off() + fixed + normal(sigma.each * builder.scatter / std::sqrt(guard.repeats));
      tally.readings += guard.repeats;
      const double coarse = (-guard.short_of - before) / steep;
      if (coarse > 0.05) take(coarse, hand);
    }
    for (int pass = 0; pass < plan::most_fine_passes; ++pass) {
      const double read = off() + fixed + normal(sigma.each * builder.scatter / std::sqrt(guard.repeats));
      tally.readings += guard.repeats;
      if (read > -guard.put_down) break;
      take((-guard.aim_short - read) / steep, fine);
    }
    cut.amount = std::copysign(1e-3 * mm, cut.amount);
    return off();
  }

  struct Gauges {
    double fixed, each;
  };
  /// What the gauges named on the sheet are good for; typed here, not taken from the plan.
  static Gauges gauge_of(const plan::WorkStep& step) {
    const double steep = std::abs(step.per_mm);
    const std::string& name = step.guard->gauge;
    if (name.starts_with("degree wheel by light")) return {0.5, 0.5};
    if (name.starts_with("degree wheel")) return {0.15, 0.15};
    if (name.starts_with("height")) return {0.035 * steep, 0.05 * steep};
    if (name.starts_with("metal gone")) return {0.05 * steep, 0.05 * steep};
    if (name.starts_with("caliper")) return {0.07, 0.07};
    return {0.01, 0.01};  // solder, dial
  }

  const plan::Work& work_;
  const geometry::Survey& survey_;
  plan::Bench bench_;
  std::mt19937_64 random_;
  geometry::Engine saw_;
};

}  // namespace portwright::bench
