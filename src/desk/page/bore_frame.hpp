#pragma once
// One engine laid into the frame of the unrolled wall, with the ranges of its levels and angles. Inside the module
// only.

#include <array>
#include <string>
#include <vector>

#include "desk/case.hpp"
#include "desk/page.hpp"
#include "geometry/walls.hpp"
#include "sheet/bore_view.hpp"
#include "sheet/plan.hpp"
#include "study/samples.hpp"

namespace portwright::desk {

/// What of a port gets a range: levels and sizes [m], angles [rad].
enum class Of { roof, floor, roof_height, floor_height, opens, closes, duration, width };
inline constexpr std::size_t of_count = 8;

/// Sampled levels and angles of one engine, by entry of Engine::ports.
class PortRanges {
 public:
  explicit PortRanges(std::size_t ports, std::size_t samples)
      : columns_(ports * of_count, study::Column{std::vector<double>(samples), std::vector<char>(samples)}) {}

  void put(const geometry::Engine& engine, std::size_t sample);
  [[nodiscard]] const study::Column& column(std::size_t entry, Of what) const {
    return columns_[entry * of_count + static_cast<std::size_t>(what)];
  }

 private:
  std::vector<study::Column> columns_;
};

/// The same as read [SI].
[[nodiscard]] base::Known view_of(const geometry::Engine& engine, std::size_t entry, Of what);

/// Ranges of the engine before the cuts, of the one that the last is held against, and of the last, by the samples of
/// the study.
struct BoreRanges {
  PortRanges first, held, last;
};
[[nodiscard]] BoreRanges bore_ranges(const Case& opened, std::size_t held_after);

/// An engine in the frame.
struct BoreFrame {
  const geometry::Survey& survey;
  const geometry::Engine& engine;
  const PortRanges& ranges;
  sheet::BoreView view;
  double down = 0.0;  ///< added to each level to bring it into the frame [m]
  base::UnitStyle style = base::UnitStyle::shop;

  [[nodiscard]] base::Spread spread(std::size_t entry, Of what, double scale) const;
  [[nodiscard]] wire::Value length(std::size_t entry, Of what) const;  ///< [mm]
  [[nodiscard]] std::string angle(std::size_t entry, Of what) const;   ///< "103.0°"
  [[nodiscard]] std::string name(std::size_t entry) const;             ///< for a person
};

/// "103.0°" to as many digits as the range allows.
[[nodiscard]] std::string angle_text(const base::Spread& degrees, base::UnitStyle style);
/// Number of a path, to a millionth of a millimetre.
[[nodiscard]] std::string path_number(double mm);
/// Place of a transfer from the exhaust round: 0 primary, 1 secondary, 2 third; 0 for other kinds.
[[nodiscard]] int rank_of(const geometry::Engine& engine, std::size_t entry);
/// Paths of the readings that a set waits for.
[[nodiscard]] std::vector<std::string> need_paths(const geometry::Survey& survey, const base::Needs& needs);
/// Crank angle of a port's opening and closing after TDC [deg], 0 to 360; none where they are not known.
struct OpenTurn {
  double opens = 0.0, closes = 0.0, duration = 0.0;
};
[[nodiscard]] std::optional<OpenTurn> open_turn(const geometry::Engine& engine, std::size_t entry);

/// Windows that are known, left to right; `stock` and `plan` say what a cut worked on, null without cuts.
[[nodiscard]] std::vector<wire::BoreWindow> bore_windows(const BoreFrame& frame, const sheet::Plan* plan);
/// The piston from its crown edge down; what it waits for goes to `waits`.
[[nodiscard]] wire::BorePiston bore_piston(const BoreFrame& frame, std::vector<wire::Waiting>& waits);
/// Open area at each degree, of each port whose windows and crank are known.
[[nodiscard]] std::vector<wire::BoreArea> bore_areas(const BoreFrame& frame);
/// Ports, blowdown, free-porting.
[[nodiscard]] std::vector<wire::BoreEvent> bore_events(const BoreFrame& frame);
/// What the picture says; `stock` null without cuts.
[[nodiscard]] std::string bore_sentence(const std::vector<wire::BoreEvent>& events,
                                        const std::vector<wire::BoreEvent>* stock);

/// Area of a port's windows, all entries of it, that the skirt leaves open to the case at a crown edge's drop [m²];
/// none where the skirt is not known.
[[nodiscard]] std::optional<double> area_under_skirt(const geometry::Engine& engine, std::size_t entry, double drop);

}  // namespace portwright::desk
