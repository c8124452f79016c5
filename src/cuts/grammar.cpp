#include "cuts/grammar.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <string>

#include "base/quantity/number.hpp"
#include "base/quantity/text.hpp"

namespace portwright::cuts {
namespace {

using enum base::Dimension;

constexpr std::array<std::string_view, 2> edges{"roof", "floor"};
constexpr std::array<std::string_view, 2> hands{"left", "right"};
constexpr std::array<std::string_view, 3> skirts{"exhaust", "intake", "side"};

constexpr double far = 0.05;                                // [m]
constexpr double widest = 0.15;                             // a bore or a window [m]
constexpr double fullest = 1e-3;                            // [m³]
constexpr double opening = 1e-2;                            // [m²]
constexpr double latest = 60.0 * std::numbers::pi / 180.0;  // [rad]
constexpr SideForm no_side = SideForm::none;

constexpr Form swapped(std::string_view part, std::string_view example) {
  return {Act::swap, part, false, no_side, {}, AmountForm::file, length, 0.0, example};
}

constexpr std::array table = {
    Form{Act::gasket_out, "gasket", false, no_side, {}, AmountForm::none, length, 0.0, "gasket out"},
    Form{Act::gasket_to, "gasket", false, no_side, {}, AmountForm::size, length, far, "gasket to 0.3 mm"},
    Form{Act::base, "base", false, no_side, {}, AmountForm::change, length, far, "base -0.5 mm"},
    Form{Act::band, "band", false, no_side, {}, AmountForm::change, length, far, "band -0.3 mm"},
    Form{Act::crown_edge,
         "crown edge",
         false,
         no_side,
         {},
         AmountForm::change,
         length,
         far,
         "crown edge -1 mm wide 6 mm"},
    Form{Act::dome, "dome", false, no_side, {}, AmountForm::change, length, far, "dome -0.5 mm"},
    Form{Act::roof, "roof", true, no_side, {}, AmountForm::change, length, far, "roof exhaust +0.5 mm"},
    Form{Act::floor, "floor", true, no_side, {}, AmountForm::change, length, far, "floor intake -1 mm"},
    Form{Act::widen, "widen", true, SideForm::optional, hands, AmountForm::change, length, far, "widen exhaust +1 mm"},
    Form{Act::corner, "corner", true, SideForm::needed, edges, AmountForm::size, length, far,
         "corner exhaust roof to 6 mm"},
    Form{Act::outline, "outline", true, no_side, {}, AmountForm::file, length, 0.0, "outline exhaust to rubbing.txt"},
    Form{Act::skirt, "skirt", false, SideForm::needed, skirts, AmountForm::change, length, far, "skirt intake -1 mm"},
    Form{Act::mouth, "mouth", true, no_side, {}, AmountForm::size, area, opening, "mouth primary to 2 cm2"},
    Form{Act::case_volume, "case", false, no_side, {}, AmountForm::change, volume, fullest, "case +5 cc"},
    Form{Act::stuff, "stuff", false, no_side, {}, AmountForm::quantity, volume, fullest, "stuff 5 cc"},
    swapped("piston", "piston to other.saw.toml"),
    swapped("cylinder", "cylinder to other.saw.toml"),
    swapped("reed", "reed to other.saw.toml"),
    swapped("carburettor", "carburettor to other.saw.toml"),
    swapped("muffler", "muffler to other.saw.toml"),
    Form{Act::petal, "petal", false, no_side, {}, AmountForm::size, length, far, "petal to 0.35 mm"},
    Form{Act::venturi, "venturi", false, no_side, {}, AmountForm::size, length, widest, "venturi to 21 mm"},
    Form{Act::outlets, "outlets", false, no_side, {}, AmountForm::areas, area, opening, "outlets to 1.4 cm2 0.8 cm2"},
    Form{Act::advance, "advance", false, no_side, {}, AmountForm::change, angle, latest, "advance +4 deg"},
    Form{Act::octane, "octane", false, no_side, {}, AmountForm::octane, count, 150.0, "octane to \"95 research\""},
    Form{Act::weld, "weld", true, SideForm::needed, edges, AmountForm::quantity, length, far,
         "weld exhaust floor 1 mm"},
    Form{Act::sleeve, "sleeve", false, no_side, {}, AmountForm::size, length, widest, "sleeve to 46 mm"},
};

double canonical_scale(base::Dimension dimension) {
  const base::Unit* unit = base::find_unit(canonical_unit(dimension), dimension);
  return unit != nullptr ? unit->scale : 1.0;
}

// Letters changed, added or dropped between two short words.
std::size_t letters_between(std::string_view a, std::string_view b) {
  std::array<std::size_t, 33> row{};
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 0; i < a.size(); ++i) {
    std::size_t corner = row[0];
    row[0] = i + 1;
    for (std::size_t j = 0; j < b.size(); ++j) {
      const std::size_t changed = corner + (a[i] == b[j] ? 0 : 1);
      corner = row[j + 1];
      row[j + 1] = std::min({changed, row[j] + 1, row[j + 1] + 1});
    }
  }
  return row[b.size()];
}

}  // namespace

std::span<const Form> forms() { return table; }

const Form& form_of(const Cut& cut) {
  const auto* found = std::find_if(table.begin(), table.end(), [&](const Form& form) {
    return form.act == cut.act && (cut.act != Act::swap || form.word == cut.part);
  });
  return found != table.end() ? *found : table.front();
}

std::string_view canonical_unit(base::Dimension dimension) {
  switch (dimension) {
    case area:
      return "cm2";
    case volume:
      return "cc";
    case angle:
      return "deg";
    default:
      return "mm";
  }
}

std::string amount_text(double si, base::Dimension dimension) {
  // Nothing on a saw is told apart by a billionth of these units, and a number without an exponent stays short.
  const double number = std::round(si / canonical_scale(dimension) * 1e9) / 1e9;
  return base::typed::plain_number(number + 0.0) + " " + std::string(canonical_unit(dimension));
}

double canonical_amount(double si, base::Dimension dimension) {
  const auto read = base::parse_quantity(amount_text(si, dimension), dimension);
  return read ? read->si + 0.0 : si;
}

std::string_view nearest_word(std::string_view word, std::span<const std::string_view> known) {
  if (word.empty() || word.size() > 32) return {};
  std::string_view best;
  std::size_t least = word.size() / 3 + 2;
  for (const std::string_view candidate : known) {
    if (candidate.size() > 32) continue;
    const std::size_t between = letters_between(word, candidate);
    if (between < least && between < candidate.size()) least = between, best = candidate;
  }
  return best;
}

}  // namespace portwright::cuts
