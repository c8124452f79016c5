#include "cli/groups.hpp"

#include <algorithm>
#include <string>

namespace portwright::cli {
namespace {

std::string_view part(std::string_view& rest) {
  const std::size_t point = rest.find('.');
  const std::string_view first = rest.substr(0, point);
  rest = point == std::string_view::npos ? std::string_view() : rest.substr(point + 1);
  return first;
}

std::string_view kind_of(std::string_view name, const std::vector<wire::Port>& ports) {
  const auto found =
      std::find_if(ports.begin(), ports.end(), [&](const wire::Port& port) { return port.name == name; });
  return found == ports.end() ? std::string_view() : found->kind;
}

// "port[transfer].opens" speaks of port.primary.opens and of its other side, port.primary.twin.opens.
bool speaks_of(std::string_view pattern, std::string_view id, const std::vector<wire::Port>& ports) {
  constexpr std::string_view of_kind = "port[";
  if (pattern.substr(0, of_kind.size()) == of_kind) {
    const std::string_view kind = pattern.substr(of_kind.size(), pattern.find(']') - of_kind.size());
    std::string_view rest = id;
    if (part(rest) != "port" || kind_of(part(rest), ports) != kind) return false;
    if (rest.substr(0, 5) == "twin.") rest.remove_prefix(5);
    return rest == pattern.substr(pattern.find(']') + 2);
  }
  while (!pattern.empty() && !id.empty()) {
    const std::string_view wanted = part(pattern), given = part(id);
    if (wanted != "*" && wanted != given) return false;
  }
  return pattern.empty() && id.empty();
}

const Group all_groups[] = {
    {"Timing",
     {"port[exhaust].opens", "port[transfer].opens", "port[boost].opens", "timing.blowdown", "timing.stagger",
      "port[intake].opens", "port[air].opens", "port[exhaust].duration", "port[intake].duration"}},
    {"Compression and squish",
     {"crank.displacement", "squish.clearance", "squish.tilt", "squish.working", "chamber.volume",
      "chamber.trapped_ratio", "chamber.full_ratio", "gauge.compression"}},
    {"What is left",
     {"skirt.cover_exhaust", "skirt.cover_intake", "skirt.free_port_area", "crown.over_floors",
      "crown.over_intake_roof", "ring.*.peg_wall", "ring.*.lowest_over_intake", "wall.least",
      "port[exhaust].width_of_bore", "port[exhaust].side_chord_of_bore", "spigot.clearance"}},
    {"How the air goes",
     {"group.exhaust.area", "group.transfer.area", "group.boost.area", "group.intake.area", "exhaust.outlet_to_window",
      "passage.*.mouth_to_window", "port.*.lower_masked_at_bdc", "case.ratio"}},
    {"Piston, rings and walls", {"piston.top_land", "pin.hole_wall", "ring.*.bow", "wall.thrust_share"}},
    {"At {rpm}",
     {"crank.mean_piston_speed", "crank.peak_acceleration", "squish.velocity", "timing.blowdown_specific_time_area",
      "drive.chain_speed"}},
    {"Ignition", {"ignition.advance_added", "ignition.key_offset"}},
};

}  // namespace

std::span<const Group> groups() { return all_groups; }

std::vector<const study::Figure*> members(const Group& group, const std::vector<study::Figure>& figures,
                                          const std::vector<wire::Port>& ports) {
  std::vector<const study::Figure*> out;
  for (const std::string_view pattern : group.figures)
    for (const study::Figure& figure : figures)
      if (speaks_of(pattern, figure.id, ports)) out.push_back(&figure);
  return out;
}

}  // namespace portwright::cli
