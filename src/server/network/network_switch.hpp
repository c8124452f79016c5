#pragma once
// Whether other devices may come in, until when, and at which addresses. Safe to use from several threads.

#include <cstdint>
#include <functional>
#include <mutex>
#include <string>
#include <utility>
#include <vector>

#include "base/error.hpp"
#include "server/network/addresses.hpp"
#include "server/network/clock.hpp"

namespace portwright::server {

using Addresses = std::function<std::vector<OwnAddress>()>;

class NetworkSwitch {
 public:
  static constexpr std::int64_t lasts = std::int64_t{12} * 3600;  ///< [s]
  static constexpr std::int64_t patience = 120;                   ///< without any of its networks [s]

  NetworkSwitch(Clock clock, Addresses addresses) : clock_(std::move(clock)), addresses_(std::move(addresses)) {}

  /// On for `lasts` from now, at the networks that this machine stands in now. Error not_found: it stands in none.
  [[nodiscard]] base::Result<void> on();
  void off();
  /// Looks at the time and the addresses, and gives those to listen on: the ones of now in the networks of then. A
  /// network that the machine comes into later is another place and is not among them. Off when the time is over, or
  /// when none of its networks was seen for `patience`.
  [[nodiscard]] std::vector<OwnAddress> look();
  [[nodiscard]] bool is_on() const;
  [[nodiscard]] std::int64_t seconds_left() const;
  /// A sentence on why it went off by itself; empty: it did not.
  [[nodiscard]] std::string why_off() const;

 private:
  using Known = std::pair<std::string, std::string>;  // interface, network
  void end(const std::string& why);

  Clock clock_;
  Addresses addresses_;
  mutable std::mutex guard_;
  bool on_ = false;
  std::int64_t ends_ = 0, seen_ = 0;
  std::vector<Known> known_;
  std::string why_;
};

}  // namespace portwright::server
