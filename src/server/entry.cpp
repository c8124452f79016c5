#include "server/entry.hpp"

#include <utility>

#include "base/chance.hpp"

namespace portwright::server {

std::string random_word() { return base::random_word(32); }

bool same_secret(std::string_view a, std::string_view b) {
  volatile unsigned char differs = a.size() == b.size() ? 0 : 1;
  for (std::size_t i = 0; i < a.size(); ++i) {
    const char other = b.empty() ? '\0' : b[i % b.size()];
    differs = static_cast<unsigned char>(differs | static_cast<unsigned char>(a[i] ^ other));
  }
  return differs == 0;
}

Entry::Entry(Clock clock) : clock_(std::move(clock)), token_(random_word()) { waiting_.push_back({token_, {}}); }

std::string Entry::another() {
  const std::lock_guard hold(guard_);
  if (waiting_.size() >= most_tokens) waiting_.pop_front();
  waiting_.push_back({random_word(), clock_() + lasts});
  return waiting_.back().token;
}

std::optional<std::string> Entry::enter(std::string_view token) {
  const std::lock_guard hold(guard_);
  std::erase_if(waiting_, [&](const Waiting& one) { return one.ends && clock_() >= *one.ends; });
  auto found = waiting_.end();
  for (auto one = waiting_.begin(); one != waiting_.end(); ++one)
    if (same_secret(token, one->token)) found = one;
  if (found == waiting_.end()) return std::nullopt;
  waiting_.erase(found);
  if (cookies_.size() >= most_cookies) cookies_.pop_front();
  cookies_.push_back(random_word());
  return cookies_.back();
}

bool Entry::is_known(std::string_view cookie) const {
  const std::lock_guard hold(guard_);
  bool known = false;
  for (const std::string& one : cookies_) known = same_secret(cookie, one) || known;
  return known;
}

}  // namespace portwright::server
