#pragma once
// What a design comes to by the cycle: its torque at a few speeds, many designs side by side, each from where the
// nearest design that is known turns.

#include <array>
#include <atomic>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "cycle/build.hpp"
#include "cycle/curve.hpp"
#include "plan/ground.hpp"
#include "seek/search.hpp"
#include "seek/wish.hpp"

namespace portwright::seek {

/// Speeds a design is turned at, over stock's speed of most power. A wish for a speed takes the place of the nearest
/// that nothing else hangs on.
inline constexpr std::array<double, 6> speed_shares{0.50, 0.65, 0.80, 0.95, 1.10, 1.25};
inline constexpr double low_share = speed_shares[0];  ///< what a cut for revs takes away first
inline constexpr std::array<double, 2> pull_shares{speed_shares[1], speed_shares[2]};  ///< mean torque there is pull
inline constexpr std::size_t kept_speeds = 3;  ///< so many, first, no wish takes the place of
/// What torque at the lowest speed may lose without being asked: own judgement.
inline constexpr double low_speed_loss = 0.02;

/// One design's figures, as turned.
struct Outcome {
  std::vector<double> torque;           ///< at each speed [N m]
  double low = 0.0;                     ///< torque at the lowest share of the rated speed [N m]
  std::vector<double> knock;            ///< integral at each speed [-]
  double peak = 0.0, peak_speed = 0.0;  ///< most power [W] and where [rev/s]
  double most_torque = 0.0;             ///< [N m]
  double pull = 0.0;                    ///< [N m]
  double heat = 0.0;                    ///< into the cylinder's wall at the speed of most power [W]
};

/// What is asked of an outcome.
struct Asked {
  Aim aim;
  std::vector<Hold> holds;
  bool low_speed_free = false;  ///< torque at the lowest speed may fall as it will
  double rated = 0.0;           ///< stock's speed of most power [rev/s]
  std::vector<double> speeds;   ///< [rev/s], ascending

  /// @param points  one for each speed
  [[nodiscard]] Outcome outcome(std::span<const cycle::Point> points) const;

  /// A figure of an outcome; of power and torque at a speed that is among `speeds`, or the greatest.
  [[nodiscard]] double value(const Outcome& of, Figure figure, double speed) const;
  /// The gains of Judged: aim, pull, most power, less heat, each as a change over stock's own.
  [[nodiscard]] std::array<double, 4> gains(const Outcome& now, const Outcome& stock) const;
};
inline constexpr std::size_t gain_aim = 0, gain_pull = 1, gain_peak = 2, gain_heat = 3;

/// The speeds for a wish. @param rated  stock's speed of most power [rev/s]
[[nodiscard]] std::vector<double> speeds_for(const EngineWish& wish, double rated);
[[nodiscard]] Asked asked_of(const EngineWish& wish, double rated);

/// Stock under the middle assumptions: a first look every 1,500 rpm from 5,000 to 12,500.
struct StockLook {
  std::vector<double> speeds, torques;  ///< [rev/s], [N m]
  double rated = 0.0;                   ///< speed of most power [rev/s]; 0: stopped
  std::vector<cycle::State> states;     ///< where each turn begins
};
/// Errors: it gives no power.
[[nodiscard]] base::Result<StockLook> look_at_stock(const cycle::Network& stock, int threads,
                                                    const cycle::StopCall& stop);

/// Told between points whether to stop; from any thread.
using StopAsked = std::function<bool()>;

/// Knock integral that no design may pass unless stock does, and then by no more: own judgement, between the note and
/// the caution of its row in data/limits.
inline constexpr double most_knock = 0.9;

class CycleJudge {
 public:
  /// @param needs  Survey::needs  @param stop  may be empty
  CycleJudge(const plan::Ground& ground, Asked asked, std::span<const std::string> needs,
             const cycle::Fineness& fineness, int threads, StopAsked stop);
  ~CycleJudge();
  CycleJudge(const CycleJudge&) = delete;
  CycleJudge& operator=(const CycleJudge&) = delete;

  /// Turns the stock first; false when stopped. Errors: what a simulation misses.
  /// @param look  each speed starts where its nearest was left; nothing in it: cold
  [[nodiscard]] base::Result<bool> begin(const StockLook& look = {});
  /// As a Judge. Gains are changes from stock: the aim, pull, most power, and less heat, each over stock's own.
  [[nodiscard]] std::vector<Judged> operator()(std::span<const Design> designs);

  [[nodiscard]] const Outcome& stock() const;
  [[nodiscard]] const Asked& asked() const;
  /// The outcome of a design that was judged; null: it was not.
  [[nodiscard]] const Outcome* outcome(const Design& design) const;
  /// Why a design that was judged is not possible; empty: it is.
  [[nodiscard]] std::string why_not(const Design& design) const;
  [[nodiscard]] std::size_t points_turned() const;

 private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

}  // namespace portwright::seek
