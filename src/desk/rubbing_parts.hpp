#pragma once
// Between the words of an ask and the measuring of a rubbing. Inside the module only.

#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "desk/rubbing.hpp"
#include "rubbing/measure.hpp"

namespace portwright::desk {

struct RubbingMemory::Inside {
  struct One {
    std::string hash;
    std::shared_ptr<const picture::Grey> grey;
    base::Result<rubbing::Square> square;
  };
  std::mutex guard{};
  std::vector<One> known{};  ///< newest first
};

/// A picture with the square that was found in it.
struct RubbingPhoto {
  std::shared_ptr<const picture::Grey> grey;
  base::Result<rubbing::Square> square;
};

/// Reads and searches, or remembers. @param hash of the bytes; empty: nothing is remembered
/// Errors: the bytes are no picture.
[[nodiscard]] base::Result<RubbingPhoto> rubbing_photo(const std::string& bytes, const std::string& hash,
                                                       RubbingMemory* memory);

/// Hints in the measuring's terms. Errors: lengths and words that cannot be read, places that are none.
[[nodiscard]] base::ResultAll<rubbing::Hints> hints_of(const wire::RubbingHints& hints);

/// What was measured, and the answer to it. `photo` stands in the answer as its name.
struct RubbingResult {
  wire::RubbingAnswer answer;
  std::optional<rubbing::Measured> measured;
  std::optional<base::Error> why;
};
[[nodiscard]] RubbingResult measured_rubbing(const RubbingPhoto& photo, const std::string& name,
                                             const wire::RubbingHints& asked, const rubbing::Hints& hints,
                                             base::UnitStyle style);

}  // namespace portwright::desk
