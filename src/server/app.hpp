#pragma once
// The server without its socket: a request in, a response out. Safe to use from several threads.

#include <cstdint>
#include <optional>
#include <span>
#include <string>

#include "server/book_host.hpp"
#include "server/events.hpp"
#include "server/jobs.hpp"
#include "server/network/visitors.hpp"
#include "server/opened_saws.hpp"
#include "server/page_files.hpp"
#include "server/request.hpp"

namespace portwright::server {

struct AppSetting {
  std::string book;                     ///< empty: as BookHost says
  MakeDemo make_demo = {};              ///< empty: no demo workshop
  std::span<const PageFile> page;       ///< empty: without a page
  Clock clock = usual_clock();          ///< of codes, tokens and the network's switch
  Addresses addresses = own_addresses;  ///< where this machine stands on networks
};

class App {
 public:
  explicit App(AppSetting setting);
  ~App();
  App(const App&) = delete;
  App& operator=(const App&) = delete;

  /// Opens the book and begins to watch it. Errors as of the book.
  [[nodiscard]] base::Result<void> start();
  /// The port that the gate asks for; known once the socket is bound.
  void listens_on(std::uint16_t port) {
    port_ = port;
    visitors_.listens_on(port);
  }
  /// "http://127.0.0.1:8470/#token=…".
  [[nodiscard]] std::string address();
  /// Path of the book that is open.
  [[nodiscard]] std::string book() const { return host_.standing().path; }
  /// Why that book could not be read when the server started; none: it could.
  [[nodiscard]] std::optional<base::Error> book_trouble() const { return host_.trouble(); }

  /// Why the head of a request is refused, its body not read yet; none: read on.
  [[nodiscard]] std::optional<Response> refused(const Request& head);
  /// Whether the body is a picture: longer than any other, and decoded.
  [[nodiscard]] bool takes_picture(const Request& head) const;
  /// Why a picture is not to be read at all, after `refused`: its writer wrote too much lately. None: read on.
  [[nodiscard]] std::optional<Response> picture_refused(const Request& head);
  /// Whether the answer may take long, so that it belongs on a worker.
  [[nodiscard]] bool takes_long(const Request& request) const;
  /// Every request has a response, whatever it asks; all carry the common headers.
  [[nodiscard]] Response answer(const Request& request);

  /// Who may come in beside the first browser.
  Visitors& visitors() { return visitors_; }

  void ping() { hub_.ping(); }
  /// Says goodbye to every stream.
  void end() { hub_.close(); }

 private:
  [[nodiscard]] Response routed(const Request& request);
  [[nodiscard]] Response enter(const Request& request);
  [[nodiscard]] Response pair(const Request& request);
  [[nodiscard]] Response let_in(const Request& request, const std::string& path);
  [[nodiscard]] Response events(const Request& request, Visitors::Who who);
  [[nodiscard]] Response stop(const Request& request, const Visitors::Who& who);
  [[nodiscard]] Response called(const Request& request, const Visitors::Who& who);

  AppSetting setting_;
  std::string author_;
  std::uint16_t port_ = 0;
  Hub hub_;
  OpenedSaws opened_;
  Jobs jobs_;
  BookHost host_;
  Visitors visitors_;
};

}  // namespace portwright::server
