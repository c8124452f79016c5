#include "server/jobs.hpp"

#include <algorithm>
#include <chrono>
#include <exception>
#include <utility>
#include <vector>

#include "server/entry.hpp"
#include "server/problem.hpp"

namespace portwright::server {
namespace {

constexpr std::size_t most_known = 64;
constexpr auto patience = std::chrono::seconds(2);
constexpr auto left_alone = std::chrono::seconds(3);  ///< a reload takes no longer

std::string with_job(const std::string& id, const char* name, const std::string& json) {
  return "{\"job\":\"" + id + "\",\"" + name + "\":" + one_line(json) + '}';
}

}  // namespace

struct Jobs::One {
  Listener owner;
  wire::JobState state;
  Job job;
  bool stop = false;
  std::chrono::steady_clock::time_point heard = std::chrono::steady_clock::now();  ///< last, by its tab
  [[nodiscard]] bool waits() const { return state.state == "waiting"; }
  [[nodiscard]] bool stands() const { return waits() || state.state == "running"; }
};

class Jobs::Port : public JobPort {
 public:
  Port(Jobs& jobs, One& one) : jobs_(jobs), one_(one) {}
  void part(const std::string& json) override {
    jobs_.hub_.tell(one_.owner, "part", with_job(one_.state.job, "answer", json));
  }
  bool progress(double share, const std::string& what) override { return jobs_.progress(one_, share, what); }

 private:
  Jobs& jobs_;
  One& one_;
};

Jobs::Jobs(Hub& hub) : hub_(hub), worker_([this] { run(); }) {}

Jobs::~Jobs() {
  {
    const std::lock_guard hold(guard_);
    ended_ = true;
    for (const auto& one : known_) one->stop = true;
  }
  wake_.notify_all();
  quiet_.notify_all();
  worker_.join();
}

std::string Jobs::start(const Listener& owner, const std::string& name, Job job) {
  auto one = std::make_shared<One>();
  one->owner = owner;
  one->job = std::move(job);
  std::vector<std::shared_ptr<One>> replaced;
  {
    const std::lock_guard hold(guard_);
    one->state = {"j" + std::to_string(++count_) + random_word().substr(0, 8), name, "waiting", 0.0, ""};
    bool is_crowded = waiting_of(owner.session) >= most_waiting;
    for (const auto& other : known_) {
      if (!other->stands() || other->owner.session != owner.session) continue;
      const bool makes_room = is_crowded && other->waits();
      if (!makes_room && (other->owner.client != owner.client || other->state.name != name)) continue;
      if (makes_room) is_crowded = false;
      other->stop = true;
      if (!other->waits()) continue;
      other->state.state = "stopped";
      replaced.push_back(other);
    }
    known_.push_back(one);
    while (known_.size() > most_known && !known_.front()->stands()) known_.pop_front();
  }
  for (const auto& other : replaced)
    finish(
        *other, "stopped",
        with_job(other->state.job, "problem", problem(409, "stopped", "Stopped", "A newer one took its place.").body));
  wake_.notify_all();
  quiet_.notify_all();
  return one->state.job;
}

bool Jobs::stop(const std::string& session, const std::string& id) {
  std::shared_ptr<One> waited;
  bool found = false;
  {
    const std::lock_guard hold(guard_);
    for (const auto& one : known_) {
      if (one->state.job != id || one->owner.session != session || !one->stands()) continue;
      one->stop = found = true;
      if (one->waits()) {
        one->state.state = "stopped";
        waited = one;
      }
    }
  }
  if (waited)
    finish(*waited, "stopped",
           with_job(id, "problem", problem(409, "stopped", "Stopped", "It was told to stop.").body));
  quiet_.notify_all();
  return found;
}

void Jobs::stop_where(const std::function<bool(const Listener&)>& goes) {
  std::vector<std::pair<std::string, std::string>> found;  // session, id
  {
    const std::lock_guard hold(guard_);
    for (const auto& one : known_)
      if (one->stands() && goes(one->owner)) found.emplace_back(one->owner.session, one->state.job);
  }
  for (const auto& [session, id] : found) stop(session, id);
}

std::size_t Jobs::waiting_of(const std::string& session) const {
  return static_cast<std::size_t>(std::count_if(
      known_.begin(), known_.end(), [&](const auto& one) { return one->waits() && one->owner.session == session; }));
}

base::Result<wire::JobState> Jobs::state(const std::string& session, const std::string& id) const {
  const std::lock_guard hold(guard_);
  for (const auto& one : known_)
    if (one->state.job == id && one->owner.session == session) return one->state;
  return base::fail(base::ErrorCode::not_found, "There is no job of that name.", "job");
}

std::vector<wire::JobState> Jobs::running(const Listener& owner) const {
  const std::lock_guard hold(guard_);
  std::vector<wire::JobState> out;
  for (const auto& one : known_)
    if (one->stands() && one->owner.session == owner.session &&
        (owner.client.empty() || one->owner.client == owner.client))
      out.push_back(one->state);
  return out;
}

bool Jobs::somebody_waits() const {
  return std::any_of(known_.begin(), known_.end(), [](const auto& one) { return one->waits(); });
}

void Jobs::run() {
  for (;;) {
    std::shared_ptr<One> next;
    {
      std::unique_lock hold(guard_);
      const auto waiting = [&] {
        // The machine's own before those of devices.
        auto found = std::find_if(known_.begin(), known_.end(),
                                  [](const auto& one) { return one->waits() && one->owner.device == 0; });
        if (found == known_.end())
          found = std::find_if(known_.begin(), known_.end(), [](const auto& one) { return one->waits(); });
        return found == known_.end() ? nullptr : *found;
      };
      wake_.wait(hold, [&] { return ended_ || (next = waiting()) != nullptr; });
      if (ended_) return;
      next->state.state = "running";
    }
    work(next);
  }
}

void Jobs::work(const std::shared_ptr<One>& one) {
  Port port(*this, *one);
  base::ResultAll<std::string> answer;
  try {
    answer = one->job(port);
  } catch (const std::exception& broken) {
    answer = tl::unexpected(base::Errors{
        {base::ErrorCode::fault, std::string("A fault in the program: ") + broken.what() + '.', "", "", {}}});
  }
  one->job = nullptr;
  bool stopped = false;
  {
    const std::lock_guard hold(guard_);
    stopped = one->stop;
  }
  const std::string& id = one->state.job;
  if (stopped)
    finish(*one, "stopped", with_job(id, "problem", problem(409, "stopped", "Stopped", "It was told to stop.").body));
  else if (answer)
    finish(*one, "done", with_job(id, "answer", *answer));
  else
    finish(*one, "failed", with_job(id, "problem", problem(answer.error()).body));
}

bool Jobs::progress(One& one, double share, const std::string& what) {
  bool news = false;
  {
    std::unique_lock hold(guard_);
    news = share - one.state.share >= 0.005 || what != one.state.what;
    one.state.share = std::clamp(share, 0.0, 1.0);
    one.state.what = what;
  }
  if (news) hub_.tell(one.owner, "job", one_line(wire::ask_text(one.state)));
  const bool hears = hub_.hears(one.owner);
  const auto now = std::chrono::steady_clock::now();
  std::unique_lock hold(guard_);
  if (hears) one.heard = now;
  // Nobody looks at it any more, and somebody else waits for the thread.
  if (now - one.heard > left_alone && somebody_waits()) one.stop = true;
  quiet_.wait_for(hold, patience, [&] { return answers_ == 0 || one.stop; });
  return one.stop;
}

void Jobs::finish(One& one, const char* state, const std::string& told) {
  {
    const std::lock_guard hold(guard_);
    one.state.state = state;
    if (one.state.state == "done") one.state.share = 1.0;
  }
  hub_.tell(one.owner, "done", told);
}

Jobs::Quiet::Quiet(Jobs& jobs) : jobs_(jobs) {
  const std::lock_guard hold(jobs_.guard_);
  ++jobs_.answers_;
}

Jobs::Quiet::~Quiet() {
  {
    const std::lock_guard hold(jobs_.guard_);
    --jobs_.answers_;
  }
  jobs_.quiet_.notify_all();
}

}  // namespace portwright::server
