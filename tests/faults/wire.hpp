#pragma once
// A client's end of a socket, for tests that treat a server badly.

#include <arpa/inet.h>
#include <netinet/in.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <chrono>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>

namespace faults {

using Ticks = std::chrono::steady_clock;

/// One connection of a client.
class Wire {
 public:
  /// @param to address of the server
  /// @param from address that it comes from; empty: as the system chooses
  explicit Wire(std::uint16_t port, const std::string& to = "127.0.0.1", const std::string& from = "")
      : socket_(::socket(AF_INET, SOCK_STREAM, 0)) {
    if (!from.empty()) {
      sockaddr_in own{};
      own.sin_family = AF_INET;
      own.sin_addr.s_addr = inet_addr(from.c_str());
      (void)::bind(socket_, reinterpret_cast<sockaddr*>(&own), sizeof own);
    }
    sockaddr_in at{};
    at.sin_family = AF_INET;
    at.sin_port = htons(port);
    at.sin_addr.s_addr = inet_addr(to.c_str());
    connected_ = ::connect(socket_, reinterpret_cast<sockaddr*>(&at), sizeof at) == 0;
  }
  Wire(Wire&& other) noexcept : socket_(std::exchange(other.socket_, -1)), connected_(other.connected_) {}
  Wire& operator=(Wire&&) = delete;
  ~Wire() {
    if (socket_ >= 0) ::close(socket_);
  }
  [[nodiscard]] bool connected() const { return connected_; }
  /// False: the other end is gone.
  bool send(std::string_view bytes) const {
    while (!bytes.empty()) {
      const ssize_t sent = ::send(socket_, bytes.data(), bytes.size(), MSG_NOSIGNAL);
      if (sent <= 0) return false;
      bytes.remove_prefix(static_cast<std::size_t>(sent));
    }
    return true;
  }
  /// What comes until a word stands in it, the other end closes, or the time is over.
  [[nodiscard]] std::string until(const std::string& word, int ms = 5000) const {
    std::string out;
    const auto end = Ticks::now() + std::chrono::milliseconds(ms);
    while (word.empty() || out.find(word) == std::string::npos) {
      const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(end - Ticks::now()).count();
      pollfd waiting{socket_, POLLIN, 0};
      if (left <= 0 || ::poll(&waiting, 1, static_cast<int>(left)) <= 0) break;
      char some[4096];
      const ssize_t got = ::recv(socket_, some, sizeof some, 0);
      if (got <= 0) break;
      out.append(some, static_cast<std::size_t>(got));
    }
    return out;
  }
  /// A whole response: head and as much body as it says.
  [[nodiscard]] std::string response() const {
    std::string out = until("\r\n\r\n");
    const std::size_t head = out.find("\r\n\r\n"), at = out.find("Content-Length: ");
    if (head == std::string::npos || at == std::string::npos || at > head) return out;
    const std::size_t whole = head + 4 + std::stoul(out.substr(at + 16));
    while (out.size() < whole) {
      char some[4096];
      const ssize_t got = ::recv(socket_, some, std::min(sizeof some, whole - out.size()), 0);
      if (got <= 0) break;
      out.append(some, static_cast<std::size_t>(got));
    }
    return out;
  }
  /// Whether the other end has closed within the time.
  [[nodiscard]] bool closes(int ms = 5000) const {
    const auto end = Ticks::now() + std::chrono::milliseconds(ms);
    for (;;) {
      const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(end - Ticks::now()).count();
      pollfd waiting{socket_, POLLIN, 0};
      if (left <= 0 || ::poll(&waiting, 1, static_cast<int>(left)) <= 0) return false;
      char some[4096];
      if (::recv(socket_, some, sizeof some, 0) <= 0) return true;
    }
  }

 private:
  int socket_;
  bool connected_ = false;
};

}  // namespace faults
