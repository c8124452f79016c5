#pragma once
// A port's window measured on the photo of its rubbing.

#include <cstdint>
#include <memory>
#include <optional>
#include <string>

#include "base/error.hpp"
#include "base/number_text.hpp"
#include "desk/book.hpp"
#include "wire/rubbing_answer.hpp"

namespace portwright::desk {

/// Photos that were read already, each with the square found in it: the newest two. A page asks the same photo again
/// and again while a hand moves a corner. Safe to use from several threads.
class RubbingMemory {
 public:
  RubbingMemory();
  ~RubbingMemory();
  RubbingMemory(const RubbingMemory&) = delete;
  RubbingMemory& operator=(const RubbingMemory&) = delete;
  struct Inside;
  [[nodiscard]] Inside& inside() { return *inside_; }

 private:
  std::unique_ptr<Inside> inside_;
};

/// Of a photo of the book. What stands against measuring is the answer's `why`.
/// Errors: not_found (photo, port), a length that cannot be read, places that are no pairs.
struct RubbingRequest {
  std::string book = {}, photo = {};
  std::string port = {};  ///< its bridge counts; empty: none
  wire::RubbingHints hints = {};
  base::UnitStyle style = base::UnitStyle::shop;
};
[[nodiscard]] base::ResultAll<wire::RubbingAnswer> rubbing(const RubbingRequest& request,
                                                           RubbingMemory* memory = nullptr);

/// Of a picture that lies on the disk. Errors: as of picture::read_picture, too.
struct RubbingFileRequest {
  std::string file = {};
  std::string bore = {};  ///< that the paper was pressed into, as typed; empty: not known
  wire::RubbingHints hints = {};
  base::UnitStyle style = base::UnitStyle::shop;
  std::string output = {};  ///< the outline as SVG at true scale; empty: not written
};
[[nodiscard]] base::ResultAll<wire::RubbingAnswer> rubbing_file(const RubbingFileRequest& request);

/// Measures once more and keeps it: outline as seen from inside, how true it is, and a document `rubbing`, in one deed.
/// Errors: as rubbing(); usage where the square was not measured on this print; what the answer's `why` says; conflict.
struct BookRubbingRequest {
  std::string book = {}, saw = {}, photo = {}, port = {};
  wire::RubbingHints hints = {};
  std::optional<std::int64_t> base = {};  ///< revision of the saw that the writer saw; none: the newest
  Hand by = {};
};
[[nodiscard]] base::ResultAll<wire::BookDoneAnswer> book_rubbing(const BookRubbingRequest& request,
                                                                 RubbingMemory* memory = nullptr);

}  // namespace portwright::desk
