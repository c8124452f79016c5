#pragma once
// Answers of the use cases of the book.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "wire/answer.hpp"

namespace portwright::wire {

/// What every answer of the book begins with.
struct BookHead {
  std::string book;                  ///< path of the book
  std::vector<std::string> notices;  ///< what the book itself has to say: an alarm, a backup that failed
  base::Errors errors;               ///< readings that cannot be read and are kept as typed
};

/// A saw as a line of a list.
struct BookSaw {
  std::string id, name, model, casting, state, use;
  bool hidden = false;
  std::string added, changed, author;  ///< times as the book has them; who changed it last
  int sets = 0;                        ///< of readings
  int readings = 0;                    ///< taken, in the newest set
  int planned = 0, done = 0;           ///< cut lists
  int notes = 0;                       ///< notes, tests in wood, failures
  int photos = 0;
};

/// One field of a reading set as it was typed.
struct BookField {
  std::string path;                ///< `port.exhaust.opens`
  std::vector<std::string> typed;  ///< repeats, members of a list, halves of pairs one after the other
  std::string with, setup, note;
  std::string borrowed_from;  ///< name of the sister it was taken from
};

struct BookSet {
  std::string id, state, who, when, borrowed_from;
  bool newest = false;
  int readings = 0;
};

/// A named detail of a record.
struct BookDetail {
  std::string name;
  std::vector<std::string> texts;
};

/// A photo of a saw, as it is kept.
struct BookPhoto {
  std::string id, name;       ///< name: its caption as typed
  int width = 0, height = 0;  ///< [pixels]
  std::string taken;          ///< as the camera noted it, `2026:05:03 14:02:11`; empty: it did not
  std::string at, by;         ///< when and by whom it was added
  std::string revision;       ///< base of a change of its caption
};

/// A cut list, note, test in wood, failure or accepted finding.
struct BookRecord {
  std::string id, kind, when, who;
  std::vector<BookDetail> details;
};

struct BookAdded {
  std::string file;
  std::string saw, name, readings;  ///< ids and name of the saw; id of the reading set
  int fields = 0;                   ///< readings taken
  bool already = false;             ///< the very same file is in the book
};

struct BookAddAnswer {
  BookHead head;
  std::vector<BookAdded> added;
};

struct BookListAnswer {
  BookHead head;
  std::vector<BookSaw> saws;
  int hidden = 0;     ///< saws that are hidden and not listed
  bool more = false;  ///< there are more than were asked for
};

struct BookShowAnswer {
  BookHead head;
  BookSaw saw;
  std::string revision;           ///< of the saw with the readings shown: the base of a change
  std::vector<BookSet> sets;      ///< newest first
  std::vector<BookField> fields;  ///< of the newest set, or of the one asked for
  std::vector<BookRecord> records;
  std::vector<BookPhoto> photos;  ///< oldest first
};

/// Photos of a saw: all of them, or those that were just added.
struct BookPhotosAnswer {
  BookHead head;
  std::string saw, name;  ///< id and name of the saw
  std::vector<BookPhoto> photos;
};

/// One place of a document that an action changed. Texts as a person types them; none: not there.
struct BookChange {
  std::string document, path;
  std::optional<std::string> before, after;
};

struct BookAction {
  std::int64_t number = 0;
  std::string at, who, label;
  std::vector<std::string> saws;  ///< names of the saws it speaks of
  std::vector<BookChange> changes;
};

/// What was done: one action, or none when there was nothing to do.
struct BookDoneAnswer {
  BookHead head;
  std::string saw, name;           ///< id and name of the saw it was done to; empty: none in particular
  std::vector<std::string> added;  ///< ids of new documents
  std::optional<BookAction> action;
  std::string revision = {};  ///< of that saw with its newest readings, afterwards
};

struct BookJournalAnswer {
  BookHead head;
  std::vector<BookAction> actions;  ///< newest first
  bool more = false;
};

struct BookFound {
  std::string id, kind, saw, name, snippet;  ///< saw: id of the saw it belongs to
};

struct BookFindAnswer {
  BookHead head;
  std::string text;
  std::vector<BookFound> found;
};

/// One figure of one saw among its sisters.
struct SisterValue {
  std::string saw;  ///< id
  std::optional<double> value, low, high;
  std::string text, range;
  std::optional<double> apart, apart_low, apart_high;  ///< from the mean of the others
  bool real = false;                                   ///< the range of `apart` does not hold 0
  std::string sentence;                                ///< about this saw, when it stands apart
};

struct SisterFigure {
  std::string id, label, unit;
  std::vector<SisterValue> saws;       ///< in the order of the answer's saws
  std::optional<double> mean, spread;  ///< spread: one sigma between saws beyond the readings' errors
  std::string mean_text, spread_text;
};

struct BookSistersAnswer {
  BookHead head;
  std::string model;
  std::vector<BookSaw> saws;
  std::vector<SisterFigure> figures;
  int compared = 0;       ///< differences held against their ranges
  int real = 0;           ///< of them, those whose range does not hold 0
  std::string by_chance;  ///< how many would by chance alone
};

struct BookBackup {
  std::string file, at;
  std::int64_t bytes = 0, documents = 0, entries = 0;
};

struct BookBackupAnswer {
  BookHead head;
  BookBackup backup;
  std::vector<BookBackup> kept;  ///< beside the book, newest first
};

struct BookRestoreAnswer {
  BookHead head;
  std::string from, aside;
  std::int64_t documents = 0, entries = 0;
};

struct BookVerifyAnswer {
  BookHead head;  ///< errors: what is not sound
  std::int64_t documents = 0, actions = 0, entries = 0, blobs = 0;
  bool search_mended = false;
  std::string hash;
};

struct BookExportAnswer {
  BookHead head;
  std::string to;
  std::int64_t saws = 0, documents = 0, actions = 0, blobs = 0, bytes = 0;
  std::string hash;
};

/// A document of the book that an import has otherwise.
struct BookDiffers {
  std::string id, kind, name, path, mine, theirs;
};

struct BookImportAnswer {
  BookHead head;
  std::string from;
  bool done = false, into_empty = false;
  std::int64_t saws = 0, documents = 0, blobs = 0;  ///< that it brings
  std::int64_t same = 0;                            ///< documents that are there already
  std::vector<BookDiffers> differing;
  std::string hash;  ///< of the book that it makes of an empty one
};

struct BookWhereAnswer {
  BookHead head;
  std::string chosen_by;  ///< --book, PORTWRIGHT_BOOK or the usual place
  bool there = false;
  std::int64_t bytes = 0, saws = 0, documents = 0, entries = 0, blobs = 0;
  std::string folder;               ///< of the backups
  std::vector<BookBackup> backups;  ///< newest first
  std::string alarm;
};

}  // namespace portwright::wire
