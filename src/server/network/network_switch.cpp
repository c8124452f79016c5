#include "server/network/network_switch.hpp"

#include <algorithm>

namespace portwright::server {

base::Result<void> NetworkSwitch::on() {
  const std::vector<OwnAddress> now = addresses_();
  if (now.empty())
    return base::fail(base::ErrorCode::not_found, "This machine stands in no network that a phone could reach it by.",
                      "", "Join the workshop's network first.");
  const std::lock_guard hold(guard_);
  on_ = true;
  why_.clear();
  seen_ = clock_();
  ends_ = seen_ + lasts;
  known_.clear();
  for (const OwnAddress& own : now) known_.emplace_back(own.interface, network_of(own.address, own.prefix));
  return {};
}

void NetworkSwitch::off() {
  const std::lock_guard hold(guard_);
  end("");
}

void NetworkSwitch::end(const std::string& why) {
  on_ = false;
  known_.clear();
  why_ = why;
}

std::vector<OwnAddress> NetworkSwitch::look() {
  {
    const std::lock_guard hold(guard_);
    if (!on_) return {};
  }
  std::vector<OwnAddress> out = addresses_();
  const std::lock_guard hold(guard_);
  if (!on_) return {};
  const std::int64_t now = clock_();
  std::erase_if(out, [&](const OwnAddress& own) {
    return std::find(known_.begin(), known_.end(), Known{own.interface, network_of(own.address, own.prefix)}) ==
           known_.end();
  });
  if (!out.empty()) seen_ = now;
  if (now >= ends_)
    end("It was on for twelve hours.");
  else if (now - seen_ >= patience)
    end("The network that it was switched on for is gone.");
  return on_ ? out : std::vector<OwnAddress>();
}

bool NetworkSwitch::is_on() const {
  const std::lock_guard hold(guard_);
  return on_ && clock_() < ends_;
}

std::int64_t NetworkSwitch::seconds_left() const {
  const std::lock_guard hold(guard_);
  return on_ ? std::max<std::int64_t>(0, ends_ - clock_()) : 0;
}

std::string NetworkSwitch::why_off() const {
  const std::lock_guard hold(guard_);
  return why_;
}

}  // namespace portwright::server
