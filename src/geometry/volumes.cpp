#include "geometry/volumes.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "geometry/engine.hpp"

namespace portwright::geometry {

using base::apply;
using base::Known;
using std::numbers::pi;

namespace {

Known disc(const Known& diameter) {
  return apply(diameter, [](double d) { return 0.25 * pi * d * d; });
}

/// Cap of the dome inside the band's inner circle [m³].
Known cap_in_bowl(const Known& bore, const Known& band, const Known& dome) {
  if (dome.known() && *dome == 0.0) return 0.0;
  return apply(bore, band, dome, [](double b, double w, double h) {
    const double outer = 0.5 * b, inner = std::max(0.0, outer - w);
    return cap_volume(inner, cap_height(outer, inner, h));
  });
}

}  // namespace

Known plug_hole(const Known& thread, const Known& reach) { return disc(thread) * reach; }

double cap_height(double outer, double inner, double dome) {
  if (outer <= 0.0 || dome == 0.0) return 0.0;
  // R - sqrt(R² - r²) = r² / (R + sqrt(R² - r²)) with R = (a² + h²) / (2 h); for a dome higher than half a ball the cap
  // lies on the near side.
  const double height = std::abs(dome);
  const double radius = (outer * outer + height * height) / (2.0 * height);
  const double r = std::min(inner, radius);
  return std::copysign(r * r / (radius + std::sqrt(std::max(0.0, radius * radius - r * r))), dome);
}

double cap_volume(double radius, double height) {
  return pi * height * (3.0 * radius * radius + height * height) / 6.0;
}

Known built_chamber(const ChamberParts& parts) {
  return disc(parts.bore) * parts.squish + parts.bowl - cap_in_bowl(parts.bore, parts.band, parts.dome) +
         parts.decompression;
}

Known built_chamber(const Known& bore, const Known& squish, const Known& band, const Known& bowl, const Known& dome,
                    const Known& decompression) {
  return built_chamber(ChamberParts{bore, squish, band, bowl, dome, decompression});
}

Known ratio_over(const Known& volume, const Known& chamber) { return (volume + chamber) / chamber; }

Known volume_at(const Engine& engine, const Known& drop) {
  return engine.bore_area() *
         apply(drop, engine.stroke, [](double y, double stroke) { return std::clamp(y, 0.0, stroke); });
}

Known case_ratio(const Engine& engine) { return engine.case_at_tdc / (engine.case_at_tdc - engine.swept()); }

}  // namespace portwright::geometry
