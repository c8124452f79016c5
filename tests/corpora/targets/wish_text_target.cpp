// The text of a list of wishes.

#include <cmath>

#include "corpora/targets.hpp"
#include "plan/wish.hpp"

using namespace portwright::plan;
using portwright::corpora::require;

namespace {

constexpr std::size_t most_wishes = 24;

void check_read(const Wishes& wishes) {
  require(!wishes.empty() && wishes.size() <= most_wishes, "a list read has one wish at least and not too many");
  for (const Wish& wish : wishes) {
    require(std::isfinite(wish.value) && std::isfinite(wish.within) && wish.within >= 0.0, "a number read is finite");
    require(!wish.text.empty(), "a wish keeps its text");
    require(!is_of_port(wish.aspect) || !wish.subject.empty(), "a wish about ports names one");
    // A wish stands by itself: its own text, read again, is the same wish.
    const auto again = parse_wishes(wish.text);
    require(again && again->size() == 1, "a wish can be read from its own text: " + wish.text);
    const Wish& back = again->front();
    require(back.aspect == wish.aspect && back.subject == wish.subject && back.relation == wish.relation &&
                back.as_stock == wish.as_stock && back.free == wish.free && back.value == wish.value,
            "and is the same: " + wish.text);
  }
}

void check_refused(const portwright::base::Errors& errors) {
  require(!errors.empty(), "a refusal says why");
  for (const auto& error : errors) {
    require(!error.message.empty(), "an error has a sentence");
    for (const std::string& reading : error.readings)
      require(parse_wishes(reading).has_value(), "a wish offered can itself be read: " + reading);
  }
}

}  // namespace

PORTWRIGHT_TARGET(wish_text) {
  const auto read = parse_wishes(portwright::corpora::as_text(bytes));
  if (read)
    check_read(*read);
  else
    check_refused(read.error());
}
