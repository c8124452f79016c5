#pragma once
// Long work, one piece at a time in a thread of its own, the machine's before the devices'. It tells parts as they get
// ready, can be stopped, and stands aside while somebody waits for an answer. One whose tab is gone makes room for the
// next. Safe to use from several threads.

#include <condition_variable>
#include <cstdint>
#include <deque>
#include <functional>
#include <memory>
#include <mutex>
#include <string>
#include <thread>

#include "base/error.hpp"
#include "server/events.hpp"
#include "wire/asks.hpp"

namespace portwright::server {

/// What a job has of the world.
class JobPort {
 public:
  virtual ~JobPort() = default;
  /// A part of the answer that is ready, as JSON.
  virtual void part(const std::string& json) = 0;
  /// How far it is, 0 to 1, and at what. Returns whether to stop; waits while an answer is being worked out.
  virtual bool progress(double share, const std::string& what) = 0;
};

/// Works and gives the whole answer as JSON, or what went wrong. A job that is told to stop may give what it has.
using Job = std::function<base::ResultAll<std::string>(JobPort&)>;

class Jobs {
 public:
  explicit Jobs(Hub& hub);
  ~Jobs();
  Jobs(const Jobs&) = delete;
  Jobs& operator=(const Jobs&) = delete;

  static constexpr std::size_t most_waiting = 8;  ///< of one session

  /// Starts a job and gives its id. An older one of the same owner and name is stopped; so is the oldest that waits
  /// where a session has as many as it may.
  /// @param name "curve"
  [[nodiscard]] std::string start(const Listener& owner, const std::string& name, Job job);
  /// Stops a job of this session. False: it has none of that id that waits or runs.
  bool stop(const std::string& session, const std::string& id);
  /// Stops every job whose owner this is true of.
  void stop_where(const std::function<bool(const Listener&)>& goes);
  /// Error: not_found.
  [[nodiscard]] base::Result<wire::JobState> state(const std::string& session, const std::string& id) const;
  /// Those of an owner that wait or run.
  [[nodiscard]] std::vector<wire::JobState> running(const Listener& owner) const;

  /// Held while an answer is being worked out; jobs wait meanwhile, but no longer than two seconds at a time.
  class Quiet {
   public:
    explicit Quiet(Jobs& jobs);
    ~Quiet();
    Quiet(const Quiet&) = delete;
    Quiet& operator=(const Quiet&) = delete;

   private:
    Jobs& jobs_;
  };

 private:
  struct One;
  class Port;
  void run();
  void work(const std::shared_ptr<One>& one);
  bool progress(One& one, double share, const std::string& what);
  [[nodiscard]] bool somebody_waits() const;                               ///< with the guard held
  [[nodiscard]] std::size_t waiting_of(const std::string& session) const;  ///< with the guard held
  void finish(One& one, const char* state, const std::string& told);

  Hub& hub_;
  mutable std::mutex guard_;
  std::condition_variable wake_, quiet_;
  std::deque<std::shared_ptr<One>> known_;  // newest last; finished ones are kept for a while
  std::uint64_t count_ = 0;
  int answers_ = 0;
  bool ended_ = false;
  std::thread worker_;
};

}  // namespace portwright::server
