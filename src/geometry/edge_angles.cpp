#include "geometry/edge_angles.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/number_text.hpp"

namespace portwright::geometry {

namespace {

constexpr double turn = 2.0 * std::numbers::pi, degree = std::numbers::pi / 180.0;
constexpr double doubt = 2.81;  ///< sigmas between two readings that chance explains once in two hundred times
constexpr double half95 = 1.96;

/// The opening that a reading of an edge implies: offset + factor times the reading [rad].
struct Implied {
  int input = -1;
  double factor = 1.0, opens = 0.0;
};

Few<Implied, 5> openings(const Survey& survey, const EdgeSlot& edge, OpenedBy by) {
  Few<Implied, 5> out;
  const bool crown = by == OpenedBy::crown;
  for (const EdgeReading& reading : edge.readings) {
    if (reading.form == EdgeForm::height || reading.form == EdgeForm::drop) continue;
    const bool duration = reading.form == EdgeForm::duration, closes = reading.form == EdgeForm::closes;
    const double factor = (crown && (duration || closes) ? -1.0 : 1.0) * (duration ? 0.5 : 1.0);
    const double offset = !crown ? 0.0 : duration ? 0.5 * turn : closes ? turn : 0.0;
    const double value = survey.inputs[static_cast<std::size_t>(reading.input)].value;
    out.add({reading.input, factor, offset + factor * value});
  }
  return out;
}

double sigma_between(const Survey& survey, const Implied& a, const Implied& b) {
  std::vector<double> moves(survey.sources.size(), 0.0);
  for (const Input::Part& part : survey.inputs[static_cast<std::size_t>(a.input)].parts)
    moves[static_cast<std::size_t>(part.source)] += a.factor * part.factor;
  for (const Input::Part& part : survey.inputs[static_cast<std::size_t>(b.input)].parts)
    moves[static_cast<std::size_t>(part.source)] -= b.factor * part.factor;
  double squares = 0.0;
  for (std::size_t k = 0; k < moves.size(); ++k) {
    const double one = moves[k] * survey.sources[k].sigma;
    squares += one * one;
  }
  return std::sqrt(squares);
}

/// Gives each reading an error of its own such that the range of their mean reaches to the farthest.
void widen(Survey& survey, const Few<Implied, 5>& all) {
  const double n = static_cast<double>(all.size());
  double mean = 0.0, farthest = 0.0;
  for (const Implied& one : all) mean += one.opens / n;
  for (const Implied& one : all) farthest = std::max(farthest, std::abs(one.opens - mean));
  const double each = 1.05 * farthest / half95 * std::sqrt(n);
  for (const Implied& one : all) {
    Input& input = survey.inputs[static_cast<std::size_t>(one.input)];
    for (const Input::Part& part : input.parts) {
      ErrorSource& source = survey.sources[static_cast<std::size_t>(part.source)];
      if (source.name == input.path) source.sigma = std::max(source.sigma, each / std::abs(one.factor));
    }
    double squares = 0.0;
    for (const Input::Part& part : input.parts)
      squares += std::pow(part.factor * survey.sources[static_cast<std::size_t>(part.source)].sigma, 2);
    input.sigma = std::sqrt(squares);
  }
}

void name(Surveyor& surveyor, const Survey& survey, const std::string& port, const Few<Implied, 5>& all) {
  const auto by_opening = [](const Implied& a, const Implied& b) { return a.opens < b.opens; };
  const auto [first, last] = std::minmax_element(all.begin(), all.end(), by_opening);
  std::vector<std::string> paths;
  for (const Implied& one : all) paths.push_back(survey.inputs[static_cast<std::size_t>(one.input)].path);
  surveyor.error(base::ErrorCode::contradiction,
                 "the angles of " + port + " put its opening at " + base::number_text(first->opens / degree, 1) +
                     " and at " + base::number_text(last->opens / degree, 1) + " deg",
                 paths.front(), "read the edge again on the way down and on the way up, from one TDC", paths);
}

}  // namespace

void hold_angles(Surveyor& surveyor, Survey& survey) {
  const Engine engine = resolve(survey);
  if (engine.slider) return;
  for (const PortSlots& slots : survey.ports) {
    if (!slots.own_edge) continue;
    const OpenedBy by = opened_by(slots.kind);
    const Few<Implied, 5> all = openings(survey, by == OpenedBy::crown ? slots.roof : slots.floor, by);
    bool agree = true;
    for (const Implied& a : all)
      for (const Implied& b : all)
        if (std::abs(a.opens - b.opens) > doubt * sigma_between(survey, a, b) + 1e-9) agree = false;
    if (agree) continue;
    name(surveyor, survey, slots.name, all);
    widen(survey, all);
  }
}

}  // namespace portwright::geometry
