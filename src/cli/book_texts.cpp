#include "cli/book_texts.hpp"

#include <algorithm>

#include "cli/parts.hpp"

namespace portwright::cli {
namespace {

constexpr std::size_t id_width = 12, time_width = 18, field_width = 34;

// "2026-03-01T09:30:00Z" is "2026-03-01 09:30".
std::string moment(const std::string& at) {
  if (at.size() < 16) return at;
  return at.substr(0, 10) + ' ' + at.substr(11, 5);
}

std::string joined(const std::vector<std::string>& texts, const char* between) {
  std::string out;
  for (const std::string& text : texts)
    if (!text.empty()) out += (out.empty() ? "" : between) + text;
  return out;
}

std::string counted(std::int64_t count, const char* one, const char* many) {
  return base::number_text(static_cast<double>(count), 0) + ' ' + (count == 1 ? one : many);
}

void notices(Page& page, const wire::BookHead& head) {
  for (const std::string& notice : head.notices) page.paragraph({"! ", Ink::caution}, notice);
}

// Kept, but not understood.
void kept_as_typed(Page& page, const base::Errors& errors) {
  for (const base::Error& error : errors) {
    page.paragraph({"\u2715 ", Ink::stop}, (error.path.empty() ? "" : error.path + ": ") + error.message);
    for (const std::string& reading : error.readings) page.paragraph({"    ", Ink::plain}, reading);
    page.paragraph({"  ", Ink::plain}, (error.hint.empty() ? "" : error.hint + "; ") + std::string("kept as typed"),
                   Ink::faint);
  }
}

std::string field_text(const wire::BookField& field) {
  std::vector<std::string> aside;
  if (!field.with.empty()) aside.push_back(field.with);
  if (!field.setup.empty()) aside.push_back("set-up " + field.setup);
  if (!field.borrowed_from.empty()) aside.emplace_back("borrowed");
  if (!field.note.empty() && field.borrowed_from.empty()) aside.push_back(field.note);
  std::string out = joined(field.typed, "; ");
  if (!aside.empty()) out += (out.empty() ? "(" : "  (") + joined(aside, ", ") + ')';
  return out;
}

std::string borrowed_words(const wire::BookSet& set) {
  return set.borrowed_from.empty()
             ? ""
             : "from " + left(set.borrowed_from, std::min<std::size_t>(columns(set.borrowed_from), 22));
}

void readings(Page& page, const wire::BookShowAnswer& answer) {
  if (answer.fields.empty()) {
    page.heading("Readings");
    return page.line("  none yet", Ink::faint);
  }
  for (const wire::BookSet& set : answer.sets)
    if (set.newest)
      page.heading("Readings", joined({borrowed_words(set), set.state, moment(set.when), set.who}, " \u00B7 "));
  for (const wire::BookField& field : answer.fields) {
    if (field.path.starts_with("port.") && field.path.ends_with(".name")) continue;  // the path says it
    const auto shown = left(field.path, std::max(field_width, columns(field.path)));
    page.paragraph({"  " + shown + ' ', Ink::plain}, field_text(field));
  }
}

void older_sets(Page& page, const wire::BookShowAnswer& answer) {
  if (answer.sets.size() < 2) return;
  page.heading("Earlier readings");
  for (const wire::BookSet& set : answer.sets)
    if (!set.newest)
      page.line("  " + left(set.id, id_width) + left(moment(set.when), time_width) +
                joined({set.state, counted(set.readings, "reading", "readings"), set.who}, " \u00B7 "));
}

const std::vector<std::string>* detail(const wire::BookRecord& record, const char* name) {
  for (const wire::BookDetail& one : record.details)
    if (one.name == name) return &one.texts;
  return nullptr;
}

std::string told(const wire::BookRecord& record, const char* name) {
  const auto* texts = detail(record, name);
  return texts ? joined(*texts, "; ") : std::string();
}

std::string record_text(const wire::BookRecord& record) {
  if (record.kind == "note") return told(record, "text");
  if (record.kind == "cuts") {
    const std::string planned = told(record, "planned");
    return joined({told(record, "title"), told(record, "steps")}, ": ") +
           (planned.empty() ? "" : " (planned: " + planned + ')');
  }
  if (record.kind == "accepted")
    return told(record, "figure") + " at " + told(record, "text") + ": " + told(record, "reason") +
           (told(record, "cuts").empty() ? "" : " (with " + told(record, "cuts") + ')');
  if (record.kind == "result") {
    const auto count = [&](const char* name) {
      for (const wire::BookDetail& one : record.details)
        if (one.name == name) return std::int64_t(one.texts.size());
      return std::int64_t{0};
    };
    const std::string speeds = count("curve") == 0 ? "" : counted(count("curve"), "speed", "speeds");
    return joined(
        {told(record, "title"), told(record, "cuts"), counted(count("figures"), "figure", "figures"),
         counted(count("findings"), "finding", "findings"), speeds, told(record, "version"), told(record, "stale")},
        " \u00B7 ");
  }
  std::string out = told(record, "what");
  for (const wire::BookDetail& one : record.details)
    if (one.name != "what") out += (out.empty() ? "" : " \u00B7 ") + one.name + ' ' + joined(one.texts, "; ");
  return out;
}

void records(Page& page, const wire::BookShowAnswer& answer, const char* kind, const char* title) {
  bool first = true;
  for (const wire::BookRecord& record : answer.records) {
    if (record.kind != kind) continue;
    if (first) page.heading(title);
    first = false;
    const std::string state = record.kind == std::string("cuts") ? left(told(record, "state"), 9) : "";
    page.paragraph({"  " + left(record.id, id_width) + left(moment(record.when), time_width) + state, Ink::faint},
                   record_text(record));
  }
}

void photo_lines(Page& page, const std::vector<wire::BookPhoto>& photos) {
  for (const wire::BookPhoto& photo : photos) {
    const std::string size = std::to_string(photo.width) + " x " + std::to_string(photo.height);
    const std::string taken = photo.taken.size() < 16 ? "" : "taken " + photo.taken.substr(0, 16);
    page.paragraph({"  " + left(photo.id, id_width) + left(moment(photo.at), time_width) + left(size, 14), Ink::faint},
                   joined({photo.name, taken}, " \u00B7 "));
  }
}

void one_action(Page& page, const wire::BookAction& action) {
  // A label that names its saws has no need of them twice.
  std::vector<std::string> saws = action.saws;
  std::erase_if(saws, [&](const std::string& saw) { return action.label.find(saw) != std::string::npos; });
  page.paragraph({left(moment(action.at), time_width), Ink::faint},
                 joined({joined(saws, ", "), action.label}, ": ") + "  (" + action.who + ')');
}

}  // namespace

std::string book_add_text(const wire::BookAddAnswer& answer, const Setting& setting) {
  Page page(setting.coloured);
  for (const wire::BookAdded& added : answer.added)
    page.paragraph({left(added.saw, id_width), Ink::faint},
                   added.name + (added.already ? ": this very file is in the book already"
                                               : ", " + counted(added.fields, "field", "fields")));
  kept_as_typed(page, answer.head.errors);
  notices(page, answer.head);
  const bool any = std::any_of(answer.added.begin(), answer.added.end(), [](const auto& one) { return !one.already; });
  if (any) page.line("Kept in " + answer.head.book, Ink::faint);
  return page.text();
}

std::string book_list_text(const wire::BookListAnswer& answer, const Setting& setting) {
  Page page(setting.coloured);
  constexpr std::size_t name_width = 24, model_width = 15, state_width = 13;
  if (!answer.saws.empty())
    page.line("  " + left("Saw", name_width) + left("model", model_width) + left("state", state_width) +
                  right("read", 6) + right("cuts", 6) + "  id",
              Ink::faint);
  for (const wire::BookSaw& saw : answer.saws)
    page.line({{"  " + left(saw.name, name_width - 1) + ' ', Ink::bold},
               {left(saw.model, model_width - 1) + ' ' + left(saw.state, state_width), Ink::plain},
               {right(std::to_string(saw.readings), 6) + right(std::to_string(saw.planned + saw.done), 6), Ink::plain},
               {"  " + saw.id, Ink::faint}});
  std::string foot = answer.saws.empty() ? "No saw here." : counted(std::int64_t(answer.saws.size()), "saw", "saws");
  if (answer.more) foot += " shown, there are more: --all lists them";
  if (answer.hidden > 0) foot += "; " + std::to_string(answer.hidden) + " hidden";
  page.line(foot, Ink::faint);
  notices(page, answer.head);
  return page.text();
}

std::string book_photos_text(const wire::BookPhotosAnswer& answer, const Setting& setting) {
  Page page(setting.coloured);
  page.line(
      {{answer.name, Ink::bold},
       {"   " + (answer.photos.empty() ? "no photo" : counted(std::int64_t(answer.photos.size()), "photo", "photos")),
        Ink::faint}});
  photo_lines(page, answer.photos);
  notices(page, answer.head);
  return page.text();
}

std::string book_show_text(const wire::BookShowAnswer& answer, const Setting& setting) {
  Page page(setting.coloured);
  const wire::BookSaw& saw = answer.saw;
  page.line({{left(saw.name, std::min<std::size_t>(columns(saw.name), 40)), Ink::bold},
             {"   " + joined({saw.model, saw.casting, saw.state}, " \u00B7 "), Ink::faint}});
  page.line(saw.id + ", added " + moment(saw.added) + ", changed " + moment(saw.changed) + " by " + saw.author +
                (saw.hidden ? ", hidden" : ""),
            Ink::faint);
  page.rule();
  kept_as_typed(page, answer.head.errors);
  readings(page, answer);
  older_sets(page, answer);
  records(page, answer, "cuts", "Cuts");
  records(page, answer, "accepted", "Accepted findings");
  records(page, answer, "wood", "In the wood");
  records(page, answer, "result", "Results kept");
  records(page, answer, "failure", "Failures");
  records(page, answer, "note", "Notes");
  if (!answer.photos.empty()) page.heading("Photos");
  photo_lines(page, answer.photos);
  notices(page, answer.head);
  return page.text();
}

std::string book_done_text(const wire::BookDoneAnswer& answer, const Setting& setting) {
  Page page(setting.coloured);
  if (!answer.action)
    page.paragraph({}, (answer.name.empty() ? "" : answer.name + ": ") + "it is so already; nothing was written.");
  else
    page.paragraph(
        {},
        joined({answer.name.empty() ? joined(answer.action->saws, ", ") : answer.name, answer.action->label}, ": "));
  kept_as_typed(page, answer.head.errors);
  notices(page, answer.head);
  return page.text();
}

std::string book_journal_text(const wire::BookJournalAnswer& answer, const Setting& setting) {
  Page page(setting.coloured);
  for (const wire::BookAction& action : answer.actions) one_action(page, action);
  if (answer.actions.empty()) page.line("Nothing was done yet.", Ink::faint);
  if (answer.more) page.line("There is more: --last N shows N.", Ink::faint);
  notices(page, answer.head);
  return page.text();
}

std::string book_find_text(const wire::BookFindAnswer& answer, const Setting& setting) {
  Page page(setting.coloured);
  constexpr std::size_t name_width = 22, kind_width = 10;
  for (const wire::BookFound& found : answer.found) {
    std::string snippet = found.snippet;
    std::replace(snippet.begin(), snippet.end(), '\n', ' ');
    page.paragraph({left(found.name, name_width - 1) + ' ' + left(found.kind, kind_width), Ink::bold}, snippet);
  }
  if (answer.found.empty()) page.paragraph({}, "Nothing in the book has \u201C" + answer.text + "\u201D.", Ink::faint);
  notices(page, answer.head);
  return page.text();
}

}  // namespace portwright::cli
