#include "server/book_host.hpp"

#include <chrono>
#include <filesystem>
#include <optional>

#include "desk/book.hpp"

namespace portwright::server {
namespace {

constexpr auto turn = std::chrono::milliseconds(300);

// "…/portwright/book.portwright" -> "…/portwright/demo/book.portwright".
std::string beside(const std::string& own) {
  return (std::filesystem::path(own).parent_path() / "demo" / "book.portwright").string();
}

}  // namespace

BookHost::BookHost(std::string named, MakeDemo make_demo) : named_(std::move(named)), make_demo_(std::move(make_demo)) {
  own_ = desk::book_standing(named_).path;
  demo_ = beside(own_);
}

BookHost::~BookHost() {
  {
    const std::lock_guard hold(guard_);
    ended_ = true;
  }
  wake_.notify_all();
  if (watcher_.joinable()) watcher_.join();
}

base::Result<void> BookHost::open() {
  const desk::BookStanding usual = desk::book_standing(named_);
  const bool usual_place = named_.empty() && usual.chosen_by == desk::usual_place;
  // A demo that cannot be made is no reason not to open one's own book.
  if (usual_place && !usual.there && make_demo_ && demo_book()) return {};
  auto opened = own_book();
  if (opened || (opened.error().code != base::ErrorCode::damaged && opened.error().code != base::ErrorCode::newer))
    return opened;
  const std::lock_guard hold(guard_);
  now_ = {own_, now_.epoch + 1, 0, false};
  trouble_ = opened.error();
  return {};
}

std::optional<base::Error> BookHost::trouble() const {
  const std::lock_guard hold(guard_);
  return trouble_;
}

Standing BookHost::standing() const {
  const std::lock_guard hold(guard_);
  return now_;
}

base::Result<void> BookHost::own_book() { return change_to(own_, false); }

base::Result<void> BookHost::demo_book() {
  if (!make_demo_) return base::fail(base::ErrorCode::not_found, "This program was built without a demo workshop.");
  if (!desk::book_standing(demo_).there)
    if (auto made = make_demo_(demo_); !made) {
      std::error_code ignored;
      std::filesystem::remove_all(std::filesystem::path(demo_).parent_path(), ignored);
      return made;
    }
  return change_to(demo_, true);
}

base::Result<void> BookHost::change_to(const std::string& path, bool demo) {
  if (auto begun = desk::book_begin({path, {}}); !begun) return begun;
  const auto last = desk::book_last({path, {}});
  if (!last) return tl::unexpected(last.error());
  const std::lock_guard hold(guard_);
  if (now_.path == path) return {};
  now_ = {path, now_.epoch + 1, *last, demo};
  hurry_ = true;
  wake_.notify_all();
  return {};
}

void BookHost::look() {
  const std::lock_guard hold(guard_);
  hurry_ = true;
  wake_.notify_all();
}

void BookHost::watch(std::function<void(const Standing&)> changed) {
  watcher_ = std::thread([this, told = std::move(changed)] { run(told); });
}

void BookHost::run(const std::function<void(const Standing&)>& changed) {
  Standing told = standing();
  std::optional<desk::BookPulse> pulse;
  std::string of;
  for (;;) {
    {
      std::unique_lock hold(guard_);
      wake_.wait_for(hold, turn, [&] { return hurry_ || ended_; });
      if (ended_) return;
      hurry_ = false;
    }
    Standing seen = standing();
    if (!pulse || of != seen.path) {
      pulse.emplace(seen.path);
      of = seen.path;
    }
    if (const auto last = pulse->last()) {
      const std::lock_guard hold(guard_);
      if (now_.path == of) now_.last = *last;
      seen = now_;
    }
    if (seen == told) continue;
    told = seen;
    changed(seen);
  }
}

}  // namespace portwright::server
