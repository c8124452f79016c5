#pragma once
// What the server tells by itself, as server-sent events. A stream has a queue of bounded length: who does not read is
// let go and comes again. Safe to use from several threads.
// @source{memory, HTML standard, section "Server-sent events"}

#include <cstddef>
#include <cstdint>
#include <deque>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

namespace portwright::server {

/// Who is meant by an event.
struct Listener {
  std::string session;      ///< cookie of the machine, or name of the device
  std::string client;       ///< tab; empty: not told
  std::int64_t device = 0;  ///< its number; 0: the machine itself
};

/// One reader's queue.
class Stream {
 public:
  static constexpr std::size_t most_events = 256;
  static constexpr std::size_t most_bytes = std::size_t{4} << 20U;

  explicit Stream(Listener who) : who_(std::move(who)) {}
  [[nodiscard]] const Listener& who() const { return who_; }
  /// Puts a text at the end; closes the stream instead when it is full.
  void put(std::string text);
  /// Everything that waits, joined; empty when nothing does.
  [[nodiscard]] std::string take();
  /// No more is put; what waits may still be taken.
  void close();
  [[nodiscard]] bool closed() const;
  /// Called, by whoever puts or closes, when there is something to take or nothing more will come. It must not use the
  /// stream itself; once another is set the former is not called any more.
  void on_wake(std::function<void()> wake);

 private:
  Listener who_;
  mutable std::mutex guard_;
  std::deque<std::string> waiting_;
  std::size_t bytes_ = 0;
  bool closed_ = false;
  std::function<void()> wake_;
};

/// "event: NAME" with its data, one line of JSON.
[[nodiscard]] std::string event_text(const std::string& name, const std::string& json);

class Hub {
 public:
  static constexpr std::size_t most_streams = 8;  ///< of one session

  /// A stream that begins with `hello`; none when the session has as many as it may.
  [[nodiscard]] std::shared_ptr<Stream> open(Listener who, const std::string& hello);
  /// To everybody.
  void tell(const std::string& name, const std::string& json);
  /// To one tab, and to the streams of its session that told no tab.
  void tell(const Listener& whom, const std::string& name, const std::string& json);
  /// To the pages of the machine itself.
  void tell_machine(const std::string& name, const std::string& json);
  /// Closes the streams of which this is true.
  void close_where(const std::function<bool(const Listener&)>& goes);
  /// Whether a page of a device is open.
  [[nodiscard]] bool has_device(std::int64_t device) const;
  /// A line that keeps the connections open.
  void ping();
  /// Says goodbye and closes every stream.
  void close();
  [[nodiscard]] std::size_t size() const;
  /// Whether a stream is open that would be told what is meant for this tab.
  [[nodiscard]] bool hears(const Listener& whom) const;

 private:
  [[nodiscard]] std::vector<std::shared_ptr<Stream>> all() const;
  mutable std::mutex guard_;
  mutable std::vector<std::weak_ptr<Stream>> streams_;
  bool closed_ = false;
};

}  // namespace portwright::server
