#pragma once
// The use cases that turn the engine: curve, gauge, airflow. They take seconds, so they tell how far they are and can
// be stopped; what is ready is kept.

#include <functional>
#include <optional>
#include <string>

#include "base/error.hpp"
#include "base/number_text.hpp"
#include "wire/run_answer.hpp"

namespace portwright::desk {

/// Told the share done (0..1) and what is being done; returns whether to stop. May be empty.
using Watch = std::function<bool(double share, const std::string& what)>;

struct RunRequest {
  std::string file;
  std::string cuts;    ///< text; empty: the saw as it is
  std::string speeds;  ///< "9000" or "5000:12000:500" [rpm]; empty: 4,500 to 12,000 in steps of 500
  std::string plot;    ///< SVG to write the curve to, with one speed its turn; empty: none
  std::string traces;  ///< CSV to write pressures and flows over the turn to, one block a speed; empty: none
  bool bands = true;   ///< ranges over the assumptions at three speeds
  int members = 64;    ///< of the ensemble
  base::UnitStyle style = base::UnitStyle::shop;
  std::string book = {};  ///< that `book:NAME` speaks of; empty: PORTWRIGHT_BOOK, else the usual one
};
[[nodiscard]] base::ResultAll<wire::RunAnswer> run(const RunRequest& request, const Watch& watch = {});

struct CrankRequest {
  std::string file, cuts;
  base::UnitStyle style = base::UnitStyle::shop;
  std::string book = {};  ///< that `book:NAME` speaks of; empty: PORTWRIGHT_BOOK, else the usual one
};
[[nodiscard]] base::ResultAll<wire::CrankAnswer> crank(const CrankRequest& request, const Watch& watch = {});

struct AirflowRequest {
  std::string file, cuts;
  std::string speed;  ///< "9000" [rpm]; empty: the in-cut reading, else 9,000
  std::string plot;   ///< SVG of the air's way; empty: none
  base::UnitStyle style = base::UnitStyle::shop;
  std::string book = {};  ///< that `book:NAME` speaks of; empty: PORTWRIGHT_BOOK, else the usual one
};
[[nodiscard]] base::ResultAll<wire::AirflowAnswer> airflow(const AirflowRequest& request, const Watch& watch = {});

}  // namespace portwright::desk
