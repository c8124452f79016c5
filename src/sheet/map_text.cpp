// The map's sentence, from the numbers it is drawn with.
#include <cmath>
#include <numbers>

#include "base/number_text.hpp"
#include "sheet/map_page.hpp"

namespace portwright::sheet {
namespace {

std::string joined(const std::vector<std::string>& parts) {
  std::string text;
  for (std::size_t i = 0; i < parts.size(); ++i)
    text += (i == 0 ? "" : i + 1 == parts.size() ? " and " : ", ") + parts[i];
  return text;
}

/// Open share of a window at the page's drop [-]; none when it cannot be told.
std::optional<double> open_share(const MapPage& page, const geometry::Port& port) {
  if (!page.drop || port.window.empty()) return std::nullopt;
  if (geometry::opened_by(port.kind) == geometry::OpenedBy::crown)
    return port.window.area_above(*page.drop) / port.window.area();
  const geometry::Known skirt = geometry::skirt_at(page.engine, port.kind);
  if (!skirt) return std::nullopt;
  return port.window.area_below(*page.drop + *skirt) / port.window.area();
}

/// Least that the skirt reaches below the floors of shut windows that it opens [m].
std::string cover_text(const MapPage& page, const geometry::Port& port) {
  const geometry::Known skirt = geometry::skirt_at(page.engine, port.kind);
  if (geometry::opened_by(port.kind) == geometry::OpenedBy::crown || !skirt || !port.floor) return "";
  return ", " + mm_text(*page.drop + *skirt - *port.floor, 1) + " mm of skirt below its floor";
}

}  // namespace

std::string map_sentence(const MapPage& page) {
  std::vector<std::string> open, shut;
  std::string cover;
  for (std::size_t i = 0; i < page.engine.ports.size(); ++i) {
    const geometry::Port& port = page.engine.ports[i];
    const auto share = open_share(page, port);
    const std::string name = i < page.input.labels.ports.size() ? page.input.labels.ports[i] : "port";
    if (!share) continue;
    if (*share > 0.9995)
      open.push_back(name + " by all");
    else if (*share > 0.0005)
      open.push_back(name + " by " + base::number_text(100 * *share, 0) + " %");
    else {
      shut.push_back(name);
      cover = cover_text(page, port);
    }
  }
  std::string text = "The bore from inside, plug end up, unrolled to the right.";
  if (page.drop && !open.empty())
    text += " With the crank " + crank_text(page) + (open.size() == 1 ? " stands open " : " stand open ") +
            joined(open) + (open.size() == 1 ? " of its area." : " of their areas.");
  if (page.drop && open.empty()) text += " With the crank " + crank_text(page) + " no window is open.";
  if (!shut.empty()) text += " Shut: " + joined(shut) + (shut.size() == 1 ? cover : "") + ".";
  if (page.plan.has_cuts()) text += " Grey is stock, blue is what the cuts want.";
  return text;
}

}  // namespace portwright::sheet
