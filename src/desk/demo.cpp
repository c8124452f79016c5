#include "desk/demo.hpp"

#include <functional>

#include "desk/book.hpp"
#include "tables/demo.hpp"

namespace portwright::desk {

namespace {

using tables::DemoDeed;

const Hand hand{"demo workshop", {}, {}};

template <class T>
base::Result<void> first_error(const base::ResultAll<T>& done) {
  if (!done) return tl::unexpected(done.error().front());
  return {};
}

base::Result<void> wood(const std::string& book, const DemoDeed& deed) {
  BookWoodRequest request{book, deed.saw};
  request.date = deed.word("date");
  request.wood = deed.word("wood");
  request.bar = deed.word("bar");
  request.chain = deed.word("chain");
  request.times = deed.word("times");
  request.rpm = deed.word("rpm");
  request.gauge = deed.word("gauge");
  request.felt = deed.word("felt");
  request.by = hand;
  return first_error(book_wood(request));
}

base::Result<void> cut(const std::string& book, const DemoDeed& deed) {
  BookCutRequest request{book, deed.saw, deed.word("cuts"), deed.word("title")};
  request.done = deed.act == "done";
  request.by = hand;
  return first_error(book_cut(request));
}

base::Result<void> set(const std::string& book, const DemoDeed& deed) {
  BookSetRequest request{book, deed.saw, deed.word("field"), deed.word("value")};
  request.again = deed.word("again") == "yes";
  if (const std::string with = deed.word("with"); !with.empty()) request.with = with;
  request.by = hand;
  return first_error(book_set(request));
}

base::Result<void> repeat(const std::string& book, const DemoDeed& deed) {
  if (deed.act == "wood") return wood(book, deed);
  if (deed.act == "plan" || deed.act == "done") return cut(book, deed);
  if (deed.act == "set") return set(book, deed);
  if (deed.act == "note") return first_error(book_note({book, deed.saw, deed.word("text"), hand}));
  if (deed.act == "borrow") return first_error(book_borrow({book, deed.saw, deed.word("name"), hand}));
  if (deed.act == "accept")
    return first_error(book_accept({book, deed.saw, deed.word("finding"), deed.word("reason"), "", hand}));
  return first_error(book_failure(
      {book, deed.saw, deed.word("text"), deed.word("where"), deed.word("cause"), deed.word("seen"), hand}));
}

}  // namespace

base::Result<void> make_demo_book(const std::string& path) {
  if (auto begun = book_begin({path, hand}); !begun) return begun;
  for (const tables::DemoSaw& saw : tables::demo_saws()) {
    BookAddRequest add{path, {}};
    add.texts.push_back({saw.file, std::string(saw.text)});
    add.by = hand;
    if (auto added = first_error(book_add(add)); !added) return added;
  }
  for (const DemoDeed& deed : tables::demo_deeds())
    if (auto done = repeat(path, deed); !done) return done;
  return {};
}

}  // namespace portwright::desk
