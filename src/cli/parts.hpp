#pragma once
// Parts that several texts share: the head, rows, findings, the foot.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "cli/texts.hpp"

namespace portwright::cli {

/// A number's text without its unit, and the unit: "0.89" and "mm (35 thou)".
struct NumberAndUnit {
  std::string number, unit;
};
[[nodiscard]] NumberAndUnit parted(const std::string& text);

/// Name and state of the saw, its cuts, and what is wrong with single readings.
void head(Page& page, const wire::Head& head, std::string_view what);
void bad_readings(Page& page, const base::Errors& errors);

/// Letters of the findings that are not held, in their order: by figure.
using Letters = std::map<std::string, std::pair<std::string, study::State>>;
[[nodiscard]] Letters letters_of(const std::vector<study::Finding>& findings);
/// Shape of a state: tick, ring, triangle, filled hexagon.
[[nodiscard]] const char* shape_of(study::State state);
[[nodiscard]] const char* word_of(study::State state);
[[nodiscard]] Ink ink_of(study::State state);

void findings(Page& page, const std::vector<study::Finding>& all, const std::vector<study::Figure>& figures,
              bool with_held);
/// Names of the assumptions; with their values when everything is asked for.
void assumed(Page& page, const std::vector<study::Assumed>& all, const Setting& setting);
/// The same for a turning engine: readings that something usual stands in for, and how much every run takes for
/// granted.
void assumed_running(Page& page, const std::vector<study::Assumed>& all, const Setting& setting);
/// Says so when work was stopped before it was whole.
void stopped(Page& page, bool is);
void cautions(Page& page, const std::vector<std::string>& all);

/// "a, b and c".
[[nodiscard]] std::string listed(const std::vector<std::string>& words);

}  // namespace portwright::cli
