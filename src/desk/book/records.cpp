// What belongs to a saw beside its readings: notes, tests in the wood, failures, cut lists.
#include <algorithm>
#include <charconv>

#include "base/quantity/normal.hpp"
#include "base/quantity/text.hpp"
#include "cuts/cut.hpp"
#include "desk/book.hpp"
#include "desk/book/saw_tree.hpp"
#include "desk/book/shelf.hpp"
#include "desk/desk.hpp"
#include "geometry/survey.hpp"

namespace portwright::desk {
namespace {

base::Errors missing(const std::string& what) {
  return {{base::ErrorCode::usage, what, "", "Nothing was written.", {}}};
}

// A record with its leaves, written below a saw.
base::ResultAll<wire::BookDoneAnswer> add_record(const std::string& book_path, const Hand& by, const std::string& saw,
                                                 const std::string& kind, const book::Tree& body, std::string label) {
  auto shelf = open_shelf(book_path, Reach::write, by);
  if (!shelf) return only_error(shelf);
  auto found = find_saw(*shelf, saw);
  if (!found) return only_error(found);
  book::Deed deed;
  deed.label = std::move(label);
  deed.added.push_back({book::new_id(), kind, found->saw.id, book::print(body)});
  return done(*shelf, &found->saw, std::move(deed));
}

std::vector<std::string> times_of(const std::string& text) {
  std::vector<std::string> out;
  std::string rest = text;
  while (!rest.empty()) {
    const std::size_t mark = rest.find(';');
    if (const auto one = base::typed::trimmed(std::string_view(rest).substr(0, mark)); !one.empty())
      out.emplace_back(one);
    rest = mark == std::string::npos ? "" : rest.substr(mark + 1);
  }
  return out;
}

// "12.1 s", point or comma.
bool is_time(std::string text) {
  std::replace(text.begin(), text.end(), ',', '.');
  double value = 0.0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  const std::string unit(
      base::typed::trimmed(std::string_view(text).substr(static_cast<std::size_t>(end - text.data()))));
  return error == std::errc() && value > 0.0 && (unit == "s" || unit == "sec");
}

base::Errors unreadable(const BookWoodRequest& request, const std::vector<std::string>& times) {
  base::Errors errors;
  const auto quantity = [&](const char* name, const std::string& text, base::Dimension dimension) {
    if (text.empty()) return;
    if (auto read = base::parse_quantity(text, dimension, name); !read) errors.push_back(read.error());
  };
  quantity("bar", request.bar, base::Dimension::length);
  quantity("rpm", request.rpm, base::Dimension::speed);
  quantity("gauge", request.gauge, base::Dimension::pressure);
  for (const std::string& time : times)
    if (!is_time(time))
      errors.push_back({base::ErrorCode::unreadable,
                        "\u201C" + time + "\u201D is no time.",
                        "time",
                        "Write it as \"12.1 s\"; several are parted by semicolons.",
                        {}});
  return errors;
}

// The list as text, held against the saw it is for.
base::ResultAll<std::vector<std::string>> steps_of(const std::string& text, const ShelfSaw& saw) {
  const auto list = cuts::parse_cuts(text);
  if (!list) return tl::unexpected(list.error());
  std::vector<std::string> steps;
  for (const cuts::Cut& cut : *list) steps.push_back(cuts::cut_text(cut));
  if (steps.empty()) return tl::unexpected(missing("A cut list has at least one cut."));
  const auto read = read_tree(whole_tree(saw));
  if (!read) return tl::unexpected(read.error());
  const auto fits = cuts::prepare(*list, geometry::survey(read->readings), ".");
  if (!fits) return tl::unexpected(fits.error());
  return steps;
}

std::string list_text(const std::vector<std::string>& steps) {
  std::string out;
  for (const std::string& step : steps) out += (out.empty() ? "" : "; ") + step;
  return out;
}

std::string stored_list(const book::Document& list) {
  const book::Tree body = body_of(list);
  const book::Tree* kept = book::find(body, "steps");
  return kept ? list_text(kept->list) : std::string();
}

// The list that is planned already: by its id, or by its steps.
base::Result<std::optional<book::Document>> planned(Shelf& shelf, const std::string& saw, const std::string& asked,
                                                    const std::vector<std::string>& steps) {
  auto parts = parts_of(shelf, saw);
  if (!parts) return tl::unexpected(parts.error());
  for (book::Document& part : *parts) {
    if (part.kind != "cuts") continue;
    const book::Tree body = body_of(part);
    const book::Tree* kept = book::find(body, "steps");
    if (part.id == asked || (kept && kept->list == steps && text_at(body, "state") == "planned"))
      return std::move(part);
  }
  return std::optional<book::Document>();
}

// Sets a leaf where it is another one; an empty one leaves what is there.
void change(book::Deed& deed, const book::Document& list, const char* path, const book::Tree& leaf) {
  const book::Tree body = body_of(list);
  const book::Tree* now = book::find(body, path);
  if ((leaf.text.empty() && leaf.list.empty()) || (now != nullptr && *now == leaf)) return;
  deed.changes.push_back({list.id, path, book::print(leaf), list.revision});
}

// The planned amounts that go with a done list.
base::ResultAll<std::vector<std::string>> planned_beside(const BookCutRequest& request, const ShelfSaw& saw) {
  if (request.planned.empty()) return std::vector<std::string>();
  if (!request.done)
    return tl::unexpected(base::Errors{{base::ErrorCode::usage,
                                        "Planned amounts go with cuts that are done.",
                                        "planned",
                                        "Nothing was written. A plan alone is kept as the cuts.",
                                        {}}});
  if (request.no_files)
    if (auto plain = without_files(request.planned); !plain) return tl::unexpected(plain.error());
  return steps_of(request.planned, saw);
}

// New cuts for a list that the book has.
base::ResultAll<wire::BookDoneAnswer> brought_up_to_date(Shelf& shelf, const ShelfSaw& saw,
                                                         const BookCutRequest& request,
                                                         std::vector<std::string> beside) {
  auto parts = parts_of(shelf, saw.saw.id);
  if (!parts) return only_error(parts);
  const auto list = std::find_if(parts->begin(), parts->end(), [&](const book::Document& part) {
    return part.kind == "cuts" && part.id == request.list;
  });
  if (list == parts->end())
    return tl::unexpected(base::Errors{{base::ErrorCode::not_found,
                                        saw.saw.title + " has no cut list \u201C" + request.list + "\u201D.",
                                        "list",
                                        "Nothing was written. book show SAW lists them with their ids.",
                                        {}}});
  if (request.no_files)
    if (auto plain = without_files(request.cuts); !plain) return tl::unexpected(plain.error());
  const auto steps = steps_of(request.cuts, saw);
  if (!steps) return tl::unexpected(steps.error());
  const book::Tree body = body_of(*list);
  if (const book::Tree* kept = book::find(body, "steps");
      beside.empty() && request.done && text_at(body, "state") == "planned" && kept != nullptr)
    beside = kept->list;
  book::Deed deed;
  const bool is_done = request.done || text_at(body, "state") == "done";
  deed.label = (is_done ? "cut: " : "planned: ") + list_text(*steps);
  change(deed, *list, "steps", list_leaf(*steps));
  change(deed, *list, "planned", list_leaf(std::move(beside)));
  change(deed, *list, "state", text_leaf(is_done ? "done" : "planned"));
  change(deed, *list, "title", text_leaf(request.title));
  return done(shelf, &saw.saw, std::move(deed));
}

}  // namespace

base::ResultAll<wire::BookDoneAnswer> book_note(const BookNoteRequest& request) {
  if (base::typed::trimmed(request.text).empty()) return tl::unexpected(missing("A note needs a text."));
  book::Tree body;
  put_part(body, "text", text_leaf(request.text));
  return add_record(request.book, request.by, request.saw, "note", body, "note: " + request.text);
}

base::ResultAll<wire::BookDoneAnswer> book_wood(const BookWoodRequest& request) {
  const std::vector<std::string> times = times_of(request.times);
  book::Tree body;
  put_part(body, "date", text_leaf(request.date));
  put_part(body, "wood", text_leaf(request.wood));
  put_part(body, "bar", text_leaf(request.bar));
  put_part(body, "chain", text_leaf(request.chain));
  put_part(body, "time", list_leaf(times));
  put_part(body, "rpm", text_leaf(request.rpm));
  put_part(body, "gauge", text_leaf(request.gauge));
  put_part(body, "felt", text_leaf(request.felt));
  if (body.parts.empty()) return tl::unexpected(missing("A test in the wood needs at least one thing that was seen."));
  std::string label = "in the wood";
  for (const std::string& text : {request.wood, list_text(times), request.rpm, request.felt})
    if (!text.empty()) label += ", " + text;
  auto answer = add_record(request.book, request.by, request.saw, "wood", body, std::move(label));
  if (answer) answer->head.errors = unreadable(request, times);
  return answer;
}

base::ResultAll<wire::BookDoneAnswer> book_failure(const BookFailureRequest& request) {
  if (base::typed::trimmed(request.text).empty()) return tl::unexpected(missing("A failure needs a text."));
  book::Tree body;
  put_part(body, "what", text_leaf(request.text));
  put_part(body, "where", text_leaf(request.where));
  put_part(body, "cause", text_leaf(request.cause));
  put_part(body, "seen", text_leaf(request.seen));
  return add_record(request.book, request.by, request.saw, "failure", body, "failure: " + request.text);
}

base::ResultAll<wire::BookDoneAnswer> book_cut(const BookCutRequest& request) {
  auto shelf = open_shelf(request.book, Reach::write, request.by);
  if (!shelf) return only_error(shelf);
  auto found = find_saw(*shelf, request.saw);
  if (!found) return only_error(found);
  auto beside = planned_beside(request, *found);
  if (!beside) return tl::unexpected(beside.error());
  if (!request.list.empty()) return brought_up_to_date(*shelf, *found, request, *std::move(beside));
  auto known = planned(*shelf, found->saw.id, request.cuts, {});
  if (!known) return only_error(known);
  if (request.no_files)
    if (auto plain = without_files(*known ? stored_list(**known) : request.cuts); !plain)
      return tl::unexpected(plain.error());
  base::ResultAll<std::vector<std::string>> steps = std::vector<std::string>();
  if (!*known) {
    steps = steps_of(request.cuts, *found);
    if (!steps) return tl::unexpected(steps.error());
    known = planned(*shelf, found->saw.id, request.cuts, *steps);
    if (!known) return only_error(known);
  }
  book::Deed deed;
  if (*known) {
    deed.label = (request.done ? "cut: " : "planned: ") + stored_list(**known);
    change(deed, **known, "state", text_leaf(request.done ? "done" : "planned"));
    change(deed, **known, "title", text_leaf(request.title));
    change(deed, **known, "planned", list_leaf(*beside));
    return done(*shelf, &found->saw, std::move(deed));
  }
  book::Tree body;
  put_part(body, "state", text_leaf(request.done ? "done" : "planned"));
  put_part(body, "steps", list_leaf(*steps));
  put_part(body, "planned", list_leaf(*beside));
  put_part(body, "title", text_leaf(request.title));
  deed.label = (request.done ? "cut: " : "planned: ") + list_text(*steps);
  deed.added.push_back({book::new_id(), "cuts", found->saw.id, book::print(body)});
  return done(*shelf, &found->saw, std::move(deed));
}

}  // namespace portwright::desk
