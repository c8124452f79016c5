#include "desk/book/source.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>

#include "base/quantity/normal.hpp"
#include "desk/book.hpp"
#include "desk/book/saw_tree.hpp"
#include "desk/book/shelf.hpp"
#include "desk/case.hpp"
#include "desk/desk.hpp"

namespace portwright::desk {
namespace {

constexpr std::string_view prefix = "book:";

wire::Acceptance acceptance_of(const book::Document& document) {
  const book::Tree body = body_of(document);
  wire::Acceptance out;
  out.rule = text_at(body, "finding");
  out.figure = text_at(body, "figure");
  const std::string value = text_at(body, "value");
  (void)std::from_chars(value.data(), value.data() + value.size(), out.value);
  out.text = text_at(body, "text");
  out.reason = text_at(body, "reason");
  out.cuts = text_at(body, "cuts");
  out.who = document.author;
  out.when = document.changed;
  return out;
}

bool same_value(double a, double b) { return std::abs(a - b) <= 1e-9 * std::max({1.0, std::abs(a), std::abs(b)}); }

}  // namespace

bool is_of_book(const std::string& file) { return file.starts_with(prefix); }

base::ResultAll<BookSource> read_from_book(const std::string& file, const std::string& book) {
  auto shelf = open_shelf(book, Reach::read);
  if (!shelf) return only_error(shelf);
  auto found = find_saw(*shelf, file.substr(prefix.size()));
  if (!found) return only_error(found);
  auto read = read_tree(whole_tree(*found));
  if (!read) return tl::unexpected(read.error());
  auto parts = parts_of(*shelf, found->saw.id);
  if (!parts) return only_error(parts);
  BookSource out{std::move(*read), {}};
  for (const book::Document& part : *parts)
    if (part.kind == "accepted") out.accepted.push_back(acceptance_of(part));
  return out;
}

void mark_accepted(std::vector<study::Finding>& findings, std::vector<wire::Acceptance>& accepted) {
  for (wire::Acceptance& one : accepted) {
    one.stale = true;
    for (study::Finding& finding : findings) {
      if (finding.rule != one.rule || finding.figure != one.figure) continue;
      if (!same_value(finding.value, one.value)) continue;
      one.stale = false;
      finding.accepted = finding.state != study::State::ok;
    }
  }
}

namespace {

// Findings that are meant by a rule, a figure, or the end of a figure's id.
std::vector<study::Finding> meant(const std::vector<study::Finding>& all, const std::string& asked) {
  std::vector<study::Finding> out;
  for (const study::Finding& finding : all)
    if (finding.rule == asked || finding.figure == asked || finding.figure.ends_with('.' + asked))
      out.push_back(finding);
  return out;
}

base::Result<study::Finding> one_finding(const std::vector<study::Finding>& all, const std::string& asked) {
  std::vector<study::Finding> found = meant(all, asked);
  if (found.empty()) {
    std::vector<std::string> names;
    for (const study::Finding& finding : all)
      if (finding.state != study::State::ok) names.push_back(finding.figure);
    return tl::unexpected(base::Error{
        base::ErrorCode::not_found, "The study has no finding \u201C" + asked + "\u201D.", "",
        names.empty() ? "Nothing is passed, so there is nothing to accept." : "Name a figure or a rule: one of these.",
        names});
  }
  std::erase_if(found, [](const study::Finding& finding) { return finding.state == study::State::ok; });
  if (found.empty())
    return base::fail(base::ErrorCode::usage, "\u201C" + asked + "\u201D is held: there is nothing to accept.");
  if (found.size() == 1) return found.front();
  std::vector<std::string> rules;
  for (const study::Finding& finding : found) rules.push_back(finding.rule + " on " + finding.figure);
  return tl::unexpected(base::Error{base::ErrorCode::usage, "\u201C" + asked + "\u201D could be several findings.", "",
                                    "Name its rule.", rules});
}

book::Tree accepted_body(const BookAcceptRequest& request, const study::Finding& finding,
                         const std::vector<study::Figure>& figures, const std::vector<std::string>& cuts) {
  const auto figure =
      std::find_if(figures.begin(), figures.end(), [&](const auto& f) { return f.id == finding.figure; });
  std::string list;
  for (const std::string& cut : cuts) list += (list.empty() ? "" : "; ") + cut;
  book::Tree body;
  put_part(body, "finding", text_leaf(finding.rule));
  put_part(body, "figure", text_leaf(finding.figure));
  put_part(body, "value", text_leaf(plain_number(finding.value)));
  put_part(body, "text",
           text_leaf(figure == figures.end() ? plain_number(finding.value) + ' ' + finding.unit : figure->text));
  put_part(body, "says", text_leaf(finding.text));
  put_part(body, "reason", text_leaf(request.reason));
  put_part(body, "cuts", text_leaf(list));
  return body;
}

// The acceptance of this finding, in the same what-if, that the book has already.
base::Result<std::optional<book::Document>> known_one(Shelf& shelf, const std::string& saw, const book::Tree& body) {
  auto parts = parts_of(shelf, saw);
  if (!parts) return tl::unexpected(parts.error());
  for (book::Document& part : *parts) {
    if (part.kind != "accepted") continue;
    const book::Tree known = body_of(part);
    const auto same = [&](const char* leaf) { return text_at(known, leaf) == text_at(body, leaf); };
    if (same("finding") && same("figure") && same("cuts")) return std::move(part);
  }
  return std::optional<book::Document>();
}

}  // namespace

base::ResultAll<wire::BookDoneAnswer> book_accept(const BookAcceptRequest& request) {
  if (base::typed::trimmed(request.reason).empty())
    return tl::unexpected(base::Errors{{base::ErrorCode::usage,
                                        "A finding is accepted with a reason.",
                                        "",
                                        "Say why it may stand: --reason TEXT.",
                                        {}}});
  const auto answer = study({std::string(prefix) + request.saw, request.cuts, {}, base::UnitStyle::shop, request.book});
  if (!answer) return tl::unexpected(answer.error());
  const auto finding = one_finding(answer->findings, request.finding);
  if (!finding) return only_error(finding);
  auto shelf = open_shelf(request.book, Reach::write, request.by);
  if (!shelf) return only_error(shelf);
  auto found = find_saw(*shelf, request.saw);
  if (!found) return only_error(found);
  const book::Tree body = accepted_body(request, *finding, answer->figures, answer->head.cuts);
  const auto known = known_one(*shelf, found->saw.id, body);
  if (!known) return only_error(known);
  book::Deed deed;
  deed.label = "accepted " + finding->figure + ", " + text_at(body, "text") + ": " + request.reason;
  if (!*known) {
    deed.added.push_back({book::new_id(), "accepted", found->saw.id, book::print(body)});
    return done(*shelf, &found->saw, std::move(deed));
  }
  const book::Tree before = body_of(**known);
  for (const book::Part& leaf : body.parts)
    if (text_at(before, leaf.name) != leaf.tree.text)
      deed.changes.push_back({(*known)->id, leaf.name, book::print(leaf.tree), (*known)->revision});
  return done(*shelf, &found->saw, std::move(deed));
}

}  // namespace portwright::desk
