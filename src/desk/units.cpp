#include <cmath>

#include "base/quantity/text.hpp"
#include "desk/desk.hpp"
#include "desk/shown.hpp"

namespace portwright::desk {
namespace {

constexpr int digits_kept = 6;

// Six figures, without the zeros at the end: a conversion is exact, the typed text is not.
std::string six_figures(double value) {
  int decimals = digits_kept - 1;
  for (double scale = std::abs(value); scale >= 10.0 && decimals > 0; scale /= 10.0) --decimals;
  for (double scale = std::abs(value); scale > 0.0 && scale < 1.0 && decimals < 12; scale *= 10.0) ++decimals;
  std::string text = base::number_text(value, decimals);
  if (text.find('.') == std::string::npos) return text;
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text;
}

}  // namespace

base::ResultAll<wire::UnitsAnswer> units(const UnitsRequest& request) {
  const auto parsed = base::parse_any_quantity(request.text);
  if (!parsed) return tl::unexpected(base::Errors{parsed.error()});
  wire::UnitsAnswer answer;
  const base::Dimension kind = parsed->unit ? parsed->unit->dimension : base::Dimension::count;
  answer.typed = request.text;
  answer.kind = base::dimension_name(kind);
  answer.value_si = parsed->si;
  answer.unit_si = si_unit(kind);
  answer.sigma = parsed->sigma;
  answer.unit = parsed->unit ? parsed->unit->symbol : "";
  answer.value = parsed->unit ? (parsed->si - parsed->unit->offset) / parsed->unit->scale : parsed->si;
  for (const base::Unit& unit : base::units()) {
    if (unit.dimension != kind) continue;
    const double value = (parsed->si - unit.offset) / unit.scale;
    answer.also.push_back({value, unit.symbol, six_figures(value) + ' ' + unit.symbol});
  }
  return answer;
}

}  // namespace portwright::desk
