#pragma once
// What the use cases share that turn the engine: speeds as typed, networks of stock and cut, what was assumed, how far
// they are. Inside the module only.

#include <atomic>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "cycle/build.hpp"
#include "cycle/curve.hpp"
#include "desk/case.hpp"
#include "desk/run.hpp"

namespace portwright::desk {

inline constexpr double rpm_per_rev = 60.0;
inline constexpr double least_rpm = 1000.0, greatest_rpm = 20000.0;
inline constexpr std::size_t most_points = 60;

/// "9000", "5000:12000:500" [rpm], `rpm` after it or not; empty: 4,500 to 12,000 in steps of 500. Ascending.
/// Errors: not understood (usage); outside 1,000 to 20,000 rpm or more than 60 points, in words.
[[nodiscard]] base::Result<std::vector<double>> speeds_of(const std::string& text);

/// One speed and where it is from.
struct Speed {
  double rpm = 9000.0;
  const char* from = "usual";
};
/// As asked; empty: the in-cut reading, else the usual one.
[[nodiscard]] base::Result<Speed> speed_of(const std::string& text, const geometry::Engine& engine);

/// Opens what is to be turned. A reading that is wrong refuses it, for an assumption would stand in its place unseen;
/// readings that contradict each other were both weighed and stay in the head.
[[nodiscard]] base::ResultAll<Case> open_turning(const std::string& file, const std::string& cuts,
                                                 const std::string& book);

/// Stock, and what the cuts leave of it, both ready to turn.
struct Sides {
  geometry::Engine stock, cut;  ///< `cut` is stock where there are none
  cycle::Network stock_network, cut_network;
  bool has_cuts = false;

  [[nodiscard]] bool has_reed() const { return stock_network.has_reed || cut_network.has_reed; }
  /// Reed engines: mean of scattered turns; the others swept up and down. The same for stock and cut.
  [[nodiscard]] cycle::CurvePlan plan(std::vector<double> rpm) const;
};
/// Errors: all that a simulation misses, at once.
[[nodiscard]] base::ResultAll<std::unique_ptr<Sides>> sides_of(const Case& opened);
[[nodiscard]] base::ResultAll<cycle::Network> network_of(const geometry::Engine& engine,
                                                         const geometry::Survey& survey);

/// What stood in for readings that are missing, then what every run takes for granted.
[[nodiscard]] std::vector<study::Assumed> assumed_of(const cycle::Network& network);

/// What may be read out of power that nothing anchors, and out of differences under one set of assumptions.
inline constexpr const char* power_is_an_order_of_size =
    "Without this saw's own stock power, power is an order of size: about 30 % either way, never one number.";
inline constexpr const char* differences_under_one_set =
    " Differences from stock, with the mixture re-set, stand here under one set of assumptions; their ranges were not "
    "run.";

/// Word of a label as in the answers: "two-solution".
[[nodiscard]] const char* settled_name(cycle::Label label);

/// How far a use case is, over its stages.
class Progress {
 public:
  /// @param whole  sum of the stages' weights
  Progress(const Watch& watch, double whole) : watch_(&watch), whole_(whole) {}

  /// Begins the next stage. Once stopped, every later stage is, too.
  [[nodiscard]] cycle::Tell stage(std::string what, double weight);
  [[nodiscard]] bool stopped() const { return stopped_; }

 private:
  const Watch* watch_;
  double whole_, done_ = 0.0;
  std::atomic<bool> stopped_{false};
};

/// The errors of one failure.
template <class T>
tl::unexpected<base::Errors> only(const base::Result<T>& failed) {
  return tl::unexpected(base::Errors{failed.error()});
}

}  // namespace portwright::desk
