#include "server/network/visitors.hpp"

#include <algorithm>
#include <tuple>
#include <utility>

namespace portwright::server {
namespace {

bool has_one(const std::vector<Listening>& all) {
  return std::any_of(all.begin(), all.end(), [](const Listening& one) { return one.trouble.empty(); });
}

std::vector<Listening> all_well(const std::vector<OwnAddress>& wanted) {
  std::vector<Listening> out;
  for (const OwnAddress& own : wanted) out.push_back({own, ""});
  return out;
}

}  // namespace

Visitors::Visitors(Hub& hub, Jobs& jobs, const std::string& devices, Clock clock, Addresses addresses)
    : hub_(hub),
      jobs_(jobs),
      entry_(clock),
      pairing_(clock),
      devices_(devices, wall_seconds),
      switch_(clock, std::move(addresses)),
      clock_(clock) {}

Role Visitors::role_of(const Way& way, const std::string& cookie) {
  if (!way.by_network()) return entry_.is_known(cookie) ? Role::machine : Role::nobody;
  return switch_.is_on() && devices_.of(cookie) ? Role::device : Role::nobody;
}

std::optional<Visitors::Who> Visitors::who(const Way& way, const std::string& cookie, const std::string& author) {
  std::optional<Who> out(std::in_place);
  if (!way.by_network()) {
    out->listener.session = cookie;
    out->author = author;
    return out;
  }
  const auto device = devices_.of(cookie);
  if (!device) return std::nullopt;
  out->listener.session = "device " + std::to_string(device->number);
  out->listener.device = device->number;
  out->name = device->name;
  out->author = device->author();
  return out;
}

std::string Visitors::machine_address(const std::string& token) const {
  return "http://127.0.0.1:" + std::to_string(port_) + "/#token=" + token;
}

std::string Visitors::url_of(const OwnAddress& own) const {
  return "http://" + own.address + (port_ == 80 ? "" : ':' + std::to_string(port_)) + '/';
}

void Visitors::listens_by(Follow listen, std::function<void()> soon) {
  listen_ = std::move(listen);
  soon_ = std::move(soon);
}

base::Result<void> Visitors::switch_network(bool on) {
  if (on)
    if (auto done = switch_.on(); !done) return done;
  if (!on) switch_.off();
  const auto settle = [&] { return soon_ ? soon_() : follow(); };
  settle();
  if (!on) return {};
  {
    const std::lock_guard hold(guard_);
    if (has_one(listening_)) return {};
  }
  switch_.off();
  settle();
  return base::fail(base::ErrorCode::busy, "No address of this machine's network can be listened on.", "",
                    "Another program may have the port; start with another one: portwright serve --port N");
}

void Visitors::follow() {
  const std::vector<OwnAddress> wanted = switch_.look();
  std::vector<Listening> now = listen_ ? listen_(wanted) : all_well(wanted);
  bool changed = false;
  {
    const std::lock_guard hold(guard_);
    changed =
        !std::equal(now.begin(), now.end(), listening_.begin(), listening_.end(),
                    [](const Listening& a, const Listening& b) { return a.own == b.own && a.trouble == b.trouble; });
    listening_ = std::move(now);
  }
  show_out();
  if (changed) hub_.tell_machine("network", "{}");
}

void Visitors::show_out() {
  const bool on = switch_.is_on();
  if (!on) pairing_.withdraw();
  const auto goes = [&](const Listener& who) { return who.device != 0 && (!on || !devices_.is_known(who.device)); };
  hub_.close_where(goes);
  jobs_.stop_where(goes);
}

base::Result<void> Visitors::invite() {
  if (!switch_.is_on())
    return base::fail(base::ErrorCode::usage, "No device can come in while the network is off.", "",
                      "Switch it on first.");
  (void)pairing_.invite();
  return {};
}

base::Result<Devices::Added> Visitors::pair(const wire::Pair& ask, const std::string& from) {
  if (auto named = Devices::plain_name(ask.name); !named) return tl::unexpected(named.error());
  const Pairing::Verdict verdict = switch_.is_on() ? pairing_.take(ask.code, from) : Pairing::Verdict::wrong;
  if (verdict != Pairing::Verdict::right) hub_.tell_machine("network", "{}");
  if (verdict == Pairing::Verdict::wait)
    return base::fail(base::ErrorCode::busy, "Too many wrong codes. Wait a minute, then try again.", "code",
                      "The square code can still be scanned.");
  if (verdict == Pairing::Verdict::wrong)
    return base::fail(base::ErrorCode::not_found, "This code is wrong, used already, or its time is over.", "code",
                      "On the machine, in the settings under Network, make a new one.");
  auto added = devices_.add(ask.name, from);
  hub_.tell_machine("network", "{}");
  return added;
}

base::Result<void> Visitors::revoke(std::int64_t device) {
  auto done = devices_.revoke(device);
  show_out();
  return done;
}

// Moments of the last minute; the guard is held.
std::deque<std::int64_t>& Visitors::lately(std::int64_t device) {
  std::deque<std::int64_t>& deeds = deeds_[device];
  while (!deeds.empty() && clock_() - deeds.front() >= Pairing::minute) deeds.pop_front();
  return deeds;
}

bool Visitors::may_write(std::int64_t device) {
  const std::lock_guard hold(guard_);
  std::deque<std::int64_t>& deeds = lately(device);
  if (deeds.size() >= most_deeds) return false;
  deeds.push_back(clock_());
  return true;
}

bool Visitors::could_write(std::int64_t device) {
  const std::lock_guard hold(guard_);
  return lately(device).size() < most_deeds;
}

wire::Network Visitors::told() {
  wire::Network out;
  out.on = switch_.is_on();
  out.seconds_left = switch_.seconds_left();
  out.off_because = switch_.why_off();
  {
    const std::lock_guard hold(guard_);
    for (const Listening& one : listening_) out.places.push_back({one.own.interface, url_of(one.own), one.trouble});
  }
  if (const auto invited = pairing_.standing())
    out.invitation = wire::Invitation{invited->digits, invited->seconds_left};
  std::tie(out.wrong_codes, out.wrong_from) = pairing_.wrong();
  for (const wire::KeptDevice& one : devices_.list())
    out.devices.push_back(
        {one.device, one.name, "device", one.paired, one.seen, one.from, hub_.has_device(one.device)});
  out.trouble = devices_.trouble();
  return out;
}

base::Result<std::string> Visitors::link(const std::string& url) const {
  const auto invited = pairing_.standing();
  const std::lock_guard hold(guard_);
  const bool known = std::any_of(listening_.begin(), listening_.end(),
                                 [&](const Listening& one) { return one.trouble.empty() && url_of(one.own) == url; });
  if (!invited || !known)
    return base::fail(base::ErrorCode::not_found, "There is no code to scan at that address now.", "url",
                      "Make a new one.");
  return url + "#pair=" + invited->word;
}

}  // namespace portwright::server
