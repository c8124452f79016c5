#pragma once
// The study of one case: figures with ranges, findings, and which reading to take next.

#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/error.hpp"
#include "cuts/cut.hpp"
#include "geometry/survey.hpp"
#include "study/figure.hpp"
#include "study/finding.hpp"

namespace portwright::study {

struct Options {
  std::optional<double> speed;  ///< [rev/s]; none: the in-cut reading, else 150 (9,000 rpm)
  base::UnitStyle style = base::UnitStyle::shop;
  int samples = 512;
  std::string folder;  ///< where file names in cuts start
  /// Say which reading to take next, and which readings each figure is made from; both need every reading moved once.
  bool next_reading = true;
};

/// A named assumption and its range.
struct Assumed {
  std::string name;
  double value = 0.0, low = 0.0, high = 0.0;  ///< in `unit`
  std::string unit, source;
};

/// A reading not yet taken, or taken roughly, and what it would narrow or bring.
struct NextReading {
  std::string reading;  ///< path
  std::string narrows;  ///< sentence: "blowdown from ±2.0 to ±1.1 deg"
};

struct Study {
  double speed = 150.0;    ///< [rev/s] used for figures that turn with the crank
  std::string speed_from;  ///< "asked" | "in-cut reading" | "usual"
  std::vector<Figure> figures;
  std::vector<Finding> findings;  ///< worst first
  std::vector<Assumed> assumed;
  std::vector<NextReading> next_reading;
  std::vector<std::string> warnings;  ///< of the cuts
  base::Known metal;                  ///< [m³]
};

/// The samples of the saw as it is, kept from one study of its cuts to the next.
class StockSamples;
using KeptStock = std::shared_ptr<const StockSamples>;
/// Draws them. They serve studies of this survey, or one made of the same readings.
[[nodiscard]] KeptStock sample_stock(const geometry::Survey& survey, const Options& options);

/// Studies a case. `cuts` null: the saw as it is. The stock and the cut engine are drawn from the same samples.
[[nodiscard]] Study study(const geometry::Survey& survey, const cuts::CutList& cut_list, const cuts::Prepared* cuts,
                          const Options& options);
/// The same numbers sooner, with the stock's samples at hand; those of another speed or number are drawn anew.
[[nodiscard]] Study study(const geometry::Survey& survey, const cuts::CutList& cut_list, const cuts::Prepared* cuts,
                          const Options& options, const StockSamples* kept);

/// One figure's row of differences between two saws (other samples) or two cut lists of one saw (same samples).
struct Compared {
  std::string id, unit;
  std::optional<double> a, b, change, low, high;
  bool distinguishable = false;
  std::string text_a, text_b, text_change;
  std::string label = {};  ///< name for a person; the desk fills it
};
[[nodiscard]] std::vector<Compared> compare(const geometry::Survey& a, const cuts::Prepared* cuts_a,
                                            const geometry::Survey& b, const cuts::Prepared* cuts_b,
                                            const Options& options);

/// A figure with the shares of its variance.
struct Why {
  Figure figure;
  std::vector<Share> inputs;
};
[[nodiscard]] base::Result<Why> why(const geometry::Survey& survey, const cuts::Prepared* cuts, std::string_view figure,
                                    const Options& options);

}  // namespace portwright::study
