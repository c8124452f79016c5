#pragma once
// The socket: HTTP/1.1 on the loopback addresses and, while the network is on, on this machine's own ones, with limits
// on everything that a client decides.

#include <cstddef>
#include <cstdint>
#include <functional>
#include <memory>
#include <string_view>

#include "base/error.hpp"
#include "server/app.hpp"
#include "server/request.hpp"

namespace portwright::server {

struct Limits {
  std::size_t header_bytes = std::size_t{16} << 10U;
  std::size_t body_bytes = std::size_t{1} << 20U;
  std::size_t neighbour_body_bytes = std::size_t{64} << 10U;  ///< of who came by the network
  std::size_t picture_bytes = std::size_t{24} << 20U;         ///< of a photo, whoever sends it
  std::size_t pictures = 2;                                   ///< photos on their way at a time, one of a neighbour
  int picture_ms = 60'000;                                    ///< from a photo's head to its last byte
  int request_ms = 10'000;                                    ///< from the first byte of a request to its last
  int idle_ms = 60'000;                                       ///< between requests
  int answer_ms = 30'000;                                     ///< to take an answer
  int ping_ms = 15'000;                                       ///< between lines that keep event streams open
  int look_ms = 2'000;                                        ///< between looks at the network's switch and addresses
  std::size_t connections = 64;
  std::size_t of_neighbours = 40;     ///< of these, by the network
  std::size_t of_one_neighbour = 16;  ///< of these, from one address
  std::size_t workers = 2;
};

/// The request in these bytes, read as the socket reads it. Error unreadable: it is none, or longer than it may be.
[[nodiscard]] base::Result<Request> read_request(std::string_view bytes, const Limits& limits);

/// A bound server. `run` serves until `stop`, or until SIGINT or SIGTERM when asked to watch for them.
class Server {
 public:
  /// Binds 127.0.0.1 and, where there is one, ::1. Error busy: the port is taken.
  /// @param port 0: any that is free
  [[nodiscard]] static base::Result<Server> bind(App& app, std::uint16_t port, const Limits& limits);
  Server(Server&&) noexcept;
  Server& operator=(Server&&) noexcept;
  ~Server();

  [[nodiscard]] std::uint16_t port() const;
  /// @param started called once the server answers
  void run(bool watch_signals, const std::function<void()>& started = {});
  /// From any thread: ends `run` when its connections are closed.
  void stop();

 private:
  struct Inside;
  explicit Server(std::unique_ptr<Inside> inside);
  std::unique_ptr<Inside> inside_;
};

}  // namespace portwright::server
