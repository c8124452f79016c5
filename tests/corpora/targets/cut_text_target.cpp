// The text of a cut list.

#include <cmath>

#include "corpora/targets.hpp"
#include "cuts/cut.hpp"

using namespace portwright::cuts;
using portwright::corpora::require;

namespace {

void check_read(const CutList& cuts) {
  for (const Cut& cut : cuts) {
    require(std::isfinite(cut.amount) && std::isfinite(cut.width), "an amount read is finite");
    for (const double area : cut.amounts)
      require(std::isfinite(area) && area > 0.0, "an outlet is larger than nothing");
    require(!cut.text.empty(), "a cut keeps its text");
    if (const auto back = inverse(cut)) require(inverse(*back) == cut, "the inverse of the inverse is the cut");
  }
  const std::string canonical = cuts_text(cuts);
  const auto again = parse_cuts(canonical);
  require(again.has_value(), "canonical text can be read: " + canonical);
  require(*again == cuts, "canonical text gives the same list: " + canonical);
  require(cuts_text(*again) == canonical, "canonical text stays as it is: " + canonical);
}

void check_refused(const portwright::base::Errors& errors) {
  require(!errors.empty(), "a refusal says why");
  for (const auto& error : errors) {
    require(!error.message.empty(), "an error has a sentence");
    for (const std::string& reading : error.readings) {
      const auto read = parse_cuts(reading);
      require(read && read->size() == 1, "a cut offered can itself be read: " + reading);
    }
  }
}

}  // namespace

PORTWRIGHT_TARGET(cut_text) {
  const auto read = parse_cuts(portwright::corpora::as_text(bytes));
  if (read)
    check_read(*read);
  else
    check_refused(read.error());
}
