// The rows of the book in the table of commands.
#include "cli/commands.hpp"

namespace portwright::cli {
namespace {

constexpr Argument saw{"SAW", true, "a saw of the book: its name, the beginning of it, or its id", Offers::nothing, {},
                       false, false};

Argument words_of(std::string_view name, std::string_view doc) {
  return {name, true, doc, Offers::nothing, {}, true, false};
}
Argument one_word(std::string_view name, std::string_view doc) {
  return {name, true, doc, Offers::nothing, {}, false, false};
}
Option text(std::string_view name, std::string_view value, std::string_view doc) {
  return {name, "", value, doc, {}, Offers::nothing};
}
Option flag(std::string_view name, std::string_view doc) { return {name, "", "", doc, {}, Offers::nothing}; }

Command group_command() {
  Command out{"book",
              "your workshop in one file: saws, readings, cuts, notes; nothing is lost",
              "The book keeps every edit with who and when; undo goes back without end, and what is hidden comes back. "
              "Every command that takes a saw file takes a saw of the book as well: book:NAME. Where the book lies: "
              "--book PATH, else PORTWRIGHT_BOOK, else the usual folder for data.",
              {},
              {},
              {{"portwright book add larch.saw.toml alder.saw.toml", "two saws into the book"},
               {"portwright study book:larch-70", "the study of a saw of the book"},
               {"portwright book set larch-70 port.exhaust.opens \"101 deg\"", "a reading, as typed"}},
              false};
  out.group = true;
  return out;
}

Command add_command() {
  return {
      "book add",
      "saw files into the book, each a saw of its own",
      "The files themselves are kept as well, with their comments. The very same file is not added twice. If one of "
      "them cannot be taken, none is.",
      {{"FILE", true, "saw file", Offers::files, {}, false, true}},
      {text("--to", "SAW", "as further readings of this saw: after a cut, or read again")},
      {{"portwright book add larch.saw.toml", "one saw"},
       {"portwright book add *.saw.toml", "all of a folder"},
       {"portwright book add larch-cut.saw.toml --to larch-70", "what it was after the cut"}},
      false};
}

Command list_command() {
  return {"book list",
          "the saws in the book",
          "",
          {},
          {flag("--hidden", "those that are hidden"), flag("--all", "more than two hundred")},
          {{"portwright book list", "by name"}, {"portwright book list --hidden", "what could be brought back"}},
          false};
}

Command show_command() {
  return {"book show",
          "one saw: its readings as typed, cuts, notes, tests, failures",
          "",
          {saw},
          {flag("--toml", "the newest readings as a saw file"),
           {"--output", "-o", "FILE", "where to write the saw file; else standard output", {}, Offers::files}},
          {{"portwright book show larch-70", "all that the book has of it"},
           {"portwright book show larch-70 --toml -o larch.saw.toml", "to send it to somebody"}},
          false};
}

Command set_command() {
  return {"book set",
          "a reading of a saw, kept as typed",
          "A text that cannot be read is kept, too, and named until it is mended. The end of a field's path will do "
          "where only one ends so: stroke. A new port begins with its kind, port.boost.kind; a new ring or place of "
          "squish by its own path.",
          {saw,
           one_word("FIELD", "path of the field: port.exhaust.opens, piston.ring.1.peg"),
           {"VALUE", false, "as in a saw file; lists parted by semicolons", Offers::nothing, {}, true, false}},
          {flag("--again", "a further reading of the same place, beside the first"),
           flag("--clear", "take the reading out"), text("--with", "NAME", "instrument: caliper, wheel, depth gauge"),
           text("--setup", "NAME", "set-up whose error such readings share"),
           text("--note", "TEXT", "what to know about this reading")},
          {{"portwright book set larch-70 port.exhaust.opens \"101 deg\"", "one reading"},
           {"portwright book set larch-70 crank.bore 50.02 mm --with \"bore gauge\"", "with its instrument"},
           {"portwright book set larch-70 crank.bore 50.01 mm --again", "read a second time"}},
          false};
}

Command find_book_command() {
  return {"book find",
          "search over everything in the book",
          "Every word has to be there, the last one as the beginning of a word.",
          {words_of("TEXT", "words to look for")},
          {},
          {{"portwright book find seized", "every note, failure and reading that says so"},
           {"portwright book find bore gauge", "both words"}},
          false};
}

Command sisters_command() {
  return {"book sisters",
          "saws of one model side by side: how they differ, who stands apart",
          "Each geometry figure of each saw with its range; the spread between the saws beyond what errors of reading "
          "explain; and each saw less the mean of the others, with the range of that difference.",
          {words_of("MODEL", "model as the saws have it, or a saw of it")},
          {flag("--all", "every figure, also where no saw stands apart")},
          {{"portwright book sisters \"Hornbeam 66\"", "what differs"},
           {"portwright book sisters \"Hornbeam 66\" --all", "every figure"}},
          false};
}

Command borrow_command() {
  return {"book borrow",
          "start a saw from a sister's readings, marked as borrowed and wide",
          "Each reading gets a tolerance that holds how far sisters differ: from the sisters in the book, or with one "
          "alone from a named assumption. What is read on the saw itself takes the borrowed reading's place.",
          {one_word("SISTER", "saw whose readings are taken"), words_of("NAME", "name of the new saw")},
          {},
          {{"portwright book borrow hornbeam-66-a Hornbeam 66 C", "a saw not yet measured"}},
          false};
}

Command note_command() {
  return {"book note", "a note on a saw",
          "",          {saw, words_of("TEXT", "the note")},
          {},          {{"portwright book note larch-70 \"gasket was torn when it came\"", "one sentence"}},
          false};
}

Command photo_command() {
  return {
      "book photo",
      "photos of a saw, each JPEG or PNG",
      "Turned upright and kept with at most 2,560 pixels along the longer side, beside a small one. The original is "
      "not kept, nor what the camera noted, but the moment it was taken. The same photo is not added twice. If one of "
      "them cannot be taken, none is.",
      {saw, {"FILE", true, "JPEG or PNG", Offers::files, {}, false, true}},
      {text("--caption", "TEXT", "words under the photo")},
      {{"portwright book photo larch-70 exhaust.jpg --caption \"as found\"", "one photo"},
       {"portwright book photo larch-70 *.jpg", "all of a folder"}},
      false};
}

Command photos_command() {
  return {
      "book photos",
      "the photos of a saw",
      "The page shows them: portwright serve. As files they stand in blobs/ of portwright book export, and photos.csv "
      "says which is which.",
      {saw},
      {},
      {{"portwright book photos larch-70", "captions, sizes, moments"}},
      false};
}

Command wood_command() {
  return {"book wood",
          "a test in the wood, everything as typed",
          "Test against stock in the same log with the same chain, in alternating order, enough cuts. Cut only with "
          "guards, brake and protective clothing in place.",
          {saw},
          {text("--wood", "TEXT", "species and size: \"oak 40 cm, dry\""),
           text("--times", "LIST", "of the cuts: \"12.1 s; 12.4 s\""), text("--rpm", "SPEED", "in the cut"),
           text("--gauge", "PRESSURE", "compression, warm or cold"), text("--bar", "LENGTH", "bar"),
           text("--chain", "TEXT", "chain and how sharp"), text("--date", "TEXT", "when, if not today"),
           text("--felt", "TEXT", "what was felt and heard")},
          {{"portwright book wood larch-70 --wood \"oak 40 cm\" --times \"12.1 s; 12.4 s\" --rpm \"8700 rpm\"",
            "two timed cuts"}},
          false};
}

Command failure_command() {
  return {"book failure",
          "something that broke, worth remembering for the next saw",
          "",
          {saw, words_of("TEXT", "what broke")},
          {text("--where", "TEXT", "part and place"), text("--cause", "TEXT", "why, as far as it is known"),
           text("--seen", "TEXT", "how it was noticed")},
          {{"portwright book failure larch-70 \"top ring caught\" --where \"exhaust, left corner\" --cause \"corner "
            "too sharp\"",
            "what, where, why"}},
          false};
}

Command accept_command() {
  return {"book accept",
          "accept a finding of the study, with a reason",
          "It stays visible as accepted. When the value under it changes, the acceptance is stale and the finding "
          "stands again.",
          {saw, one_word("FINDING", "figure of the finding, the end of its id, or its rule")},
          {text("--reason", "TEXT", "why it may stand"),
           text("--cuts", "TEXT", "the what-if that it stands in; else the saw as it is")},
          {{"portwright book accept larch-70 squish.working --reason \"read twice with solder\"", "as it is"},
           {"portwright book accept larch-70 wall.least --cuts \"widen exhaust +1 mm\" --reason \"bridge stays\"",
            "in a what-if"}},
          false};
}

Command result_command() {
  return {"book result",
          "keep the figures as they are now: a result with its case and version",
          "Every figure with its range and every finding, of the newest readings, as text. book show tells when the "
          "readings are others by then, or the program is. Nothing is ever worked out anew behind it.",
          {saw},
          {text("--cuts", "CUTS", "a what-if; else the saw as it is"), text("--title", "TEXT", "a name for it"),
           text("--rpm", "SPEEDS", "turn a curve, too, and keep its points: 7000:9000:500")},
          {{"portwright book result larch-70 --title \"as it came\"", "the stock saw"},
           {"portwright book result larch-70 --cuts \"gasket out\" --rpm 8000", "a what-if with one speed"}},
          false};
}

Command cut_command() {
  return {"book cut",
          "a cut list of a saw: planned, or done",
          "A list that is planned already is marked done by --done, named by its cuts or its id. With --planned beside "
          "what the cuts came to, sheet learns how surely you cut. --list brings a list up to date instead of keeping "
          "a further one.",
          {saw, words_of("CUTS", "cuts in order, parted by semicolons; or the id of a list")},
          {flag("--done", "the metal is cut"), text("--planned", "CUTS", "of done cuts: the same as they were planned"),
           text("--list", "ID", "the list that these cuts take the place of"),
           text("--title", "TEXT", "a name for the list")},
          {{"portwright book cut larch-70 \"gasket out; roof exhaust +0.5 mm\"", "a plan"},
           {"portwright book cut larch-70 \"gasket out; roof exhaust +0.5 mm\" --done", "and done"}},
          false};
}

Command journal_command() {
  return {"book journal",
          "what was done, newest first: when, who, before and after",
          "",
          {{"SAW", false, "only what was done to this saw", Offers::nothing, {}, false, false}},
          {text("--last", "N", "so many actions (20)")},
          {{"portwright book journal", "everything"}, {"portwright book journal larch-70", "one saw"}},
          false};
}

Command undo_command() {
  return {"book undo",
          "take back the newest thing you did",
          "Undo is by author, without end, and is written into the journal itself. It is refused, with both values, "
          "where somebody else changed the same thing since.",
          {},
          {},
          {{"portwright book undo", "once; again for the one before"}},
          false};
}

Command redo_command() {
  return {"book redo", "do again what you took back last", "", {}, {}, {{"portwright book redo", "once"}}, false};
}

Command hide_command() {
  return {"book hide", "put a saw out of sight; nothing is deleted",
          "",          {saw},
          {},          {{"portwright book hide larch-70", "with all that belongs to it"}},
          false};
}

Command bring_back_command() {
  return {"book bring-back",
          "bring a hidden saw back",
          "",
          {saw},
          {},
          {{"portwright book bring-back larch-70", "with all that belongs to it"}},
          false};
}

Command export_command() {
  return {"book export",
          "the whole book as a folder that needs no program to read; or one saw as one file",
          "Saw files, tables, the journal, the files that were kept. Nothing is written over.",
          {{"FOLDER", true, "new folder; with --saw a new file", Offers::files, {}, false, false}},
          {text("--saw", "SAW", "this saw alone, with all that belongs to it, as one file")},
          {{"portwright book export workshop", "everything"},
           {"portwright book export larch.portwright-saw.json --saw larch-70", "one saw, to send it to somebody"}},
          false};
}

Command import_command() {
  return {
      "book import",
      "an exported folder or saw into the book; looked at first",
      "Without --yes it only says what would come. Into an empty book it becomes the same book as the one that was "
      "exported; into another one it brings what that does not have, and leaves what differs as it is.",
      {{"FOLDER", true, "folder or file of book export", Offers::files, {}, false, false}},
      {flag("--yes", "take it")},
      {{"portwright book import workshop", "what would come"}, {"portwright book import workshop --yes", "take it"}},
      false};
}

Command backup_command() {
  return {"book backup",
          "copy the book, here or to a stick; the copy is opened and counted",
          "Backups beside the book are made by the first change of an hour as well. The ten latest stay, the last of "
          "each of "
          "thirty days, and the last of each month.",
          {{"FOLDER", false, "where to; else beside the book", Offers::files, {}, false, false}},
          {},
          {{"portwright book backup", "beside the book"}, {"portwright book backup /media/stick", "to a stick"}},
          false};
}

Command restore_command() {
  return {"book restore",
          "put a backup in the book's place; what was there is kept aside",
          "",
          {{"FILE", true, "a backup; book where shows the newest", Offers::files, {}, false, false}},
          {},
          {{"portwright book restore backups/book-20260301T093000Z-00000117.portwright", "back to that hour"}},
          false};
}

Command verify_command() {
  return {"book verify",
          "read the whole book and hold it against its journal",
          "",
          {},
          {},
          {{"portwright book verify", "after a fright"}},
          false};
}

Command where_command() {
  return {"book where", "where the book is, how much it holds, its newest backup", "",   {},
          {},           {{"portwright book where", "the path to copy"}},           false};
}

}  // namespace

std::vector<Command> book_commands() {
  return {group_command(),      add_command(),     list_command(),   show_command(),    set_command(),
          find_book_command(),  sisters_command(), borrow_command(), note_command(),    result_command(),
          photo_command(),      photos_command(),  wood_command(),   failure_command(), accept_command(),
          cut_command(),        journal_command(), undo_command(),   redo_command(),    hide_command(),
          bring_back_command(), export_command(),  import_command(), backup_command(),  restore_command(),
          verify_command(),     where_command()};
}

}  // namespace portwright::cli
