#include "server/serve.hpp"

#include <fcntl.h>
#include <spawn.h>
#include <unistd.h>

#include <array>
#include <csignal>
#include <cstdlib>
#include <ctime>
#include <ostream>

#include "desk/book.hpp"
#include "server/app.hpp"
#include "server/demo.hpp"
#include "server/listen.hpp"

extern char** environ;

namespace portwright::server {
namespace {

constexpr int ports_tried = 20;

bool is_set(const char* name) {
  const char* value = std::getenv(name);
  return value != nullptr && *value != '\0';
}

// The browser that the desktop has, with its own output thrown away; it is not waited for.
void open_browser(std::string address) {
  if ((!is_set("DISPLAY") && !is_set("WAYLAND_DISPLAY")) || isatty(STDOUT_FILENO) == 0) return;
  posix_spawn_file_actions_t files;
  if (posix_spawn_file_actions_init(&files) != 0) return;
  for (const int stream : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO})
    posix_spawn_file_actions_addopen(&files, stream, "/dev/null", O_RDWR, 0);
  std::string program = "xdg-open";
  std::array<char*, 3> words{program.data(), address.data(), nullptr};
  std::signal(SIGCHLD, SIG_IGN);
  pid_t process = 0;
  (void)posix_spawnp(&process, "xdg-open", &files, nullptr, words.data(), environ);
  posix_spawn_file_actions_destroy(&files);
}

// The port asked for, or the usual one and those after it.
base::Result<Server> bound(App& app, const ServeRequest& request, std::ostream& out) {
  if (request.port) {
    auto server = Server::bind(app, *request.port, {});
    if (!server && server.error().code == base::ErrorCode::busy)
      return base::fail(base::ErrorCode::busy, "Port " + std::to_string(*request.port) + " is taken.", "",
                        "Leave --port out: the next free one is taken then.");
    return server;
  }
  for (int i = 0;; ++i) {
    const auto port = static_cast<std::uint16_t>(usual_port + i);
    auto server = Server::bind(app, port, {});
    if (server || server.error().code != base::ErrorCode::busy || i == ports_tried) return server;
    out << "Port " << port << " is taken; trying the next one.\n";
  }
}

std::string clock_text(std::int64_t seconds_from_now) {
  const std::time_t then = std::time(nullptr) + seconds_from_now;
  std::tm parts{};
  std::array<char, 8> text{};
  if (localtime_r(&then, &parts) == nullptr) return {};
  return {text.data(), std::strftime(text.data(), text.size(), "%H:%M", &parts)};
}

// A book that could not be read: what is wrong, and the way back.
void say_trouble(const base::Error& error, const std::string& book, std::ostream& out) {
  out << "The book cannot be read. " << error.message << (error.hint.empty() ? "" : ' ' + error.hint) << '\n';
  if (error.code != base::ErrorCode::damaged) return;
  const std::string backup = error.readings.empty() ? "BACKUP" : error.readings.front();
  out << "The way back: Ctrl+C, then\n  portwright book restore '" << backup << "' --book '" << book
      << "'\nand start again. What stands in its place now is kept aside.\n";
}

// The network switched on, and how the first device comes in.
void say_network(Visitors& visitors, std::ostream& out) {
  if (const auto on = visitors.switch_network(true); !on) {
    out << "The network is off: " << on.error().message << (on.error().hint.empty() ? "" : ' ' + on.error().hint)
        << '\n';
    return;
  }
  (void)visitors.invite();
  const wire::Network now = visitors.told();
  out << "The workshop's network may come in, too, until " << clock_text(now.seconds_left) << ":\n";
  for (const wire::NetworkPlace& place : now.places)
    out << "  " << place.url << (place.trouble.empty() ? "" : "  (" + place.trouble + ')') << '\n';
  if (now.invitation)
    out << "Code for one device, good for five minutes: " << now.invitation->digits.substr(0, 4) << ' '
        << now.invitation->digits.substr(4) << "\n";
  out << "Plain http can be overheard by whoever is in that network: only in a network that is your own.\n";
}

}  // namespace

base::Result<void> serve(const ServeRequest& request, std::ostream& out) {
  if (geteuid() == 0 && !request.as_root)
    return base::fail(base::ErrorCode::usage, "A server is not run as root: the book would belong to root.", "",
                      "Start it as yourself; or, if root it must be: portwright serve --as-root");
  std::signal(SIGPIPE, SIG_IGN);
  App app({request.book, demo_maker(), built_in_page()});
  if (auto started = app.start(); !started) return started;
  auto server = bound(app, request, out);
  if (!server) return tl::unexpected(server.error());
  server->run(true, [&] {
    out << "Portwright listens on this machine" << (request.network ? "" : " only") << ". Open this address once:\n  "
        << app.address() << "\nBook: " << app.book() << '\n';
    if (const auto trouble = app.book_trouble()) say_trouble(*trouble, app.book(), out);
    if (request.network) say_network(app.visitors(), out);
    out << "Ctrl+C ends it.\n" << std::flush;
    if (request.browser) open_browser(app.address());
  });
  out << "Ended; everything is kept.\n" << std::flush;
  return {};
}

}  // namespace portwright::server
