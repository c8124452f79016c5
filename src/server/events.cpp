#include "server/events.hpp"

#include <algorithm>
#include <utility>

namespace portwright::server {

void Stream::put(std::string text) {
  const std::lock_guard hold(guard_);
  if (closed_) return;
  if (waiting_.size() >= most_events || bytes_ + text.size() > most_bytes) {
    closed_ = true;
    waiting_.clear();
    bytes_ = 0;
  } else {
    bytes_ += text.size();
    waiting_.push_back(std::move(text));
  }
  if (wake_) wake_();
}

std::string Stream::take() {
  const std::lock_guard hold(guard_);
  std::string out;
  out.reserve(bytes_);
  for (const std::string& text : waiting_) out += text;
  waiting_.clear();
  bytes_ = 0;
  return out;
}

void Stream::close() {
  const std::lock_guard hold(guard_);
  closed_ = true;
  if (wake_) wake_();
}

bool Stream::closed() const {
  const std::lock_guard hold(guard_);
  return closed_;
}

void Stream::on_wake(std::function<void()> wake) {
  const std::lock_guard hold(guard_);
  wake_ = std::move(wake);
}

std::string event_text(const std::string& name, const std::string& json) {
  return "event: " + name + "\ndata: " + json + "\n\n";
}

std::vector<std::shared_ptr<Stream>> Hub::all() const {
  const std::lock_guard hold(guard_);
  std::vector<std::shared_ptr<Stream>> out;
  for (const auto& weak : streams_)
    if (auto stream = weak.lock(); stream && !stream->closed()) out.push_back(std::move(stream));
  streams_.assign(out.begin(), out.end());
  return out;
}

std::shared_ptr<Stream> Hub::open(Listener who, const std::string& hello) {
  const auto open_now = all();
  auto stream = std::make_shared<Stream>(std::move(who));
  stream->put(event_text("hello", hello));
  const std::lock_guard hold(guard_);
  if (closed_) return nullptr;
  if (std::count_if(open_now.begin(), open_now.end(), [&](const auto& one) {
        return one->who().session == stream->who().session;
      }) >= static_cast<std::ptrdiff_t>(most_streams))
    return nullptr;
  streams_.push_back(stream);
  return stream;
}

void Hub::tell(const std::string& name, const std::string& json) {
  for (const auto& stream : all()) stream->put(event_text(name, json));
}

void Hub::tell(const Listener& whom, const std::string& name, const std::string& json) {
  for (const auto& stream : all()) {
    const Listener& who = stream->who();
    if (who.session == whom.session && (who.client.empty() || whom.client.empty() || who.client == whom.client))
      stream->put(event_text(name, json));
  }
}

bool Hub::hears(const Listener& whom) const {
  for (const auto& stream : all())
    if (!stream->closed() && stream->who().session == whom.session &&
        (stream->who().client.empty() || stream->who().client == whom.client))
      return true;
  return false;
}

void Hub::tell_machine(const std::string& name, const std::string& json) {
  for (const auto& stream : all())
    if (stream->who().device == 0) stream->put(event_text(name, json));
}

void Hub::close_where(const std::function<bool(const Listener&)>& goes) {
  for (const auto& stream : all()) {
    if (!goes(stream->who())) continue;
    stream->put(event_text("bye", "{}"));
    stream->close();
  }
}

bool Hub::has_device(std::int64_t device) const {
  const auto open_now = all();
  return std::any_of(open_now.begin(), open_now.end(), [&](const auto& one) { return one->who().device == device; });
}

void Hub::ping() {
  for (const auto& stream : all()) stream->put(": still here\n\n");
}

void Hub::close() {
  const auto open_now = all();
  {
    const std::lock_guard hold(guard_);
    closed_ = true;
  }
  for (const auto& stream : open_now) {
    stream->put(event_text("bye", "{}"));
    stream->close();
  }
}

std::size_t Hub::size() const { return all().size(); }

}  // namespace portwright::server
