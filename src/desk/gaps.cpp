#include "desk/gaps.hpp"

#include <algorithm>
#include <cmath>

#include "tables/limits.hpp"

namespace portwright::desk {
namespace {

/// The threshold that asks most, which a falling margin meets first.
std::optional<double> strictest(const tables::LimitRow& row) {
  return row.note ? row.note : row.caution ? row.caution : row.stop;
}

std::string left_text(const wire::Gap& gap, base::UnitStyle style) {
  if (!gap.limit) return {};
  const double left =
      gap.side == tables::side_name(tables::Side::at_least) ? gap.value - *gap.limit : *gap.limit - gap.value;
  base::Spread spread{std::abs(left), {}, {}};
  if (gap.low && gap.high) {
    spread.low = spread.value - 0.5 * (*gap.high - *gap.low);
    spread.high = spread.value + 0.5 * (*gap.high - *gap.low);
  }
  return base::value_text(spread, gap.unit, style) + (left < 0.0 ? " past the limit" : " left");
}

}  // namespace

void fill_letters(std::vector<study::Finding>& findings) {
  char letter = 'A';
  for (study::Finding& finding : findings)
    if (finding.state != study::State::ok && letter <= 'Z') finding.letter = std::string(1, letter++);
}

std::vector<wire::Gap> gaps_of(const std::vector<study::Finding>& findings, const std::vector<study::Figure>& figures,
                               base::UnitStyle style) {
  std::vector<wire::Gap> out;
  for (const study::Finding& finding : findings) {
    const auto figure =
        std::find_if(figures.begin(), figures.end(), [&](const auto& f) { return f.id == finding.figure; });
    const tables::LimitRow* row = tables::limit(finding.rule);
    if (figure == figures.end() || row == nullptr || row->side == tables::Side::is) continue;
    wire::Gap gap;
    gap.id = finding.figure;
    gap.rule = finding.rule;
    gap.label = figure->label;
    gap.unit = figure->unit;
    gap.value = finding.value;
    gap.low = figure->low;
    gap.high = figure->high;
    if (figure->stock) gap.stock = figure->stock->value;
    gap.limit = strictest(*row);
    gap.stop = row->stop;
    gap.side = tables::side_name(row->side);
    gap.state = finding.state;
    gap.letter = finding.letter;
    gap.text = figure->text;
    gap.low_text = figure->low_text;
    gap.high_text = figure->high_text;
    gap.stock_text = figure->stock_text;
    gap.change_text = figure->change_text;
    if (gap.limit) gap.limit_text = base::value_text({*gap.limit, {}, {}}, gap.unit, style);
    gap.left_text = left_text(gap, style);
    out.push_back(std::move(gap));
  }
  return out;
}

}  // namespace portwright::desk
