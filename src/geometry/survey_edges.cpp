#include "geometry/survey_edges.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>

#include "base/number_text.hpp"
#include "geometry/edge.hpp"
#include "numerics/weights.hpp"
#include "tables/box.hpp"

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

// ---- reading the forms
// ------------------------------------------------------------------------------------------------

/// Opening and duration are mixed up often enough that an unlikely one is asked about, never guessed.
bool asked_about(Surveyor& s, const saw::Reading& reading, EdgeForm form, PortKind kind, const std::string& path) {
  double least = turn, greatest = 0.0;
  for (const saw::Typed& typed : reading.repeats) {
    if (!typed.value) continue;
    least = std::min(least, typed.value->si);
    greatest = std::max(greatest, typed.value->si);
  }
  const std::string text = typed_text(reading);
  const bool crown = opened_by(kind) == OpenedBy::crown;
  // A transfer's duration and its opening lie in one range, so only the exhaust's and the intake's durations can be
  // told.
  const double shortest = kind == PortKind::exhaust || !crown ? 110.0 * degree : 0.0;
  if (form == EdgeForm::opens && greatest > (crown ? 140.0 : 110.0) * degree) {
    s.error(base::ErrorCode::unreadable, text + " is late for an opening; it may be a duration", path,
            "type it under the name it was read as", {"opens = \"" + text + "\"", "duration = \"" + text + "\""});
    return true;
  }
  if (form == EdgeForm::duration && least < shortest) {
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
  const auto add = [&](EdgeSlot& edge, EdgeForm form, const char* key, const saw::Reading& reading,
                       Dimension dimension) {
    if (!reading.readable() || (is_angle(form) && asked_about(s, reading, form, port.kind, path + key))) return;
    const int input =
        s.input_of(path + key, form == EdgeForm::closes ? closing_after_tdc(reading, by) : reading, dimension, kind);
    if (input < 0) return;
    if (form == EdgeForm::opens) set_shared(survey, input, crown ? 1.0 : -1.0);
    if (form == EdgeForm::duration || form == EdgeForm::drop) set_shared(survey, input, 0.0);
    edge.readings.add({.form = form, .input = input});
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

// ---- holding readings against each other
// ------------------------------------------------------------------------------

/// One edge with its readings brought to the crown drop at which it is passed and to its own level, and how every error
/// source moves each of them.
struct Weighing {
  std::size_t entry = 0;
  EdgeSlot* edge = nullptr;
  PortKind kind = PortKind::exhaust;
  std::string port, name;
  std::vector<Known> passed, levels;
  std::vector<std::vector<double>> moves, level_moves;  ///< [reading][source] [m]
  bool agrees = true;

  [[nodiscard]] static double covariance(const std::vector<double>& a, const std::vector<double>& b) {
    double sum = 0.0;
    for (std::size_t k = 0; k < a.size(); ++k) sum += a[k] * b[k];
    return sum;
  }
  [[nodiscard]] double sigma_between(std::size_t i, std::size_t j) const {
    double sum = 0.0;
    for (std::size_t k = 0; k < moves[i].size(); ++k) sum += (moves[i][k] - moves[j][k]) * (moves[i][k] - moves[j][k]);
    return std::sqrt(sum);
  }
};

class Settler {
 public:
  Settler(Surveyor& surveyor, Survey& survey) : s_(surveyor), survey_(survey), values_(survey.values()) {}

  /// Disagreements are judged with the rod as read or as usual, so that a rod fitted to the edges cannot hide them;
  /// only edges that agree say something of the rod.
  void run() {
    wheel_zero();
    weigh_crown();
    std::vector<Weighing> edges = weighings();
    for (Weighing& w : edges) weigh(w);
    verdict();
    for (const Weighing& w : edges) both_ways(w);
    rod_in_reason();
    same_edges();
    values_ = survey_.values();
    impossible();
  }

 private:
  [[nodiscard]] const Input& input(int i) const { return survey_.inputs[static_cast<std::size_t>(i)]; }
  [[nodiscard]] double value(int i) const { return values_[static_cast<std::size_t>(i)]; }
  [[nodiscard]] Frame frame(const Engine& engine, PortKind kind) const {
    return {engine.slider ? &*engine.slider : nullptr, engine.slider_known, engine.crown_at_tdc,
            skirt_at(engine, kind)};
  }
  EdgeSlot& timed(PortSlots& port) const { return opened_by(port.kind) == OpenedBy::crown ? port.roof : port.floor; }
  [[nodiscard]] bool takes(const Input& in, int source) const {
    return std::any_of(in.parts.begin(), in.parts.end(),
                       [&](const Input::Part& part) { return part.source == source; });
  }
  int stretch_input(const std::string& name, double sigma);
  void wheel_zero();
  void weigh_crown();
  [[nodiscard]] std::vector<Weighing> weighings();
  void levels(const Engine& engine, const std::vector<double>& values, const Weighing& w, std::vector<Known>& passed,
              std::vector<Known>& level) const;
  void weigh(Weighing& w);
  void contradiction(Weighing& w, EdgeCheck& check, double mean);
  void both_ways(const Weighing& w);
  void rod_in_reason();
  void same_edges();
  void verdict();
  struct Explained;
  [[nodiscard]] std::vector<Explained> explanations();
  void blame(const std::string& what, const std::string& mend);
  void impossible();

  Surveyor& s_;
  Survey& survey_;
  std::vector<double> values_;
  int zero_source_ = -1;
};

int Settler::stretch_input(const std::string& name, double sigma) {
  Input stretch{.path = name, .dimension = Dimension::length, .sigma = sigma, .source = "own arithmetic", .parts = {}};
  stretch.parts.push_back({s_.source(name, sigma), 1.0});
  survey_.inputs.push_back(std::move(stretch));
  return static_cast<int>(survey_.inputs.size()) - 1;
}

void Settler::wheel_zero() {
  for (std::size_t k = 0; k < survey_.sources.size(); ++k)
    if (survey_.sources[k].name.starts_with("wheel zero")) {
      zero_source_ = static_cast<int>(k);
      survey_.zero_sigma = survey_.sources[k].sigma;
      return;
    }
}

void Settler::weigh_crown() {
  if (survey_.crown_at_tdc.input < 0 || survey_.crown_above_deck.input < 0 || survey_.base_gasket.input < 0) return;
  const Input& direct = input(survey_.crown_at_tdc.input);
  const Input& deck = input(survey_.crown_above_deck.input);
  const Input& gasket = input(survey_.base_gasket.input);
  const double a = direct.sigma * direct.sigma + 1e-18,
               b = deck.sigma * deck.sigma + gasket.sigma * gasket.sigma + 1e-18;
  survey_.crown_weight = b / (a + b);
  const double by_deck = deck.value - gasket.value, gap = direct.value - by_deck;
  if (std::abs(gap) <= doubt * std::sqrt(a + b)) return;
  s_.error(base::ErrorCode::contradiction,
           "the crown stands " + mm(direct.value) + " above the base face by one reading and " + mm(by_deck) +
               " by deck and gasket",
           "cylinder.crown_at_tdc", "measure the compressed gasket again, or the crown with the gasket torqued down",
           {"cylinder.crown_at_tdc", "cylinder.crown_above_deck"});
  const double farthest = std::abs(gap) * std::max(survey_.crown_weight, 1.0 - survey_.crown_weight);
  survey_.crown_stretch = stretch_input("unexplained gap of cylinder.crown_at_tdc", 1.05 * farthest / half95);
  values_ = survey_.values();
}

void Settler::levels(const Engine& engine, const std::vector<double>& values, const Weighing& w,
                     std::vector<Known>& passed, std::vector<Known>& level) const {
  const Frame in = frame(engine, w.kind);
  passed.clear();
  level.clear();
  for (const EdgeReading& reading : w.edge->readings) {
    const double v = values[static_cast<std::size_t>(reading.input)];
    passed.push_back(passed_from(reading.form, v, opened_by(w.kind), in));
    level.push_back(level_from(reading.form, v, opened_by(w.kind), in));
  }
}

/// Every timed edge that was read, with the effect of each error source on each of its readings.
std::vector<Weighing> Settler::weighings() {
  std::vector<Weighing> edges;
  for (std::size_t i = 0; i < survey_.ports.size(); ++i) {
    PortSlots& port = survey_.ports[i];
    if (timed(port).readings.empty() || !port.own_edge) continue;
    Weighing w;
    w.entry = i;
    w.edge = &timed(port);
    w.kind = port.kind;
    w.port = port.name + (port.twin_of >= 0 ? ".twin" : "");
    w.name = opened_by(port.kind) == OpenedBy::crown ? "roof" : "floor";
    edges.push_back(std::move(w));
  }
  Engine engine;
  resolve(survey_, values_, engine);
  for (Weighing& w : edges) {
    levels(engine, values_, w, w.passed, w.levels);
    w.moves.assign(w.passed.size(), std::vector<double>(survey_.sources.size(), 0.0));
    w.level_moves = w.moves;
  }
  std::vector<Known> passed, level;
  for (std::size_t k = 0; k < survey_.sources.size(); ++k) {
    std::vector<double> moved = values_;
    for (std::size_t i = 0; i < survey_.inputs.size(); ++i)
      for (const Input::Part& part : survey_.inputs[i].parts)
        if (part.source == static_cast<int>(k)) moved[i] += part.factor * survey_.sources[k].sigma;
    resolve(survey_, moved, engine);
    for (Weighing& w : edges) {
      levels(engine, moved, w, passed, level);
      for (std::size_t i = 0; i < passed.size(); ++i) {
        if (passed[i].known() && w.passed[i].known()) w.moves[i][k] = *passed[i] - *w.passed[i];
        if (level[i].known() && w.levels[i].known()) w.level_moves[i][k] = *level[i] - *w.levels[i];
      }
    }
  }
  return edges;
}

/// Weights of the readings that are known, by their joint covariance.
void weights_of(const std::vector<Known>& known, const std::vector<std::vector<double>>& moves,
                const std::function<void(std::size_t, double)>& set) {
  std::vector<std::size_t> those;
  for (std::size_t i = 0; i < known.size(); ++i)
    if (known[i].known()) those.push_back(i);
  if (those.size() < 2) return;
  const std::size_t n = those.size();
  std::vector<double> covariance(n * n);
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = 0; j < n; ++j) covariance[i * n + j] = Weighing::covariance(moves[those[i]], moves[those[j]]);
  const std::vector<double> weights = numerics::best_weights(covariance, static_cast<int>(n));
  for (std::size_t i = 0; i < n; ++i) set(those[i], weights[i]);
}

void Settler::weigh(Weighing& w) {
  EdgeSlot& edge = *w.edge;
  weights_of(w.passed, w.moves, [&](std::size_t i, double weight) { edge.readings[i].weight = weight; });
  weights_of(w.levels, w.level_moves, [&](std::size_t i, double weight) { edge.readings[i].level_weight = weight; });
  EdgeCheck check{.port = w.port, .edge = w.name, .rows = {}, .mend = {}};
  Engine engine;
  resolve(survey_, values_, engine);
  double least = 1e9, greatest = -1e9, mean = 0.0, all = 0.0;
  for (std::size_t i = 0; i < w.passed.size(); ++i) {
    const Known& shown = w.levels[i].known() ? w.levels[i] : w.passed[i];
    if (!shown.known()) continue;
    const std::vector<double>& moves = w.levels[i].known() ? w.level_moves[i] : w.moves[i];
    check.rows.push_back({input(edge.readings[i].input).path, *shown, std::sqrt(Weighing::covariance(moves, moves)),
                          w.levels[i].known() ? engine.crown_at_tdc - w.levels[i] : w.levels[i]});
    if (!w.passed[i].known()) continue;
    least = std::min(least, *w.passed[i]);
    greatest = std::max(greatest, *w.passed[i]);
    mean += edge.readings[i].weight * *w.passed[i];
    all += edge.readings[i].weight;
    for (std::size_t j = 0; j < i; ++j)
      if (w.passed[j].known() && std::abs(*w.passed[i] - *w.passed[j]) > doubt * w.sigma_between(i, j) + 1e-9)
        w.agrees = false;
  }
  check.agrees = w.agrees;
  check.gap = greatest > least ? greatest - least : 0.0;
  if (!w.agrees) contradiction(w, check, mean / all);
  if (!check.rows.empty()) survey_.checks.push_back(std::move(check));
}

/// The one reading without which all the others agree, or -1: there is none, or more than one.
int odd_one(const Weighing& w) {
  std::vector<std::size_t> those;
  for (std::size_t i = 0; i < w.passed.size(); ++i)
    if (w.passed[i].known()) those.push_back(i);
  if (those.size() < 3) return -1;
  int odd = -1;
  for (const std::size_t without : those) {
    bool agree = true;
    for (const std::size_t i : those)
      for (const std::size_t j : those)
        if (i != without && j != without && j < i &&
            std::abs(*w.passed[i] - *w.passed[j]) > doubt * w.sigma_between(i, j) + 1e-9)
          agree = false;
    if (agree && odd >= 0) return -1;
    if (agree) odd = static_cast<int>(without);
  }
  return odd;
}

/// Neither reading is dropped: both are weighed, and the edge is widened until its range holds both.
void Settler::contradiction(Weighing& w, EdgeCheck& check, double mean) {
  double farthest = 0.0;
  for (const Known& passed : w.passed)
    if (passed.known()) farthest = std::max(farthest, std::abs(*passed - mean));
  std::vector<std::string> paths;
  std::string said;
  for (const EdgeCheck::Row& row : check.rows) {
    paths.push_back(row.path);
    said += (said.empty() ? "" : ", ") + row.path.substr(row.path.rfind('.') + 1) + " puts it at " +
            (row.height.known() ? mm(*row.height) : mm(row.y) + " below TDC");
  }
  w.edge->stretch = stretch_input("unexplained gap of port." + w.port + "." + w.name, 1.05 * farthest / half95);
  values_ = survey_.values();
  const int odd = odd_one(w);
  check.mend =
      odd >= 0 ? "the others agree without " + input(w.edge->readings[static_cast<std::size_t>(odd)].input).path +
                     "; read that again"
               : "read the " + w.name + " again, by height with the cylinder off and by wheel from both sides of TDC";
  s_.error(base::ErrorCode::contradiction,
           "readings of the " + check.port + " " + check.edge + " disagree by " + mm(check.gap) + ": " + said,
           "port." + w.port + "." + w.name, check.mend, paths);
}

/// An edge that agrees and is known both ways says something of a missing rod. What its error shares with other edges
/// (crown height, stroke, skirt) is taken as often as there are such edges, so that many edges do not outvote one crown
/// height.
void Settler::both_ways(const Weighing& w) {
  if (!w.agrees) return;
  BothWays both;
  both.kind = w.kind;
  std::size_t angle = 0, level = 0;
  int angles = 0, levels = 0;
  for (std::size_t i = 0; i < w.edge->readings.size(); ++i) {
    if (is_angle(w.edge->readings[i].form))
      angle = i, ++angles;
    else
      level = i, ++levels;
  }
  if (angles == 0 || levels == 0) return;
  both.angle = w.edge->readings[angle];
  both.level = w.edge->readings[level];
  both.takes_zero = zero_source_ >= 0 && takes(input(both.angle.input), zero_source_);
  const int ratio = survey_.rod_ratio.input;
  double squares = 0.0;
  for (std::size_t k = 0; k < survey_.sources.size() && k < w.moves[angle].size(); ++k) {
    const int source = static_cast<int>(k);
    if ((both.takes_zero && source == zero_source_) || (ratio >= 0 && takes(input(ratio), source))) continue;
    const bool own = takes(input(both.angle.input), source) || takes(input(both.level.input), source);
    const double one = w.moves[angle][k] - w.moves[level][k];
    squares += one * one * (own ? 1.0 : static_cast<double>(survey_.ports.size()));
  }
  both.sigma = std::sqrt(squares);
  if (both.sigma <= 0.0) both.sigma = input(both.level.input).sigma + 1e-5;
  survey_.both_ways.push_back(both);
}

/// Edges that ask for a rod outside the allowed box are not believed.
void Settler::rod_in_reason() {
  if (survey_.rod_ratio.input < 0 || survey_.both_ways.empty()) return;
  Engine engine;
  resolve(survey_, values_, engine);
  const tables::BoxRow* row = tables::box_ratio_of("crank.rod");
  if (row == nullptr || !engine.rod.known()) return;
  const double ratio = *engine.rod / *engine.stroke;
  if (ratio >= row->least && ratio <= row->greatest) return;
  std::vector<std::string> paths;
  for (const BothWays& edge : survey_.both_ways) {
    paths.push_back(input(edge.angle.input).path);
    paths.push_back(input(edge.level.input).path);
  }
  s_.error(
      base::ErrorCode::contradiction,
      "edges known both ways ask for a rod of " + number_text(ratio, 2) + " strokes; one of them is a wrong reading",
      "crank.rod", "a rod is " + row->least_text + " to " + row->greatest_text + " strokes; the usual ratio is taken",
      paths);
  survey_.both_ways.clear();
}

/// A mirrored side that shares its first side's edge shares its weights and its doubt.
void Settler::same_edges() {
  for (PortSlots& port : survey_.ports)
    if (port.twin_of >= 0 && !port.own_edge) timed(port) = timed(survey_.ports[static_cast<std::size_t>(port.twin_of)]);
}

/// What would bring one edge's angle to its height: a wheel zero [rad, positive: reads late], or a crown height [m].
struct Settler::Explained {
  double zero = 0.0, zero_sigma = 0.0, crown = 0.0, crown_sigma = 0.0;
};

/// One for each edge whose angle (of the wheel's first set-up) and height were both read.
std::vector<Settler::Explained> Settler::explanations() {
  Engine engine;
  resolve(survey_, values_, engine);
  std::vector<Explained> all;
  for (PortSlots& port : survey_.ports) {
    if (!port.own_edge || !engine.slider) continue;
    const EdgeReading *angle = nullptr, *height = nullptr;
    for (const EdgeReading& reading : timed(port).readings) {
      if (reading.form == EdgeForm::opens || reading.form == EdgeForm::closes) angle = &reading;
      if (reading.form == EdgeForm::height) height = &reading;
    }
    if (angle == nullptr || height == nullptr) continue;
    const OpenedBy by = opened_by(port.kind);
    const Frame in = frame(engine, port.kind);
    const Known by_angle = passed_from(angle->form, value(angle->input), by, in);
    const Known by_height = passed_from(height->form, value(height->input), by, in);
    if (!by_angle.known() || !by_height.known()) continue;
    const bool before = by == OpenedBy::skirt && angle->form == EdgeForm::opens;
    const bool down = (by == OpenedBy::crown) == (angle->form == EdgeForm::opens);
    const double truth = down ? engine.slider->angle_down(*by_height) : engine.slider->angle_up(*by_height);
    const double read = before ? turn - value(angle->input) : value(angle->input);
    const double steep = std::max(1e-4, std::abs(engine.slider->velocity(truth)));
    const double own = std::hypot(input(angle->input).sigma, input(height->input).sigma / steep);
    all.push_back({std::remainder(read - truth, turn), own, *by_angle - *by_height, own * steep});
  }
  return all;
}

void Settler::blame(const std::string& what, const std::string& mend) {
  survey_.wheel_verdict = what;
  for (EdgeCheck& check : survey_.checks)
    if (!check.agrees) check.mend = what + "; " + mend;
  for (base::Error& error : survey_.errors)
    if (error.code == base::ErrorCode::contradiction && error.path.starts_with("port."))
      error.hint = what + "; " + mend;
}

/// Names the one cause that explains every edge known both ways, or both causes when the edges cannot part them.
void Settler::verdict() {
  const bool disagree =
      std::any_of(survey_.checks.begin(), survey_.checks.end(), [](const EdgeCheck& c) { return !c.agrees; });
  const std::vector<Explained> edges = explanations();
  if (!disagree || edges.size() < 2) return;
  const double n = static_cast<double>(edges.size());
  double zero = 0.0, crown = 0.0;
  for (const Explained& e : edges) zero += e.zero / n, crown += e.crown / n;
  bool zero_fits = std::abs(zero) > 0.8 * degree, crown_fits = std::abs(crown) > 1e-4;
  for (const Explained& e : edges) {
    zero_fits = zero_fits && std::abs(e.zero - zero) <= half95 * e.zero_sigma;
    crown_fits = crown_fits && std::abs(e.crown - crown) <= half95 * e.crown_sigma;
  }
  static constexpr const char* words[] = {"", "", "both", "all three", "all four", "all five", "all six"};
  const std::string all =
      (edges.size() < std::size(words) ? words[edges.size()] : "all " + std::to_string(edges.size())) +
      std::string(" edges");
  const std::string wheel =
      "wheel zero off by " + deg(std::abs(zero)) + " (it reads " + (zero > 0 ? "late" : "early") + ")";
  const std::string height = "crown height " + mm(std::abs(crown)) + " too " + (crown > 0 ? "low" : "high") +
                             ", or heights read with another gasket";
  if (zero_fits && crown_fits)
    blame(wheel + " explains " + all + ", and so does a " + height,
          "closing angles would part the two; find TDC again with a stop from both sides");
  else if (zero_fits)
    blame(wheel + " explains " + all, "find TDC again with a stop from both sides");
  else if (crown_fits)
    blame(height + " explains " + all, "read the crown's height at TDC again, gasket fitted and torqued");
}

// ---- what no engine can have
// ------------------------------------------------------------------------------------------

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
               std::string("the ") + (crown ? "roof" : "floor") + " of " + slots.name + " is passed " +
                   mm(-*port.passed) + " above TDC, where the piston never comes",
               path + (crown ? "roof" : "floor"), "read the edge again, or the crown's height at TDC");
      timed(slots).readings.clear();
    } else if (port.passed.known() && engine.stroke.known() && *port.passed >= *engine.stroke) {
      s_.error(base::ErrorCode::impossible,
               "the " + slots.name + " window's edge lies below BDC, where the piston never comes",
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
