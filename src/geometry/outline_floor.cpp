#include "geometry/outline_floor.hpp"

#include <cmath>

#include "base/number_text.hpp"
#include "geometry/edge.hpp"

namespace portwright::geometry {

namespace {

constexpr double doubt = 2.81;  ///< sigmas between two readings that chance explains once in two hundred times
constexpr double half95 = 1.96;

std::string mm(double metres) { return base::number_text(metres * 1e3, 2) + " mm"; }

/// The edge that does not time the port, as read, below where the outline has it [m]. `room` is overwritten.
base::Known below_outline(const Survey& survey, std::size_t entry, const std::vector<double>& values, Engine& room) {
  resolve(survey, values, room);
  const PortSlots& slots = survey.ports[entry];
  const bool crown = opened_by(slots.kind) == OpenedBy::crown;
  const EdgeReading& other = (crown ? slots.floor : slots.roof).readings[0];
  const Frame frame{room.slider ? &*room.slider : nullptr, room.slider_known, room.crown_at_tdc,
                    skirt_at(room, slots.kind)};
  const base::Known read =
      level_from(other.form, values[static_cast<std::size_t>(other.input)], opened_by(slots.kind), frame);
  return read - (crown ? room.ports[entry].floor : room.ports[entry].roof);
}

/// One sigma of that distance: every source of error by itself.
double sigma_of(const Survey& survey, std::size_t entry, double gap, Engine& room) {
  double squares = 0.0;
  for (std::size_t k = 0; k < survey.sources.size(); ++k) {
    std::vector<double> moved = survey.values();
    for (std::size_t i = 0; i < moved.size(); ++i)
      for (const Input::Part& part : survey.inputs[i].parts)
        if (part.source == static_cast<int>(k)) moved[i] += part.factor * survey.sources[k].sigma;
    const double one = below_outline(survey, entry, moved, room).value_or(gap) - gap;
    squares += one * one;
  }
  return std::sqrt(squares);
}

void widen(Survey& survey, const Slot& line, double gap) {
  Input& input = survey.inputs[static_cast<std::size_t>(line.input)];
  const double sigma = 1.05 * 0.5 * std::abs(gap) / half95;  // a line too far out moves both ends
  if (input.parts.empty() || sigma <= input.sigma) return;
  input.sigma = survey.sources[static_cast<std::size_t>(input.parts[0].source)].sigma = sigma;
}

}  // namespace

void hold_outlines(Surveyor& surveyor, Survey& survey) {
  Engine engine;
  for (std::size_t i = 0; i < survey.ports.size(); ++i) {
    const PortSlots& slots = survey.ports[i];
    if (slots.traced.empty() || slots.roof.readings.empty() || slots.floor.readings.empty()) continue;
    if (slots.twin_of >= 0 && !slots.own_edge) continue;
    const base::Known gap = below_outline(survey, i, survey.values(), engine);
    if (!gap.known() || std::abs(*gap) <= doubt * sigma_of(survey, i, *gap, engine) + 1e-9) continue;
    const bool crown = opened_by(slots.kind) == OpenedBy::crown;
    const std::string edge = crown ? "floor" : "roof",
                      path = "port." + slots.name + (slots.twin_of >= 0 ? ".twin." : ".");
    surveyor.error(base::ErrorCode::contradiction,
                   "the " + edge + " of " + slots.name + " was read " + mm(std::abs(*gap)) +
                       (*gap > 0.0 ? " lower" : " higher") + " than its outline has it",
                   path + edge, "the outline is kept; read the " + edge + " again, or rub the window again",
                   {path + edge, "port." + slots.name + ".outline"});
    widen(survey, slots.line_down, *gap);
  }
}

}  // namespace portwright::geometry
