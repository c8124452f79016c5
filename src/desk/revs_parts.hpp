#pragma once
// From an open case to the bottom end's machines: what was read, checked; stock and cut; the gas of a turn. Inside the
// module only.

#include <memory>
#include <string>
#include <vector>

#include "bottom_end/ladder.hpp"
#include "desk/case.hpp"
#include "desk/turning.hpp"

namespace portwright::desk {

/// Stock and cut, ready for the bottom end; what could not be told is in words.
struct RevsSides {
  geometry::Engine stock_engine, cut_engine;
  bottom_end::Machine stock, cut;  ///< `cut` is stock where there are no cuts
  bool has_cuts = false, other_piston = false;
  std::unique_ptr<Sides> networks;  ///< null where the engine cannot be turned
  std::vector<std::string> waits;

  [[nodiscard]] bottom_end::Subject subject() const {
    return {&cut, has_cuts ? &stock.parts : nullptr, has_cuts && other_piston};
  }
  [[nodiscard]] bottom_end::Subject before() const { return {&stock, nullptr, false}; }
};

/// Errors: bore or stroke missing; masses or ratings that cannot be, all at once.
[[nodiscard]] base::ResultAll<std::unique_ptr<RevsSides>> revs_sides(const Case& opened);

/// The gas of a settled turn at a speed [rev/s] for stock and cut. Stopped early, neither has any.
void add_gas(RevsSides& sides, double speed, Progress& progress);

/// One reading of [bottom_end] in SI, none where it was not taken. Errors: out_of_range, as for any field.
[[nodiscard]] base::Result<bottom_end::Read> read_of(const std::string& path, const saw::Reading& reading,
                                                     double usual_sigma);

/// What stood in for readings of the bottom end, and what its ranges rest on.
[[nodiscard]] std::vector<study::Assumed> assumed_parts(const bottom_end::Machine& machine);
/// One row of data/assumptions.toml as it stands in an answer, its value and range times a factor.
[[nodiscard]] study::Assumed assumed_row(const std::string& name, double factor = 1.0,
                                         const std::string& stands_for = {});

}  // namespace portwright::desk
