#include "geometry/surveyor.hpp"

#include <algorithm>
#include <cmath>

#include "base/number_text.hpp"
#include "tables/box.hpp"

namespace portwright::geometry {

namespace {

constexpr int most_needs = 240;  ///< of 256; the rest is for whole ports
constexpr double doubt = 2.81;   ///< sigmas between two readings that chance explains once in two hundred times
constexpr double half95 = 1.96;

struct Mean {
  double value = 0.0, least = 0.0, greatest = 0.0;
  int count = 0;
};

Mean mean_of(const saw::Reading& reading) {
  Mean mean;
  for (const saw::Typed& typed : reading.repeats) {
    if (!typed.value) continue;
    const double si = typed.value->si;
    mean.least = mean.count == 0 ? si : std::min(mean.least, si);
    mean.greatest = mean.count == 0 ? si : std::max(mean.greatest, si);
    mean.value += si;
    ++mean.count;
  }
  if (mean.count > 0) mean.value /= mean.count;
  return mean;
}

/// "tdc" and "bdc" are places by name, without an error.
bool by_name(const saw::Reading& reading) {
  return std::all_of(reading.repeats.begin(), reading.repeats.end(),
                     [](const saw::Typed& typed) { return typed.text == "tdc" || typed.text == "bdc"; });
}

/// Tolerance as typed [SI], root mean square of the repeats that have one; negative when none has.
double typed_sigma(const saw::Reading& reading) {
  double squares = 0.0;
  int count = 0;
  for (const saw::Typed& typed : reading.repeats)
    if (typed.value && typed.value->sigma) squares += *typed.value->sigma * *typed.value->sigma, ++count;
  return count == 0 ? -1.0 : std::sqrt(squares / count);
}

std::string names_list(const std::vector<std::string>& names) {
  std::string list;
  for (const std::string& name : names) list += (list.empty() ? "" : ", ") + name;
  return list;
}

}  // namespace

std::string typed_text(const saw::Reading& reading) {
  std::string text;
  for (const saw::Typed& typed : reading.repeats) text += (text.empty() ? "" : ", ") + typed.text;
  return text;
}

int Surveyor::need(const std::string& path) {
  const auto [place, fresh] = needs_.try_emplace(path, static_cast<int>(survey_.needs.size()));
  if (fresh) survey_.needs.push_back(path);
  if (place->second < most_needs) return place->second;
  // More readings than Known can name: from here on a whole port stands for its readings.
  needs_.erase(place);
  survey_.needs.pop_back();
  const std::size_t dot = path.find('.', path.find('.') + 1);
  const std::string whole = path.substr(0, dot);
  if (const auto found = needs_.find(whole); found != needs_.end()) return found->second;
  if (survey_.needs.size() > 255) return 255;
  needs_.emplace(whole, static_cast<int>(survey_.needs.size()));
  survey_.needs.push_back(whole);
  return static_cast<int>(survey_.needs.size()) - 1;
}

int Surveyor::source(const std::string& name, double sigma) {
  const auto [place, fresh] = sources_.try_emplace(name, static_cast<int>(survey_.sources.size()));
  if (fresh) survey_.sources.push_back({name, sigma});
  return place->second;
}

void Surveyor::error(base::ErrorCode code, std::string message, std::string path, std::string hint,
                     std::vector<std::string> readings) {
  survey_.errors.push_back({code, std::move(message), std::move(path), std::move(hint), std::move(readings)});
}

Surveyor::Worth Surveyor::worth(const std::string& path, const saw::Reading& reading, double value,
                                base::Dimension dimension, const std::string& kind) {
  const tables::InstrumentRow* usual = tables::usual_instrument(path, dimension, kind);
  const tables::InstrumentRow* row = usual;
  if (!reading.with.empty()) {
    row = tables::instrument(reading.with, dimension, path, kind);
    if (row == nullptr) {
      error(base::ErrorCode::unreadable,
            "\"" + reading.with + "\" is not an instrument that reads this; the usual error is taken", path,
            "known here: " + names_list(tables::instrument_names(dimension, path, kind)));
      row = usual;
    }
  }
  Worth result;
  const double typed = typed_sigma(reading);
  if (row != nullptr) {
    result.own = std::hypot(row->sigma, row->sigma_share * std::abs(value));
    result.shared = row->shared_sigma;
    result.shares = row->shares;
    result.source = row->name;
  }
  if (typed >=
      0.0) {  // a typed tolerance stands for the whole error; a named set-up still ties its part of it together
    if (reading.setup.empty()) result.shares.clear();
    result.shared = result.shares.empty() ? 0.0 : std::min(result.shared, typed);
    result.own = std::sqrt(typed * typed - result.shared * result.shared);
    result.source = "typed tolerance";
  }
  if (by_name(reading)) return {};
  if (result.shares.empty()) result.shared = 0.0;
  return result;
}

bool Surveyor::in_box(const std::string& path, const saw::Reading& reading, double value, base::Dimension dimension,
                      const std::string& kind) {
  const tables::BoxRow* row = tables::box_of(path, kind);
  if (row == nullptr || dimension != row->dimension) return true;
  if (value >= row->least && value <= row->greatest) return true;
  const char* why = value < 0.0 && row->least >= 0.0 ? " cannot be negative" : " is outside what is allowed here";
  error(base::ErrorCode::out_of_range, typed_text(reading) + why, path,
        "allowed: " + row->least_text + " to " + row->greatest_text);
  return false;
}

int Surveyor::input_of(const std::string& path, const saw::Reading& reading, base::Dimension dimension,
                       const std::string& kind) {
  if (!reading.readable()) return -1;  // an unreadable text was reported when the file was read
  const Mean mean = mean_of(reading);
  if (!in_box(path, reading, mean.value, dimension, kind)) return -1;
  const Worth worth_of = worth(path, reading, mean.value, dimension, kind);
  Input input{.path = path, .dimension = dimension, .value = mean.value, .source = worth_of.source, .parts = {}};
  const double own = spread_own(path, reading, worth_of.own);
  if (own > 0.0) input.parts.push_back({source(path, own), 1.0});
  if (worth_of.shared > 0.0) {
    const std::string set_up = worth_of.shares + (reading.setup.empty() ? "" : " of " + reading.setup);
    input.parts.push_back({source(set_up, worth_of.shared), 1.0});
  }
  input.sigma = std::hypot(own, worth_of.shared);
  survey_.inputs.push_back(std::move(input));
  return static_cast<int>(survey_.inputs.size()) - 1;
}

int Surveyor::input_within(const std::string& path, const saw::Reading& reading, base::Dimension dimension) {
  if (!reading.readable()) return -1;
  const double bound = mean_of(reading).value;
  if (!in_box(path, reading, bound, dimension, {})) return -1;
  Input input{.path = path, .dimension = dimension, .value = 0.0, .source = "typed tolerance", .parts = {}};
  input.sigma = bound / half95;
  if (input.sigma > 0.0) input.parts.push_back({source(path, input.sigma), 1.0});
  survey_.inputs.push_back(std::move(input));
  return static_cast<int>(survey_.inputs.size()) - 1;
}

/// Own error of the mean of the repeats. Repeats that disagree are not averaged away: the range holds them all.
double Surveyor::spread_own(const std::string& path, const saw::Reading& reading, double own) {
  const Mean mean = mean_of(reading);
  const double usual = own / std::sqrt(std::max(1, mean.count));
  const double spread = mean.greatest - mean.least;
  if (mean.count < 2 || spread <= doubt * std::sqrt(2.0) * own + 1e-12) return usual;
  error(base::ErrorCode::contradiction, "repeats of one place disagree: " + typed_text(reading), path,
        "read it again; until then the range holds them all");
  return std::max(usual, 1.05 * std::max(mean.greatest - mean.value, mean.value - mean.least) / half95);
}

int Surveyor::input_of(const std::string& path, std::size_t item, const saw::Typed& typed, base::Dimension dimension) {
  const int input = input_of(path, saw::Reading{{typed}, {}, {}, {}}, dimension);
  if (input < 0 || item == 0) return input;
  for (Input::Part& part : survey_.inputs[static_cast<std::size_t>(input)].parts) {
    const double sigma = survey_.inputs[static_cast<std::size_t>(input)].sigma;
    part.source = source(path + " " + std::to_string(item + 1), sigma);
  }
  return input;
}

int Surveyor::input_of_one_cause(const std::string& path, const saw::Typed& typed, base::Dimension dimension) {
  const int number = input_of(path, saw::Reading{{typed}, {}, {}, {}}, dimension);
  if (number < 0) return number;
  Input& input = survey_.inputs[static_cast<std::size_t>(number)];
  for (Input::Part& part : input.parts) {
    const ErrorSource& cause = survey_.sources[static_cast<std::size_t>(part.source)];
    double shared = 0.0;  // of the other parts, squared
    for (const Input::Part& other : input.parts)
      if (other.source != part.source) {
        const double sigma = other.factor * survey_.sources[static_cast<std::size_t>(other.source)].sigma;
        shared += sigma * sigma;
      }
    if (cause.name == path) part.factor = std::sqrt(std::max(0.0, input.sigma * input.sigma - shared)) / cause.sigma;
  }
  return number;
}

int Surveyor::input_of_material(const std::string& path, const tables::MaterialRow& row) {
  Input input{.path = path,
              .dimension = base::Dimension::pressure,
              .value = row.modulus,
              .sigma = row.sigma,
              .least = row.least,
              .greatest = row.greatest,
              .source = row.source,
              .parts = {}};
  input.parts.push_back({source(path, row.sigma), 1.0});
  survey_.inputs.push_back(std::move(input));
  return static_cast<int>(survey_.inputs.size()) - 1;
}

int Surveyor::assume(const std::string& name, const std::string& of) {
  const std::string key = of.empty() ? name : name + " of " + of;
  const auto [place, fresh] = assumed_.try_emplace(key, static_cast<int>(survey_.inputs.size()));
  if (!fresh) return place->second;
  const tables::AssumptionRow& row = tables::assumption(name);
  Input input{.path = "assumed." + name + (of.empty() ? "" : "." + of),
              .dimension = row.dimension,
              .value = row.value,
              .sigma = row.sigma,
              .assumed = true,
              .source = row.source,
              .parts = {}};
  if (row.sigma > 0.0) input.parts.push_back({source(input.path, row.sigma), 1.0});
  input.least = row.least;
  input.greatest = row.greatest;
  survey_.inputs.push_back(std::move(input));
  return place->second;
}

Slot Surveyor::slot(const std::string& path, const saw::Reading& reading, base::Dimension dimension,
                    const std::string& kind) {
  Slot slot;
  slot.input = input_of(path, reading, dimension, kind);
  if (slot.input < 0) slot.need = need(path);
  return slot;
}

Slot Surveyor::slot_or(const std::string& path, const saw::Reading& reading, base::Dimension dimension,
                       const std::string& assumption) {
  Slot slot;
  slot.input = input_of(path, reading, dimension);
  if (slot.input < 0) slot.input = assume(assumption);
  return slot;
}

Slot Surveyor::slot_or_constant(const std::string& path, const saw::Reading& reading, base::Dimension dimension,
                                double constant, const std::string& kind) {
  Slot slot;
  slot.input = input_of(path, reading, dimension, kind);
  slot.constant = constant;
  return slot;
}

Slot Surveyor::number(const std::string& path, const std::optional<double>& number) {
  Slot slot;
  if (!number) {
    slot.need = need(path);
    return slot;
  }
  const tables::BoxRow* row = tables::box_of(path);
  if (row != nullptr && (*number < row->least || *number > row->greatest)) {
    error(base::ErrorCode::out_of_range, base::number_text(*number, 1) + " is outside what is allowed here", path,
          "allowed: " + row->least_text + " to " + row->greatest_text);
    slot.need = need(path);
    return slot;
  }
  survey_.inputs.push_back(
      {.path = path, .dimension = base::Dimension::count, .value = *number, .source = "counted", .parts = {}});
  slot.input = static_cast<int>(survey_.inputs.size()) - 1;
  return slot;
}

}  // namespace portwright::geometry
