#pragma once
// Saws that were opened already: a page under a slider asks the same saw again and again, and only the cuts differ.
// Safe to use from several threads.

#include <cstdint>
#include <deque>
#include <memory>
#include <mutex>
#include <string>

#include "base/error.hpp"
#include "desk/book.hpp"
#include "desk/curve.hpp"
#include "desk/page.hpp"
#include "desk/rubbing.hpp"

namespace portwright::server {

class OpenedSaws {
 public:
  static constexpr std::size_t most = 6;

  /// A saw of a book as it is now. Anything written into the book since makes it be opened anew.
  /// Errors: as of desk::open_saw.
  [[nodiscard]] base::ResultAll<desk::OpenedSaw> open(const std::string& book, const std::string& saw);
  /// What curves leave behind for the next.
  [[nodiscard]] const std::shared_ptr<desk::CurveMemory>& curves() const { return curves_; }
  /// Photos of rubbings that were read already.
  [[nodiscard]] desk::RubbingMemory& rubbings() { return rubbings_; }

 private:
  struct One {
    std::string book, saw;
    std::int64_t last = 0;
    desk::OpenedSaw opened;
  };
  [[nodiscard]] base::Result<std::int64_t> last(const std::string& book);

  std::mutex guard_, pulse_guard_;
  std::deque<One> known_;  // newest first
  std::string pulse_of_;
  std::unique_ptr<desk::BookPulse> pulse_;
  std::shared_ptr<desk::CurveMemory> curves_ = std::make_shared<desk::CurveMemory>();
  desk::RubbingMemory rubbings_;
};

}  // namespace portwright::server
