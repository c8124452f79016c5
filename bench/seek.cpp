// The search for cuts against trying at random: how soon, how good.
//
//   bench_seek time                      six free cuts on each sample: first answer, search, all with ranges
//   bench_seek random SAMPLE [STARTS]    searches of 60 lists against 600 at random, medians over the starts
//
// Random lists are of two kinds: even over all that the limits leave, and such that each cut lies at nothing or at its
// end one time in four each, as gains grow along most cuts. Both are judged by the same simulation.

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <numeric>
#include <random>

#include <fmt/format.h>

#include "../tests/unit/support/sample_engines.hpp"
#include "seek/answers.hpp"

namespace {

using namespace portwright;
using Clock = std::chrono::steady_clock;

double since(Clock::time_point from) { return std::chrono::duration<double>(Clock::now() - from).count(); }

struct Saw {
  bench::SampleEngine sample;
  plan::Settings settings;
  seek::EngineWish wish = *seek::parse_engine_wish("most power");
  std::optional<plan::Ground> ground;

  explicit Saw(const char* name) : sample(bench::sample_engine(name)) {
    settings.folder = ".";
    ground.emplace(*plan::Ground::make({}, *plan::chosen(plan::knobs_of(sample.survey, sample.engine), ""),
                                       sample.survey, settings));
  }
};

void time_of(const char* name) {
  const Saw saw(name);
  double first = 0.0, searched = 0.0;
  const auto begin = Clock::now();
  seek::SeekPlan plan;
  plan.search.most = 160;
  const auto found = seek::seek(*saw.ground, saw.wish, saw.sample.survey, plan, {}, [&](const seek::Progress& now) {
    if (first == 0.0 && now.best < now.tried.size() && now.tried[now.best].judged.gains[seek::gain_aim] > 0.0)
      first = since(begin);
    if (searched == 0.0 && std::strcmp(now.doing, "ranges") == 0) searched = since(begin);
    return false;
  });
  const double whole = since(begin);
  fmt::print("{:<10} {} cuts: first {:.1f} s, {} lists in {:.1f} s, {} answers with ranges {:.1f} s, best {:+.2f} %\n",
             name, saw.ground->knobs().size(), first, found->tried.size(), searched, found->answers.size(), whole,
             100.0 * found->tried[seek::best_of(found->tried)].judged.gains[seek::gain_aim]);
}

class Trial {
 public:
  explicit Trial(const Saw& saw) : saw_(saw) {
    const auto network = bench::network_of(saw.sample);
    asked_ = seek::asked_of(saw.wish, seek::look_at_stock(network, 2, {})->rated);
  }

  double searched(unsigned seed, std::size_t most) const {
    seek::SeekPlan plan;
    plan.search.most = most;
    plan.search.seed = seed;
    plan.seconds = 0.0;
    plan.members = 0;
    const auto found = seek::seek(*saw_.ground, saw_.wish, saw_.sample.survey, plan);
    const auto& tried = found->tried;
    return tried[seek::best_of(tried)].judged.gains[seek::gain_aim];
  }

  /// The aim of some lists at random; what does not hold counts as nothing gained.
  std::vector<double> at_random(std::size_t count, bool at_ends, unsigned seed) const {
    seek::CycleJudge judge(*saw_.ground, asked_, saw_.sample.survey.needs, {}, 2, {});
    (void)judge.begin();
    std::mt19937 random(seed);
    std::uniform_real_distribution<double> share(0.0, 1.0);
    std::vector<double> out;
    while (out.size() < count) {
      std::vector<seek::Design> round;
      while (round.size() < 10) {
        seek::Design one(saw_.ground->knobs().size());
        for (double& s : one) {
          const double kind = share(random), even = share(random);
          s = !at_ends || kind > 0.5 ? even : kind > 0.25 ? 1.0 : 0.0;
        }
        if (inside(one)) round.push_back(std::move(one));
      }
      for (const seek::Judged& one : judge(round)) {
        const bool holds =
            one.possible && std::all_of(one.holds.begin(), one.holds.end(), [](double h) { return h >= 0.0; });
        out.push_back(holds ? one.gains[seek::gain_aim] : 0.0);
      }
    }
    return out;
  }

 private:
  [[nodiscard]] bool inside(const seek::Design& one) const {
    for (const auto& side : saw_.ground->sides())
      if (std::inner_product(one.begin(), one.end(), side.slope.begin(), side.offset) < 0.0) return false;
    return true;
  }
  const Saw& saw_;
  seek::Asked asked_;
};

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  return values[values.size() / 2];
}

/// Best of `each` lists drawn from a pool without putting back, start by start.
std::vector<double> bests(const std::vector<double>& pool, std::size_t each, int starts) {
  std::mt19937 random(11);
  std::vector<double> out;
  for (int i = 0; i < starts; ++i) {
    std::vector<double> some;
    std::sample(pool.begin(), pool.end(), std::back_inserter(some), each, random);
    out.push_back(*std::max_element(some.begin(), some.end()));
  }
  return out;
}

void against_random(const char* name, int starts) {
  constexpr std::size_t ours = 60, tenfold = 10 * ours, pool = 3 * tenfold;
  const Saw saw(name);
  const Trial trial(saw);
  std::vector<double> searched;
  for (int seed = 1; seed <= starts; ++seed) searched.push_back(trial.searched(static_cast<unsigned>(seed), ours));
  const auto even = bests(trial.at_random(pool, false, 3), tenfold, starts);
  const auto ends = bests(trial.at_random(pool, true, 5), tenfold, starts);
  const auto range = [](const std::vector<double>& v) {
    return fmt::format("{:+.2f} % ({:+.2f} to {:+.2f})", 100.0 * median(v),
                       100.0 * *std::min_element(v.begin(), v.end()), 100.0 * *std::max_element(v.begin(), v.end()));
  };
  fmt::print("{:<10} {} starts: search of {} lists {}; {} at random, even {}; at ends {}\n", name, starts, ours,
             range(searched), tenfold, range(even), range(ends));
}

}  // namespace

int main(int argc, char** argv) {
  std::setvbuf(stdout, nullptr, _IOLBF, 1 << 12);  // told as it comes
  if (argc > 2 && std::strcmp(argv[1], "random") == 0) {
    against_random(argv[2], argc > 3 ? std::atoi(argv[3]) : 20);
    return 0;
  }
  for (const char* name : {"alder-60", "oak-110", "spruce-92"}) time_of(name);
}
