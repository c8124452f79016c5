#pragma once
// The 70 cm³ saw on which the table of cuts was worked out; invented.

#include <string>
#include <string_view>

#include "cuts/cut.hpp"
#include "saw/file.hpp"
#include "unit/support/larch_text.hpp"

namespace portwright::bench {

inline std::string with(std::string from, std::string to, std::string text) {
  const std::size_t at = text.find(from);
  if (at == std::string::npos) throw std::runtime_error("not in the saw: " + from);
  return text.replace(at, from.size(), to);
}

/// Larch with a thinner gasket, one squish, corners read, a higher intake roof and a ledge in the passage.
inline const std::string saw_text = [] {
  std::string text = larch_text;
  const auto change = [&](const char* from, const char* to) { text = with(from, to, text); };
  change("base_gasket = \"0.5 mm\"", "base_gasket = \"0.45 mm\"");
  change("squish = { exhaust = \"0.89 mm\", intake = \"0.89 mm\" }", "squish = \"0.89 mm\"");
  change("width = \"16.0 mm\"\n", "width = \"16.0 mm\"\ncorner_roof = \"2 mm\"\ncorner_floor = \"2 mm\"\n");
  change("foot = \"2.0 cm2\"\ngasket = \"2.0 cm2\"\n", "case_step = \"3 mm\"\n");
  change("roof = \"19.5 mm\"\nwidth = \"26 mm\"\n",
         "roof = \"24 mm\"\nwidth = \"26.0 mm\"\ncorner_roof = \"4 mm\"\ncorner_floor = \"4 mm\"\n");
  change("shaft = \"12 mm\"\n", "advance = \"26 deg\"\n[fuel]\noctane = \"91 pump\"\n");
  return text;
}();

inline saw::Readings readings(std::string_view text = saw_text) {
  auto read = saw::read_saw(text);
  if (!read) throw std::runtime_error(read.error().front().message);
  return std::move(read->readings);
}

inline std::string with(std::string from, std::string to) { return with(std::move(from), std::move(to), saw_text); }

/// A saw on the bench, and what cuts make of it.
struct Bench {
  explicit Bench(std::string_view text = saw_text)
      : survey(geometry::survey(readings(text))), stock(geometry::resolve(survey)) {}
  explicit Bench(const saw::Readings& r) : survey(geometry::survey(r)), stock(geometry::resolve(survey)) {}

  geometry::Engine after(std::string_view text, const std::string& folder = ".") const {
    auto cuts = cuts::parse_cuts(text);
    if (!cuts) throw std::runtime_error(cuts.error().front().message);
    auto prepared = cuts::prepare(*cuts, survey, folder);
    if (!prepared) throw std::runtime_error(prepared.error().front().message);
    geometry::Engine engine = stock;
    cuts::apply(**prepared, engine);
    return engine;
  }
  const geometry::Port& port(const geometry::Engine& engine, std::string_view name) const {
    return engine.ports[static_cast<std::size_t>(survey.find_port(name))];
  }

  geometry::Survey survey;
  geometry::Engine stock;
};

inline constexpr double degree = 3.14159265358979323846 / 180.0;

}  // namespace portwright::bench
