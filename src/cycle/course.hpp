#pragma once
// A search asks for turns and goes on when it has them: one text, whoever turns. Alone each turn is March::turn, at
// once; side by side the search waits while lanes turn it beside others.

#include <coroutine>
#include <exception>
#include <utility>

#include "cycle/turn.hpp"

namespace portwright::cycle {

/// A turn that is asked for: as March::turn's arguments. Neither marches, states nor sums may be shared between turns.
struct LaneTurn {
  March* march = nullptr;
  State* state = nullptr;
  Turn* sums = nullptr;
  Draw draw;
};

/// What a function does that may wait for a turn (a coroutine). Begins when it is awaited, or by go().
/// What its arguments refer to must outlive it.
class [[nodiscard]] Course {
 public:
  struct promise_type;
  using Handle = std::coroutine_handle<promise_type>;
  struct Ended {
    [[nodiscard]] bool await_ready() const noexcept { return false; }
    [[nodiscard]] std::coroutine_handle<> await_suspend(Handle self) const noexcept;
    void await_resume() const noexcept {}
  };
  struct promise_type {
    std::coroutine_handle<> then = std::noop_coroutine();
    std::exception_ptr thrown;
    Course get_return_object() { return Course(Handle::from_promise(*this)); }
    [[nodiscard]] std::suspend_always initial_suspend() const noexcept { return {}; }
    [[nodiscard]] Ended final_suspend() const noexcept { return {}; }
    void return_void() const noexcept {}
    void unhandled_exception() noexcept { thrown = std::current_exception(); }
  };

  explicit Course(Handle handle) : handle_(handle) {}
  Course(Course&& other) noexcept : handle_(std::exchange(other.handle_, nullptr)) {}
  Course(const Course&) = delete;
  Course& operator=(const Course&) = delete;
  Course& operator=(Course&&) = delete;
  ~Course() {
    if (handle_) handle_.destroy();
  }

  /// To the first turn that is not there at once, or to the end.
  void go() { handle_.resume(); }
  [[nodiscard]] bool done() const { return handle_.done(); }
  /// Throws what was thrown in it.
  void rethrow() const {
    if (handle_.promise().thrown) std::rethrow_exception(handle_.promise().thrown);
  }
  /// All of it, where every turn is there at once.
  void finish() {
    go();
    rethrow();
  }

  // Awaited within another course.
  [[nodiscard]] bool await_ready() const noexcept { return false; }
  Handle await_suspend(std::coroutine_handle<> then) noexcept {
    handle_.promise().then = then;
    return handle_;
  }
  void await_resume() const { rethrow(); }

 private:
  Handle handle_;
};

inline std::coroutine_handle<> Course::Ended::await_suspend(Handle self) const noexcept { return self.promise().then; }

/// Who gives one course its turns.
class Turner {
 public:
  /// @param side_by_side  false: March::turn, at once; true: the course waits, until somebody has turned asked() and
  /// calls go_on()
  explicit Turner(bool side_by_side = false) : waits_(side_by_side) {}

  struct Asked {
    Turner& turner;
    LaneTurn turn;
    [[nodiscard]] bool await_ready() const {
      if (turner.waits_) return false;
      turn.march->turn(*turn.state, *turn.sums, turn.draw);
      return true;
    }
    void await_suspend(std::coroutine_handle<> course) const noexcept {
      turner.asked_ = turn;
      turner.course_ = course;
    }
    void await_resume() const noexcept {}
  };
  /// co_await it. All must stay where it is until then.
  [[nodiscard]] Asked turn(March& march, State& state, Turn& sums, const Draw& draw = {}) {
    return {*this, {&march, &state, &sums, draw}};
  }

  [[nodiscard]] const LaneTurn& asked() const { return asked_; }
  void go_on() { course_.resume(); }

 private:
  bool waits_;
  LaneTurn asked_;
  std::coroutine_handle<> course_;
};

}  // namespace portwright::cycle
