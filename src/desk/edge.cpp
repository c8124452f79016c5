#include "geometry/edge.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>

#include "desk/case.hpp"
#include "desk/desk.hpp"
#include "desk/edge_place.hpp"
#include "desk/nearest.hpp"
#include "desk/shown.hpp"
#include "numerics/sampling.hpp"
#include "numerics/statistics.hpp"
#include "study/samples.hpp"

namespace portwright::desk {
namespace {

using base::Known;
using geometry::OpenedBy;

constexpr double deg_per_rad = 180.0 / std::numbers::pi;
constexpr double mm_per_m = 1e3;
constexpr double thou_per_mm = 1.0 / 0.0254;
constexpr double one_mm = 1e-3;
constexpr int sample_count = 512;
constexpr std::size_t form_count = 6;

// opens, closes, duration [deg]; drop, height [mm]; opens sooner for 1 mm of metal [deg].
using Forms = std::array<Known, form_count>;
constexpr const char* form_names[form_count] = {"opens", "closes", "duration", "drop", "height", "deg_per_mm"};
constexpr const char* form_units[form_count] = {"deg", "deg", "deg", "mm", "mm", "deg"};

// The edge a request speaks of.
struct Edge {
  int entry = 0;
  bool roof = true;
  bool timed = true;
  OpenedBy by = OpenedBy::crown;
  std::optional<EdgePlace> place;
};

// What one engine says of the edge: as read, where it is asked to be, and either after the cuts.
struct Views {
  Forms read, at, cut, change;
  Known move;  ///< [mm], + upward
};

Known& level(geometry::Engine& engine, const Edge& edge) {
  geometry::Port& port = engine.ports[static_cast<std::size_t>(edge.entry)];
  return edge.roof ? port.roof : port.floor;
}

Known skirt_of(const geometry::Engine& engine, const Edge& edge) {
  return geometry::skirt_at(engine, engine.ports[static_cast<std::size_t>(edge.entry)].kind);
}

// A level that the piston never passes has no angle: not a number inside this file, left out of the answer by value().
constexpr double never = std::numeric_limits<double>::quiet_NaN();

template <class F>
Known when_passed(const geometry::Engine& engine, const Known& passed, F&& angle) {
  return base::apply(passed + engine.slider_known, [&](double drop) {
    return drop >= 0.0 && drop <= engine.slider->stroke() ? angle(*engine.slider, drop) * deg_per_rad : never;
  });
}

Forms forms(const geometry::Engine& engine, const Edge& edge, const Known& y) {
  const bool crown = edge.by == OpenedBy::crown;
  const Known passed = crown ? y : y - skirt_of(engine, edge);
  const auto down_at = [&](const Known& at) {
    return when_passed(engine, at,
                       [](const geometry::CrankSlider& slider, double drop) { return slider.angle_down(drop); });
  };
  const Known down = down_at(passed);
  const Known up = when_passed(engine, passed,
                               [](const geometry::CrankSlider& slider, double drop) { return slider.angle_up(drop); });
  const Known nearer = down_at(crown ? passed - one_mm : passed + one_mm);
  Forms out;
  out[0] = crown ? down : Known(360.0) - up;
  out[1] = crown ? up : down;
  out[2] = when_passed(engine, passed, [&](const geometry::CrankSlider& slider, double drop) {
    return geometry::duration_at(slider, edge.by, drop);
  });
  out[3] = passed * mm_per_m;
  out[4] = engine.height(y) * mm_per_m;
  out[5] = crown ? down - nearer : nearer - down;
  return out;
}

Views views(const geometry::Engine& stock, const Edge& edge, const cuts::Prepared* cuts) {
  Views out;
  geometry::Engine engine = stock;
  const Known read = level(engine, edge);
  out.read = forms(engine, edge, read);
  Known start = read;
  if (edge.place) {
    const geometry::Frame frame{engine.slider ? &*engine.slider : nullptr, engine.slider_known, engine.crown_at_tdc,
                                skirt_of(engine, edge)};
    start = geometry::level_from(edge.place->form, edge.place->value, edge.by, frame);
    out.at = forms(engine, edge, start);
    out.move = (read - start) * mm_per_m;
    level(engine, edge) = start;
  }
  if (!cuts) return out;
  cuts::apply(*cuts, engine);
  out.cut = forms(engine, edge, level(engine, edge));
  const Forms& before = edge.place ? out.at : out.read;
  for (std::size_t i = 0; i < form_count; ++i) out.change[i] = out.cut[i] - before[i];
  return out;
}

// Views of every sample of the readings' errors.
std::vector<Views> sampled(const Case& opened, const Edge& edge) {
  const geometry::Survey& survey = opened.survey;
  const int sources = static_cast<int>(survey.sources.size());
  if (sources == 0) return {};
  const numerics::NormalDraws draws(sources, sample_count, study::sample_seed);
  std::vector<double> values = survey.values();
  geometry::Engine engine;
  std::vector<Views> out;
  for (int k = 0; k < draws.count(); ++k) {
    study::draw_values(survey, draws.row(k), values);
    geometry::resolve(survey, values, engine);
    out.push_back(views(engine, edge, opened.cuts()));
  }
  return out;
}

base::Spread times(base::Spread spread, double factor) {
  spread.value *= factor;
  if (spread.low) *spread.low *= factor;
  if (spread.high) *spread.high *= factor;
  return spread;
}

template <class Pick>
std::optional<wire::Value> value(const Views& nominal, const std::vector<Views>& samples, const char* unit,
                                 base::UnitStyle style, Pick&& pick) {
  const Known& centre = pick(nominal);
  if (!centre.known() || !std::isfinite(*centre)) return std::nullopt;
  base::Spread spread{*centre, {}, {}};
  std::vector<double> numbers;
  for (const Views& sample : samples)
    if (const Known& number = pick(sample); number.known() && std::isfinite(*number)) numbers.push_back(*number);
  constexpr std::size_t least_samples = 16;
  if (numbers.size() >= least_samples) {
    const numerics::Range range = numerics::RangeEstimator(static_cast<int>(numbers.size())).central95(numbers);
    if (range.high > range.low) {
      spread.low = std::min(range.low, spread.value);
      spread.high = std::max(range.high, spread.value);
    }
  }
  wire::Value out = value_of(spread, unit, style);
  // An edge is marked by either scale, however far down the bore it lies.
  const bool lacks_thou =
      std::string_view(unit) == "mm" && style == base::UnitStyle::shop && out.text.find("thou") == std::string::npos;
  if (lacks_thou) out.text += " (" + base::value_text(times(spread, thou_per_mm), "thou", style) + ')';
  return out;
}

std::string label(std::size_t form, const Edge& edge) {
  const bool crown = edge.by == OpenedBy::crown;
  if (!edge.timed && form < 3) {
    constexpr const char* words[] = {"passed, on opening", "passed, on closing", "wide open for"};
    return words[form];
  }
  switch (form) {
    case 0:
      return crown ? "opens, after TDC" : "opens, before TDC";
    case 1:
      return "closes, after TDC";
    case 2:
      return "open for";
    case 3:
      return "crown edge below TDC";
    case 4:
      return "above the base face";
    default:
      return (crown ? "1 mm up opens sooner by" : "1 mm down opens sooner by");
  }
}

std::vector<std::string> waits(const Known& known, const geometry::Survey& survey) {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < survey.needs.size(); ++i)
    if (known.needs().has(static_cast<int>(i))) out.push_back(survey.needs[i]);
  return out;
}

std::vector<wire::EdgeForm> edge_forms(const Case& opened, const Edge& edge, const Views& nominal,
                                       const std::vector<Views>& samples, base::UnitStyle style) {
  std::vector<wire::EdgeForm> out;
  for (std::size_t i = 0; i < form_count; ++i) {
    wire::EdgeForm form{form_names[i], label(i, edge), form_units[i], {}, {}, {}, {}, {}};
    const auto of = [&](Forms Views::*view) {
      return value(nominal, samples, form_units[i], style,
                   [&](const Views& v) -> const Known& { return (v.*view)[i]; });
    };
    form.read = of(&Views::read);
    if (!form.read) form.waits_for = waits(nominal.read[i], opened.survey);
    if (edge.place) form.at = of(&Views::at);
    if (opened.has_cuts()) {
      form.cut = of(&Views::cut);
      form.change = of(&Views::change);
      if (form.change)
        form.change->text =
            base::change_text({form.change->value, form.change->low, form.change->high}, form_units[i], style);
    }
    out.push_back(std::move(form));
  }
  return out;
}

base::Result<Edge> find_edge(const Case& opened, const EdgeRequest& request) {
  Edge edge;
  edge.entry = opened.survey.find_port(request.port);
  if (edge.entry < 0) {
    std::vector<std::string> names;
    for (const wire::Port& port : opened.head.saw->ports) names.push_back(port.name);
    base::Error error{base::ErrorCode::not_found, "This saw has no port \u201C" + request.port + "\u201D.", "",
                      did_you_mean(request.port, names), names};
    return tl::unexpected(error);
  }
  const auto kind = opened.survey.ports[static_cast<std::size_t>(edge.entry)].kind;
  edge.by = geometry::opened_by(kind);
  const bool opens_by_roof = edge.by == OpenedBy::crown;
  if (!request.edge.empty() && request.edge != "roof" && request.edge != "floor")
    return base::fail(base::ErrorCode::usage, "An edge is roof or floor, not \u201C" + request.edge + "\u201D.", "edge",
                      did_you_mean(request.edge, {"roof", "floor"}));
  edge.roof = request.edge.empty() ? opens_by_roof : request.edge == "roof";
  edge.timed = edge.roof == opens_by_roof;
  if (request.at.empty()) return edge;
  const auto place = parse_place(request.at, edge.by);
  if (!place) return tl::unexpected(place.error());
  edge.place = *place;
  return edge;
}

std::string move_words(const wire::Value& move, const Edge& edge) {
  const std::string edge_name = edge.roof ? "roof" : "floor";
  if (move.text.find_first_of("123456789") == std::string::npos) return "The " + edge_name + " is there already.";
  const bool up = move.value > 0.0;
  base::Spread size{std::abs(move.value), {}, {}};
  if (move.low && move.high) {
    size.low = up ? *move.low : -*move.high;
    size.high = up ? *move.high : -*move.low;
  }
  const std::string range = base::range_text(size, "mm", base::UnitStyle::shop);
  const bool metal_goes = edge.roof == up;
  return std::string(up ? "Raise" : "Lower") + " the " + edge_name + " by " +
         base::value_text(size, "mm", base::UnitStyle::shop) + (range.empty() ? "" : ", " + range) +
         (metal_goes ? "." : ". That adds metal: weld or sleeve.");
}

}  // namespace

base::ResultAll<wire::EdgeAnswer> edge(const EdgeRequest& request) {
  auto opened = open_case(request.file, request.cuts, request.book);
  if (!opened) return tl::unexpected(opened.error());
  const auto found = find_edge(*opened, request);
  if (!found) return tl::unexpected(base::Errors{found.error()});
  const Views nominal = views(geometry::resolve(opened->survey), *found, opened->cuts());
  const std::vector<Views> samples = sampled(*opened, *found);
  wire::EdgeAnswer answer;
  answer.forms = edge_forms(*opened, *found, nominal, samples, request.style);
  if (found->place) {
    answer.asked = found->place->understood;
    answer.move = value(nominal, samples, "mm", request.style, [](const Views& v) -> const Known& { return v.move; });
    if (answer.move) answer.move_sentence = move_words(*answer.move, *found);
  }
  for (const wire::Port& port : opened->head.saw->ports)
    if (port.name == request.port) answer.kind = port.kind;
  answer.port = request.port;
  answer.edge = found->roof ? "roof" : "floor";
  answer.head = std::move(opened->head);
  return answer;
}

}  // namespace portwright::desk
