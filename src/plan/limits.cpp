#include "plan/limits.hpp"

#include <optional>

namespace portwright::plan {
namespace {

/// The level that a hard row's figure stands on, where moves reach it.
std::optional<std::size_t> level_of(const study::HardLimit& limit, const geometry::Survey& survey) {
  if (limit.rule == "working_squish") return level::squish_least;
  if (limit.rule == "top_land") return level::top_land;
  if (limit.rule != "exhaust_width") return std::nullopt;
  const int entry = survey.find_port(limit.port);
  if (entry < 0 || limit.figure.find(".twin.") != std::string::npos) return std::nullopt;
  return level::width + static_cast<std::size_t>(entry);
}

}  // namespace

std::vector<Bound> bounds_of(const std::vector<study::HardLimit>& limits, const geometry::Survey& survey,
                             const Frame& frame, const Levels& start) {
  std::vector<Bound> out;
  for (const study::HardLimit& limit : limits) {
    const auto at = level_of(limit, survey);
    if (!at || !start[*at] || !frame.bore) continue;
    const double per_unit = limit.unit == "%" ? 0.01 * *frame.bore : 1e-3;
    const double room = (limit.margin() - limit.doubt) * per_unit;
    out.push_back({*at, !limit.at_least, *start[*at] + (limit.at_least ? -room : room), limit.rule});
  }
  if (start[level::spigot]) out.push_back({level::spigot, false, 0.0, "the spigot's clearance"});
  return out;
}

}  // namespace portwright::plan
