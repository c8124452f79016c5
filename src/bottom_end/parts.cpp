#include "bottom_end/parts.hpp"

#include <algorithm>
#include <cmath>

#include "base/number_text.hpp"
#include "tables/assumptions.hpp"

namespace portwright::bottom_end {

namespace {

constexpr double usual_bore = 0.050, usual_stroke = 0.036;  // the engine that the rows speak of [m]
constexpr double gram = 1e3;

Doubtful assumed(const char* name, double scale) {
  const tables::AssumptionRow& row = tables::assumption(name);
  return {scale * row.value, scale * row.sigma, scale * row.least, scale * row.greatest, row.name};
}

Doubtful read_one(const Read& read, double floor) {
  return {*read.value, read.sigma, std::max(floor, *read.value - 4.0 * read.sigma), *read.value + 4.0 * read.sigma, {}};
}

std::string grams(double mass) { return base::number_text(mass * gram, 0) + " g"; }

struct Mass {
  const char *path, *what, *row;
  double scale;
  const Read& read;
};

std::optional<base::Error> absurd(const Mass& mass, const Doubtful& usual) {
  if (!mass.read.value) return std::nullopt;
  const double ratio = *mass.read.value / usual.value;
  if (ratio >= 1.0 / believed && ratio <= believed) return std::nullopt;
  return base::Error{base::ErrorCode::out_of_range,
                     grams(*mass.read.value) + " is no mass for the " + mass.what +
                         " of an engine of this size: about " + grams(usual.value) + " is usual.",
                     mass.path,
                     "Weigh it again; 1 oz is 28 g. From " + grams(usual.value / believed) + " to " +
                         grams(usual.value * believed) + " is taken.",
                     {}};
}

Rolling usual_kind(Place place) { return place == Place::main ? Rolling::ball : Rolling::needle; }

Bearing bearing_of(const ReadBearing& read, Place place) {
  Bearing out;
  out.kind = read.kind.value_or(usual_kind(place));
  if (read.rating && *read.rating > 0.0) {
    out.rating = read.rating;
    return out;
  }
  const std::string name = place_name(place);
  out.waits = (read.named ? name + " is named without a rating" : name + " has no rating") +
              ": its life and how near its load comes to what it bears wait for bottom_end." + place_key(place) +
              ".rating, the dynamic rating from the bearing maker's catalogue.";
  return out;
}

}  // namespace

const char* place_key(Place place) {
  return place == Place::big_end ? "big_end" : place == Place::small_end ? "small_end" : "main";
}
const char* place_name(Place place) {
  return place == Place::big_end ? "Big end" : place == Place::small_end ? "Small end" : "Main bearing";
}

double Doubtful::at(double draw) const { return std::clamp(value + sigma * draw, least, greatest); }

Masses Parts::middle() const {
  Masses out{piston.value, rod_small.value, rod_big.value, 0.0};
  out.counter = balance.value * out.reciprocating();
  return out;
}

base::ResultAll<Parts> parts_of(const ReadParts& read, double bore, double stroke) {
  const double of_piston = std::pow(bore / usual_bore, 3),
               of_rod = std::pow(bore / usual_bore, 2) * (stroke / usual_stroke);
  const Mass masses[] = {{"piston.mass", "piston with pin, clips and rings", "piston_mass", of_piston, read.piston},
                         {"bottom_end.rod_small_mass", "rod's small end", "rod_small_mass", of_rod, read.rod_small},
                         {"bottom_end.rod_big_mass", "rod's big end", "rod_big_mass", of_rod, read.rod_big}};
  Parts out;
  Doubtful* const places_of[] = {&out.piston, &out.rod_small, &out.rod_big};
  base::Errors errors;
  for (std::size_t i = 0; i < 3; ++i) {
    const Doubtful usual = assumed(masses[i].row, masses[i].scale);
    if (auto error = absurd(masses[i], usual)) errors.push_back(std::move(*error));
    *places_of[i] = masses[i].read.value ? read_one(masses[i].read, 1e-4) : usual;
  }
  if (!errors.empty()) return tl::unexpected(std::move(errors));
  out.balance = read.balance.value ? read_one(read.balance, 0.0) : assumed("counterweight", 1.0);
  for (const Place place : places)
    out.bearings[static_cast<int>(place)] = bearing_of(read.bearings[static_cast<int>(place)], place);
  return out;
}

}  // namespace portwright::bottom_end
