#include "desk/book/results.hpp"

#include <fmt/format.h>

#include "desk/book.hpp"
#include "desk/book/saw_tree.hpp"
#include "desk/desk.hpp"
#include "desk/run.hpp"
#include "wire/json.hpp"

namespace portwright::desk {
namespace {

/// What the figures were worked out from: the newest readings as typed.
std::string case_of(const ShelfSaw& saw) {
  return saw.readings ? book::hash_of(book::print(body_of(*saw.readings))) : std::string();
}

/// "port.exhaust.opens: 101.0° (99.9 to 102.1 deg)": as shown, then the range in the contract's unit.
std::string line_of(const study::Figure& figure) {
  std::string out = figure.id + ": " + figure.text;
  if (figure.low && figure.high) out += fmt::format(" ({:.5g} to {:.5g} {})", *figure.low, *figure.high, figure.unit);
  return out;
}

std::vector<std::string> lines_of(const std::vector<study::Figure>& figures) {
  std::vector<std::string> out;
  for (const study::Figure& figure : figures)
    if (figure.value) out.push_back(line_of(figure));
  return out;
}

std::vector<std::string> lines_of(const std::vector<study::Finding>& findings) {
  std::vector<std::string> out;
  for (const study::Finding& finding : findings)
    if (finding.state != study::State::ok) out.push_back(finding.rule + " on " + finding.figure + ": " + finding.text);
  return out;
}

std::vector<std::string> lines_of(const wire::RunAnswer& run) {
  std::vector<std::string> out;
  for (const wire::RunPoint& point : run.points) {
    std::string line = fmt::format("{:.0f} rpm, {}", point.rpm, point.settled);
    for (const study::Figure& figure : point.figures)
      if (figure.value) line += "; " + figure.id + ": " + figure.text;
    out.push_back(std::move(line));
  }
  return out;
}

}  // namespace

std::string stale_because(const book::Document& result, const ShelfSaw& saw) {
  const book::Tree body = body_of(result);
  if (text_at(body, "case") != case_of(saw)) return "the readings are others now";
  if (text_at(body, "version") != wire::program_name()) return "made by " + text_at(body, "version");
  return {};
}

base::ResultAll<wire::BookDoneAnswer> book_result(const BookResultRequest& request) {
  const std::string file = "book:" + request.saw;
  // The case is named before and after: readings that change meanwhile would make a result of neither.
  std::string before;
  {
    auto shelf = open_shelf(request.book, Reach::read);
    if (!shelf) return only_error(shelf);
    auto found = find_saw(*shelf, request.saw);
    if (!found) return only_error(found);
    before = case_of(*found);
  }
  const auto studied = study({file, request.cuts, {}, base::UnitStyle::shop, request.book});
  if (!studied) return tl::unexpected(studied.error());
  book::Tree body;
  put_part(body, "title", text_leaf(request.title));
  put_part(body, "cuts", list_leaf(studied->head.cuts));
  put_part(body, "case", text_leaf(before));
  put_part(body, "version", text_leaf(wire::program_name()));
  put_part(body, "figures", list_leaf(lines_of(studied->figures)));
  put_part(body, "findings", list_leaf(lines_of(studied->findings)));
  if (!request.speeds.empty()) {
    RunRequest turned;
    turned.file = file;
    turned.cuts = request.cuts;
    turned.speeds = request.speeds;
    turned.bands = false;
    turned.book = request.book;
    const auto run = desk::run(turned);
    if (!run) return tl::unexpected(run.error());
    put_part(body, "curve", list_leaf(lines_of(*run)));
  }
  auto shelf = open_shelf(request.book, Reach::write, request.by);
  if (!shelf) return only_error(shelf);
  auto found = find_saw(*shelf, request.saw);
  if (!found) return only_error(found);
  if (case_of(*found) != before)
    return tl::unexpected(base::Errors{{base::ErrorCode::conflict,
                                        "The readings were changed while the figures were worked out.",
                                        "",
                                        "Nothing was kept; ask again.",
                                        {}}});
  std::string label = "result kept: " + (request.title.empty() ? std::string("figures") : request.title);
  for (const std::string& cut : studied->head.cuts) label += "; " + cut;
  book::Deed deed;
  deed.label = std::move(label);
  deed.added.push_back({book::new_id(), "result", found->saw.id, book::print(body)});
  return done(*shelf, &found->saw, std::move(deed));
}

}  // namespace portwright::desk
