#include "server/opened_saws.hpp"

#include <algorithm>

#include "server/answering.hpp"

namespace portwright::server {

base::Result<std::int64_t> OpenedSaws::last(const std::string& book) {
  const std::lock_guard hold(pulse_guard_);
  if (!pulse_ || pulse_of_ != book) {
    pulse_ = std::make_unique<desk::BookPulse>(book);
    pulse_of_ = book;
  }
  return pulse_->last();
}

base::ResultAll<desk::OpenedSaw> OpenedSaws::open(const std::string& book, const std::string& saw) {
  // Asked before the saw is read: a write in between makes it be opened once more, never be taken for newer than it is.
  const auto now = last(book);
  if (!now) return tl::unexpected(base::Errors{now.error()});
  {
    const std::lock_guard hold(guard_);
    for (const One& one : known_)
      if (one.book == book && one.saw == saw && one.last == *now) return one.opened;
  }
  auto opened = desk::open_saw(of_book(saw), book);
  if (!opened) return opened;
  const std::lock_guard hold(guard_);
  std::erase_if(known_, [&](const One& one) { return one.book != book || one.last != *now || one.saw == saw; });
  known_.push_front({book, saw, *now, *opened});
  if (known_.size() > most) known_.pop_back();
  return opened;
}

}  // namespace portwright::server
