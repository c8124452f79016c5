#include "desk/figure_findings.hpp"

#include <algorithm>
#include <cmath>

#include "study/findings.hpp"
#include "tables/pattern.hpp"

namespace portwright::desk {

std::vector<study::Finding> findings_on(const std::vector<study::Figure>& figures, base::UnitStyle style) {
  std::vector<study::Finding> out;
  for (const tables::LimitRow& limit : tables::limits())
    for (const study::Figure& figure : figures) {
      if (!figure.value || !tables::matches(limit.figure, figure.id, {})) continue;
      const double sigma = figure.low && figure.high ? (*figure.high - *figure.low) / 3.92 : 0.0;
      const auto chance = [&](double threshold) {
        const double beyond =
            limit.side == tables::Side::at_least ? threshold - *figure.value : *figure.value - threshold;
        if (!(sigma > 0.0)) return beyond > 0.0 ? 1.0 : 0.0;
        return 0.5 * std::erfc(-beyond / (sigma * std::sqrt(2.0)));
      };
      out.push_back(study::hold_value(limit, {figure.id, figure.label, *figure.value}, chance, style));
    }
  std::stable_sort(out.begin(), out.end(), [](const auto& a, const auto& b) { return a.state > b.state; });
  return out;
}

}  // namespace portwright::desk
