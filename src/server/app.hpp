#pragma once
// The server without its socket: a request in, a response out. Safe to use from several threads.

#include <cstdint>
#include <optional>
#include <span>
#include <string>

#include "server/book_host.hpp"
#include "server/entry.hpp"
#include "server/events.hpp"
#include "server/jobs.hpp"
#include "server/opened_saws.hpp"
#include "server/page_files.hpp"
#include "server/request.hpp"

namespace portwright::server {

struct AppSetting {
  std::string book;                ///< empty: as BookHost says
  MakeDemo make_demo = {};         ///< empty: no demo workshop
  std::span<const PageFile> page;  ///< empty: without a page
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
  void listens_on(std::uint16_t port) { port_ = port; }
  /// "http://127.0.0.1:8470/#token=…".
  [[nodiscard]] std::string address() const;
  /// Path of the book that is open.
  [[nodiscard]] std::string book() const { return host_.standing().path; }

  /// Why the head of a request is refused, its body not read yet; none: read on.
  [[nodiscard]] std::optional<Response> refused(const Request& head) const;
  /// Whether the answer may take long, so that it belongs on a worker.
  [[nodiscard]] bool takes_long(const Request& request) const;
  /// Every request has a response, whatever it asks; all carry the common headers.
  [[nodiscard]] Response answer(const Request& request);

  void ping() { hub_.ping(); }
  /// Says goodbye to every stream.
  void end() { hub_.close(); }

 private:
  [[nodiscard]] Response routed(const Request& request);
  [[nodiscard]] Response enter(const Request& request);
  [[nodiscard]] Response events(const Request& request);
  [[nodiscard]] Response stop(const Request& request);
  [[nodiscard]] Response called(const Request& request);
  [[nodiscard]] std::string cookie(const Request& request) const;

  AppSetting setting_;
  std::string author_;
  std::uint16_t port_ = 0;
  Entry entry_;
  Hub hub_;
  OpenedSaws opened_;
  Jobs jobs_;
  BookHost host_;
};

}  // namespace portwright::server
