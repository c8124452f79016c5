#include "desk/revs_picture.hpp"

#include <algorithm>

#include "desk/labels.hpp"
#include "sheet/revs_picture.hpp"

namespace portwright::desk {

namespace {

using draw::Role;

struct Line {
  const char *id, *name;
  Role role;
  draw::Dash dash;
};
constexpr Line loads[] = {{"big_end", "big end", Role::ink, draw::Dash::solid},
                          {"big_end_free", "big end, free", Role::ink, draw::Dash::hidden},
                          {"small_end", "small end", Role::transfers, draw::Dash::dotted}};
constexpr Line thrusts[] = {{"thrust", "", Role::ink, draw::Dash::solid}};
constexpr Line walls[] = {{"wall_left", "", Role::ink, draw::Dash::solid}};

template <std::size_t N>
std::vector<sheet::TurnLine> lines_of(const wire::RevsAnswer& answer, const Line (&lines)[N]) {
  std::vector<sheet::TurnLine> out;
  for (const Line& line : lines) {
    const auto found = std::find_if(answer.series.begin(), answer.series.end(),
                                    [&](const wire::TraceSeries& series) { return series.id == line.id; });
    if (found == answer.series.end()) continue;
    // Not turned, both are the same line.
    if (!answer.turned && line.dash == draw::Dash::hidden) continue;
    out.push_back({line.name, line.role, line.dash, found->values, found->stock});
  }
  return out;
}

sheet::LadderRung rung_of(const wire::Rung& rung) {
  sheet::LadderRung out;
  out.name = rung.name;
  out.hard = rung.kind == "hard";
  if (rung.free) {
    out.free = rung.free->rpm;
    out.low = rung.free->low.value_or(0.0);
    out.high = rung.free->high.value_or(0.0);
  }
  if (rung.cut) out.cut = rung.cut->rpm;
  if (rung.stock_free) out.stock = rung.stock_free->rpm;
  return out;
}

}  // namespace

base::Result<std::string> revs_picture(const Case& opened, const wire::RevsAnswer& answer) {
  sheet::RevsInput input;
  input.saw = opened.readings.name;
  input.state = opened.readings.state;
  input.plan = plan_name(opened.cut_list.size());
  input.free_rpm = answer.free_rpm;
  input.cut_rpm = answer.turned ? answer.cut_rpm : 0.0;
  for (const wire::Rung& rung : answer.rungs)
    if (rung.kind != "mark" && (rung.free || rung.cut)) input.rungs.push_back(rung_of(rung));
  input.angles = answer.angle_deg;
  input.loads = lines_of(answer, loads);
  input.thrust = lines_of(answer, thrusts);
  input.wall = lines_of(answer, walls);
  for (const std::string& sentence : answer.sentences) input.sentence += (input.sentence.empty() ? "" : " ") + sentence;
  return sheet::revs_svg(input);
}

}  // namespace portwright::desk
