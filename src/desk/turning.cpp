#include "desk/turning.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstring>

#include "base/shown_unit.hpp"
#include "cycle/assumptions.hpp"

namespace portwright::desk {

namespace {

constexpr const char* default_speeds = "4500:12000:500";
constexpr const char* speed_hint =
    "One speed, \u201C9000\u201D, or from, to and step, \u201C5000:12000:500\u201D, in rpm.";
/// From this row on the table holds what stands in for readings only.
constexpr const char* first_stand_in = "case_share";

base::Error not_understood(const std::string& text) {
  return {base::ErrorCode::usage, "\u201C" + text + "\u201D is no speed.", "rpm", speed_hint, {}};
}

std::string trimmed(std::string text) {
  const std::size_t unit = text.find("rpm");
  if (unit != std::string::npos) text.erase(unit, 3);
  std::erase_if(text, [](char c) { return c == ' ' || c == '\t'; });
  return text;
}

std::optional<double> number_of(const std::string& text) {
  double value = 0.0;
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed);
  if (fault != std::errc() || end != text.data() + text.size() || !std::isfinite(value)) return std::nullopt;
  return value;
}

std::string rpm_text(double rpm) { return base::number_text(rpm, 0) + " rpm"; }

std::optional<base::Error> outside(double rpm) {
  if (rpm >= least_rpm && rpm <= greatest_rpm) return std::nullopt;
  return base::Error{base::ErrorCode::out_of_range,
                     rpm_text(rpm) + " is outside what this simulation turns.",
                     "rpm",
                     "Speeds from " + rpm_text(least_rpm) + " to " + rpm_text(greatest_rpm) + ".",
                     {}};
}

base::Result<std::vector<double>> steps(const std::string& text, double from, double to, double step) {
  for (const double end : {from, to})
    if (auto fault = outside(end)) return tl::unexpected(*fault);
  if (to < from || !(step > 0.0))
    return base::fail(base::ErrorCode::usage, "\u201C" + text + "\u201D leads nowhere.", "rpm",
                      "From the lower to the higher speed, with a step above 0.");
  const auto count = static_cast<std::size_t>(std::floor((to - from) / step + 1e-9)) + 1;
  if (count > most_points)
    return base::fail(base::ErrorCode::usage, "\u201C" + text + "\u201D asks for " + std::to_string(count) + " speeds.",
                      "rpm", "At most " + std::to_string(most_points) + "; take a longer step.");
  std::vector<double> out;
  for (std::size_t i = 0; i < count; ++i) out.push_back(from + step * static_cast<double>(i));
  return out;
}

const tables::RunRow* row_of(const char* name) {
  for (const cycle::AssumptionRange& range : cycle::assumption_ranges())
    if (range.row->name == name) return range.row;
  return nullptr;
}

study::Assumed listed(const tables::RunRow& row, std::string name) {
  const auto shown = [&](double si) { return (si - row.zero) / row.per_unit; };
  return {std::move(name), shown(row.value), shown(row.low), shown(row.high), row.unit, row.source};
}

/// A size that stood in for a reading and is no row of its own: a share of another reading.
study::Assumed sized(const cycle::Filled& filled) {
  const base::ShownUnit shown = base::shown_unit(base::Dimension::length);
  const double value = shown.of(filled.value);
  return {filled.reading, value, value, value, shown.unit, "own judgement"};
}

bool about_reeds(const std::string& name) { return name.starts_with("reed_"); }

}  // namespace

base::Result<std::vector<double>> speeds_of(const std::string& text) {
  const std::string plain = trimmed(text.find_first_not_of(" \t") == std::string::npos ? default_speeds : text);
  std::vector<double> numbers;
  for (std::size_t at = 0; at <= plain.size();) {
    const std::size_t end = std::min(plain.find(':', at), plain.size());
    const auto number = number_of(plain.substr(at, end - at));
    if (!number) return tl::unexpected(not_understood(text));
    numbers.push_back(*number);
    at = end + 1;
  }
  if (numbers.size() == 1) return steps(text, numbers[0], numbers[0], 1.0);
  if (numbers.size() == 3) return steps(text, numbers[0], numbers[1], numbers[2]);
  return tl::unexpected(not_understood(text));
}

base::Result<Speed> speed_of(const std::string& text, const geometry::Engine& engine) {
  if (text.empty()) return engine.in_cut ? Speed{*engine.in_cut * rpm_per_rev, "in-cut reading"} : Speed{};
  const auto number = number_of(trimmed(text));
  if (!number)
    return base::fail(base::ErrorCode::usage, "\u201C" + text + "\u201D is no speed.", "rpm",
                      "One speed in rpm: \u201C9000\u201D.");
  if (auto fault = outside(*number)) return tl::unexpected(*fault);
  return Speed{*number, "asked"};
}

base::ResultAll<Case> open_turning(const std::string& file, const std::string& cuts, const std::string& book) {
  auto opened = open_case(file, cuts, book);
  if (!opened) return opened;
  base::Errors wrong = opened->errors;
  std::erase_if(wrong, [](const base::Error& error) { return error.code == base::ErrorCode::contradiction; });
  if (!wrong.empty()) return tl::unexpected(std::move(wrong));
  return opened;
}

cycle::CurvePlan Sides::plan(std::vector<double> rpm) const {
  cycle::CurvePlan out;
  for (double& speed : rpm) speed /= rpm_per_rev;
  out.speeds = std::move(rpm);
  out.both_ways = !has_reed();
  out.scattered_turns = has_reed() ? 8 : 0;
  return out;
}

base::ResultAll<cycle::Network> network_of(const geometry::Engine& engine, const geometry::Survey& survey) {
  base::Errors all;
  auto network = cycle::build(engine, cycle::middle_assumptions(), survey.needs, {}, &all);
  if (network) return std::move(*network);
  if (all.empty()) all.push_back(network.error());
  for (base::Error& error : all) {
    if (error.message.empty()) continue;
    error.message[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(error.message[0])));
    if (error.message.back() != '.') error.message += '.';
  }
  return tl::unexpected(std::move(all));
}

base::ResultAll<std::unique_ptr<Sides>> sides_of(const Case& opened) {
  auto out = std::make_unique<Sides>();
  out->has_cuts = opened.has_cuts();
  out->stock = geometry::resolve(opened.survey);
  auto stock = network_of(out->stock, opened.survey);
  if (!stock) return tl::unexpected(stock.error());
  out->stock_network = std::move(*stock);
  out->cut = out->stock;
  out->cut_network = out->stock_network;
  if (!out->has_cuts) return out;
  cuts::apply(*opened.cuts(), out->cut);
  auto cut = network_of(out->cut, opened.survey);
  if (!cut) {
    for (base::Error& error : cut.error()) error.message = "After the cuts: " + error.message;
    return tl::unexpected(cut.error());
  }
  out->cut_network = std::move(*cut);
  return out;
}

std::vector<study::Assumed> assumed_of(const cycle::Network& network) {
  std::vector<study::Assumed> out;
  for (const cycle::Filled& filled : network.filled) {
    const tables::RunRow* row = row_of(filled.assumption);
    study::Assumed one = row != nullptr ? listed(*row, row->name + " (for " + filled.reading + ")") : sized(filled);
    const auto same = [&](const study::Assumed& known) { return known.name == one.name; };
    if (std::none_of(out.begin(), out.end(), same)) out.push_back(std::move(one));
  }
  for (const cycle::AssumptionRange& range : cycle::assumption_ranges()) {
    if (range.row->name == first_stand_in) break;
    const auto filled = [&](const cycle::Filled& one) { return range.row->name == one.assumption; };
    if (std::any_of(network.filled.begin(), network.filled.end(), filled)) continue;
    if (about_reeds(range.row->name) && !network.has_reed) continue;
    out.push_back(listed(*range.row, range.row->name));
  }
  return out;
}

const char* settled_name(cycle::Label label) {
  switch (label) {
    case cycle::Label::stable:
      return "stable";
    case cycle::Label::alternating:
      return "alternating";
    case cycle::Label::two_solution:
      return "two-solution";
    case cycle::Label::steep:
      return "steep";
    case cycle::Label::not_settled:
      return "not settled";
  }
  return "";
}

cycle::Tell Progress::stage(std::string what, double weight) {
  const double before = done_;
  done_ += weight;
  return [this, before, weight, what = std::move(what)](double share) {
    if (stopped_) return true;
    if (*watch_ && (*watch_)(std::min(1.0, (before + weight * share) / whole_), what)) stopped_ = true;
    return stopped_.load();
  };
}

}  // namespace portwright::desk
