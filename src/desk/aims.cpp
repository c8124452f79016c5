#include "desk/aims.hpp"

#include <cmath>

#include "tables/aims.hpp"

namespace portwright::desk {
namespace {

// The decimals that a round number of the table was written with.
std::string plain(double value) {
  int decimals = 0;
  for (double scale = 1.0; decimals < 4 && std::abs(std::round(value * scale) - value * scale) > 1e-6; scale *= 10.0)
    ++decimals;
  return base::number_text(value, decimals);
}

std::string end_text(double value, const std::string& unit, base::UnitStyle style) {
  const bool converted = unit == "psi" && style == base::UnitStyle::metric;
  if (!converted) return plain(value);
  const std::string text = base::value_text({value, {}, {}}, unit, style);
  return text.substr(0, text.find(' '));
}

std::optional<wire::Band> band(const std::optional<tables::Band>& row, const std::string& unit, base::UnitStyle style) {
  if (!row) return std::nullopt;
  wire::Band out{row->low, row->high, {}};
  if (row->low && row->high)
    out.text = end_text(*row->low, unit, style) + "\u2013" + end_text(*row->high, unit, style);
  else if (row->low)
    out.text = end_text(*row->low, unit, style) + " up";
  else if (row->high)
    out.text = "to " + end_text(*row->high, unit, style);
  return out;
}

const saw::Port* port_of(const std::string& id, const saw::Readings& readings) {
  if (id.rfind("port.", 0) != 0) return nullptr;
  const std::string name = id.substr(5, id.find('.', 5) - 5);
  for (const saw::Port& port : readings.ports)
    if (port.name == name) return &port;
  return nullptr;
}

const tables::AimRow* row_of(const std::string& id, const saw::Readings& readings) {
  const saw::Port* port = port_of(id, readings);
  const std::string kind = port ? port->kind : "";
  if (port) {
    const char* bridge = port->bridge.taken() ? "bridged" : "no bridge";
    if (const auto* row = tables::aim(id, kind, bridge)) return row;
  }
  if (readings.intake.kind == "skirt")
    if (const auto* row = tables::aim(id, kind, "skirt intake")) return row;
  return tables::aim(id, kind);
}

}  // namespace

std::optional<wire::Aim> aim_of(const study::Figure& figure, const saw::Readings& readings, base::UnitStyle style) {
  const tables::AimRow* row = row_of(figure.id, readings);
  if (!row) return std::nullopt;
  return wire::Aim{figure.id,
                   row->item,
                   row->unit,
                   band(row->stock, row->unit, style),
                   band(row->work, row->unit, style),
                   band(row->race, row->unit, style),
                   row->source};
}

std::vector<wire::Aim> aims_of(const std::vector<study::Figure>& figures, const saw::Readings& readings,
                               base::UnitStyle style) {
  std::vector<wire::Aim> out;
  for (const study::Figure& figure : figures)
    if (auto aim = aim_of(figure, readings, style)) out.push_back(std::move(*aim));
  return out;
}

std::vector<std::string> cautions() {
  return {
      "These are estimates from your readings. Measure, creep up, stop short: metal that is cut does not come back.",
      "A modified saw is louder, hotter and outside its certification. Emissions, noise and spark-arrester rules are "
      "local law.",
      "Before it runs, the chain brake, chain catcher, throttle lock and vibration mounts must work. Protect eyes, "
      "ears, hands and "
      "legs; never run it with the clutch cover off, never over-rev it unloaded.",
      "Fuel, pressure tests, grinding and plating dust have hazards of their own. Where doubt remains, a qualified "
      "small-engine "
      "technician decides.",
  };
}

}  // namespace portwright::desk
