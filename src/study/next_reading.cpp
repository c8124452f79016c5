#include "study/next_reading.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "tables/instruments.hpp"

namespace portwright::study {

namespace {

constexpr double half_range = 1.959963984540054;  // sigmas of a 95 % range to either side
constexpr double headline = 0.5;
constexpr double least_gain = 0.05;  // of one headline's range

struct Offer {
  double gain = 0.0;
  NextReading reading;
};

bool is_path(const std::string& need) {
  return need.find(' ') == std::string::npos && need.find('.') != std::string::npos;
}

std::string label_of(const Entry& entry) {
  std::string label = filled(entry.row->label, entry.name, 0.0);
  return label.empty() ? entry.id : label;
}

std::string list_of(const std::vector<std::string>& names) {
  constexpr std::size_t most = 3;
  std::string out = "brings ";
  for (std::size_t i = 0; i < std::min(names.size(), most); ++i) {
    const bool last = i + 1 == names.size();
    out += (i == 0 ? "" : last ? " and " : ", ") + names[i];
  }
  if (names.size() > most) out += " and " + std::to_string(names.size() - most) + " more";
  return out;
}

/// Paths are few enough to be walked once for each need.
std::vector<Offer> missing(const Case& study_case, const Measures& measures) {
  std::vector<Offer> out;
  const std::vector<std::string>& needs = study_case.needs();
  for (std::size_t n = 0; n < needs.size(); ++n) {
    if (!is_path(needs[n])) continue;
    std::vector<std::pair<double, std::string>> brought;
    Offer offer;
    for (const Entry& entry : study_case.entries()) {
      const Known value = entry.value(measures);
      if (!value.needs().has(static_cast<int>(n))) continue;
      const auto others = static_cast<double>(study_case.paths(value.needs()).size());
      offer.gain += entry.row->weight / others;
      brought.emplace_back(-entry.row->weight / others, label_of(entry));
    }
    if (brought.empty()) continue;
    std::stable_sort(brought.begin(), brought.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    std::vector<std::string> names;
    for (auto& [weight, name] : brought) names.push_back(std::move(name));
    offer.reading = {needs[n], list_of(names)};
    out.push_back(std::move(offer));
  }
  return out;
}

std::string kind_of(const geometry::Survey& survey, std::string_view path) {
  if (!path.starts_with("port.")) return {};
  const std::string name(path.substr(5, path.find('.', 5) - 5));
  const int port = survey.find_port(name);
  return port < 0 ? std::string{} : kind_name(survey.ports[static_cast<std::size_t>(port)].kind);
}

/// The least sigma that any workshop instrument gives a reading, shared part and all; none when no instrument reads it.
std::optional<double> best_sigma(const geometry::Survey& survey, const std::string& path, base::Dimension dimension,
                                 double value) {
  std::optional<double> best;
  for (const std::string& name : tables::instrument_names(dimension, path, kind_of(survey, path))) {
    const tables::InstrumentRow* row = tables::instrument(name, dimension, path, kind_of(survey, path));
    const double sigma = std::hypot(row->sigma, row->sigma_share * value, row->shared_sigma);
    if (!best || sigma < *best) best = sigma;
  }
  return best;
}

/// What is left of one source's share of the variance when its reading is taken anew.
struct Remedy {
  std::string path;
  double left = 1.0;    ///< new sigma over old, squared
  int beside = -1;      ///< input that the reading is taken beside, and does not replace
  double weight = 1.0;  ///< what then is left of that input's weight
  double sigma = 0.0;   ///< of the new reading, in the terms of that input
};

/// Variance of a figure once the reading is taken. A second reading takes over from the first with all its causes of
/// error, also those it shared with other readings and that cancelled.
double variance_after(const geometry::Survey& survey, const Sensitivity& sensitivity, const Remedy& mend,
                      std::size_t source, std::size_t entry, double before) {
  if (mend.beside < 0) {
    const double part = sensitivity.of_source(source, entry);
    return std::max(0.0, before - part * part * (1.0 - mend.left));
  }
  const auto input = static_cast<std::size_t>(mend.beside);
  const double handed_over = (1.0 - mend.weight) * sensitivity.slope(input, entry);
  double sum = handed_over * mend.sigma * handed_over * mend.sigma;
  for (std::size_t s = 0; s < survey.sources.size(); ++s) {
    double part = sensitivity.of_source(s, entry);
    for (const geometry::Input::Part& own : survey.inputs[input].parts)
      if (static_cast<std::size_t>(own.source) == s) part -= handed_over * own.factor * survey.sources[s].sigma;
    sum += part * part;
  }
  return sum;
}

/// An edge read by wheel may be read by height as well, which the weighing of both then leans on. `per_drop` is the
/// crank angle over the drop there [rad/m].
std::optional<Remedy> by_height(const geometry::Survey& survey, const geometry::Input& input, double per_drop) {
  const std::size_t end = input.path.rfind('.');
  const std::string form = input.path.substr(end + 1), port = input.path.substr(0, end);
  if (!port.starts_with("port.") || (form != "opens" && form != "closes" && form != "duration")) return std::nullopt;
  const int entry = survey.find_port(port.substr(5));
  if (entry < 0 || survey.crown_at_tdc.input < 0 || !(per_drop > 0.0)) return std::nullopt;
  const geometry::PortSlots& slots = survey.ports[static_cast<std::size_t>(entry)];
  const bool crown = geometry::opened_by(slots.kind) == geometry::OpenedBy::crown;
  for (const geometry::EdgeReading& reading : (crown ? slots.roof : slots.floor).readings)
    if (reading.form == geometry::EdgeForm::height || reading.form == geometry::EdgeForm::drop) return std::nullopt;
  const std::string path = port + (crown ? ".roof" : ".floor");
  const tables::InstrumentRow* usual = tables::usual_instrument(path, base::Dimension::length, kind_of(survey, path));
  if (usual == nullptr) return std::nullopt;
  const double angle = std::hypot(usual->sigma, usual->shared_sigma,
                                  survey.inputs[static_cast<std::size_t>(survey.crown_at_tdc.input)].sigma) *
                       per_drop;
  const double weight = angle * angle / (angle * angle + input.sigma * input.sigma);
  const int beside = static_cast<int>(&input - survey.inputs.data());
  return weight < 0.5 ? std::optional<Remedy>({.path = path, .beside = beside, .weight = weight, .sigma = angle})
                      : std::nullopt;
}

/// Crank angle over drop at the timed edge of the port that a path names [rad/m]; 0 when not known.
double angle_per_drop(const geometry::Survey& survey, const Measures& measures, const std::string& path) {
  if (!path.starts_with("port.")) return 0.0;
  const int entry = survey.find_port(path.substr(5, path.find('.', 5) - 5));
  return entry < 0 ? 0.0 : measures.ports[static_cast<std::size_t>(entry)].deg_per_mm.value_or(0.0);
}

std::optional<Remedy> remedy(const geometry::Survey& survey, const Measures& measures, std::size_t source) {
  const geometry::Input* only = nullptr;
  int inputs = 0;
  for (const geometry::Input& input : survey.inputs)
    for (const geometry::Input::Part& part : input.parts)
      if (static_cast<std::size_t>(part.source) == source) only = &input, ++inputs;
  if (inputs != 1) return std::nullopt;
  if (only->assumed) {
    const std::string path = reading_of_assumption(only->path);
    if (path.empty()) return std::nullopt;
    // A ratio or share is read as a length; a reading is taken to leave a twentieth of the assumption's width.
    const std::optional<double> sigma = best_sigma(survey, path, only->dimension, only->value);
    const double ratio = sigma ? *sigma / only->sigma : 0.05;
    return ratio < 1.0 ? std::optional<Remedy>({.path = path, .left = ratio * ratio}) : std::nullopt;
  }
  if (auto height = by_height(survey, *only, angle_per_drop(survey, measures, only->path))) return height;
  const std::optional<double> sigma = best_sigma(survey, only->path, only->dimension, only->value);
  if (!sigma || *sigma > 0.7 * survey.sources[source].sigma) return std::nullopt;
  const double ratio = *sigma / survey.sources[source].sigma;
  return Remedy{.path = only->path, .left = ratio * ratio};
}

std::string sentence(const Entry& entry, double before, double after, base::UnitStyle) {
  const double old_half = half_range * std::sqrt(before) * entry.row->scale,
               new_half = half_range * std::sqrt(after) * entry.row->scale;
  const int digits = std::clamp(1 - static_cast<int>(std::floor(std::log10(std::max(new_half, 1e-4)))), 0, 4);
  const std::string unit = std::string_view(entry.row->unit) == "-" ? "" : std::string(" ") + entry.row->unit;
  return label_of(entry) + " from ±" + base::number_text(old_half, digits) + " to ±" +
         base::number_text(new_half, digits) + unit;
}

std::vector<Offer> rough(const Case& study_case, const Measures& measures, const Sensitivity& sensitivity,
                         base::UnitStyle style) {
  const std::vector<Entry>& entries = study_case.entries();
  std::vector<double> variances(entries.size(), 0.0);
  for (std::size_t e = 0; e < entries.size(); ++e)
    if (entries[e].row->weight >= headline && entries[e].value(measures)) variances[e] = sensitivity.variance(e);
  std::vector<Offer> out;
  for (std::size_t s = 0; s < study_case.survey().sources.size(); ++s) {
    const std::optional<Remedy> mend = remedy(study_case.survey(), measures, s);
    if (!mend) continue;
    Offer offer;
    double most = 0.0;
    for (std::size_t e = 0; e < entries.size(); ++e) {
      if (!(variances[e] > 0.0)) continue;
      const double after = variance_after(study_case.survey(), sensitivity, *mend, s, e, variances[e]);
      const double gain = entries[e].row->weight * (1.0 - std::sqrt(after / variances[e]));
      offer.gain += gain;
      if (gain <= most) continue;
      most = gain;
      offer.reading = {mend->path, sentence(entries[e], variances[e], after, style)};
    }
    if (most >= least_gain) out.push_back(std::move(offer));
  }
  return out;
}

}  // namespace

std::string reading_of_assumption(std::string_view path) {
  struct Row {
    std::string_view assumed, reading;
  };
  constexpr std::array<Row, 6> rows{{{"assumed.rod_ratio", "crank.rod"},
                                     {"assumed.pin_offset", "crank.pin_offset"},
                                     {"assumed.plug_thread", "cylinder.plug_thread"},
                                     {"assumed.plug_reach", "cylinder.plug_reach"},
                                     {"assumed.base_gasket", "cylinder.base_gasket"},
                                     {"assumed.gauge_volume", "readings.gauge_volume"}}};
  for (const Row& row : rows)
    if (row.assumed == path) return std::string(row.reading);
  const std::size_t of = path.rfind('.');
  const bool corner = path.starts_with("assumed.corner") && of != std::string_view::npos;
  const std::size_t name = path.find('.', std::string_view("assumed.").size());
  if (!corner || name == std::string_view::npos || name == of) return {};
  return "port." + std::string(path.substr(name + 1, of - name - 1)) + ".corner_" + std::string(path.substr(of + 1));
}

std::vector<NextReading> next_readings(const Case& study_case, const Measures& measures, const Sensitivity& sensitivity,
                                       base::UnitStyle style) {
  std::vector<Offer> offers = missing(study_case, measures);
  for (Offer& offer : rough(study_case, measures, sensitivity, style)) offers.push_back(std::move(offer));
  std::stable_sort(offers.begin(), offers.end(), [](const Offer& a, const Offer& b) { return a.gain > b.gain; });
  std::vector<NextReading> out;
  for (Offer& offer : offers)
    if (out.size() < most_next_readings) out.push_back(std::move(offer.reading));
  return out;
}

}  // namespace portwright::study
