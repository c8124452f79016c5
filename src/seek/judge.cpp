#include "seek/judge.hpp"

#include <algorithm>
#include <cmath>
#include <deque>
#include <numbers>

#include "cycle/lanes/reach_lanes.hpp"

namespace portwright::seek {
namespace {

constexpr double two_pi = 2.0 * std::numbers::pi;

/// How a point is searched: two turns in a row that move the work by less than this. A turn leaves up to 0.96 of a
/// push, so ten times as much is still to come of it at worst, some hundredths of a per cent.
cycle::CurvePlan search_plan() {
  cycle::CurvePlan out;
  out.proven = false;
  out.search = {2e-4, 40, 0, 1, 2};
  return out;
}

/// The greatest of a curve through points that stand a little apart: of the parabola through the three about it.
struct Top {
  double at = 0.0, value = 0.0;
};
Top top_of(const std::vector<double>& x, const std::vector<double>& y) {
  const auto n = y.size();
  const auto i = static_cast<std::size_t>(std::max_element(y.begin(), y.end()) - y.begin());
  Top out{x[i], y[i]};
  if (n < 3) return out;
  const std::size_t m = std::clamp<std::size_t>(i, 1, n - 2);
  const double d1 = (y[m] - y[m - 1]) / (x[m] - x[m - 1]), d2 = (y[m + 1] - y[m]) / (x[m + 1] - x[m]);
  const double bend = (d2 - d1) / (x[m + 1] - x[m - 1]);
  if (!(bend < 0.0)) return out;
  const double at = std::clamp(0.5 * (x[m - 1] + x[m] - d1 / bend), x.front(), x.back());
  const double value = y[m - 1] + (at - x[m - 1]) * (d1 + bend * (at - x[m]));
  return value > out.value ? Top{at, value} : out;
}

double between(const std::vector<double>& x, const std::vector<double>& y, double at) {
  if (at <= x.front()) return y.front();
  for (std::size_t i = 1; i < x.size(); ++i)
    if (at <= x[i]) return y[i - 1] + (y[i] - y[i - 1]) * (at - x[i - 1]) / (x[i] - x[i - 1]);
  return y.back();
}

std::size_t nearest_of(const std::vector<double>& speeds, double speed) {
  std::size_t best = 0;
  for (std::size_t i = 1; i < speeds.size(); ++i)
    if (std::abs(speeds[i] - speed) < std::abs(speeds[best] - speed)) best = i;
  return best;
}

bool is_sound(const Outcome& out) {
  double sum = out.peak + out.pull + out.heat + out.most_torque;
  for (const double knock : out.knock) sum += knock;
  return std::isfinite(sum);
}

double change(double now, double stock) { return (now - stock) / std::max(std::abs(stock), 1e-12); }

}  // namespace

Outcome Asked::outcome(std::span<const cycle::Point> points) const {
  Outcome out;
  std::vector<double> power, heat;
  for (const cycle::Point& point : points) {
    out.torque.push_back(point.torque);
    out.knock.push_back(point.knock);
    power.push_back(point.power);
    heat.push_back(point.heat_cylinder);
  }
  const Top peak = top_of(speeds, power);
  out.peak = peak.value;
  out.peak_speed = peak.at;
  out.most_torque = top_of(speeds, out.torque).value;
  out.low = between(speeds, out.torque, low_share * rated);
  for (const double share : pull_shares)
    out.pull += between(speeds, out.torque, share * rated) / static_cast<double>(pull_shares.size());
  out.heat = between(speeds, heat, peak.at);
  return out;
}

double Asked::value(const Outcome& of, Figure figure, double speed) const {
  if (figure == Figure::pull) return of.pull;
  if (figure == Figure::heat) return of.heat;
  if (speed <= 0.0) return figure == Figure::power ? of.peak : of.most_torque;
  const double torque = between(speeds, of.torque, speed);
  return figure == Figure::torque ? torque : torque * two_pi * speed;
}

std::array<double, 4> Asked::gains(const Outcome& now, const Outcome& stock) const {
  const auto gain = [&](Figure figure, double speed) {
    return change(value(now, figure, speed), value(stock, figure, speed));
  };
  const double sign = aim.figure == Figure::heat ? -1.0 : 1.0;
  return {sign * gain(aim.figure, aim.speed), gain(Figure::pull, 0.0), gain(Figure::power, 0.0),
          -gain(Figure::heat, 0.0)};
}

std::vector<double> speeds_for(const EngineWish& wish, double rated) {
  std::vector<double> out;
  for (const double share : speed_shares) out.push_back(share * rated);
  std::vector<double> asked{wish.aim.speed};
  for (const Hold& hold : wish.holds) asked.push_back(hold.speed);
  std::vector<bool> taken(out.size(), false);
  std::fill(taken.begin(), taken.begin() + kept_speeds, true);
  for (const double speed : asked) {
    if (!(speed > 0.0) || std::find(out.begin(), out.end(), speed) != out.end()) continue;
    std::size_t nearest = out.size();
    for (std::size_t i = 0; i < taken.size(); ++i)
      if (!taken[i] && (nearest == out.size() || std::abs(out[i] - speed) < std::abs(out[nearest] - speed)))
        nearest = i;
    if (nearest < out.size()) {
      out[nearest] = speed;
      taken[nearest] = true;
    } else {
      out.push_back(speed);
      taken.push_back(true);
    }
  }
  std::sort(out.begin(), out.end());
  return out;
}

Asked asked_of(const EngineWish& wish, double rated) {
  return {wish.aim, wish.holds, wish.low_speed_free, rated, speeds_for(wish, rated)};
}

base::Result<StockLook> look_at_stock(const cycle::Network& stock, int threads, const cycle::StopCall& stop) {
  StockLook out;
  std::vector<double> power, &speeds = out.speeds;
  for (double rpm = 5000.0; rpm <= 12500.0; rpm += 1500.0) speeds.push_back(rpm / 60.0);
  std::vector<cycle::LanePoint> points;
  for (const double speed : speeds) points.push_back({&stock, speed, search_plan(), {}, {}, false});
  for (cycle::LanePoint& point : points) point.plan.search.tolerance = 1e-3;
  std::atomic<std::size_t> done{0};
  cycle::reach_side_by_side<double>(points, threads, stop, done);
  for (const cycle::LanePoint& point : points) {
    if (!point.reached) return out;
    power.push_back(point.point.power);
    out.torques.push_back(point.point.torque);
    out.states.push_back(point.state);
  }
  const Top top = top_of(speeds, power);
  if (!(top.value > 0.0))
    return base::fail(base::ErrorCode::impossible, "The saw as it is gives no power in the simulation.", "",
                      "Look at what it breathes with, or whether it fires at all: run says more.");
  out.rated = top.at;
  return out;
}

struct CycleJudge::Inside {
  const plan::Ground& ground;
  Asked asked;
  std::vector<std::string> needs;
  cycle::Fineness fineness;
  int threads;
  StopAsked stop_asked;
  std::atomic<bool> stopped{false};
  std::size_t turned = 0;

  /// A design that was turned, and where its turns stand.
  struct Known {
    Design design;
    std::string why_not;
    std::optional<cycle::Network> network;
    std::vector<cycle::State> states;
    Outcome outcome;
  };
  std::deque<Known> known{};  ///< stock first

  cycle::StopCall stop() {
    return {[](void* self) {
              auto* inside = static_cast<Inside*>(self);
              if (!inside->stopped && inside->stop_asked && inside->stop_asked()) inside->stopped = true;
              return inside->stopped.load();
            },
            this};
  }

  /// @param before  so many of the known are old; others are of the same round and have not turned
  const Known& nearest(const Design& design, std::size_t before) const {
    const Known* best = &known.front();
    double gap = 1e300;
    for (std::size_t k = 0; k < before; ++k) {
      if (!known[k].network) continue;
      double sum = 0.0;
      for (std::size_t i = 0; i < design.size(); ++i) sum += std::pow(design[i] - known[k].design[i], 2);
      if (sum < gap) {
        gap = sum;
        best = &known[k];
      }
    }
    return *best;
  }

  /// Builds, turns and keeps some designs that nothing speaks against yet. @return whether none was stopped
  /// @param look  where stock's first turns start
  bool turn(std::span<const Design> designs, std::span<const std::string> refused, const StockLook& look = {}) {
    const std::size_t before = known.size();
    std::vector<cycle::LanePoint> points;
    std::vector<std::size_t> of;
    for (std::size_t d = 0; d < designs.size(); ++d) {
      Known& one = known.emplace_back();
      one.design = designs[d];
      one.why_not = refused[d];
      if (!one.why_not.empty()) continue;
      const auto engine = ground.engine(designs[d]);
      if (!engine) {
        one.why_not = "no engine can be so";
        continue;
      }
      auto built = cycle::build(*engine, cycle::middle_assumptions(), needs, fineness);
      if (!built) {
        one.why_not = built.error().message;
        continue;
      }
      one.network = *std::move(built);
      of.push_back(known.size() - 1);
      const Known* from = before == 0 ? nullptr : &nearest(designs[d], before);
      for (std::size_t i = 0; i < asked.speeds.size(); ++i) {
        cycle::State start;
        if (from != nullptr)
          start = cycle::carried(*from->network, from->states[i], *one.network);
        else if (!look.states.empty())
          start = look.states[nearest_of(look.speeds, asked.speeds[i])];
        points.push_back({&*one.network, asked.speeds[i], search_plan(), std::move(start), {}, false});
      }
    }
    std::atomic<std::size_t> done{0};
    // Few points fill no more lanes as floats than as doubles.
    if (before == 0)
      cycle::reach_side_by_side<double>(points, threads, stop(), done);
    else
      cycle::reach_side_by_side<float>(points, threads, stop(), done);
    turned += points.size();
    const std::size_t n = asked.speeds.size();
    for (std::size_t k = 0; k < of.size(); ++k) {
      const std::span<cycle::LanePoint> mine(points.data() + k * n, n);
      if (!std::all_of(mine.begin(), mine.end(), [](const auto& one) { return one.reached; })) return false;
      Known& one = known[of[k]];
      std::vector<cycle::Point> there;
      for (const cycle::LanePoint& point : mine) there.push_back(point.point);
      one.outcome = asked.outcome(there);
      if (!is_sound(one.outcome)) {
        one.why_not = "the simulation finds no turn for it";
        one.network.reset();
        continue;
      }
      for (cycle::LanePoint& point : mine) one.states.push_back(std::move(point.state));
    }
    return true;
  }

  [[nodiscard]] const Known* find(const Design& design) const {
    const auto found = std::find_if(known.begin(), known.end(), [&](const Known& one) { return one.design == design; });
    return found == known.end() ? nullptr : &*found;
  }

  [[nodiscard]] Judged judged(const Known& one) const {
    Judged out;
    out.possible = one.why_not.empty();
    out.gains.assign(4, 0.0);
    out.holds.assign(asked.holds.size() + 2, 0.0);
    if (!out.possible) return out;
    const Outcome &now = one.outcome, &was = known.front().outcome;
    const auto gains = asked.gains(now, was);
    out.gains.assign(gains.begin(), gains.end());
    for (std::size_t h = 0; h < asked.holds.size(); ++h) {
      const Hold& hold = asked.holds[h];
      const double by =
          change(asked.value(now, hold.figure, hold.speed), asked.value(was, hold.figure, hold.speed)) - hold.change;
      out.holds[h] = hold.at_least ? by : -by;
    }
    const double lost = -change(now.low, was.low);
    out.holds[asked.holds.size()] = asked.low_speed_free ? 1.0 : low_speed_loss - lost;
    // No design may knock where stock does not; one that does already may not knock more.
    double room = 1e300;
    for (std::size_t i = 0; i < now.knock.size(); ++i)
      room = std::min(room, std::max(most_knock, was.knock[i]) - now.knock[i]);
    out.holds.back() = room;
    return out;
  }
};

CycleJudge::CycleJudge(const plan::Ground& ground, Asked asked, std::span<const std::string> needs,
                       const cycle::Fineness& fineness, int threads, StopAsked stop)
    : inside_(new Inside{ground, std::move(asked), {needs.begin(), needs.end()}, fineness, threads, std::move(stop)}) {}
CycleJudge::~CycleJudge() = default;

base::Result<bool> CycleJudge::begin(const StockLook& look) {
  const Design nothing(inside_->ground.knobs().size(), 0.0);
  const std::string fine[] = {""};
  if (!inside_->turn(std::span(&nothing, 1), fine, look)) return false;
  const auto& stock = inside_->known.front();
  if (!stock.why_not.empty()) return base::fail(base::ErrorCode::impossible, stock.why_not, "", "");
  return true;
}

std::vector<Judged> CycleJudge::operator()(std::span<const Design> designs) {
  std::vector<Design> fresh;
  for (const Design& design : designs)
    if (inside_->find(design) == nullptr && std::find(fresh.begin(), fresh.end(), design) == fresh.end())
      fresh.push_back(design);
  const std::size_t before = inside_->known.size();
  const bool whole = fresh.empty() || inside_->turn(fresh, inside_->ground.refused(fresh, true));
  // A round that was stopped is no round: nothing of it was judged.
  if (!whole) inside_->known.erase(inside_->known.begin() + static_cast<std::ptrdiff_t>(before), inside_->known.end());
  std::vector<Judged> out;
  for (const Design& design : designs) {
    const Inside::Known* one = inside_->find(design);
    if (one == nullptr) break;
    out.push_back(inside_->judged(*one));
  }
  return out;
}

const Outcome& CycleJudge::stock() const { return inside_->known.front().outcome; }
const Asked& CycleJudge::asked() const { return inside_->asked; }
std::size_t CycleJudge::points_turned() const { return inside_->turned; }

const Outcome* CycleJudge::outcome(const Design& design) const {
  const Inside::Known* one = inside_->find(design);
  return one != nullptr && one->why_not.empty() ? &one->outcome : nullptr;
}

std::string CycleJudge::why_not(const Design& design) const {
  const Inside::Known* one = inside_->find(design);
  return one == nullptr ? "it was not turned" : one->why_not;
}

}  // namespace portwright::seek
