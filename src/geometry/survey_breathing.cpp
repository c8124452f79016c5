// Which reading fills which place of Breathing.

#include "geometry/survey_breathing.hpp"

#include "tables/materials.hpp"

namespace portwright::geometry {

using base::Dimension;

namespace {

void intake(Surveyor& s, BreathingSlots& out, const saw::Readings& r) {
  out.tract_length = s.slot("intake.tract.length", r.intake.tract.length, Dimension::length);
  out.tract_bore = s.slot("intake.tract.bore", r.intake.tract.bore, Dimension::length);
  out.throttle = s.slot("carburettor.throttle", r.carburettor.throttle, Dimension::length);
  out.air_box_volume = s.slot("air_box.volume", r.air_box.volume, Dimension::volume);
  out.filter_loss = s.slot("air_box.filter", r.air_box.filter, Dimension::pressure);
}

std::string material_names() {
  std::string list;
  for (const tables::MaterialRow& row : tables::materials()) list += (list.empty() ? "" : ", ") + row.name;
  return list;
}

/// The word becomes modulus and density. The modulus carries the doubt of both: a petal follows their ratio, and
/// density is far the better known.
void material(Surveyor& s, BreathingSlots& out, const std::string& word) {
  const std::string path = "intake.reed.material";
  const tables::MaterialRow* row = word.empty() ? nullptr : tables::material(word);
  if (row == nullptr) {
    if (!word.empty())
      s.error(base::ErrorCode::unreadable, "\"" + word + "\" is not a reed material known here", path,
              "known here: " + material_names());
    out.reed_modulus.need = out.reed_density.need = s.need(path);
    return;
  }
  out.reed_modulus.input = s.input_of_material(path, *row);
  out.reed_density.constant = row->density;
}

void reed(Surveyor& s, BreathingSlots& out, const saw::Reed& r) {
  out.petals = s.number("intake.reed.petals", r.petals);
  out.reed_length = s.slot("intake.reed.length", r.length, Dimension::length);
  out.reed_width = s.slot("intake.reed.width", r.width, Dimension::length);
  out.reed_thickness = s.slot("intake.reed.thickness", r.thickness, Dimension::length);
  material(s, out, r.material);
  out.reed_window_length = s.slot("intake.reed.window.length", r.window.length, Dimension::length);
  out.reed_window_width = s.slot("intake.reed.window.width", r.window.width, Dimension::length);
  out.reed_stop = s.slot("intake.reed.stop", r.stop, Dimension::length);
  out.block_angle = s.slot("intake.reed.block_angle", r.block_angle, Dimension::angle);
}

/// Items as typed; one that cannot be used stays in its place and waits, for the others count from it.
std::vector<Slot> several(Surveyor& s, const std::string& path, const saw::Several& list, Dimension dimension,
                          std::size_t most) {
  if (list.items.size() > most)
    s.error(base::ErrorCode::out_of_range, "more than " + std::to_string(most) + " in " + path, path,
            "the first " + std::to_string(most) + " are taken");
  std::vector<Slot> out;
  for (std::size_t k = 0; k < std::min(most, list.items.size()); ++k) {
    Slot slot;
    slot.input = s.input_of(path, k, list.items[k], dimension);
    if (slot.input < 0) slot.need = s.need(path);
    out.push_back(slot);
  }
  return out;
}

/// Pairs whose first halves rise (or stand still, for a step of a pipe). A pair with a half that cannot be used is left
/// out: its neighbours bridge it. One cause of error for all firsts and one for all seconds, since what is wrong there
/// is the tape's beginning, the caliper, the mark.
std::vector<PairSlots> pairs(Surveyor& s, const std::string& path, const saw::Pairs& list, Dimension first,
                             Dimension second, std::size_t most, bool steps) {
  std::vector<PairSlots> out;
  double last = -1e300;
  for (const auto& [one, other] : list.rows) {
    if (!one.value || !other.value) continue;
    if (out.size() == most) {
      s.error(base::ErrorCode::out_of_range, "more than " + std::to_string(most) + " pairs in " + path, path,
              "the first " + std::to_string(most) + " are taken");
      return out;
    }
    if (one.value->si < last || (one.value->si == last && !steps)) {
      s.error(base::ErrorCode::contradiction, one.text + " does not come after the pair before it", path,
              "pairs in rising order; this one is left out");
      continue;
    }
    PairSlots pair;
    pair.first.input = s.input_of_one_cause(path + ".first", one, first);
    if (pair.first.input >= 0) pair.second.input = s.input_of_one_cause(path + ".second", other, second);
    if (pair.first.input < 0 || pair.second.input < 0) continue;
    last = one.value->si;
    out.push_back(pair);
  }
  return out;
}

OctaneScale scale_of(const std::string& method) {
  if (method == "pump") return OctaneScale::pump;
  if (method == "research") return OctaneScale::research;
  return method == "motor" ? OctaneScale::motor : OctaneScale::unknown;
}

void exhaust(Surveyor& s, BreathingSlots& out, const saw::Readings& r) {
  out.boxes = several(s, "muffler.boxes", r.muffler.boxes, Dimension::volume, Few<Known, 6>::capacity);
  out.boxes_need = s.need("muffler.boxes");
  out.baffles = several(s, "muffler.baffles", r.muffler.baffles, Dimension::area, Few<Known, 6>::capacity);
  out.screen_known = r.muffler.screen.has_value();
  out.screen = r.muffler.screen.value_or(false);
  out.pipe = pairs(s, "pipe.profile", r.pipe.profile, Dimension::length, Dimension::length,
                   Few<PipeStation, 24>::capacity, true);
}

void spark_and_day(Surveyor& s, BreathingSlots& out, const saw::Readings& r) {
  out.curve = pairs(s, "ignition.curve", r.ignition.curve, Dimension::speed, Dimension::angle,
                    Few<AdvancePoint, 16>::capacity, false);
  out.limiter = s.slot("ignition.limiter", r.ignition.limiter, Dimension::speed);
  out.octane_scale = scale_of(r.fuel.octane.method);
  out.air_fuel = s.number("fuel.air_fuel", r.fuel.air_fuel);
  out.altitude = s.slot("day.altitude", r.day.altitude, Dimension::length);
  out.temperature = s.slot("day.temperature", r.day.temperature, Dimension::temperature);
  out.humidity = s.slot("day.humidity", r.day.humidity, Dimension::share);
}

Slot half_of_power(Surveyor& s, const std::string& path, const saw::PowerAt& r,
                   const std::optional<base::Quantity>& half, Dimension dimension) {
  Slot slot;
  if (half) slot.input = s.input_of(path, 0, saw::Typed{r.text, half}, dimension);
  if (slot.input < 0) slot.need = s.need(path);
  return slot;
}

void evidence(Surveyor& s, BreathingSlots& out, const saw::Evidence& r) {
  const saw::PowerAt& power = r.stock_power;
  out.stock_power = half_of_power(s, "readings.stock_power", power, power.power, Dimension::power);
  out.stock_power_speed = half_of_power(s, "readings.stock_power.at", power, power.speed, Dimension::speed);
  out.gauge_volume = s.slot("readings.gauge_volume", r.gauge_volume, Dimension::volume);
}

}  // namespace

void survey_breathing(Surveyor& surveyor, Survey& survey, const saw::Readings& readings) {
  BreathingSlots& out = survey.breathing;
  intake(surveyor, out, readings);
  reed(surveyor, out, readings.intake.reed);
  exhaust(surveyor, out, readings);
  spark_and_day(surveyor, out, readings);
  evidence(surveyor, out, readings.evidence);
}

}  // namespace portwright::geometry
