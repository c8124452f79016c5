// The text of a quantity. First byte: the kind asked for, from 'a'; the rest is the text.

#include <cmath>

#include "base/quantity/text.hpp"
#include "corpora/targets.hpp"

using namespace portwright::base;
using portwright::corpora::require;

namespace {

// UTF-8 by the form of its bytes, and nothing below a blank.
bool is_printable(std::string_view text) {
  std::size_t following = 0;
  for (const char c : text) {
    const auto b = static_cast<unsigned char>(c);
    const bool follows = (b & 0xC0U) == 0x80U;
    if (follows != (following > 0) || b < 0x20 || b == 0x7F) return false;
    if (follows) {
      --following;
    } else {
      following = b >= 0xF0 ? 3 : b >= 0xE0 ? 2 : b >= 0xC0 ? 1 : 0;
    }
  }
  return following == 0;
}

void check_read(const Quantity& q, std::optional<Dimension> kind) {
  require(std::isfinite(q.si), "a quantity read is finite");
  require(std::isfinite(q.resolution) && q.resolution > 0.0, "its resolution is above nothing");
  require(!q.sigma || (std::isfinite(*q.sigma) && *q.sigma > 0.0), "its tolerance is above nothing");
  require(!kind || q.unit == nullptr || q.unit->dimension == *kind, "its unit is of the kind asked for");
}

void check_refused(const Error& error, std::optional<Dimension> kind) {
  require(!error.message.empty(), "a refusal says why");
  require(is_printable(error.message), "a refusal is UTF-8 without control characters");
  for (const std::string& reading : error.readings) {
    const auto read = kind ? parse_quantity(reading, *kind) : parse_any_quantity(reading);
    require(read.has_value(), "a reading offered can itself be read: " + reading);
  }
}

}  // namespace

PORTWRIGHT_TARGET(quantity_text) {
  if (bytes.empty()) return;
  const auto kind = static_cast<Dimension>((bytes[0] - 'a' + 13 * 32) % 13);
  const std::string_view text = portwright::corpora::as_text(bytes.subspan(1));
  const auto read = parse_quantity(text, kind);
  if (read) check_read(*read, kind);
  if (!read) check_refused(read.error(), kind);
  const auto any = parse_any_quantity(text);
  if (any) check_read(*any, std::nullopt);
  if (!any) check_refused(any.error(), std::nullopt);
  const bool plain_kind = kind == Dimension::share || kind == Dimension::count;
  if (read && any && !plain_kind) require(read->si == any->si, "the kind asked for does not change what is read");
}
