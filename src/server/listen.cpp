// The only file that knows Boost.
#include "server/listen.hpp"

#include <algorithm>
#include <boost/asio/dispatch.hpp>
#include <boost/asio/ip/address_v4.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/ip/v6_only.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/signal_set.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/thread_pool.hpp>
#include <boost/asio/write.hpp>
#include <boost/beast/core/flat_buffer.hpp>
#include <boost/beast/http.hpp>
#include <chrono>
#include <csignal>
#include <future>
#include <list>
#include <utility>

#include "server/problem.hpp"

namespace portwright::server {
namespace {

namespace asio = boost::asio;
namespace http = boost::beast::http;
using asio::ip::tcp;
using boost::system::error_code;
using std::chrono::milliseconds;

Request plain(const http::request<http::string_body>& from, const Way& way = {}) {
  Request out;
  out.way = way;
  out.method = std::string(from.method_string());
  out.target = std::string(from.target());
  for (const auto& field : from) out.headers.emplace_back(std::string(field.name_string()), std::string(field.value()));
  out.body = from.body();
  return out;
}

std::string head_text(const Response& response, bool keep) {
  std::string out = "HTTP/1.1 " + std::to_string(response.status) + ' ' +
                    std::string(http::obsolete_reason(http::int_to_status(static_cast<unsigned>(response.status)))) +
                    "\r\n";
  for (const auto& [name, value] : response.headers) out += name + ": " + value + "\r\n";
  if (!response.stream && response.status != 304)
    out += "Content-Length: " + std::to_string(response.body.size()) + "\r\n";
  out += keep ? "Connection: keep-alive\r\n\r\n" : "Connection: close\r\n\r\n";
  return out;
}

}  // namespace

base::Result<Request> read_request(std::string_view bytes, const Limits& limits) {
  http::request_parser<http::string_body> parser;
  parser.header_limit(static_cast<std::uint32_t>(limits.header_bytes));
  parser.body_limit(limits.picture_bytes);
  parser.eager(true);
  error_code error;
  (void)parser.put(asio::buffer(bytes.data(), bytes.size()), error);
  if (error || !parser.is_done()) return base::fail(base::ErrorCode::unreadable, "This is no request.");
  return plain(parser.release());
}

namespace {

class Connection;

// What all connections share; used in the one thread of the sockets.
struct Hall {
  App& app;
  Limits limits;
  asio::io_context& io;
  asio::thread_pool& workers;
  asio::thread_pool& guests;    // works for neighbours, so that they never keep the machine's own waiting
  asio::thread_pool& pictures;  // one photo is decoded at a time, and nothing else waits for it
  std::list<std::weak_ptr<Connection>> connections{};
  std::shared_ptr<std::list<Way>> uploads = std::make_shared<std::list<Way>>();  // photos on their way
};

// The place of one photo on its way, given back when it goes.
class Upload {
 public:
  /// None: as many are on their way as may be.
  static std::optional<Upload> begin(const Hall& hall, const Way& way) {
    std::list<Way>& all = *hall.uploads;
    const auto same = [&](const Way& other) { return way.by_network() && other.from == way.from; };
    if (all.size() >= hall.limits.pictures || std::any_of(all.begin(), all.end(), same)) return std::nullopt;
    all.push_front(way);
    return Upload(hall.uploads, all.begin());
  }
  Upload(Upload&& other) noexcept = default;
  Upload& operator=(Upload&& other) noexcept {
    std::swap(all_, other.all_);
    std::swap(at_, other.at_);
    return *this;
  }
  ~Upload() {
    if (all_) all_->erase(at_);
  }

 private:
  Upload(std::shared_ptr<std::list<Way>> all, std::list<Way>::iterator at) : all_(std::move(all)), at_(at) {}
  std::shared_ptr<std::list<Way>> all_;  // may outlive the hall
  std::list<Way>::iterator at_;
};

// One client: requests one after the other. A timer closes the socket when a phase takes too long.
class Connection : public std::enable_shared_from_this<Connection> {
 public:
  Connection(Hall& hall, tcp::socket socket, Way way)
      : hall_(hall), socket_(std::move(socket)), timer_(hall.io), way_(std::move(way)) {}
  ~Connection() {
    if (!stream_) return;
    stream_->on_wake({});
    stream_->close();
  }

  void begin() { wait(); }
  [[nodiscard]] bool is_idle() const { return idle_; }
  [[nodiscard]] const Way& way() const { return way_; }
  void shut() {
    error_code ignored;
    timer_.cancel();
    socket_.close(ignored);
    if (stream_) stream_->close();
  }
  /// A last word, and the end.
  void refuse(const Response& response) {
    keep_ = false;
    arm(hall_.limits.answer_ms);
    send(response);
  }

 private:
  using Parser = http::request_parser<http::string_body>;

  void arm(int ms) {
    timer_.expires_after(milliseconds(ms));
    timer_.async_wait([weak = weak_from_this()](error_code error) {
      if (const auto self = weak.lock(); self && !error) self->shut();
    });
  }

  // Until the first byte of a request.
  void wait() {
    if (buffer_.size() > 0) return read_head();
    idle_ = true;
    arm(hall_.limits.idle_ms);
    socket_.async_wait(tcp::socket::wait_read, [self = shared_from_this()](error_code error) {
      if (error) return;
      self->read_head();
    });
  }

  void read_head() {
    idle_ = false;
    arm(hall_.limits.request_ms);
    parser_.emplace();
    parser_->header_limit(static_cast<std::uint32_t>(hall_.limits.header_bytes));
    parser_->body_limit(hall_.limits.picture_bytes);  // the route's own limit is looked at when the head is there
    http::async_read_header(socket_, buffer_, *parser_,
                            [self = shared_from_this()](error_code error, std::size_t) { self->have_head(error); });
  }

  void have_head(error_code error) {
    if (error) return bad(error);
    if (parser_->get().version() != 11)
      return refuse(with_headers(problem(505, "version", "Not this HTTP", "The server speaks HTTP/1.1.")));
    const Request head = plain(parser_->get(), way_);
    if (auto no = hall_.app.refused(head)) return refuse(*no);
    if (auto no = too_long(head)) return refuse(*no);
    if (auto no = hall_.app.takes_picture(head) ? no_upload(head) : std::nullopt) return refuse(*no);
    http::async_read(socket_, buffer_, *parser_,
                     [self = shared_from_this()](error_code failed, std::size_t) { self->have_all(failed); });
  }

  [[nodiscard]] std::size_t declared() const {
    if (!parser_ || !parser_->is_header_done()) return 0;
    return static_cast<std::size_t>(parser_->content_length().value_or(0));
  }
  std::optional<Response> too_long(const Request& head) const {
    const Limits& limits = hall_.limits;
    const std::size_t most = hall_.app.takes_picture(head) ? limits.picture_bytes
                             : way_.by_network()           ? limits.neighbour_body_bytes
                                                           : limits.body_bytes;
    if (declared() <= most) return std::nullopt;
    return with_headers(too_much(most));
  }
  static Response too_much(std::size_t most) {
    const std::string cap = most >> 20U ? std::to_string(most >> 20U) + " MiB" : std::to_string(most >> 10U) + " KiB";
    return problem(413, "too_large", "Too much at once", "At most " + cap + " are taken here.");
  }
  // A photo begins to come: its place taken, its own time given.
  std::optional<Response> no_upload(const Request& head) {
    if (auto no = hall_.app.picture_refused(head)) return no;
    upload_ = Upload::begin(hall_, way_);
    if (!upload_)
      return with_headers(
          problem(503, "pictures", "One photo at a time", "Another photo is on its way. Try again when it is there."));
    arm(hall_.limits.picture_ms);
    return std::nullopt;
  }

  void have_all(error_code error) {
    if (error) return bad(error);
    keep_ = parser_->get().keep_alive();
    timer_.cancel();
    auto message = parser_->release();
    std::string body = std::move(message.body());
    message.body().clear();
    auto request = std::make_shared<Request>(plain(message, way_));
    request->body = std::move(body);
    parser_.reset();
    if (!hall_.app.takes_long(*request)) {
      arm(hall_.limits.answer_ms);
      return send(hall_.app.answer(*request));
    }
    auto& hands = upload_ ? hall_.pictures : way_.by_network() ? hall_.guests : hall_.workers;
    asio::post(hands, [self = shared_from_this(), request] {
      auto response = std::make_shared<Response>(self->hall_.app.answer(*request));
      asio::post(self->hall_.io, [self, response] {
        self->upload_.reset();
        self->arm(self->hall_.limits.answer_ms);
        self->send(*response);
      });
    });
  }

  static Response with_headers(Response response) {
    add_common_headers(response);
    return response;
  }

  void bad(error_code error) {
    if (error == http::error::header_limit)
      return refuse(with_headers(problem(431, "too_large", "Too long a head", "The head of a request has 16 KiB.")));
    if (error == http::error::body_limit) return refuse(with_headers(too_much(hall_.limits.picture_bytes)));
    if (error.category() == http::make_error_code(http::error::bad_method).category() &&
        error != http::error::end_of_stream && error != http::error::partial_message)
      return refuse(with_headers(problem(400, "malformed", "Not HTTP", "The request cannot be read.")));
    shut();
  }

  void send(const Response& response) {
    out_ = head_text(response, keep_ && !response.stream) + response.body;
    asio::async_write(socket_, asio::buffer(out_),
                      [self = shared_from_this(), stream = response.stream](error_code error, std::size_t) {
                        if (error) return self->shut();
                        if (stream) return self->follow(stream);
                        if (self->keep_) return self->wait();
                        self->farewell();
                      });
  }

  // What the client still sends is read for a moment, so that it sees the answer and no reset.
  void farewell() {
    error_code ignored;
    socket_.shutdown(tcp::socket::shutdown_send, ignored);
    const std::size_t more = std::min(declared(), hall_.limits.picture_bytes);
    to_drain_ = more + (std::size_t{4} << 20U);
    arm(more > hall_.limits.body_bytes ? hall_.limits.request_ms : 1000);
    drain();
  }
  void drain() {
    socket_.async_read_some(asio::buffer(scrap_), [self = shared_from_this()](error_code error, std::size_t got) {
      self->drained_ += got;
      if (error || self->drained_ > self->to_drain_) return self->shut();
      self->drain();
    });
  }

  // ---- event streams

  void follow(std::shared_ptr<Stream> stream) {
    timer_.cancel();
    stream_ = std::move(stream);
    stream_->on_wake([weak = weak_from_this(), &io = hall_.io] {
      asio::post(io, [weak] {
        if (const auto self = weak.lock()) self->pump();
      });
    });
    listen_for_end();
    pump();
  }
  void pump() {
    if (writing_ || !socket_.is_open()) return;
    out_ = stream_->take();
    if (out_.empty()) {
      if (stream_->closed()) shut();
      return;
    }
    writing_ = true;
    arm(hall_.limits.answer_ms);
    asio::async_write(socket_, asio::buffer(out_), [self = shared_from_this()](error_code error, std::size_t) {
      self->writing_ = false;
      self->timer_.cancel();
      if (error) return self->shut();
      self->pump();
    });
  }
  void listen_for_end() {
    socket_.async_read_some(asio::buffer(scrap_), [self = shared_from_this()](error_code error, std::size_t) {
      if (error) return self->shut();
      self->listen_for_end();
    });
  }

  Hall& hall_;
  tcp::socket socket_;
  asio::steady_timer timer_;
  Way way_;
  boost::beast::flat_buffer buffer_{};
  std::optional<Parser> parser_{};
  std::string out_{};
  std::shared_ptr<Stream> stream_{};
  std::array<char, 4096> scrap_{};
  std::size_t drained_ = 0, to_drain_ = 0;
  std::optional<Upload> upload_{};
  bool keep_ = true, idle_ = true, writing_ = false;
};

}  // namespace

namespace {

error_code open(tcp::acceptor& acceptor, const tcp::endpoint& at) {
  error_code error;
  const auto tried = [&](auto&& step) {
    if (!error) step();
  };
  tried([&] { acceptor.open(at.protocol(), error); });
  tried([&] { acceptor.set_option(tcp::acceptor::reuse_address(true), error); });
  if (at.address().is_v6()) tried([&] { acceptor.set_option(asio::ip::v6_only(true), error); });
  tried([&] { acceptor.bind(at, error); });
  tried([&] { acceptor.listen(asio::socket_base::max_listen_connections, error); });
  error_code ignored;
  if (error) acceptor.close(ignored);
  return error;
}

// One address that is listened on: a loopback one, or one in a network.
struct Door {
  explicit Door(asio::io_context& io, OwnAddress of = {}) : acceptor(io), own(std::move(of)) {}
  tcp::acceptor acceptor;
  OwnAddress own;  // empty: loopback
  // The way of a socket that came in here; none: it is no neighbour, or gone already.
  [[nodiscard]] std::optional<Way> way_of(const tcp::socket& socket) const {
    if (own.address.empty()) return Way{};
    error_code error;
    const auto other = socket.remote_endpoint(error);
    if (error || !is_neighbour(own, other.address().to_string())) return std::nullopt;
    return Way{own.address, other.address().to_string()};
  }
};

}  // namespace

struct Server::Inside {
  Inside(App& served, const Limits& asked)
      : app(served), limits(asked), workers(asked.workers), guests(1), pictures(1) {}

  void accept(const std::shared_ptr<Door>& door) {
    door->acceptor.async_accept([this, door](error_code error, tcp::socket socket) {
      if (!door->acceptor.is_open()) return;
      if (error) return pause(door);
      // Who is no neighbour gets no word: the socket closes here.
      if (const auto way = door->way_of(socket)) admit(std::move(socket), *way);
      accept(door);
    });
  }
  // No descriptor is left, or the like: a moment later again.
  void pause(const std::shared_ptr<Door>& door) {
    auto timer = std::make_shared<asio::steady_timer>(io, milliseconds(100));
    timer->async_wait([this, door, timer](error_code) {
      if (door->acceptor.is_open()) accept(door);
    });
  }

  void admit(tcp::socket socket, const Way& way) {
    error_code ignored;
    socket.set_option(tcp::no_delay(true), ignored);
    hall.connections.remove_if([](const auto& weak) { return weak.expired(); });
    const bool welcome = has_room(way);
    auto connection = std::make_shared<Connection>(hall, std::move(socket), way);
    if (!welcome) {
      Response no = problem(503, "connections", "Too many at once", "As many connections stand as may.");
      add_common_headers(no);
      return connection->refuse(no);
    }
    hall.connections.push_back(connection);
    connection->begin();
  }
  // Room for one more, made where it must be: neighbours never push out the machine's own, nor one neighbour another.
  bool has_room(const Way& way) {
    const auto same = [&](const Way& other) { return other.at == way.at && other.from == way.from; };
    const auto neighbours = [](const Way& other) { return other.by_network(); };
    const auto everybody = [](const Way&) { return true; };
    if (!way.by_network())
      return is_below(limits.connections, everybody, neighbours) || is_below(limits.connections, everybody, everybody);
    return is_below(limits.of_one_neighbour, same, same) && is_below(limits.of_neighbours, neighbours, neighbours) &&
           is_below(limits.connections, everybody, neighbours);
  }
  // Whether those counted are fewer than `most`; the oldest idle one that may go makes room.
  template <class Counted, class MayGo>
  bool is_below(std::size_t most, const Counted& counted, const MayGo& may_go) {
    const auto count = std::count_if(hall.connections.begin(), hall.connections.end(), [&](const auto& weak) {
      const auto one = weak.lock();
      return one && counted(one->way());
    });
    if (static_cast<std::size_t>(count) < most) return true;
    for (auto one = hall.connections.begin(); one != hall.connections.end(); ++one) {
      const auto connection = one->lock();
      if (!connection || !connection->is_idle() || !may_go(connection->way())) continue;
      connection->shut();
      hall.connections.erase(one);
      return true;
    }
    return false;
  }

  // ---- the network

  // Listens at these addresses and at no others.
  std::vector<Listening> listen_at(const std::vector<OwnAddress>& wanted) {
    if (ending) return {};
    std::erase_if(doors, [&](const auto& door) {
      if (std::find(wanted.begin(), wanted.end(), door->own) != wanted.end()) return false;
      shut_door(*door);
      return true;
    });
    std::vector<Listening> out;
    for (const OwnAddress& own : wanted) {
      const bool stands = std::any_of(doors.begin(), doors.end(), [&](const auto& door) { return door->own == own; });
      out.push_back({own, stands ? std::string() : open_door(own)});
    }
    return out;
  }
  // Why it cannot be opened; empty: it is open.
  std::string open_door(const OwnAddress& own) {
    error_code error;
    const auto address = asio::ip::make_address_v4(own.address, error);
    auto door = std::make_shared<Door>(io, own);
    if (!error) error = open(door->acceptor, {address, v4->acceptor.local_endpoint().port()});
    if (error) return error.message();
    doors.push_back(door);
    accept(door);
    return {};
  }
  void shut_door(Door& door) {
    error_code ignored;
    door.acceptor.close(ignored);
    for (const auto& weak : hall.connections)
      if (const auto connection = weak.lock(); connection && connection->way().at == door.own.address)
        connection->shut();
  }
  void keep_looking() {
    looking.expires_after(milliseconds(limits.look_ms));
    looking.async_wait([this](error_code error) {
      if (error || ending) return;
      app.visitors().follow();
      keep_looking();
    });
  }
  // Follows in the thread of the sockets, and waits for it where this is another one.
  void follow_soon() {
    auto done = std::make_shared<std::promise<void>>();
    const auto waiting = done->get_future();
    asio::dispatch(io, [this, done] {
      app.visitors().follow();
      done->set_value();
    });
    (void)waiting.wait_for(std::chrono::seconds(2));
  }

  void stop_workers() {
    workers.stop();
    guests.stop();
    pictures.stop();
    workers.join();
    guests.join();
    pictures.join();
  }

  void keep_pinging() {
    ping.expires_after(milliseconds(limits.ping_ms));
    ping.async_wait([this](error_code error) {
      if (error || ending) return;
      app.ping();
      keep_pinging();
    });
  }

  void end() {
    if (ending) return;
    ending = true;
    error_code ignored;
    v4->acceptor.close(ignored);
    v6->acceptor.close(ignored);
    for (const auto& door : doors) door->acceptor.close(ignored);
    ping.cancel();
    looking.cancel();
    signals.cancel(ignored);
    app.end();
    // Farewells are written, answers under way are given a moment, then all is shut.
    last.expires_after(milliseconds(300));
    last.async_wait([this](error_code) {
      for (const auto& weak : hall.connections)
        if (const auto connection = weak.lock()) connection->shut();
      work.reset();
    });
  }

  App& app;
  Limits limits;
  asio::io_context io{1};
  asio::thread_pool workers, guests, pictures;
  Hall hall{app, limits, io, workers, guests, pictures};
  std::shared_ptr<Door> v4 = std::make_shared<Door>(io), v6 = std::make_shared<Door>(io);
  std::vector<std::shared_ptr<Door>> doors;  // of the network
  // Set in the thread of the sockets: a timer that had run out before it could be cancelled must not begin anew, or the
  // server never ends.
  bool ending = false;
  asio::steady_timer ping{io}, looking{io}, last{io};
  asio::signal_set signals{io};
  asio::executor_work_guard<asio::io_context::executor_type> work{io.get_executor()};
};

Server::Server(std::unique_ptr<Inside> inside) : inside_(std::move(inside)) {}
Server::Server(Server&&) noexcept = default;
Server& Server::operator=(Server&&) noexcept = default;
Server::~Server() {
  if (!inside_) return;
  inside_->stop_workers();
}

base::Result<Server> Server::bind(App& app, std::uint16_t port, const Limits& limits) {
  auto inside = std::make_unique<Inside>(app, limits);
  if (const error_code error = open(inside->v4->acceptor, {asio::ip::address_v4::loopback(), port}))
    return base::fail(error == asio::error::address_in_use ? base::ErrorCode::busy : base::ErrorCode::storage,
                      "Port " + std::to_string(port) + " cannot be opened: " + error.message() + '.', "port");
  const std::uint16_t bound = inside->v4->acceptor.local_endpoint().port();
  // Another program may have the port on ::1 only: then the name localhost could lead there, so it is no free port.
  if (const error_code error = open(inside->v6->acceptor, {asio::ip::address_v6::loopback(), bound});
      error == asio::error::address_in_use && port != 0)
    return base::fail(base::ErrorCode::busy, "Port " + std::to_string(port) + " is taken.", "port");
  app.listens_on(bound);
  return Server(std::move(inside));
}

std::uint16_t Server::port() const { return inside_->v4->acceptor.local_endpoint().port(); }

void Server::run(bool watch_signals, const std::function<void()>& started) {
  Inside& in = *inside_;
  if (watch_signals) {
    in.signals.add(SIGINT);
    in.signals.add(SIGTERM);
    in.signals.async_wait([&in](error_code error, int) {
      if (!error) in.end();
    });
  }
  in.accept(in.v4);
  if (in.v6->acceptor.is_open()) in.accept(in.v6);
  in.keep_pinging();
  in.app.visitors().listens_by([&in](const std::vector<OwnAddress>& wanted) { return in.listen_at(wanted); },
                               [&in] { in.follow_soon(); });
  in.keep_looking();
  if (started) asio::post(in.io, started);
  in.io.run();
  in.stop_workers();
}

void Server::stop() {
  asio::post(inside_->io, [in = inside_.get()] { in->end(); });
}

}  // namespace portwright::server
