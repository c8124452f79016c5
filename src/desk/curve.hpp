#pragma once
// The curve under a slider, and a turn instant by instant: answers that come in parts.
//
// A curve gets better in three rounds: a first look at every speed, five speeds before the others; then each speed
// settled and proven; then, where a fold could hide, the same from above. What is there is told after every speed.

#include <functional>
#include <memory>
#include <string>

#include "base/error.hpp"
#include "base/number_text.hpp"
#include "desk/run.hpp"
#include "wire/curve_answer.hpp"

namespace portwright::desk {

/// What the curves of one saw leave behind for the next: stock, and where its turns stand, which a cut one starts from.
/// One memory serves one saw at a time and forgets it when another, or other readings, come. Safe to share.
class CurveMemory {
 public:
  CurveMemory();
  ~CurveMemory();
  CurveMemory(const CurveMemory&) = delete;
  CurveMemory& operator=(const CurveMemory&) = delete;
  struct Inside;
  [[nodiscard]] Inside& inside() { return *inside_; }

 private:
  std::unique_ptr<Inside> inside_;
};

/// Told each answer as it stands; returns whether to stop. Called from one thread at a time. May be empty.
using CurveWatch = std::function<bool(const wire::CurveAnswer& answer)>;

struct CurveRequest {
  std::string file, cuts;
  std::string speeds;  ///< as in RunRequest
  bool settle = true;  ///< no: a first look is enough
  int threads = 2;
  base::UnitStyle style = base::UnitStyle::shop;
  std::string book = {};
};
[[nodiscard]] base::ResultAll<wire::CurveAnswer> curve(const CurveRequest& request, const CurveWatch& watch = {},
                                                       CurveMemory* memory = nullptr);

struct TracesRequest {
  std::string file, cuts;
  std::string speed;  ///< "9000" [rpm]; empty: the in-cut reading, else 9,000
  base::UnitStyle style = base::UnitStyle::shop;
  std::string book = {};
};
[[nodiscard]] base::ResultAll<wire::TracesAnswer> traces(const TracesRequest& request, const Watch& watch = {});

}  // namespace portwright::desk
