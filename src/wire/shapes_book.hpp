#pragma once
// The part of the table of shapes that speaks of the book; see wire/shapes.hpp, which it goes on from.

#include "wire/book_answer.hpp"
#include "wire/shapes.hpp"

namespace portwright::wire {

/// The fields that every answer of the book begins with.
template <class V>
void head(V& v, const char* schema, Of<BookHead> auto& s) {
  v.constant("schema", schema, "name and number of this shape");
  v.constant("program", program_name(), "program and version");
  v.field("book", s.book, "path of the book");
  v.field("notices", s.notices, "what the book itself has to say");
  v.field("errors", s.errors, "readings that cannot be read; they are kept as typed and the rest stands");
}

template <class V>
void shape(V& v, Of<BookSaw> auto& s) {
  v.is("BookSaw", "A saw of the book.");
  v.field("id", s.id, "its id");
  v.field("name", s.name, "its name");
  v.field("model", s.model, "words that tie sisters together");
  v.field("casting", s.casting, "marks of the casting");
  v.field("state", s.state, "state of the newest readings");
  v.field("use", s.use, "what the builder aims at");
  v.field("hidden", s.hidden, "hidden; it can be brought back");
  v.field("added", s.added, "when it was added, UTC");
  v.field("changed", s.changed, "when it or anything that belongs to it was changed last, UTC");
  v.field("author", s.author, "who changed it last");
  v.field("sets", s.sets, "sets of readings");
  v.field("readings", s.readings, "readings taken in the newest set");
  v.field("planned", s.planned, "cut lists planned");
  v.field("done", s.done, "cut lists done");
  v.field("notes", s.notes, "notes, tests in wood and failures");
  v.field("photos", s.photos, "photos");
}

template <class V>
void shape(V& v, Of<BookField> auto& s) {
  v.is("BookField", "One field of a reading set as it was typed.");
  v.field("path", s.path, "the field, by port name");
  v.field("typed", s.typed, "repeats, or members of a list; halves of pairs one after the other");
  v.field("with", s.with, "instrument");
  v.field("setup", s.setup, "set-up that readings share");
  v.field("note", s.note, "note");
  v.field("borrowed_from", s.borrowed_from, "name of the sister it was taken from; empty: read on this saw");
}

template <class V>
void shape(V& v, Of<BookSet> auto& s) {
  v.is("BookSet", "A set of readings.");
  v.field("id", s.id, "its id");
  v.field("state", s.state, "of the saw when it was read");
  v.field("who", s.who, "who added it");
  v.field("when", s.when, "when it was added, UTC");
  v.field("borrowed_from", s.borrowed_from, "name of the sister it was made from; empty: none");
  v.field("newest", s.newest, "the one that figures are made from");
  v.field("readings", s.readings, "readings taken");
}

template <class V>
void shape(V& v, Of<BookDetail> auto& s) {
  v.is("BookDetail", "A named detail of a record.");
  v.field("name", s.name, "its name");
  v.field("texts", s.texts, "as typed");
}

template <class V>
void shape(V& v, Of<BookRecord> auto& s) {
  v.is("BookRecord", "What belongs to a saw beside its readings.");
  v.field("id", s.id, "its id");
  v.field("kind", s.kind, "cuts, note, wood, failure or accepted");
  v.field("when", s.when, "when it was added, UTC");
  v.field("who", s.who, "who changed it last");
  v.field("details", s.details, "what it says");
}

template <class V>
void shape(V& v, Of<BookPhoto> auto& s) {
  v.is("BookPhoto", "A photo of a saw, as it is kept.");
  v.field("id", s.id, "its id: GET /api/photo/ID?size=small or whole");
  v.field("name", s.name, "caption as typed; empty: none");
  v.field("width", s.width, "pixels across");
  v.field("height", s.height, "pixels down");
  v.field("taken", s.taken, "when it was taken as the camera noted it, 2026:05:03 14:02:11; empty: not noted");
  v.field("at", s.at, "when it was added, UTC");
  v.field("by", s.by, "who added it, or changed it last");
  v.field("revision", s.revision, "of the photo: the base that a change of its caption names");
}

template <class V>
void shape(V& v, Of<BookAdded> auto& s) {
  v.is("BookAdded", "A saw file taken into the book.");
  v.field("file", s.file, "the file");
  v.field("saw", s.saw, "id of the saw");
  v.field("name", s.name, "its name");
  v.field("readings", s.readings, "id of the set of readings");
  v.field("fields", s.fields, "readings taken");
  v.field("already", s.already, "the very same file was in the book; nothing was added");
}

template <class V>
void shape(V& v, Of<BookChange> auto& s) {
  v.is("BookChange", "One place that an action changed.");
  v.field("document", s.document, "id of the document");
  v.field("path", s.path, "field, by port name; empty: the document was added");
  v.field("before", s.before, "as typed; null: not there");
  v.field("after", s.after, "as typed; null: not there any more");
}

template <class V>
void shape(V& v, Of<BookAction> auto& s) {
  v.is("BookAction", "One thing that an author did.");
  v.field("number", s.number, "its number in the journal");
  v.field("at", s.at, "when, UTC");
  v.field("who", s.who, "who");
  v.field("label", s.label, "what, in words");
  v.field("saws", s.saws, "names of the saws it speaks of");
  v.field("changes", s.changes, "places that it changed");
}

template <class V>
void shape(V& v, Of<BookFound> auto& s) {
  v.is("BookFound", "Something the search found.");
  v.field("id", s.id, "its id");
  v.field("kind", s.kind, "saw, readings, cuts, note, wood, failure or accepted");
  v.field("saw", s.saw, "id of the saw it belongs to");
  v.field("name", s.name, "name of that saw");
  v.field("snippet", s.snippet, "the words around what was found");
}

template <class V>
void shape(V& v, Of<SisterValue> auto& s) {
  v.is("SisterValue", "One figure of one saw among its sisters.");
  v.field("saw", s.saw, "id of the saw");
  v.field("value", s.value, "in the figure's unit; null: it waits for readings");
  v.field("low", s.low, "low end of the 95 % range");
  v.field("high", s.high, "high end of the 95 % range");
  v.field("text", s.text, "for a person");
  v.field("range", s.range, "the range for a person");
  v.field("apart", s.apart, "less the mean of the other saws");
  v.field("apart_low", s.apart_low, "low end of that difference's 95 % range");
  v.field("apart_high", s.apart_high, "high end of that difference's 95 % range");
  v.field("real", s.real, "that range does not hold 0");
  v.field("sentence", s.sentence, "the same in words, where it is real");
}

template <class V>
void shape(V& v, Of<SisterFigure> auto& s) {
  v.is("SisterFigure", "One figure of all sisters.");
  v.field("id", s.id, "name of the figure");
  v.field("label", s.label, "its name for a person");
  v.field("unit", s.unit, "unit of the numbers");
  v.field("saws", s.saws, "in the order of the answer's saws");
  v.field("mean", s.mean, "mean of the saws; null: fewer than two have it");
  v.field("spread", s.spread, "one sigma between the saws beyond what errors of readings explain");
  v.field("mean_text", s.mean_text, "the mean for a person");
  v.field("spread_text", s.spread_text, "the spread for a person");
}

template <class V>
void shape(V& v, Of<BookBackup> auto& s) {
  v.is("BookBackup", "A backup that was opened and counted.");
  v.field("file", s.file, "the file");
  v.field("at", s.at, "when, UTC");
  v.field("bytes", s.bytes, "its length");
  v.field("documents", s.documents, "documents in it");
  v.field("entries", s.entries, "journal entries in it");
}

template <class V>
void shape(V& v, Of<BookAddAnswer> auto& s) {
  v.is("book-add", "Saw files taken into the book.");
  head(v, "portwright book-add 1", s.head);
  v.field("added", s.added, "one for each file");
}

template <class V>
void shape(V& v, Of<BookListAnswer> auto& s) {
  v.is("book-list", "The saws of the book.");
  head(v, "portwright book-list 1", s.head);
  v.field("saws", s.saws, "in the order of their names");
  v.field("hidden", s.hidden, "saws that are hidden and not listed");
  v.field("more", s.more, "there are more than these");
}

template <class V>
void shape(V& v, Of<BookShowAnswer> auto& s) {
  v.is("book-show", "One saw with all that belongs to it.");
  head(v, "portwright book-show 1", s.head);
  v.field("saw", s.saw, "the saw");
  v.field("revision", s.revision, "of the saw with these readings: the base that a change of them names");
  v.field("sets", s.sets, "sets of readings, newest first");
  v.field("fields", s.fields, "readings of the newest set, or of the one asked for");
  v.field("records", s.records, "cuts, notes, tests in wood, failures, accepted findings; oldest first");
  v.field("photos", s.photos, "photos, oldest first");
}

template <class V>
void shape(V& v, Of<BookPhotosAnswer> auto& s) {
  v.is("book-photos", "Photos of a saw.");
  head(v, "portwright book-photos 1", s.head);
  v.field("saw", s.saw, "id of the saw");
  v.field("name", s.name, "name of that saw");
  v.field("photos", s.photos, "all of them, oldest first; or those that were just added");
}

template <class V>
void shape(V& v, Of<BookDoneAnswer> auto& s) {
  v.is("book-done", "One thing done.");
  head(v, "portwright book-done 1", s.head);
  v.field("saw", s.saw, "id of the saw it was done to; empty: none in particular");
  v.field("name", s.name, "name of that saw");
  v.field("added", s.added, "ids of what was added");
  v.field("action", s.action, "as the journal has it; null: nothing was to be done");
  v.field("revision", s.revision, "of that saw with its newest readings, afterwards; empty: no saw in particular");
}

template <class V>
void shape(V& v, Of<BookJournalAnswer> auto& s) {
  v.is("book-journal", "What was done, newest first.");
  head(v, "portwright book-journal 1", s.head);
  v.field("actions", s.actions, "actions");
  v.field("more", s.more, "there are older ones");
}

template <class V>
void shape(V& v, Of<BookFindAnswer> auto& s) {
  v.is("book-find", "What the search found.");
  head(v, "portwright book-find 1", s.head);
  v.field("text", s.text, "words searched for");
  v.field("found", s.found, "best first");
}

template <class V>
void shape(V& v, Of<BookSistersAnswer> auto& s) {
  v.is("book-sisters", "Saws of one model side by side.");
  head(v, "portwright book-sisters 1", s.head);
  v.field("model", s.model, "the model");
  v.field("saws", s.saws, "the saws, in the order of their names");
  v.field("figures", s.figures, "geometry figures that at least one of them has");
  v.field("compared", s.compared, "differences held against their ranges");
  v.field("real", s.real, "of these, those whose range does not hold 0");
  v.field("by_chance", s.by_chance, "how many would by chance alone, in words");
}

template <class V>
void shape(V& v, Of<BookDiffers> auto& s) {
  v.is("BookDiffers", "A document that the book has otherwise.");
  v.field("id", s.id, "its id");
  v.field("kind", s.kind, "its kind");
  v.field("name", s.name, "its name");
  v.field("path", s.path, "part that differs");
  v.field("mine", s.mine, "as the book has it");
  v.field("theirs", s.theirs, "as the import has it");
}

template <class V>
void shape(V& v, Of<BookBackupAnswer> auto& s) {
  v.is("book-backup", "A backup that was made, opened and counted.");
  head(v, "portwright book-backup 1", s.head);
  v.field("backup", s.backup, "the backup");
  v.field("kept", s.kept, "backups beside the book, newest first");
}

template <class V>
void shape(V& v, Of<BookRestoreAnswer> auto& s) {
  v.is("book-restore", "A backup put in the book's place.");
  head(v, "portwright book-restore 1", s.head);
  v.field("from", s.from, "the backup");
  v.field("aside", s.aside, "where the former book went; empty: there was none");
  v.field("documents", s.documents, "documents in it");
  v.field("entries", s.entries, "journal entries in it");
}

template <class V>
void shape(V& v, Of<BookVerifyAnswer> auto& s) {
  v.is("book-verify", "Whether the book is sound; what is not stands in errors.");
  head(v, "portwright book-verify 1", s.head);
  v.field("documents", s.documents, "documents looked at");
  v.field("actions", s.actions, "actions looked at");
  v.field("entries", s.entries, "journal entries looked at");
  v.field("blobs", s.blobs, "kept files looked at");
  v.field("search_mended", s.search_mended, "the index of words did not hold and was made anew");
  v.field("hash", s.hash, "of the whole book");
}

template <class V>
void shape(V& v, Of<BookExportAnswer> auto& s) {
  v.is("book-export", "The book as a folder, or a saw as a file.");
  head(v, "portwright book-export 1", s.head);
  v.field("to", s.to, "folder or file");
  v.field("saws", s.saws, "saws in it");
  v.field("documents", s.documents, "documents in it");
  v.field("actions", s.actions, "actions of the journal in it");
  v.field("blobs", s.blobs, "kept files in it");
  v.field("bytes", s.bytes, "its length");
  v.field("hash", s.hash, "of the book, or of the file");
}

template <class V>
void shape(V& v, Of<BookImportAnswer> auto& s) {
  v.is("book-import", "What an exported folder or file brings.");
  head(v, "portwright book-import 1", s.head);
  v.field("from", s.from, "folder or file");
  v.field("done", s.done, "it was taken; no: only looked at, or there is nothing new");
  v.field("into_empty", s.into_empty, "it makes an empty book the same as the one it came from");
  v.field("saws", s.saws, "saws that it brings");
  v.field("documents", s.documents, "documents that it brings");
  v.field("blobs", s.blobs, "kept files in it");
  v.field("same", s.same, "documents that the book has already");
  v.field("differing", s.differing, "documents that the book has otherwise; they stay as they are");
  v.field("hash", s.hash, "of the book that it makes of an empty one");
}

template <class V>
void shape(V& v, Of<BookWhereAnswer> auto& s) {
  v.is("book-where", "Where the book is.");
  head(v, "portwright book-where 1", s.head);
  v.field("chosen_by", s.chosen_by, "--book, PORTWRIGHT_BOOK or the usual place");
  v.field("there", s.there, "there is a book");
  v.field("bytes", s.bytes, "its length");
  v.field("saws", s.saws, "saws in it");
  v.field("documents", s.documents, "documents in it");
  v.field("entries", s.entries, "journal entries in it");
  v.field("blobs", s.blobs, "files kept in it");
  v.field("folder", s.folder, "folder of its backups");
  v.field("backups", s.backups, "backups in it, newest first");
  v.field("alarm", s.alarm, "what is wrong with it; empty: nothing");
}

}  // namespace portwright::wire
