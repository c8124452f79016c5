#pragma once
// The devices that were let in: known by their cookies, kept beside the book, revoked one by one. Safe to use from
// several threads; several programs may share the list.

#include <cstdint>
#include <map>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/error.hpp"
#include "server/network/clock.hpp"
#include "wire/network_answer.hpp"

namespace portwright::server {

struct Device {
  std::int64_t number = 0;
  std::string name;
  /// Whose hand writes in the book: "bench phone (device 3)". No other device has it, so that nobody's deeds can be
  /// undone but its own.
  [[nodiscard]] std::string author() const { return name + " (device " + std::to_string(number) + ')'; }
};

class Devices {
 public:
  static constexpr std::size_t most = 16;
  static constexpr std::int64_t forgotten_after = std::int64_t{90} * 24 * 3600;  ///< unseen [s]

  /// @param path of the file that keeps them
  /// @param wall seconds since 1970, UTC
  Devices(std::string path, Clock wall);

  /// A name without blanks round it. Error usage: no letter, more than 40, or signs that are none.
  [[nodiscard]] static base::Result<std::string> plain_name(const std::string& typed);

  struct Added {
    Device device;
    std::string cookie;  ///< known to the device alone
  };
  /// Errors: usage (no name, or one that is none), out_of_range (as many as there may be), those of the file.
  [[nodiscard]] base::Result<Added> add(const std::string& name, const std::string& from);
  /// The device of a cookie.
  [[nodiscard]] std::optional<Device> of(std::string_view cookie);
  [[nodiscard]] bool is_known(std::int64_t number);
  /// Notes where a device is now; written down every ten minutes at most, or when it moved.
  void saw(std::int64_t number, const std::string& from);
  /// Errors: not_found; those of the file.
  [[nodiscard]] base::Result<void> revoke(std::int64_t number);
  /// Oldest first.
  [[nodiscard]] std::vector<wire::KeptDevice> list();
  /// What is wrong with the file; empty: nothing. Nobody is known then.
  [[nodiscard]] std::string trouble();

 private:
  void refresh();
  void take(const base::Result<wire::KeptDevices>& kept);
  [[nodiscard]] bool is_forgotten(const wire::KeptDevice& device) const;

  std::string path_;
  Clock wall_;
  std::mutex guard_;
  std::string stamp_ = "not read";
  wire::KeptDevices kept_;
  std::string trouble_;
  std::map<std::int64_t, std::pair<std::string, std::int64_t>> noted_;  // where and when, as written down last
};

}  // namespace portwright::server
