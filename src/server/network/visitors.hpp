#pragma once
// Everybody who may come in, beside the machine's first browser: the network's switch, its devices, the code that pairs
// one, further browsers of the machine. Safe to use from several threads.

#include <cstdint>
#include <deque>
#include <functional>
#include <map>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.hpp"
#include "server/entry.hpp"
#include "server/events.hpp"
#include "server/jobs.hpp"
#include "server/network/devices.hpp"
#include "server/network/network_switch.hpp"
#include "server/network/pairing.hpp"
#include "server/request.hpp"
#include "wire/network_answer.hpp"

namespace portwright::server {

/// An address that was to be listened on, and why it is not.
struct Listening {
  OwnAddress own;
  std::string trouble;  ///< empty: it is
};

class Visitors {
 public:
  /// @param devices path of the file that keeps the devices
  Visitors(Hub& hub, Jobs& jobs, const std::string& devices, Clock clock, Addresses addresses);

  /// Who asks: on loopback a browser of the machine, by the network a device while the network is on.
  [[nodiscard]] Role role_of(const Way& way, const std::string& cookie);
  /// Whose pages are told what, and whose hand writes.
  struct Who {
    Listener listener;
    std::string name;  ///< of the device; empty: the machine itself
    std::string author;
  };
  /// None: a device that was revoked since role_of let it in.
  /// @param author whose hand the machine's own is
  [[nodiscard]] std::optional<Who> who(const Way& way, const std::string& cookie, const std::string& author);

  Entry& entry() { return entry_; }
  Pairing& pairing() { return pairing_; }
  Devices& devices() { return devices_; }

  /// The port of the addresses; known once the socket is bound.
  void listens_on(std::uint16_t port) { port_ = port; }
  [[nodiscard]] std::string machine_address(const std::string& token) const;

  /// What opens and closes the listeners so that they are those wanted. Called in whatever thread follows.
  using Follow = std::function<std::vector<Listening>(const std::vector<OwnAddress>&)>;
  /// `soon` runs `follow()` where the listeners live and comes back when it is done. Neither: every address is taken as
  /// listened on.
  void listens_by(Follow listen, std::function<void()> soon);

  /// Errors: not_found (no network), busy (no address of it can be listened on; it is off again).
  [[nodiscard]] base::Result<void> switch_network(bool on);
  /// Looks at time and addresses, has the listeners follow, and shows out whoever may not stay. Called now and then,
  /// in the thread of the listeners.
  void follow();
  [[nodiscard]] bool is_on() const { return switch_.is_on(); }
  [[nodiscard]] std::int64_t seconds_left() const { return switch_.seconds_left(); }

  /// Ends the pages and jobs of every device that may not stay: of all while the network is off, of a revoked one at
  /// any time.
  void show_out();

  /// A code for one device. Error usage: the network is off.
  [[nodiscard]] base::Result<void> invite();
  /// A device with the right code. Errors as of Devices::add; not_found: wrong; busy: wait a minute.
  [[nodiscard]] base::Result<Devices::Added> pair(const wire::Pair& ask, const std::string& from);
  /// Error not_found. Its pages and jobs end.
  [[nodiscard]] base::Result<void> revoke(std::int64_t device);

  static constexpr std::size_t most_deeds = 120;  ///< of one device in a minute: the book keeps every one for ever
  /// Whether a device may write once more now; it counts.
  [[nodiscard]] bool may_write(std::int64_t device);
  /// The same without counting.
  [[nodiscard]] bool could_write(std::int64_t device);

  [[nodiscard]] wire::Network told();
  /// What a camera reads: the standing invitation at one of the addresses. Error not_found.
  [[nodiscard]] base::Result<std::string> link(const std::string& url) const;

 private:
  [[nodiscard]] std::deque<std::int64_t>& lately(std::int64_t device);
  [[nodiscard]] std::string url_of(const OwnAddress& own) const;

  Hub& hub_;
  Jobs& jobs_;
  Entry entry_;
  Pairing pairing_;
  Devices devices_;
  NetworkSwitch switch_;
  std::uint16_t port_ = 0;
  Follow listen_;
  std::function<void()> soon_;
  Clock clock_;
  mutable std::mutex guard_;
  std::vector<Listening> listening_;
  std::map<std::int64_t, std::deque<std::int64_t>> deeds_;  // moments, by device
};

}  // namespace portwright::server
