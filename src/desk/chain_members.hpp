#pragma once
// Engine, chain and wood, set of assumptions by set, stock and cut under the same draws. Inside the module only.

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "desk/case.hpp"
#include "desk/run_bands.hpp"
#include "drive/wood.hpp"
#include "wire/bottom_end_answer.hpp"

namespace portwright::desk {

/// What the readings say of the drive; lengths [m], speeds [rev/s].
struct DriveRead {
  drive::Chain chain;
  std::optional<double> bar, wood, clutch_engages;
  std::optional<double> in_cut;

  /// Wood along the bar, never more than the bar.
  [[nodiscard]] std::optional<double> width() const;
};

/// Errors: a reading of the drive that cannot be read.
[[nodiscard]] base::Result<DriveRead> drive_of(const Case& opened, const geometry::Engine& engine);

/// Torque under the middles between the three speeds of the sets: a parabola alone misses it by a tenth where sprockets
/// are decided.
struct Shape {
  std::vector<double> speeds, torques;  ///< [rev/s], [N m]
  Shape() = default;
  explicit Shape(const std::vector<cycle::Point>& points);
  /// [N m]; the shape may not be empty
  [[nodiscard]] double torque(double speed) const;
};

/// One set of assumptions with its draws.
struct Member {
  drive::TorqueCurve stock, cut;
  double weight = 0.0;
  double drag = 0.0, energy = 0.0, exponent = 0.0;  ///< [-], [J/m²], [-]
  double force = 0.0;                               ///< of the chain in the wood as it is [N]
};

/// Members that gave an answer; the pull in the wood is what the stock engine gives at the in-cut reading, else at its
/// own greatest power. Empty where none pulls there.
[[nodiscard]] std::vector<Member> members_of(const Bands& bands, const Shape& stock, const Shape& cut,
                                             const DriveRead& read);

using OfMember = std::function<double(const Member&)>;
[[nodiscard]] cycle::Band band_over(const std::vector<Member>& members, const OfMember& value);

/// The sprockets near the fitted one in the wood as it is, the cut engine's.
[[nodiscard]] std::vector<wire::Sprocket> sprockets_of(const std::vector<Member>& members, const DriveRead& read);
/// The sprocket for a quarter, half, three quarters and all of the bar in wood; without a width none.
[[nodiscard]] std::vector<wire::WoodWidth> widths_of(const std::vector<Member>& members, const DriveRead& read);

}  // namespace portwright::desk
