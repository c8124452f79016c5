#include "server/network/addresses.hpp"

#include <arpa/inet.h>
#include <ifaddrs.h>
#include <net/if.h>
#include <netinet/in.h>
#include <sys/socket.h>

#include <algorithm>
#include <array>
#include <bit>
#include <cstdint>
#include <cstring>
#include <fstream>
#include <iterator>
#include <memory>
#include <optional>
#include <sstream>

namespace portwright::server {
namespace {

constexpr int widest = 8, narrowest = 30;  // leading bits of networks with neighbours

std::string text_of(std::uint32_t number) {
  in_addr address{};
  address.s_addr = htonl(number);
  std::array<char, INET_ADDRSTRLEN> text{};
  const char* written = inet_ntop(AF_INET, &address, text.data(), text.size());
  return written == nullptr ? std::string() : std::string(written);
}

std::optional<std::uint32_t> number_of(std::string_view text) {
  in_addr address{};
  if (inet_pton(AF_INET, std::string(text).c_str(), &address) != 1) return std::nullopt;
  return ntohl(address.s_addr);
}

std::uint32_t number_of(const sockaddr* at) {
  sockaddr_in address{};
  std::memcpy(&address, at, sizeof address);
  return ntohl(address.sin_addr.s_addr);
}

std::uint32_t mask_of(int prefix) { return prefix <= 0 ? 0 : ~std::uint32_t{0} << static_cast<unsigned>(32 - prefix); }

bool is_up(const ifaddrs& one) {
  constexpr unsigned wanted = IFF_UP | IFF_RUNNING;
  constexpr unsigned unwanted = IFF_LOOPBACK | IFF_POINTOPOINT;
  return (one.ifa_flags & wanted) == wanted && (one.ifa_flags & unwanted) == 0;
}

std::string routes_now() {
  std::ifstream in("/proc/net/route");
  return {std::istreambuf_iterator<char>(in), {}};
}

}  // namespace

std::string usual_interface(std::string_view routes) {
  std::istringstream lines{std::string(routes)};
  std::string line, name, to;
  while (std::getline(lines, line)) {
    std::istringstream words(line);
    if (words >> name >> to && to == "00000000") return name;
  }
  return {};
}

bool is_of_a_workshop(const OwnAddress& own) {
  const auto number = number_of(own.address);
  if (!number || own.prefix < widest || own.prefix > narrowest) return false;
  return network_of(own.address, 8) != "127.0.0.0/8" && network_of(own.address, 16) != "169.254.0.0/16";
}

std::string network_of(std::string_view address, int prefix) {
  const auto number = number_of(address);
  return number ? text_of(*number & mask_of(prefix)) + '/' + std::to_string(prefix) : std::string();
}

bool is_neighbour(const OwnAddress& own, std::string_view other) {
  const std::string network = network_of(own.address, own.prefix);
  return !network.empty() && network == network_of(other, own.prefix);
}

std::vector<OwnAddress> own_addresses() {
  ifaddrs* list = nullptr;
  if (getifaddrs(&list) != 0) return {};
  const std::unique_ptr<ifaddrs, void (*)(ifaddrs*)> held(list, freeifaddrs);
  std::vector<OwnAddress> out;
  for (const ifaddrs* one = list; one != nullptr; one = one->ifa_next) {
    if (one->ifa_addr == nullptr || one->ifa_netmask == nullptr || one->ifa_addr->sa_family != AF_INET) continue;
    const OwnAddress own{one->ifa_name, text_of(number_of(one->ifa_addr)), std::popcount(number_of(one->ifa_netmask))};
    if (is_up(*one) && is_of_a_workshop(own)) out.push_back(own);
  }
  const std::string usual = usual_interface(routes_now());
  std::stable_partition(out.begin(), out.end(), [&](const OwnAddress& own) { return own.interface == usual; });
  return out;
}

}  // namespace portwright::server
