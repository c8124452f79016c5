#include "desk/edge_place.hpp"

#include <numbers>
#include <optional>

#include "base/number_text.hpp"
#include "base/quantity/text.hpp"
#include "desk/nearest.hpp"

namespace portwright::desk {
namespace {

using geometry::EdgeForm;
using geometry::OpenedBy;

constexpr double deg = std::numbers::pi / 180.0;
// Beyond these a bare angle is likelier a duration: the bounds at which the saw file asks, too.
constexpr double latest_bare_crown = 140.0 * deg;
constexpr double latest_bare_skirt = 110.0 * deg;

struct Word {
  const char* word;
  EdgeForm form;
  base::Dimension dimension;
};
constexpr Word words[] = {{"opens", EdgeForm::opens, base::Dimension::angle},
                          {"closes", EdgeForm::closes, base::Dimension::angle},
                          {"duration", EdgeForm::duration, base::Dimension::angle},
                          {"drop", EdgeForm::drop, base::Dimension::length},
                          {"height", EdgeForm::height, base::Dimension::length}};

std::string spread_text(double value, base::Dimension dimension) {
  const bool angle = dimension == base::Dimension::angle;
  return base::value_text({angle ? value / deg : value * 1e3, {}, {}}, angle ? "deg" : "mm", base::UnitStyle::shop);
}

tl::unexpected<base::Error> ambiguous(const std::string& text, std::string why, std::vector<std::string> readings) {
  return tl::unexpected(base::Error{base::ErrorCode::unreadable, "\u201C" + text + "\u201D " + std::move(why), "at",
                                    "Say which.", std::move(readings)});
}

std::string understood(EdgeForm form, double value, OpenedBy by) {
  const bool crown = by == OpenedBy::crown;
  switch (form) {
    case EdgeForm::opens:
      return "opens " + spread_text(value, base::Dimension::angle) + (crown ? " after TDC" : " before TDC");
    case EdgeForm::closes:
      return "closes " + spread_text(value, base::Dimension::angle) + " after TDC";
    case EdgeForm::duration:
      return "open for " + spread_text(value, base::Dimension::angle);
    case EdgeForm::drop:
      return "crown edge " + spread_text(value, base::Dimension::length) + " below its TDC place";
    case EdgeForm::height:
      return spread_text(value, base::Dimension::length) + " above the base face";
  }
  return {};
}

std::optional<base::Error> outside(EdgeForm form, double value) {
  const bool fits = form == EdgeForm::opens                                  ? value > 0.0 && value < 180.0 * deg
                    : form == EdgeForm::closes || form == EdgeForm::duration ? value > 0.0 && value < 360.0 * deg
                                                                             : value >= 0.0 || form == EdgeForm::height;
  if (fits) return std::nullopt;
  return base::Error{
      base::ErrorCode::out_of_range,
      "No edge is passed there.",
      "at",
      "An opening lies between 0 and 180 deg, a closing or a duration under 360 deg, a drop at or below TDC.",
      {}};
}

base::Result<EdgePlace> place(EdgeForm form, double value, OpenedBy by) {
  const bool before_tdc = form == EdgeForm::closes && by == OpenedBy::crown && value > 0.0 && value < 180.0 * deg;
  if (before_tdc) value = 360.0 * deg - value;
  if (auto error = outside(form, value)) return tl::unexpected(*error);
  return EdgePlace{form, value, understood(form, value, by)};
}

base::Result<EdgePlace> bare(const std::string& text, OpenedBy by) {
  auto quantity = base::parse_any_quantity(text);
  if (!quantity) {
    quantity.error().path = "at";
    return tl::unexpected(quantity.error());
  }
  const auto dimension = quantity->unit ? quantity->unit->dimension : base::Dimension::count;
  if (dimension == base::Dimension::length)
    return ambiguous(text, "may be a height above the base face or the crown edge's drop below TDC.",
                     {"height " + text, "drop " + text});
  if (dimension != base::Dimension::angle)
    return base::fail(base::ErrorCode::wrong_unit, "\u201C" + text + "\u201D is no place of an edge.", "at",
                      "Give an angle, or: drop 24.5 mm, height 36.5 mm.");
  const double latest = by == OpenedBy::crown ? latest_bare_crown : latest_bare_skirt;
  if (quantity->si > latest)
    return ambiguous(text, "is late for an opening.", {"duration " + text, "opens " + text, "closes " + text});
  return place(EdgeForm::opens, quantity->si, by);
}

}  // namespace

base::Result<EdgePlace> parse_place(const std::string& text, OpenedBy by) {
  const std::size_t start = text.find_first_not_of(" \t");
  const std::size_t end = start == std::string::npos ? start : text.find_first_of(" \t", start);
  const std::string first = start == std::string::npos ? "" : text.substr(start, end - start);
  std::vector<std::string> known;
  for (const Word& word : words) {
    known.emplace_back(word.word);
    if (first != word.word) continue;
    const std::string rest = end == std::string::npos ? "" : text.substr(end);
    const auto quantity = base::parse_quantity(rest, word.dimension, "at");
    if (!quantity) return tl::unexpected(quantity.error());
    return place(word.form, quantity->si, by);
  }
  const bool a_word = !first.empty() && first.find_first_of("0123456789") == std::string::npos;
  if (a_word)
    return base::fail(
        base::ErrorCode::unreadable, "\u201C" + first + "\u201D is no way to say where an edge is.", "at",
        nearest(first, known).empty() ? "Known: opens, closes, duration, drop, height." : did_you_mean(first, known));
  return bare(text, by);
}

}  // namespace portwright::desk
