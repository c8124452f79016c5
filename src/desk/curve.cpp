#include "desk/curve.hpp"

#include <algorithm>
#include <array>
#include <atomic>
#include <cmath>
#include <map>
#include <mutex>
#include <optional>
#include <thread>

#include "desk/aims.hpp"
#include "desk/turning.hpp"
#include "saw/file.hpp"

namespace portwright::desk {

namespace {

enum class Stage { none, first_look, settled, mean };

constexpr const char* stage_names[] = {"", "first look", "settled", "mean of turns"};

/// One speed of one side: its best answer so far, and the turn it can be gone on from.
struct Spot {
  Stage stage = Stage::none;
  cycle::Point point;
  cycle::State state;
  double proven = 0.0;  ///< mean effective pressure of the settled turn, from below [Pa]
};

using Spots = std::map<double, Spot>;  ///< by speed [rev/s]

/// The nearest of some speeds.
const Spot* nearest(const Spots& spots, const std::vector<double>& of, double speed) {
  const Spot* best = nullptr;
  double gap = 1e300;
  for (const double at : of)
    if (const auto spot = spots.find(at); spot != spots.end() && std::abs(at - speed) < gap) {
      gap = std::abs(at - speed);
      best = &spot->second;
    }
  return best;
}

}  // namespace

struct CurveMemory::Inside {
  std::mutex mutex;
  std::string of;  ///< text of the saw's readings
  Spots stock;
};

CurveMemory::CurveMemory() : inside_(std::make_unique<Inside>()) {}
CurveMemory::~CurveMemory() = default;

namespace {

/// Speeds in the order they are wanted: middle, ends and quarters, then the rest upward.
std::vector<double> in_order(std::vector<double> speeds) {
  std::vector<double> out;
  const std::size_t n = speeds.size();
  for (const double share : {0.5, 0.75, 0.25, 1.0, 0.0}) {
    const double speed = speeds[static_cast<std::size_t>(std::lround(share * static_cast<double>(n - 1)))];
    if (std::find(out.begin(), out.end(), speed) == out.end()) out.push_back(speed);
  }
  for (const double speed : speeds)
    if (std::find(out.begin(), out.end(), speed) == out.end()) out.push_back(speed);
  return out;
}

constexpr std::size_t wanted_first = 5;

/// A curve on its way.
class Turning {
 public:
  Turning(const CurveRequest& request, const CurveWatch& watch, const Case& opened, const Sides& sides,
          const std::vector<double>& rpm)
      : request_(request), watch_(watch), sides_(sides), plan_(sides.plan(rpm)), order_(in_order(plan_.speeds)) {
    answer_.head = opened.head;
    answer_.head.assumed = assumed_of(sides.cut_network);
    answer_.promise = power_is_an_order_of_size;
    if (sides.has_cuts) answer_.promise += differences_under_one_set;
    answer_.cautions = cautions();
  }

  void remember(const Spots& stock) { spots(!sides_.has_cuts) = remembered_ = stock; }
  [[nodiscard]] const Spots& stock() const { return sides_.has_cuts ? stock_ : subject_; }

  wire::CurveAnswer go() {
    const auto first = std::min(wanted_first, order_.size());
    const auto part = [&](std::size_t from, std::size_t to) {
      return std::vector<double>(order_.begin() + static_cast<std::ptrdiff_t>(from),
                                 order_.begin() + static_cast<std::ptrdiff_t>(to));
    };
    const double sides = sides_.has_cuts ? 2.0 : 1.0, n = static_cast<double>(order_.size());
    const double from_above = request_.settle && plan_.both_ways && order_.size() > 1 ? 2.0 * n : 0.0;
    whole_ = sides * (n + (request_.settle ? 3.0 * n + from_above : 0.0));
    const std::vector<bool> both = sides_.has_cuts ? std::vector<bool>{true, false} : std::vector<bool>{true};
    begin("first look");
    // The middle from cold, which fires there; each wave then starts from the nearest of the waves before it.
    for (const auto& [from, to] : {std::pair<std::size_t, std::size_t>{0, 1}, {1, first}, {first, order_.size()}}) {
      const std::vector<double> wave = part(from, to);
      for (const bool cut : both) on_all(wave, [&, cut](double speed) { first_look(cut, speed); });
      ready_.insert(ready_.end(), wave.begin(), wave.end());
    }
    if (request_.settle) {
      looked_.emplace(std::array<Spots, 2>{stock_, subject_});
      begin("settling");
      for (const bool cut : both) on_all(order_, [&, cut](double speed) { settle(cut, speed); });
      if (from_above > 0.0) {
        begin("from above");
        on_all(both, [&](bool cut) { from_above_down(cut); });
      }
      if (!stopped_)
        for (const bool cut : both) label_steep(cut);
    }
    if (!stopped_) begin("done");
    answer_.share = stopped_ ? answer_.share : 1.0;
    answer_.stopped = stopped_;
    say_sentence();
    return answer_;
  }

 private:
  /// Without cuts the saw as it is is the subject.
  Spots& spots(bool cut) { return cut ? subject_ : stock_; }
  [[nodiscard]] const cycle::Network& network(bool cut) const {
    return cut ? sides_.cut_network : sides_.stock_network;
  }

  template <class Item, class Each>
  void on_all(const std::vector<Item>& items, Each&& each) {
    std::atomic<std::size_t> next{0};
    const auto work = [&] {
      for (std::size_t i = next++; i < items.size() && !stopped_; i = next++) each(items[i]);
    };
    std::vector<std::jthread> helpers;
    const auto wanted = std::min<std::size_t>(static_cast<std::size_t>(std::max(1, request_.threads)), items.size());
    for (std::size_t k = 1; k < wanted; ++k) helpers.emplace_back(work);
    work();
  }

  cycle::StopCall stop() {
    return {[](void* self) {
              auto* turning = static_cast<Turning*>(self);
              if (!turning->stopped_ && turning->watch_ && turning->asked_to_stop()) turning->stopped_ = true;
              return turning->stopped_.load();
            },
            this};
  }
  /// The watch is asked between points by whoever holds the answer, and not waited for.
  bool asked_to_stop() {
    const std::unique_lock lock(mutex_, std::try_to_lock);
    return lock.owns_lock() && watch_(answer_);
  }

  Spot copy_of(bool cut, double speed) {
    const std::lock_guard lock(mutex_);
    const Spots& mine = spots(cut);
    const auto known = mine.find(speed);
    return known == mine.end() ? Spot{} : known->second;
  }

  /// Where to start: stock at this speed if it was there beforehand, else the nearest speed of an earlier wave. Nothing
  /// of it depends on which thread was sooner.
  cycle::State start_of(bool cut, double speed) {
    if (cut && sides_.has_cuts)
      if (const auto same = remembered_.find(speed); same != remembered_.end())
        return cycle::carried(network(false), same->second.state, network(true));
    const std::lock_guard lock(mutex_);
    const Spot* near = nearest(looked_ ? (*looked_)[cut ? 1 : 0] : spots(cut), ready_, speed);
    return near != nullptr ? near->state : cycle::State{};
  }

  void first_look(bool cut, double speed) {
    if (copy_of(cut, speed).stage == Stage::none) {
      Spot spot;
      spot.state = start_of(cut, speed);
      spot.point = cycle::glance(network(cut), speed, spot.state, stop());
      spot.stage = Stage::first_look;
      // One that came to no end shows nothing: the settling has more patience.
      if (!stopped_ && spot.point.error < cycle::glance_tolerance) put(cut, speed, std::move(spot));
    }
    advance(1.0);
  }

  void settle(bool cut, double speed) {
    Spot spot = copy_of(cut, speed);
    if (spot.stage < Stage::settled) {
      if (spot.stage == Stage::none) spot.state = start_of(cut, speed);
      spot.point = cycle::reach(network(cut), speed, plan_, spot.state, stop());
      const bool mean = plan_.scattered_turns > 0 || spot.point.label != cycle::Label::stable;
      spot.stage = mean ? Stage::mean : Stage::settled;
      spot.proven = spot.point.imep;
      if (!stopped_) put(cut, speed, std::move(spot));
    }
    advance(3.0);
  }

  /// The same speeds from the highest down: where they end elsewhere there are two answers.
  void from_above_down(bool cut) {
    cycle::State state = copy_of(cut, plan_.speeds.back()).state;
    advance(2.0);
    for (std::size_t k = plan_.speeds.size() - 1; k-- > 0 && !stopped_;) {
      const double speed = plan_.speeds[k];
      const cycle::Point above = cycle::reach(network(cut), speed, plan_, state, stop());
      if (stopped_) return;
      Spot spot = copy_of(cut, speed);
      const double apart = std::abs(above.imep - spot.proven) / std::max(1e4, std::abs(spot.proven));
      if (apart > 4.0 * plan_.search.tolerance && spot.point.label == cycle::Label::stable) {
        spot.point.label = cycle::Label::two_solution;
        put(cut, speed, std::move(spot));
      }
      advance(2.0);
    }
  }

  /// Steps of power are seen on the whole curve only.
  void label_steep(bool cut) {
    const std::lock_guard lock(mutex_);
    std::vector<cycle::Point> points;
    for (const auto& [speed, spot] : spots(cut)) points.push_back(spot.point);
    cycle::label_steep(points);
    for (const cycle::Point& point : points) spots(cut)[point.speed].point.label = point.label;
  }

  void put(bool cut, double speed, Spot&& spot) {
    const std::lock_guard lock(mutex_);
    spots(cut)[speed] = std::move(spot);
    (cut ? answer_.points : answer_.stock) = rows(spots(cut));
  }

  [[nodiscard]] std::vector<wire::CurvePoint> rows(const Spots& all) const {
    std::vector<wire::CurvePoint> out;
    for (const double speed : plan_.speeds) {
      const auto found = all.find(speed);
      if (found == all.end() || found->second.stage == Stage::none) continue;
      const Spot& spot = found->second;
      out.push_back({speed * rpm_per_rev, 1e-3 * spot.point.power, spot.point.torque,
                     stage_names[static_cast<std::size_t>(spot.stage)],
                     spot.stage == Stage::first_look ? "" : settled_name(spot.point.label)});
    }
    return out;
  }

  void begin(const char* doing) {
    const std::lock_guard lock(mutex_);
    answer_.doing = doing;
    answer_.points = rows(subject_);
    answer_.stock = rows(stock_);
    if (watch_ && watch_(answer_)) stopped_ = true;
  }

  void advance(double weight) {
    const std::lock_guard lock(mutex_);
    done_ += weight;
    answer_.share = std::min(1.0, done_ / whole_);
    say_sentence();
    if (!stopped_ && watch_ && watch_(answer_)) stopped_ = true;
  }

  void say_sentence();

  const CurveRequest& request_;
  const CurveWatch& watch_;
  const Sides& sides_;
  cycle::CurvePlan plan_;
  std::vector<double> order_;                   ///< [rev/s]
  std::vector<double> ready_;                   ///< speeds of the waves that are done
  std::optional<std::array<Spots, 2>> looked_;  ///< stock and subject as the first look left them
  Spots remembered_;                            ///< stock as an earlier curve left it
  std::mutex mutex_;                            ///< of all below
  Spots subject_, stock_;
  wire::CurveAnswer answer_;
  double done_ = 0.0, whole_ = 1.0;
  std::atomic<bool> stopped_{false};
};

const wire::CurvePoint& greatest(const std::vector<wire::CurvePoint>& points, double wire::CurvePoint::*of) {
  return *std::max_element(points.begin(), points.end(), [of](const auto& a, const auto& b) { return a.*of < b.*of; });
}

std::string rpm_text(double rpm) { return base::number_text(rpm, 0) + " rpm"; }

/// "most power near 9,500 rpm (stock near 9,000 rpm)".
std::string peak(const char* of, double rpm, const double* stock) {
  std::string out = std::string("most ") + of + " near " + rpm_text(rpm);
  if (stock != nullptr && *stock != rpm) out += " (stock near " + rpm_text(*stock) + ")";
  return out;
}

/// Greatest gain and greatest loss of power, in per cent of stock where it gives work.
std::string gains(const std::vector<wire::CurvePoint>& now, const std::vector<wire::CurvePoint>& stock) {
  constexpr double told = 0.3;  // per cent; less is nobody's without its range
  double best = told, worst = -told;
  std::optional<double> best_at, worst_at;
  for (std::size_t i = 0; i < now.size(); ++i) {
    if (!(stock[i].power_kw > 0.05)) continue;
    const double change = 100.0 * (now[i].power_kw / stock[i].power_kw - 1.0);
    if (change > best) best = change, best_at = now[i].rpm;
    if (change < worst) worst = change, worst_at = now[i].rpm;
  }
  std::string out;
  if (best_at) out = "gains up to " + base::number_text(best, 0) + " % at " + rpm_text(*best_at);
  if (worst_at)
    out += (out.empty() ? "loses up to " : ", loses up to ") + base::number_text(-worst, 0) + " % at " +
           rpm_text(*worst_at);
  return out.empty() ? "no change of power that can be told" : out;
}

void Turning::say_sentence() {
  const auto& now = answer_.points;
  const auto& stock = answer_.stock;
  answer_.sentence.clear();
  if (now.size() < plan_.speeds.size() || now.size() < 2) return;
  const bool both = sides_.has_cuts && stock.size() == now.size();
  if (sides_.has_cuts && !both) return;
  const double power = greatest(now, &wire::CurvePoint::power_kw).rpm;
  const double torque = greatest(now, &wire::CurvePoint::torque_nm).rpm;
  double was_power = 0.0, was_torque = 0.0;
  if (both) {
    was_power = greatest(stock, &wire::CurvePoint::power_kw).rpm;
    was_torque = greatest(stock, &wire::CurvePoint::torque_nm).rpm;
  }
  std::string out =
      peak("power", power, both ? &was_power : nullptr) + ", " + peak("torque", torque, both ? &was_torque : nullptr);
  if (both) out += "; against stock " + gains(now, stock);
  out[0] = 'M';
  answer_.sentence = out + '.';
}

}  // namespace

base::ResultAll<wire::CurveAnswer> curve(const CurveRequest& request, const CurveWatch& watch, CurveMemory* memory) {
  const auto rpm = speeds_of(request.speeds);
  if (!rpm) return only(rpm);
  const auto opened = open_turning(request.file, request.cuts, request.book);
  if (!opened) return tl::unexpected(opened.error());
  const auto sides = sides_of(*opened);
  if (!sides) return tl::unexpected(sides.error());
  Turning turning(request, watch, *opened, **sides, *rpm);
  if (memory == nullptr) return turning.go();
  CurveMemory::Inside& kept = memory->inside();
  const std::string of = saw::write_saw(opened->readings);
  {
    const std::lock_guard lock(kept.mutex);
    if (kept.of == of) turning.remember(kept.stock);
  }
  wire::CurveAnswer answer = turning.go();
  const std::lock_guard lock(kept.mutex);
  if (kept.of != of) kept.stock.clear();
  kept.of = of;
  for (const auto& [speed, spot] : turning.stock()) {
    Spot& was = kept.stock[speed];
    if (spot.stage >= was.stage) was = spot;
  }
  return answer;
}

}  // namespace portwright::desk
