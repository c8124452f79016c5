#include "cli/book_program.hpp"

#include <charconv>
#include <iostream>

#include "cli/book_texts.hpp"
#include "cli/saying.hpp"
#include "desk/book.hpp"

namespace portwright::cli {
namespace {

std::string book_of(const Words& words) { return words.value("--book"); }

std::optional<std::string> if_given(const Words& words, const char* option) {
  return words.has(option) ? std::optional(words.value(option)) : std::nullopt;
}

int misused(const Words& words, std::string message, std::string hint) {
  return say_errors({{base::ErrorCode::usage, std::move(message), "", std::move(hint), {}}}, words.has("--json"));
}

int run_add(const Words& words) {
  return say(desk::book_add({book_of(words), words.arguments, words.value("--to")}), words, book_add_text);
}

int run_list(const Words& words) {
  return say(desk::book_list({book_of(words), words.has("--hidden"), words.has("--all")}), words, book_list_text);
}

int run_show(const Words& words) {
  if (!words.has("--toml") && words.has("--output"))
    return misused(words, "--output is for the saw file.", "Give --toml, too.");
  if (!words.has("--toml")) return say(desk::book_show({book_of(words), words.argument(0)}), words, book_show_text);
  const std::string output = words.value("--output", "-");
  if (words.has("--json") && output == "-")
    return misused(words, "With --json the file needs a place of its own.", "Give one with -o FILE.");
  const auto answer = desk::book_toml({book_of(words), words.argument(0), output});
  if (!answer) return say_errors(answer.error(), words.has("--json"));
  if (words.has("--json"))
    std::cout << wire::to_json(*answer);
  else if (output != "-")
    std::cout << written_text(*answer, setting_of(words));
  return 0;
}

int run_set(const Words& words) {
  desk::BookSetRequest request;
  request.book = book_of(words);
  request.saw = words.argument(0);
  request.field = words.argument(1);
  request.value = words.argument(2);
  request.clear = words.has("--clear");
  request.again = words.has("--again");
  request.with = if_given(words, "--with");
  request.setup = if_given(words, "--setup");
  request.note = if_given(words, "--note");
  if (request.clear && !request.value.empty())
    return misused(words, "--clear takes the reading out; there is a value, too.", "Give one of both.");
  return say(desk::book_set(request), words, book_done_text);
}

int run_find(const Words& words) {
  return say(desk::book_find({book_of(words), words.argument(0)}), words, book_find_text);
}

int run_sisters(const Words& words) {
  return say(desk::book_sisters({book_of(words), words.argument(0), style_of(words)}), words, book_sisters_text);
}

int run_borrow(const Words& words) {
  return say(desk::book_borrow({book_of(words), words.argument(0), words.argument(1)}), words, book_done_text);
}

int run_note(const Words& words) {
  return say(desk::book_note({book_of(words), words.argument(0), words.argument(1)}), words, book_done_text);
}

int run_photo(const Words& words) {
  return say(desk::book_photo_files({book_of(words),
                                     words.argument(0),
                                     {words.arguments.begin() + 1, words.arguments.end()},
                                     words.value("--caption"),
                                     {}}),
             words, book_photos_text);
}

int run_photos(const Words& words) {
  return say(desk::book_photos({book_of(words), words.argument(0), {}}), words, book_photos_text);
}

int run_wood(const Words& words) {
  return say(desk::book_wood({book_of(words), words.argument(0), words.value("--date"), words.value("--wood"),
                              words.value("--bar"), words.value("--chain"), words.value("--times"),
                              words.value("--rpm"), words.value("--gauge"), words.value("--felt")}),
             words, book_done_text);
}

int run_result(const Words& words) {
  return say(desk::book_result({book_of(words), words.argument(0), words.value("--cuts"), words.value("--title"),
                                words.value("--rpm")}),
             words, book_done_text);
}

int run_failure(const Words& words) {
  return say(desk::book_failure({book_of(words), words.argument(0), words.argument(1), words.value("--where"),
                                 words.value("--cause"), words.value("--seen")}),
             words, book_done_text);
}

int run_accept(const Words& words) {
  return say(desk::book_accept({book_of(words), words.argument(0), words.argument(1), words.value("--reason"),
                                words.value("--cuts")}),
             words, book_done_text);
}

int run_cut(const Words& words) {
  return say(desk::book_cut({book_of(words),
                             words.argument(0),
                             words.argument(1),
                             words.value("--title"),
                             words.has("--done"),
                             false,
                             {},
                             words.value("--planned"),
                             words.value("--list")}),
             words, book_done_text);
}

int run_journal(const Words& words) {
  int last = 20;
  const std::string asked = words.value("--last", "20");
  const auto [end, error] = std::from_chars(asked.data(), asked.data() + asked.size(), last);
  if (error != std::errc() || end != asked.data() + asked.size() || last < 1)
    return misused(words, "\u201C" + asked + "\u201D is no number of actions.", "Give 1 or more.");
  return say(desk::book_journal({book_of(words), words.argument(0), last}), words, book_journal_text);
}

int run_undo(const Words& words) { return say(desk::book_undo({book_of(words)}), words, book_done_text); }
int run_redo(const Words& words) { return say(desk::book_redo({book_of(words)}), words, book_done_text); }

int run_hide(const Words& words) {
  return say(desk::book_hide({book_of(words), words.argument(0)}), words, book_done_text);
}
int run_bring_back(const Words& words) {
  return say(desk::book_bring_back({book_of(words), words.argument(0)}), words, book_done_text);
}

int run_export(const Words& words) {
  const desk::BookExportRequest request{book_of(words), words.argument(0), words.value("--saw")};
  return say(words.has("--saw") ? desk::book_export_saw(request) : desk::book_export(request), words, book_export_text);
}
int run_import(const Words& words) {
  return say(desk::book_import({book_of(words), words.argument(0), words.has("--yes")}), words, book_import_text);
}
int run_backup(const Words& words) {
  return say(desk::book_backup({book_of(words), words.argument(0)}), words, book_backup_text);
}
int run_restore(const Words& words) {
  return say(desk::book_restore({book_of(words), words.argument(0)}), words, book_restore_text);
}
int run_verify(const Words& words) { return say(desk::book_verify({book_of(words)}), words, book_verify_text); }

int run_where(const Words& words) { return say(desk::book_where({book_of(words)}), words, book_where_text); }

constexpr BookAction all_actions[] = {{"book add", run_add},         {"book list", run_list},
                                      {"book show", run_show},       {"book set", run_set},
                                      {"book find", run_find},       {"book sisters", run_sisters},
                                      {"book borrow", run_borrow},   {"book note", run_note},
                                      {"book result", run_result},   {"book photo", run_photo},
                                      {"book photos", run_photos},   {"book wood", run_wood},
                                      {"book failure", run_failure}, {"book accept", run_accept},
                                      {"book cut", run_cut},         {"book journal", run_journal},
                                      {"book undo", run_undo},       {"book redo", run_redo},
                                      {"book hide", run_hide},       {"book bring-back", run_bring_back},
                                      {"book export", run_export},   {"book import", run_import},
                                      {"book backup", run_backup},   {"book restore", run_restore},
                                      {"book verify", run_verify},   {"book where", run_where}};

}  // namespace

std::span<const BookAction> book_actions() { return all_actions; }

}  // namespace portwright::cli
