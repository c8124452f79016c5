#include "desk/chain_members.hpp"

#include <algorithm>
#include <cmath>

#include "desk/revs_parts.hpp"
#include "numerics/sampling.hpp"
#include "tables/assumptions.hpp"

namespace portwright::desk {

namespace {

constexpr unsigned seed = 77003;
constexpr int fewest_teeth = 5, most_teeth = 16, teeth_beside = 2;
constexpr int draws_of_member = 5;
constexpr double cm2 = 1e4;
constexpr const char* fits[] = {"holds", "bogs", "runs away"};

double drawn(const char* name, double z) {
  const tables::AssumptionRow& row = tables::assumption(name);
  return std::clamp(row.value + row.sigma * z, row.least, row.greatest);
}

/// The middles' shape, moved by what a set differs from them at the three speeds.
/// @param place  of the curve's speeds against those computed [-]
drive::TorqueCurve curve_of(const Bands& bands, const Shape& shape, const std::vector<cycle::Point>& points,
                            double place) {
  std::array<double, 3> at{}, more{};
  for (std::size_t i = 0; i < 3; ++i) {
    at[i] = place * bands.speeds[i];
    more[i] = points[i].torque - shape.torque(bands.speeds[i]);
  }
  std::vector<double> speeds = shape.speeds;
  for (double& speed : speeds) speed *= place;
  return drive::beside(speeds, shape.torques, at, more);
}

bool pulls(const drive::TorqueCurve& curve) { return curve.torque(curve.power_peak()) > 0.0; }

/// Numbers of teeth looked at.
struct Teeth {
  int from, to;
};
Teeth teeth_near(double fitted) {
  const int teeth = static_cast<int>(std::lround(fitted));
  return {std::max(fewest_teeth, teeth - teeth_beside), std::min(most_teeth, teeth + teeth_beside)};
}

std::string percent(double share) { return base::number_text(100.0 * share, 0) + " %"; }

/// Weight by teeth of the sets that choose them; index 0: it bogs with each.
std::vector<double> choices(const std::vector<Member>& members, const DriveRead& read, double width_ratio) {
  const Teeth near = teeth_near(read.chain.teeth);
  std::vector<double> out(most_teeth + 1, 0.0);
  for (const Member& member : members) {
    const double force = drive::force_in(member.force, 1.0, width_ratio, member.exponent);
    const auto best = drive::best_sprocket(member.cut, read.chain, force, member.drag, near.from, near.to);
    out[best ? static_cast<std::size_t>(best->teeth) : 0] += member.weight;
  }
  return out;
}

wire::Sprocket sprocket_of(const std::vector<Member>& members, const DriveRead& read, int teeth, double chance) {
  const drive::Chain chain{read.chain.pitch, static_cast<double>(teeth)};
  double votes[3] = {0.0, 0.0, 0.0};
  for (const Member& member : members)
    votes[static_cast<int>(drive::working(member.cut, chain, member.force, member.drag).meets)] += member.weight;
  const auto speed = band_over(
      members, [&](const Member& m) { return rpm_per_rev * drive::working(m.cut, chain, m.force, m.drag).speed; });
  const auto power = band_over(
      members, [&](const Member& m) { return 1e-3 * drive::working(m.cut, chain, m.force, m.drag).wood_power; });
  wire::Sprocket out;
  out.teeth = teeth;
  out.fitted = teeth == static_cast<int>(std::lround(read.chain.teeth));
  out.meets = fits[std::max_element(votes, votes + 3) - votes];
  out.rpm = speed.mean;
  out.rpm_low = speed.low;
  out.rpm_high = speed.high;
  out.chain_speed = drive::chain_speed(chain, speed.mean / rpm_per_rev);
  out.wood_power_kw = power.mean;
  out.chance = chance;
  out.sentence = std::to_string(teeth) + " teeth" + (out.fitted ? ", fitted" : "") + ": ";
  if (out.meets == "bogs")
    out.sentence += "the saw bogs, pressed as it is.";
  else
    out.sentence += base::range_text({out.rpm, out.rpm_low, out.rpm_high}, "rpm", base::UnitStyle::metric) +
                    " rpm in the wood, chain at " + base::number_text(out.chain_speed, 1) +
                    " m/s; leaves most for the wood in " + percent(chance) + " of the ways the unread could be.";
  return out;
}

}  // namespace

std::optional<double> DriveRead::width() const {
  if (wood && bar) return std::min(*wood, *bar);
  return wood ? wood : bar;
}

base::Result<DriveRead> drive_of(const Case& opened, const geometry::Engine& engine) {
  DriveRead out;
  out.chain = {engine.chain_pitch.value_or(0.0), engine.teeth.value_or(0.0)};
  const saw::Drive& read = opened.readings.drive;
  const std::pair<const saw::Reading*, std::pair<const char*, std::optional<double> DriveRead::*>> all[] = {
      {&read.bar, {"drive.bar", &DriveRead::bar}},
      {&read.wood, {"drive.wood", &DriveRead::wood}},
      {&read.clutch_engages, {"drive.clutch_engages", &DriveRead::clutch_engages}}};
  for (const auto& [reading, at] : all) {
    const auto value = read_of(at.first, *reading, 0.0);
    if (!value) return tl::unexpected(value.error());
    out.*at.second = value->value;
  }
  if (engine.in_cut) out.in_cut = *engine.in_cut;
  return out;
}

Shape::Shape(const std::vector<cycle::Point>& points) {
  for (const cycle::Point& point : points) {
    speeds.push_back(point.speed);
    torques.push_back(point.torque);
  }
}

double Shape::torque(double speed) const {
  const auto next = std::lower_bound(speeds.begin(), speeds.end(), speed * (1.0 - 1e-9));
  const auto i = static_cast<std::size_t>(next - speeds.begin());
  if (i == speeds.size()) return torques.back();
  if (i == 0 || std::abs(speeds[i] - speed) < 1e-9 * speed) return torques[i];
  const double t = (speed - speeds[i - 1]) / (speeds[i] - speeds[i - 1]);
  return torques[i - 1] + t * (torques[i] - torques[i - 1]);
}

std::vector<Member> members_of(const Bands& bands, const Shape& stock, const Shape& cut, const DriveRead& read) {
  const cycle::Ensemble& cuts = bands.cut.points.empty() ? bands.stock : bands.cut;
  const auto count = bands.stock.points.size();
  const numerics::NormalDraws draws(draws_of_member, static_cast<int>(std::max<std::size_t>(count, 2)), seed);
  std::vector<Member> out;
  double whole = 0.0;
  for (std::size_t k = 0; k < count; ++k) {
    if (bands.stock.points[k].size() != 3 || cuts.points[k].size() != 3) continue;
    const auto z = draws.row(static_cast<int>(k));
    const double place = drawn("curve_place", z[3]);
    Member member{curve_of(bands, stock, bands.stock.points[k], place),
                  curve_of(bands, cut, cuts.points[k], place),
                  bands.stock.weight[k],
                  drawn("chain_drag", z[0]),
                  cm2 * drawn("wood_energy", z[1]),
                  drawn("load_by_width", z[2]),
                  0.0};
    if (!pulls(member.stock) || !pulls(member.cut)) continue;
    const double read_speed = read.in_cut ? *read.in_cut + drawn("in_cut_scatter", z[4]) : member.stock.power_peak();
    const double speed = std::clamp(read_speed, member.stock.first(), member.stock.last());
    member.force = drive::chain_force(read.chain, member.stock.torque(speed), member.drag);
    if (!(member.force > 0.0)) continue;
    whole += member.weight;
    out.push_back(std::move(member));
  }
  for (Member& member : out) member.weight /= whole;
  return out;
}

cycle::Band band_over(const std::vector<Member>& members, const OfMember& value) {
  std::vector<double> values, weights;
  for (const Member& member : members) {
    values.push_back(value(member));
    weights.push_back(member.weight);
  }
  return cycle::band_of(values, weights);
}

std::vector<wire::Sprocket> sprockets_of(const std::vector<Member>& members, const DriveRead& read) {
  const std::vector<double> chosen = choices(members, read, 1.0);
  std::vector<wire::Sprocket> out;
  const Teeth near = teeth_near(read.chain.teeth);
  for (int teeth = near.from; teeth <= near.to; ++teeth)
    out.push_back(sprocket_of(members, read, teeth, chosen[static_cast<std::size_t>(teeth)]));
  return out;
}

std::vector<wire::WoodWidth> widths_of(const std::vector<Member>& members, const DriveRead& read) {
  std::vector<wire::WoodWidth> out;
  const auto known = read.width();
  if (!known) return out;
  const double longest = read.bar.value_or(*known);
  for (const double share : {0.25, 0.5, 0.75, 1.0}) {
    const double width = share * longest;
    const std::vector<double> chosen = choices(members, read, width / *known);
    const auto best = std::max_element(chosen.begin(), chosen.end());
    wire::WoodWidth one;
    one.width_mm = 1e3 * width;
    one.teeth = static_cast<int>(best - chosen.begin());
    one.chance = *best;
    const Teeth near = teeth_near(read.chain.teeth);
    const char* edge = one.teeth == near.from ? ", the fewest looked at,"
                       : one.teeth == near.to ? ", the most looked at,"
                                              : "";
    one.sentence = base::number_text(100.0 * width, 0) + " cm in wood: " +
                   (one.teeth == 0 ? "it bogs with each sprocket looked at, pressed as usual"
                                   : std::to_string(one.teeth) + " teeth" + edge + " leave most for the wood") +
                   " in " + percent(one.chance) + " of the ways the unread could be.";
    out.push_back(std::move(one));
  }
  return out;
}

}  // namespace portwright::desk
