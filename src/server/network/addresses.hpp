#pragma once
// Where this machine stands on networks, and who is a neighbour there.

#include <string>
#include <string_view>
#include <vector>

namespace portwright::server {

/// An IPv4 address of this machine on a network with neighbours.
struct OwnAddress {
  std::string interface;  ///< the system's name: "wlan0"
  std::string address;    ///< "192.168.1.5"
  int prefix = 24;        ///< leading bits that neighbours share
  friend bool operator==(const OwnAddress&, const OwnAddress&) = default;
};

/// Those that a phone beside the machine can reach; the one of the usual way out first. Left out: loopback, lines with
/// one other end, addresses that a machine gives itself (169.254), networks without room for a neighbour.
/// IPv6 is left out whole: its addresses are open to the world, change by the day, or cannot be typed in a browser.
[[nodiscard]] std::vector<OwnAddress> own_addresses();

/// Interface of the usual way out, from the text of /proc/net/route; empty when there is none.
/// @source{memory, Linux procfs: net/route}
[[nodiscard]] std::string usual_interface(std::string_view routes);

/// Whether an address may be listened on.
[[nodiscard]] bool is_of_a_workshop(const OwnAddress& own);

/// "192.168.1.0/24" of 192.168.1.5/24; empty for what is no address.
[[nodiscard]] std::string network_of(std::string_view address, int prefix);

/// Whether another address is of the same network.
[[nodiscard]] bool is_neighbour(const OwnAddress& own, std::string_view other);

}  // namespace portwright::server
