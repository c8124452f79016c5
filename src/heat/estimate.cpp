#include "heat/estimate.hpp"

#include <algorithm>
#include <cctype>
#include <charconv>
#include <cmath>
#include <numbers>

#include "numerics/root.hpp"

namespace portwright::heat {

namespace {

constexpr double deg = std::numbers::pi / 180.0;
constexpr double spot_tolerance = 0.02;  ///< a spot that is met [K]
constexpr double usual_fall = 0.5;       ///< of a spot above the day with the logarithm of air, to begin with [-]
constexpr int most_secants = 8;

std::string lower(std::string text) {
  for (char& c : text) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return text;
}

/// The first number of a text, sign and all.
std::optional<double> number_in(const std::string& text) {
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (std::isdigit(static_cast<unsigned char>(text[i])) == 0) continue;
    const std::size_t from = i > 0 && text[i - 1] == '-' ? i - 1 : i;
    double value = 0.0;
    const auto [end, fault] = std::from_chars(text.data() + from, text.data() + text.size(), value);
    if (fault == std::errc() && std::abs(value) <= 360.0) return value;
    return std::nullopt;
  }
  return std::nullopt;
}

/// Root of the fins over the finned half of the height, at the spot's angle or all round.
double at_fins(const Spot& spot, const Body& body, const Map& map) {
  const Shell& s = body.shell;
  double sum = 0.0, count = 0.0;
  for (int row = 0; row < s.rows / 2; ++row)
    for (int column = 0; column < s.around; ++column) {
      const int cell = s.cell(row, column);
      const double off = std::abs(std::remainder(s.angle(column) - spot.angle, 2.0 * std::numbers::pi));
      if (s.hole(cell) || (!spot.all_round && off > 10.0 * deg)) continue;
      sum += map.outer[static_cast<std::size_t>(cell)];
      count += 1.0;
    }
  return count > 0.0 ? sum / count : map.head;
}

}  // namespace

base::Result<Spot> spot_of(const std::string& where) {
  const std::string words = lower(where);
  const auto has = [&](const char* word) { return words.find(word) != std::string::npos; };
  Spot out;
  out.plug = has("plug") || has("head");
  if (out.plug) return out;
  if (!has("fin") && !has("wall") && !has("cylinder"))
    return base::fail(
        base::ErrorCode::unreadable, "\u201C" + where + "\u201D is no spot that a map can be held against.",
        "readings.spot.where",
        "\u201Cplug seat\u201D, \u201Cfins at 90 deg\u201D (at their roots), or \u201Cfins\u201D for all round.");
  const auto angle = number_in(words);
  out.all_round = !angle;
  out.angle = angle.value_or(0.0) * deg;
  return out;
}

double at_spot(const Spot& spot, const Load& load, const Map& map) {
  return spot.plug ? map.head : at_fins(spot, load.body, map);
}

std::optional<double> fitted_air(const Spot& spot, double T, const Load& load, const Assumptions& assumptions,
                                 double near) {
  ThermalNetwork::Order order;
  return fitted_air(spot, T, load, assumptions, near, order);
}

std::optional<double> fitted_air(const Spot& spot, double T, const Load& load, const Assumptions& assumptions,
                                 double near, ThermalNetwork::Order& order) {
  const double least = std::log(least_air), greatest = std::log(greatest_air);
  const auto off = [&](double exponent) {
    Assumptions tried = assumptions;
    tried.air_factor = std::exp(exponent);
    const auto map = steady(load, tried, order);
    return map ? at_spot(spot, load, *map) - T : 0.0;
  };
  // A spot falls smoothly with the air that cools it: a secant finds it in three or four maps.
  double x = std::clamp(std::log(near), least, greatest), y = off(x);
  double slope = -(T - load.gas.day) * usual_fall;
  for (int k = 0; k < most_secants && slope < 0.0; ++k) {
    if (std::abs(y) < spot_tolerance) return std::exp(x);
    const double next = std::clamp(x - y / slope, least, greatest), there = off(next);
    if (next == x) break;
    slope = (there - y) / (next - x);
    x = next;
    y = there;
  }
  const auto root = numerics::find_root(off, least, greatest, 1e-3);
  if (!root) return std::nullopt;
  return std::exp(*root);
}

Told told(std::vector<double> values) {
  if (values.empty()) return {};
  const double value = values.front();
  std::sort(values.begin(), values.end());
  const auto at = [&](double share) {
    const double place = share * static_cast<double>(values.size() - 1);
    const auto i = static_cast<std::size_t>(place);
    const std::size_t next = std::min(i + 1, values.size() - 1);
    return values[i] + (place - static_cast<double>(i)) * (values[next] - values[i]);
  };
  return {value, std::min(value, at(0.025)), std::max(value, at(0.975))};
}

base::Result<Seen> see(const Load& load, const Assumptions& assumptions) {
  ThermalNetwork::Order order;
  return see(load, assumptions, order);
}

base::Result<Seen> see(const Load& load, const Assumptions& assumptions, ThermalNetwork::Order& order) {
  const auto map = steady(load, assumptions, order);
  if (!map) return tl::unexpected(map.error());
  return Seen{places(load, *map), hottest(load.body, *map), mean_wall(load.body, *map),
              growth(load.body, *map, assumptions), map->flows, map->wall};
}

namespace {

/// The same load on the coarse body, where there is one.
Load coarse_of(const Load& load) {
  return {load.coarse != nullptr ? *load.coarse : load.body, load.cooling, load.gas, nullptr};
}

/// How much hotter the spot is on the coarse body than on the fine one [K].
double coarse_error(const Spot& spot, const Load& load, const Load& coarse, const Assumptions& set) {
  if (load.coarse == nullptr) return 0.0;
  const auto fine_map = steady(load, set), coarse_map = steady(coarse, set);
  return fine_map && coarse_map ? at_spot(spot, coarse, *coarse_map) - at_spot(spot, load, *fine_map) : 0.0;
}

/// The sets that a reading can be met by, the middles first; none where they cannot.
std::vector<Assumptions> met_sets(const std::vector<Member>& all, const Spot& spot, const Load& load) {
  std::vector<Assumptions> out;
  const auto middle = fitted_air(spot, spot.T, load, all.front().assumptions);
  if (!middle) return out;
  out.push_back(all.front().assumptions);
  out.front().air_factor = *middle;
  const Load coarse = coarse_of(load);
  const double shift = coarse_error(spot, load, coarse, out.front());
  ThermalNetwork::Order order;
  for (std::size_t k = 1; k < all.size(); ++k) {
    Assumptions set = all[k].assumptions;
    const auto air = fitted_air(spot, spot.T + all[k].spot_error * spot.sigma + shift, coarse, set, *middle, order);
    if (!air) continue;
    set.air_factor = *air;
    out.push_back(set);
  }
  return out;
}

/// One set as far from the middles as it is on the coarse body.
Seen moved(const Seen& fine, const Seen& coarse_middle, Seen coarse) {
  const auto shift = [](double& value, double from, double to) { value += to - from; };
  for (std::size_t i = 0; i < coarse.places.size(); ++i) {
    coarse.places[i].angle = fine.places[i].angle;
    coarse.places[i].drop = fine.places[i].drop;
    shift(coarse.places[i].T, coarse_middle.places[i].T, fine.places[i].T);
  }
  shift(coarse.hottest.T, coarse_middle.hottest.T, fine.hottest.T);
  shift(coarse.mean, coarse_middle.mean, fine.mean);
  for (double Growth::*part : {&Growth::bore, &Growth::out_of_round, &Growth::clearance, &Growth::land})
    shift(coarse.growth.*part, coarse_middle.growth.*part, fine.growth.*part);
  return coarse;
}

}  // namespace

Sets sets_for(int members, const Spot* spot, const Load* load) {
  Sets out;
  const std::vector<Member> all = ensemble_members(members);
  if (spot != nullptr && load != nullptr) {
    out.sets = met_sets(all, *spot, *load);
    out.calibrated = 2 * out.sets.size() >= all.size();
    out.left_out = static_cast<int>(all.size() - out.sets.size());
    if (out.calibrated) return out;
  }
  out.sets.clear();
  for (const Member& member : all) out.sets.push_back(member.assumptions);
  return out;
}

base::Result<std::vector<Seen>> see_all(const Load& load, const Sets& sets, const std::function<bool()>& stop) {
  std::vector<Seen> out;
  const Load coarse = coarse_of(load);
  std::optional<Seen> middle;
  ThermalNetwork::Order order;
  for (const Assumptions& set : sets.sets) {
    if (stop && stop()) return out;
    const bool fine = out.empty() || load.coarse == nullptr;
    auto seen = see(fine ? load : coarse, set, order);
    if (!seen) return tl::unexpected(seen.error());
    if (!fine && !middle) {
      auto there = see(coarse, sets.sets.front(), order);
      if (!there) return tl::unexpected(there.error());
      middle = std::move(*there);
    }
    out.push_back(fine ? std::move(*seen) : moved(out.front(), *middle, std::move(*seen)));
  }
  return out;
}

}  // namespace portwright::heat
