#include "geometry/survey_edges.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/number_text.hpp"
#include "geometry/edge.hpp"
#include "numerics/weights.hpp"

namespace portwright::geometry {

using base::Dimension;
using base::Known;
using base::number_text;

namespace {

constexpr double turn = 2.0 * std::numbers::pi;
constexpr double degree = std::numbers::pi / 180.0;
constexpr double doubt = 2.81;  ///< sigmas between two readings that chance explains once in two hundred times
constexpr double half95 = 1.96;

bool is_angle(EdgeForm form) { return form != EdgeForm::height && form != EdgeForm::drop; }

std::string mm(double metres) { return number_text(metres * 1e3, 2) + " mm"; }
std::string deg(double radians) { return number_text(radians / degree, 1) + " deg"; }

// ---- reading the forms ------------------------------------------------------------------------------------------------

/// Opening and duration are mixed up often enough that an unlikely one is asked about, never guessed.
bool asked_about(Surveyor& s, const saw::Reading& reading, EdgeForm form, OpenedBy by, const std::string& path) {
  if (!reading.readable()) return false;
  const double value = reading.repeats.front().value ? reading.repeats.front().value->si : 0.0;
  const std::string text = typed_text(reading);
  const double most = (by == OpenedBy::crown ? 140.0 : 110.0) * degree;
  if (form == EdgeForm::opens && value > most) {
    s.error(base::ErrorCode::unreadable, text + " is late for an opening; it may be a duration", path,
            "type it under the name it was read as", {"opens = \"" + text + "\"", "duration = \"" + text + "\""});
    return true;
  }
  if (form == EdgeForm::duration && value < 110.0 * degree) {
    s.error(base::ErrorCode::unreadable, text + " is short for a duration; it may be an opening", path,
            "type it under the name it was read as", {"duration = \"" + text + "\"", "opens = \"" + text + "\""});
    return true;
  }
  return false;
}

/// Crown-opened windows close in the second half of the turn; an angle typed below 180 is before TDC.
saw::Reading closing_after_tdc(saw::Reading reading, OpenedBy by) {
  if (by == OpenedBy::skirt) return reading;
  for (saw::Typed& typed : reading.repeats)
    if (typed.value && typed.value->si < std::numbers::pi) typed.value->si = turn - typed.value->si;
  return reading;
}

/// The shared error of a set-up acts on an angle by its sense, and not at all on a difference of two angles.
void set_shared(Survey& survey, int input, double factor) {
  Input& i = survey.inputs[static_cast<std::size_t>(input)];
  std::erase_if(i.parts, [&](Input::Part& part) {
    if (survey.sources[static_cast<std::size_t>(part.source)].name == i.path) return false;
    part.factor = factor;
    return factor == 0.0;
  });
  double squares = 0.0;
  for (const Input::Part& part : i.parts) {
    const double one = part.factor * survey.sources[static_cast<std::size_t>(part.source)].sigma;
    squares += one * one;
  }
  i.sigma = std::sqrt(squares);
}

}  // namespace

void read_edges(Surveyor& s, Survey& survey, PortSlots& port, const saw::Edges& edges, const std::string& path,
                const std::string& kind) {
  const OpenedBy by = opened_by(port.kind);
  const bool crown = by == OpenedBy::crown;
  EdgeSlot& timed = crown ? port.roof : port.floor;
  EdgeSlot& other = crown ? port.floor : port.roof;
  const auto add = [&](EdgeSlot& edge, EdgeForm form, const char* key, const saw::Reading& reading, Dimension dimension) {
    if (!reading.readable() || (is_angle(form) && asked_about(s, reading, form, by, path + key))) return;
    const int input = s.input_of(path + key, form == EdgeForm::closes ? closing_after_tdc(reading, by) : reading, dimension, kind);
    if (input < 0) return;
    if (form == EdgeForm::opens) set_shared(survey, input, crown ? 1.0 : -1.0);
    if (form == EdgeForm::duration || form == EdgeForm::drop) set_shared(survey, input, 0.0);
    edge.readings.add({form, input, 1.0});
  };
  add(timed, EdgeForm::opens, "opens", edges.opens, Dimension::angle);
  add(timed, EdgeForm::closes, "closes", edges.closes, Dimension::angle);
  add(timed, EdgeForm::duration, "duration", edges.duration, Dimension::angle);
  add(timed, EdgeForm::height, crown ? "roof" : "floor", crown ? edges.roof : edges.floor, Dimension::length);
  add(timed, EdgeForm::drop, "drop", edges.drop, Dimension::length);
  add(other, EdgeForm::height, crown ? "floor" : "roof", crown ? edges.floor : edges.roof, Dimension::length);
  timed.need = s.need(path + "opens");
  other.need = s.need(path + (crown ? "floor" : "roof"));
}

namespace {

// ---- holding readings against each other ------------------------------------------------------------------------------

/// One edge with its readings brought to levels, and how every error source moves each of them.
struct Weighing {
  EdgeSlot* edge = nullptr;
  PortKind kind = PortKind::exhaust;
  std::string port, name;
  std::vector<Known> levels;
  std::vector<std::vector<double>> moves;  ///< [reading][source] [m]

  [[nodiscard]] double covariance(std::size_t i, std::size_t j) const {
    double sum = 0.0;
    for (std::size_t k = 0; k < moves[i].size(); ++k) sum += moves[i][k] * moves[j][k];
    return sum;
  }
  [[nodiscard]] double sigma(std::size_t i) const { return std::sqrt(covariance(i, i)); }
  [[nodiscard]] double sigma_between(std::size_t i, std::size_t j) const {
    return std::sqrt(std::max(0.0, covariance(i, i) + covariance(j, j) - 2.0 * covariance(i, j)));
  }
};

class Settler {
 public:
  Settler(Surveyor& surveyor, Survey& survey) : s_(surveyor), survey_(survey), values_(survey.values()) {}

  void run() {
    wheel_zero();
    both_ways();
    weigh_crown();
    weigh_edges();
    values_ = survey_.values();
    impossible();
  }

 private:
  [[nodiscard]] const Input& input(int i) const { return survey_.inputs[static_cast<std::size_t>(i)]; }
  [[nodiscard]] Frame frame(const Engine& engine, PortKind kind) const {
    return {engine.slider ? &*engine.slider : nullptr, engine.slider_known, engine.crown_at_tdc, skirt_at(engine, kind)};
  }
  EdgeSlot& timed(PortSlots& port) const { return opened_by(port.kind) == OpenedBy::crown ? port.roof : port.floor; }
  void wheel_zero();
  void both_ways();
  void weigh_crown();
  void weigh_edges();
  void weigh(Weighing& w);
  void contradiction(Weighing& w, EdgeCheck& check);
  void wheel_verdict(const Engine& engine);
  [[nodiscard]] double zero_that_explains(const Engine& engine, PortKind kind, const EdgeSlot& edge) const;
  void impossible();

  Surveyor& s_;
  Survey& survey_;
  std::vector<double> values_;
};

void Settler::wheel_zero() {
  for (const ErrorSource& source : survey_.sources)
    if (source.name.starts_with("wheel zero")) {
      survey_.zero_sigma = source.sigma;
      return;
    }
}

void Settler::both_ways() {
  if (survey_.stroke.input < 0) return;
  const double stroke = input(survey_.stroke.input).value;
  const double rod = survey_.rod.input >= 0 ? input(survey_.rod.input).value : stroke * input(survey_.rod_ratio.input).value;
  const CrankSlider slider(stroke, rod);
  for (PortSlots& port : survey_.ports) {
    BothWays both;
    both.kind = port.kind;
    int angles = 0, levels = 0;
    for (const EdgeReading& reading : timed(port).readings)
      if (is_angle(reading.form)) both.angle = reading, ++angles;
      else both.level = reading, ++levels;
    if (angles == 0 || levels == 0) continue;
    const Input& angle = input(both.angle.input);
    double own = 0.0;
    for (const Input::Part& part : angle.parts)
      if (survey_.sources[static_cast<std::size_t>(part.source)].name == angle.path)
        own = survey_.sources[static_cast<std::size_t>(part.source)].sigma;
    const double steep = both.angle.form == EdgeForm::duration ? 0.5 : 1.0;
    both.sigma = std::max(1e-6, std::hypot(own * steep * std::abs(slider.velocity(angle.value)), input(both.level.input).sigma));
    survey_.both_ways.push_back(both);
  }
}

void Settler::weigh_crown() {
  if (survey_.crown_at_tdc.input < 0 || survey_.crown_above_deck.input < 0 || survey_.base_gasket.input < 0) return;
  const Input& direct = input(survey_.crown_at_tdc.input);
  const Input& deck = input(survey_.crown_above_deck.input);
  const Input& gasket = input(survey_.base_gasket.input);
  const double a = direct.sigma * direct.sigma + 1e-18, b = deck.sigma * deck.sigma + gasket.sigma * gasket.sigma + 1e-18;
  survey_.crown_weight = b / (a + b);
  const double by_deck = deck.value - gasket.value, gap = direct.value - by_deck;
  if (std::abs(gap) <= doubt * std::sqrt(a + b)) return;
  s_.error(base::ErrorCode::contradiction,
           "the crown stands " + mm(direct.value) + " above the base face by one reading and " + mm(by_deck) + " by deck and gasket",
           "cylinder.crown_at_tdc", "measure the compressed gasket again, or the crown with the gasket torqued down",
           {"cylinder.crown_at_tdc", "cylinder.crown_above_deck"});
}

void Settler::weigh_edges() {
  std::vector<Weighing> edges;
  for (PortSlots& port : survey_.ports) {
    const OpenedBy by = opened_by(port.kind);
    if (timed(port).readings.empty()) continue;
    edges.push_back({&timed(port), port.kind, port.name + (port.twin_of >= 0 ? ".twin" : ""), by == OpenedBy::crown ? "roof" : "floor", {}, {}});
  }
  Engine engine;
  resolve(survey_, values_, engine);
  const auto levels = [&](const Engine& e, const std::vector<double>& values, const Weighing& w) {
    std::vector<Known> out;
    for (const EdgeReading& reading : w.edge->readings)
      out.push_back(level_from(reading.form, values[static_cast<std::size_t>(reading.input)], opened_by(w.kind), frame(e, w.kind)));
    return out;
  };
  for (Weighing& w : edges) {
    w.levels = levels(engine, values_, w);
    w.moves.assign(w.levels.size(), std::vector<double>(survey_.sources.size(), 0.0));
  }
  for (std::size_t k = 0; k < survey_.sources.size(); ++k) {
    std::vector<double> moved = values_;
    for (std::size_t i = 0; i < survey_.inputs.size(); ++i)
      for (const Input::Part& part : survey_.inputs[i].parts)
        if (part.source == static_cast<int>(k)) moved[i] += part.factor * survey_.sources[k].sigma;
    Engine e;
    resolve(survey_, moved, e);
    for (Weighing& w : edges) {
      const std::vector<Known> there = levels(e, moved, w);
      for (std::size_t i = 0; i < there.size(); ++i)
        if (there[i].known() && w.levels[i].known()) w.moves[i][k] = *there[i] - *w.levels[i];
    }
  }
  for (Weighing& w : edges) weigh(w);
  wheel_verdict(engine);
}

void Settler::weigh(Weighing& w) {
  EdgeCheck check{.port = w.port, .edge = w.name, .rows = {}, .mend = {}};
  std::vector<std::size_t> known;
  Engine engine;
  resolve(survey_, values_, engine);
  double least = 1e9, greatest = -1e9;
  for (std::size_t i = 0; i < w.levels.size(); ++i) {
    if (!w.levels[i].known()) continue;
    known.push_back(i);
    least = std::min(least, *w.levels[i]);
    greatest = std::max(greatest, *w.levels[i]);
    check.rows.push_back({input(w.edge->readings[i].input).path, *w.levels[i], w.sigma(i), engine.crown_at_tdc - w.levels[i]});
  }
  if (known.size() > 1) {
    const std::size_t n = known.size();
    std::vector<double> covariance(n * n);
    for (std::size_t i = 0; i < n; ++i)
      for (std::size_t j = 0; j < n; ++j) covariance[i * n + j] = w.covariance(known[i], known[j]);
    const std::vector<double> weights = numerics::best_weights(covariance, static_cast<int>(n));
    for (std::size_t i = 0; i < n; ++i) w.edge->readings[known[i]].weight = weights[i];
    check.gap = greatest - least;
    for (std::size_t i = 0; i < n; ++i)
      for (std::size_t j = 0; j < i; ++j)
        if (std::abs(*w.levels[known[i]] - *w.levels[known[j]]) > doubt * w.sigma_between(known[i], known[j]) + 1e-9)
          check.agrees = false;
    if (!check.agrees) contradiction(w, check);
  }
  if (!check.rows.empty()) survey_.checks.push_back(std::move(check));
}

/// Neither reading is dropped: both are weighed, and the edge is widened until its range holds both.
void Settler::contradiction(Weighing& w, EdgeCheck& check) {
  double mean = 0.0, farthest = 0.0;
  for (std::size_t i = 0; i < w.levels.size(); ++i)
    if (w.levels[i].known()) mean += w.edge->readings[i].weight * *w.levels[i];
  std::vector<std::string> paths;
  for (const EdgeCheck::Row& row : check.rows) {
    farthest = std::max(farthest, std::abs(row.y - mean));
    paths.push_back(row.path);
  }
  const std::string name = "unexplained gap of port." + w.port + "." + w.name;
  Input stretch{.path = name, .dimension = Dimension::length, .sigma = 1.05 * farthest / half95, .source = "own arithmetic", .parts = {}};
  stretch.parts.push_back({s_.source(name, stretch.sigma), 1.0});
  survey_.inputs.push_back(std::move(stretch));
  w.edge->stretch = static_cast<int>(survey_.inputs.size()) - 1;
  check.mend = "read the " + w.name + " again, by height with the cylinder off and by wheel from both sides of TDC";
  std::string said;
  for (const EdgeCheck::Row& row : check.rows)
    said += (said.empty() ? "" : ", ") + row.path.substr(row.path.rfind('.') + 1) + " puts it at " +
            (row.height.known() ? mm(*row.height) : mm(row.y) + " below TDC");
  s_.error(base::ErrorCode::contradiction, "readings of the " + check.port + " " + check.edge + " disagree by " + mm(check.gap) + ": " + said,
           "port." + w.port + "." + w.name, check.mend, paths);
}

/// Wheel zero [rad] that would bring this edge's angle to its level; positive: the wheel reads late.
double Settler::zero_that_explains(const Engine& engine, PortKind kind, const EdgeSlot& edge) const {
  const OpenedBy by = opened_by(kind);
  const EdgeReading *angle = nullptr, *level = nullptr;
  for (const EdgeReading& reading : edge.readings) {
    if (reading.form == EdgeForm::opens || reading.form == EdgeForm::closes) angle = &reading;
    if (!is_angle(reading.form)) level = &reading;
  }
  if (angle == nullptr || level == nullptr || !engine.slider) return NAN;
  const Known passed = passed_from(level->form, values_[static_cast<std::size_t>(level->input)], by, frame(engine, kind));
  if (!passed.known()) return NAN;
  const bool down = (by == OpenedBy::crown) == (angle->form == EdgeForm::opens);
  const double truth = down ? engine.slider->angle_down(*passed) : engine.slider->angle_up(*passed);
  const double read = values_[static_cast<std::size_t>(angle->input)];
  const bool before = by == OpenedBy::skirt && angle->form == EdgeForm::opens;
  return std::remainder((before ? turn - read : read) - truth, turn);
}

void Settler::wheel_verdict(const Engine& engine) {
  const bool disagree = std::any_of(survey_.checks.begin(), survey_.checks.end(), [](const EdgeCheck& c) { return !c.agrees; });
  if (!disagree) return;
  std::vector<double> zeros;
  for (PortSlots& port : survey_.ports) {
    const double zero = zero_that_explains(engine, port.kind, timed(port));
    if (!std::isnan(zero)) zeros.push_back(zero);
  }
  if (zeros.size() < 2) return;
  double mean = 0.0;
  for (const double zero : zeros) mean += zero / static_cast<double>(zeros.size());
  for (const double zero : zeros)
    if (std::abs(zero - mean) > 1.0 * degree) return;
  if (std::abs(mean) < 0.8 * degree) return;
  static constexpr const char* words[] = {"", "", "both", "all three", "all four", "all five", "all six"};
  const std::string all = zeros.size() < std::size(words) ? words[zeros.size()] : "all " + std::to_string(zeros.size());
  survey_.wheel_verdict = "wheel zero off by " + deg(std::abs(mean)) + " (it reads " + (mean > 0 ? "late" : "early") + ") explains " + all + " edges";
  for (EdgeCheck& check : survey_.checks)
    if (!check.agrees) check.mend = survey_.wheel_verdict + "; find TDC again with a stop from both sides";
  for (base::Error& error : survey_.errors)
    if (error.code == base::ErrorCode::contradiction && error.path.starts_with("port."))
      error.hint = survey_.wheel_verdict + "; find TDC again with a stop from both sides";
}

// ---- what no engine can have ------------------------------------------------------------------------------------------

void Settler::impossible() {
  Engine engine;
  resolve(survey_, values_, engine);
  for (std::size_t i = 0; i < survey_.ports.size(); ++i) {
    PortSlots& slots = survey_.ports[i];
    const Port& port = engine.ports[i];
    const std::string path = "port." + slots.name + (slots.twin_of >= 0 ? ".twin." : ".");
    const bool crown = opened_by(slots.kind) == OpenedBy::crown;
    if (port.passed.known() && *port.passed <= 0.0) {
      s_.error(base::ErrorCode::impossible,
               std::string("the ") + (crown ? "roof" : "floor") + " of " + slots.name + " is passed " + mm(-*port.passed) +
                   " above TDC, where the piston never comes",
               path + (crown ? "roof" : "floor"), "read the edge again, or the crown's height at TDC");
      timed(slots).readings.clear();
    } else if (port.passed.known() && engine.stroke.known() && *port.passed >= *engine.stroke) {
      s_.error(base::ErrorCode::impossible, "the " + slots.name + " window's edge lies below BDC, where the piston never comes",
               path + (crown ? "roof" : "floor"), "read the edge again, or the crown's height at TDC");
      timed(slots).readings.clear();
    } else if (port.roof.known() && port.floor.known() && *port.floor <= *port.roof) {
      s_.error(base::ErrorCode::impossible, "the floor of " + slots.name + " is not below its roof", path + "floor",
               "heights are above the base face; the roof's is the greater");
      (crown ? slots.floor : slots.roof).readings.clear();
    }
  }
  resolve(survey_, values_, engine);
  for (base::Error& error : impossibilities(survey_, engine)) survey_.errors.push_back(std::move(error));
  for (std::size_t i = 0; i < survey_.ports.size(); ++i) {
    PortSlots& slots = survey_.ports[i];
    if (engine.ports[i].traced || rebuild_window(engine.ports[i], engine.bore) == ShapeFault::none) continue;
    slots.width = Slot{.need = s_.need("port." + slots.name + ".width")};
  }
}

}  // namespace

void settle_edges(Surveyor& surveyor, Survey& survey) { Settler(surveyor, survey).run(); }

}  // namespace portwright::geometry
