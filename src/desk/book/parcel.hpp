#pragma once
// One saw as one file, and what may travel at all. Inside the module only.

#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.hpp"
#include "book/book.hpp"

namespace portwright::desk {

/// What may travel: the same for what is written and for what is taken.
inline constexpr std::size_t most_files = 200'000;
inline constexpr std::size_t most_blob_bytes = std::size_t{64} << 20U;     ///< one kept file
inline constexpr std::size_t most_blobs_bytes = std::size_t{64} << 30U;    ///< all of a folder
inline constexpr std::size_t most_parcel_bytes = std::size_t{512} << 20U;  ///< a saw's file as it lies on the disk
/// Ending of a kept file of a type, `.jpg`; empty: a type that the book does not carry.
[[nodiscard]] std::string ending_of(std::string_view type);
/// Type of a kept file by its ending; empty: none that the book carries.
[[nodiscard]] std::string type_of(std::string_view ending);

/// One saw with all that belongs to it, as one file (format 2): a line that says what it is and how much follows, a
/// line for each document, a line for each kept file with its hash, its type and its bytes in base 64. Format 1, one
/// JSON object with everything, is still read.
struct Parcel {
  struct File {
    std::string hash, type;
    std::size_t at = 0, size = 0;  ///< of its base 64 in `text`
  };
  std::vector<book::Document> documents;
  std::vector<File> files;
  std::shared_ptr<const std::string> text;

  /// Bytes of a file. Error damaged: no base 64, or not the bytes that its hash says.
  [[nodiscard]] base::Result<book::NewBlob> file(std::size_t index) const;
  /// The same for a book that takes them; holds the text as long as it needs it.
  [[nodiscard]] book::BlobSource source() const;
};
/// Files are read one at a time. Errors: of reading them; out_of_range: more than an import would take.
[[nodiscard]] base::Result<std::string> parcel_text(const std::vector<book::Document>& documents,
                                                    const book::BlobSource& files);
/// Every file was decoded once and has its hash. Errors: unknown_format, damaged.
[[nodiscard]] base::Result<Parcel> parcel_from(std::string text);

}  // namespace portwright::desk
