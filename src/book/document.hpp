#pragma once
// What the book keeps, and what a writer hands in.

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "base/error.hpp"

namespace portwright::book {

/// One thing the book keeps: a saw, a set of readings, a note. Nothing in the book knows what the kinds mean.
struct Document {
  std::string id;                ///< ten characters, see new_id
  std::string kind;              ///< word of [a-z0-9_]
  std::string belongs_to;        ///< id of the document it is a part of; empty when it stands alone
  std::string title;             ///< the text leaf `name` of the body; empty when there is none
  std::string body;              ///< canonical JSON, see tree.hpp
  std::int64_t revision = 0;     ///< sequence of the newest journal entry of this document; the base of a Change
  bool hidden = false;           ///< this document, or one that it belongs to, is hidden
  bool hidden_itself = false;    ///< this document is hidden itself
  std::string created, changed;  ///< UTC, `2026-03-01T09:30:00Z`
  std::string author;            ///< who changed it last
};

/// A document to be added.
struct NewDocument {
  std::string id;  ///< empty: the book gives one (the answer's entries name it); given ids: letters and digits, 1 to 40
  std::string kind;        ///< word of [a-z0-9_]
  std::string belongs_to;  ///< id of a document of the book or of an earlier one of the same deed; empty: none
  std::string body;        ///< JSON object as tree.hpp allows it
};

/// Bytes kept under their hash; leaves name them as `blob:<hash>` (see hash_of).
struct NewBlob {
  std::string bytes;
  std::string type;  ///< media type, `image/jpeg`
};

/// Bytes that are read one after the other while a book takes them, so that they are never in memory all at once.
struct BlobSource {
  std::size_t count = 0;
  std::function<base::Result<NewBlob>(std::size_t)> read = {};  ///< called with 0 to count - 1
};

/// Bytes as kept; their hash was checked when they were read.
struct Blob {
  std::string hash, type, bytes;
};

/// A leaf or branch set or removed.
struct Change {
  std::string document;              ///< id
  std::string path;                  ///< dotted: `port.p1.opens`
  std::optional<std::string> value;  ///< JSON of a leaf or branch; none: removed
  std::int64_t base = 0;             ///< revision of the document that the writer saw
};

/// One thing that an author does: all of it is kept, or nothing. Two overlapping changes in one deed are refused.
struct Deed {
  std::string label;   ///< for the journal: "exhaust opens 103 deg -> 101 deg"; cut after 1,000 bytes
  std::string token;   ///< made by the caller, the same when the deed is tried again; empty: the book makes one
  std::string client;  ///< word of the writing window or process: its own entries do not conflict with it; empty: none
  std::vector<NewDocument> added;
  std::vector<Change> changes;
  std::vector<NewBlob> blobs;
  BlobSource further_blobs;                       ///< beside these
  std::vector<std::string> hidden, brought_back;  ///< ids
  bool off_stack = false;                         ///< journalled, but undo passes it by (results)
};

}  // namespace portwright::book
