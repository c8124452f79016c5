#include "desk/seek_bar.hpp"

#include <algorithm>

#include "desk/chain_members.hpp"
#include "desk/turning.hpp"
#include "drive/wood.hpp"
#include "seek/judge.hpp"
#include "tables/assumptions.hpp"

namespace portwright::desk {
namespace {

base::Errors missing_of(const DriveRead& read) {
  base::Errors out;
  const auto need = [&](bool there, const char* path, const char* hint) {
    if (!there)
      out.push_back({base::ErrorCode::impossible,
                     std::string("Which speed a bar asks for waits for ") + path + ".",
                     path,
                     hint,
                     {}});
  };
  need(read.chain.pitch > 0.0, "drive.chain_pitch", "Half the distance over three rivets.");
  need(read.chain.teeth > 0.0, "drive.teeth", "Teeth of the sprocket.");
  need(read.width().has_value(), "drive.bar", "The bar, or the wood, that the saw was run in.");
  return out;
}

}  // namespace

base::ResultAll<BarSpeed> bar_speed(const Case& opened, double bar, int threads) {
  const geometry::Engine engine = geometry::resolve(opened.survey);
  const auto read = drive_of(opened, engine);
  if (!read) return only(read);
  if (base::Errors errors = missing_of(*read); !errors.empty()) return tl::unexpected(std::move(errors));
  const auto network = network_of(engine, opened.survey);
  if (!network) return tl::unexpected(network.error());
  const auto look = seek::look_at_stock(*network, threads, {});
  if (!look) return only(look);
  const drive::TorqueCurve curve(look->speeds, look->torques);
  const double drag = tables::assumption("chain_drag").value, exponent = tables::assumption("load_by_width").value;
  const double in_wood = std::clamp(read->in_cut.value_or(curve.power_peak()), curve.first(), curve.last());
  const double known = drive::chain_force(read->chain, curve.torque(in_wood), drag);
  const double force = drive::force_in(known, *read->width(), bar, exponent);
  const drive::Working working = drive::working(curve, read->chain, force, drag);
  const std::string length = seek::bar_text(bar);
  if (working.meets != drive::Meets::holds)
    return tl::unexpected(base::Errors{
        {base::ErrorCode::impossible,
         working.meets == drive::Meets::bogs
             ? "Pressed as in the wood that was read, the saw as it is bogs in a bar of " + length + "."
             : "A bar of " + length + " hardly loads the saw as it is: it turns faster than was looked at.",
         "wishes",
         "Say the speed instead: most torque at 8000 rpm.",
         {}}});
  BarSpeed out{working.speed, {}};
  out.text = "As it is, the saw pulls a bar of " + length +
             ", buried and pressed as in the wood that was read, at about " +
             base::number_text(std::round(working.speed * rpm_per_rev / 100.0) * 100.0, 0) +
             " rpm in the simulation. Cuts move that speed; the search holds it.";
  return out;
}

}  // namespace portwright::desk
