#include "desk/book/bench_hand.hpp"

#include <algorithm>
#include <set>
#include <utility>

#include "desk/book/saw_tree.hpp"
#include "desk/book/shelf.hpp"
#include "desk/book/source.hpp"
#include "plan/work.hpp"

namespace portwright::desk {
namespace {

using cuts::CutList;

/// A list of the book; without the cuts that cannot be read any more.
CutList list_at(const book::Tree& body, const char* leaf) {
  CutList out;
  const book::Tree* kept = book::find(body, leaf);
  for (const std::string& text : kept ? kept->list : std::vector<std::string>())
    if (auto one = cuts::parse_cuts(text); one && one->size() == 1) out.push_back(std::move(one->front()));
  return out;
}

std::ptrdiff_t places_in_common(const CutList& planned, const CutList& done) {
  return std::count_if(done.begin(), done.end(), [&](const cuts::Cut& cut) {
    return std::any_of(planned.begin(), planned.end(),
                       [&](const cuts::Cut& other) { return plan::same_place(cut, other); });
  });
}

/// Of lists kept before, the one with the most of these cuts; of several the newest.
CutList nearest_planned(const std::vector<CutList>& planned, const CutList& done) {
  const CutList* out = nullptr;
  for (const CutList& list : planned)
    if (const auto common = places_in_common(list, done);
        common > 0 && (out == nullptr || common >= places_in_common(*out, done)))
      out = &list;
  return out == nullptr ? CutList() : *out;
}

struct Found {
  std::vector<double> past;
  std::set<std::string> saws;
};

/// The pairs of one saw, each once.
void take_saw(Shelf& shelf, const std::string& saw, Found& ground, Found& turned) {
  const auto parts = parts_of(shelf, saw);
  if (!parts) return;
  std::vector<CutList> planned;
  std::set<std::pair<std::string, std::string>> seen;
  for (const book::Document& part : *parts) {
    if (part.kind != "cuts") continue;
    const book::Tree body = body_of(part);
    const CutList steps = list_at(body, "steps");
    if (text_at(body, "state") != "done") {
      planned.push_back(steps);
      continue;
    }
    const CutList own = list_at(body, "planned");
    for (const plan::CutPair& pair : plan::pairs_of(own.empty() ? nearest_planned(planned, steps) : own, steps)) {
      if (!seen.emplace(cuts::cut_text(pair.planned), cuts::cut_text(pair.cut)).second) continue;
      Found& to = plan::tool_of(pair.cut) == plan::Tool::turned ? turned : ground;
      to.past.push_back(pair.past());
      to.saws.insert(saw);
    }
  }
}

bool is_named(const std::string& file, const std::string& book) {
  const std::string by = book_place(book).chosen_by;
  return is_of_book(file) || by == "--book" || by == "PORTWRIGHT_BOOK";
}

}  // namespace

BenchHand bench_hand(const std::string& file, const std::string& book) {
  const plan::Bench memory;
  Found ground, turned;
  if (is_named(file, book))
    if (auto shelf = open_shelf(book, Reach::read))
      if (const auto saws = all_saws(*shelf))
        for (const book::Document& saw : *saws) take_saw(*shelf, saw.id, ground, turned);
  return {plan::own_hand(ground.past, memory.hand), plan::own_hand(turned.past, memory.lathe),
          static_cast<int>(ground.saws.size()), static_cast<int>(turned.saws.size())};
}

}  // namespace portwright::desk
