#include "cycle/lanes/reach_lanes.hpp"

#include <algorithm>
#include <deque>
#include <list>
#include <thread>
#include <vector>

#include "cycle/lanes/march_lanes.hpp"

namespace portwright::cycle {

namespace {

/// What all threads share.
struct Watched {
  const StopCall& stop;
  std::atomic<std::size_t>& done;
  void note(LanePoint& point) const {
    point.reached = !stop.now();
    ++done;
  }
};

/// Points that wait for whoever is free.
struct Waiting {
  std::vector<LanePoint*> points;
  std::atomic<std::size_t> next{0};
  LanePoint* take(const StopCall& stop) {
    if (stop.now()) return nullptr;
    const std::size_t i = next++;
    return i < points.size() ? points[i] : nullptr;
  }
};

/// The searches in the lanes of one thread.
class Searches final : public TurnSupply {
 public:
  Searches(Waiting& waiting, const Watched& watched) : waiting_(waiting), watched_(watched) {}

  const LaneTurn* next(const LaneTurn* ended) override {
    if (ended != nullptr) {
      const auto one = std::find_if(running_.begin(), running_.end(),
                                    [&](const Running& running) { return &running.turner.asked() == ended; });
      one->turner.go_on();
      if (const LaneTurn* asked = asked_by(*one)) return asked;
      running_.erase(one);
    }
    while (LanePoint* point = waiting_.take(watched_.stop)) {
      Running& one = running_.emplace_back(*point, watched_.stop);
      one.course.go();
      if (const LaneTurn* asked = asked_by(one)) return asked;
      running_.pop_back();
    }
    return nullptr;
  }

 private:
  struct Running {
    LanePoint& point;
    Turner turner{true};
    Course course;
    Running(LanePoint& p, const StopCall& stop)
        : point(p), course(reaching(turner, *p.network, p.speed, p.plan, p.state, stop, p.point)) {}
  };

  /// Null: it has come to its end.
  const LaneTurn* asked_by(const Running& one) const {
    if (!one.course.done()) return &one.turner.asked();
    one.course.rethrow();
    watched_.note(one.point);
    return nullptr;
  }

  Waiting& waiting_;
  Watched watched_;
  std::list<Running> running_;
};

/// By pattern, in the order given, so that a run that is stopped has whole sets; apart those that go one at a time.
void sort_out(std::span<LanePoint> points, std::deque<Waiting>& groups, Waiting& alone) {
  std::deque<MarchLanes<double>> patterns;
  for (LanePoint& point : points) {
    std::size_t g = 0;
    while (g < patterns.size() && !patterns[g].takes(*point.network)) ++g;
    if (g == patterns.size()) {
      patterns.emplace_back(*point.network);
      groups.emplace_back();
    }
    groups[g].points.push_back(&point);
  }
  for (Waiting& group : groups) {
    if (group.points.size() >= fewest_side_by_side) continue;
    alone.points.insert(alone.points.end(), group.points.begin(), group.points.end());
    group.points.clear();
  }
}

}  // namespace

template <class T>
void reach_side_by_side(std::span<LanePoint> points, int threads, const StopCall& stop,
                        std::atomic<std::size_t>& done) {
  std::deque<Waiting> groups;
  Waiting alone;
  sort_out(points, groups, alone);
  const Watched watched{stop, done};
  const auto work = [&] {
    for (Waiting& group : groups) {
      if (group.points.empty()) continue;
      MarchLanes<T> lanes(*group.points.front()->network);
      Searches searches(group, watched);
      lanes.turn(searches);
    }
    while (LanePoint* point = alone.take(stop)) {
      point->point = reach(*point->network, point->speed, point->plan, point->state, stop);
      watched.note(*point);
    }
  };
  std::vector<std::jthread> others;
  for (int t = 1; t < std::max(1, threads); ++t) others.emplace_back(work);
  work();
}

template void reach_side_by_side<double>(std::span<LanePoint>, int, const StopCall&, std::atomic<std::size_t>&);
template void reach_side_by_side<float>(std::span<LanePoint>, int, const StopCall&, std::atomic<std::size_t>&);

}  // namespace portwright::cycle
