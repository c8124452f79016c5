#include "base/quantity/text.hpp"

#include <algorithm>
#include <cmath>

#include "base/quantity/doubt.hpp"
#include "base/quantity/normal.hpp"
#include "base/quantity/number.hpp"

namespace portwright::base {
namespace {

using typed::Number;

constexpr std::size_t longest_text = 64;
// A number above this measures nothing on a saw in any unit read here (101325 Pa is the largest in use).
constexpr double largest_number = 1e9;

struct Asked {
  std::optional<Dimension> kind;
  bool look_for_meanings = true;
};

tl::unexpected<Error> refuse(std::string why, std::vector<std::string> readings = {}, std::string hint = {},
                             ErrorCode code = ErrorCode::unreadable) {
  return tl::unexpected<Error>(Error{code, std::move(why), {}, std::move(hint), std::move(readings)});
}

bool is_plain_kind(std::optional<Dimension> kind) { return kind == Dimension::share || kind == Dimension::count; }

std::string with_unit(const std::string& number, const Unit* unit) {
  return unit == nullptr ? number : number + " " + unit->symbol;
}

// Units that nobody reads to three places: "13.500 rpm" has its thousands parted by a point.
bool is_coarse(const Unit& unit) {
  const std::string_view symbol = unit.symbol;
  return symbol == "rpm" || symbol == "m" || symbol == "W" || symbol == "Pa" || symbol == "N" || symbol == "ft";
}

Result<Quantity> read_normal(const std::string& normal, const Asked& asked);

std::optional<std::string> read_back(const std::string& text, std::optional<Dimension> kind) {
  const auto quantity = read_normal(text, {kind, false});
  if (!quantity || quantity->sigma) return std::nullopt;
  return with_unit(typed::scan_number(text).text, quantity->unit);
}

tl::unexpected<Error> refuse_unknown(const std::string& normal, const Asked& asked) {
  if (!asked.look_for_meanings) return refuse("cannot be read");
  typed::Doubt doubt =
      typed::doubt_unknown(normal, asked.kind, [&](const std::string& text) { return read_back(text, asked.kind); });
  return refuse(std::move(doubt.why), std::move(doubt.readings), std::move(doubt.hint));
}

std::string with_article(Dimension kind) {
  const bool vowel = kind == Dimension::area || kind == Dimension::angle;
  return (vowel ? "an " : "a ") + std::string(dimension_name(kind));
}

// A pound or kilogram where a force is asked for, and the other way.
std::vector<std::string> sister_unit(const Number& number, const Unit& unit, Dimension kind) {
  const std::string symbol = unit.symbol;
  if (kind == Dimension::force && (symbol == "kg" || symbol == "lb")) return {number.text + " " + symbol + "f"};
  if (kind == Dimension::mass && (symbol == "kgf" || symbol == "lbf")) {
    return {number.text + " " + symbol.substr(0, symbol.size() - 1)};
  }
  return {};
}

tl::unexpected<Error> refuse_kind(const Number& number, const Unit& unit, Dimension kind) {
  return refuse("is " + with_article(unit.dimension) + "; this field is " + with_article(kind),
                number.why.empty() ? sister_unit(number, unit, kind) : std::vector<std::string>{},
                typed::usual_units_text(kind), ErrorCode::wrong_unit);
}

// The unit after a number: null for a plain number. Fails when it is unknown, doubtful, or of another kind.
Result<const Unit*> read_unit(const std::string& normal, const Number& number, const Asked& asked) {
  if (number.rest.empty()) return nullptr;
  if (auto doubt = typed::doubtful_unit(number.text, number.value, number.rest, asked.kind);
      doubt && number.why.empty()) {
    return refuse(std::move(doubt->why), std::move(doubt->readings), std::move(doubt->hint));
  }
  const bool sign_first = number.rest.front() == '^';
  const Unit* unit = sign_first ? nullptr : find_unit(number.rest, asked.kind);
  if (unit == nullptr) return refuse_unknown(normal, asked);
  if (asked.kind && unit->dimension != *asked.kind) return refuse_kind(number, *unit, *asked.kind);
  return unit;
}

// Refuses a doubtful number with each of its meanings, written with its unit.
tl::unexpected<Error> refuse_number(std::string why, const std::vector<std::string>& meant, const Unit* unit,
                                    const Asked& asked) {
  std::vector<std::string> readings;
  const bool bare = unit == nullptr && !is_plain_kind(asked.kind);
  if (bare && !asked.kind) return refuse(std::move(why));
  const std::string symbol = unit != nullptr ? unit->symbol : bare ? typed::usual_units(*asked.kind).front() : "";
  for (const std::string& number : meant) readings.push_back(symbol.empty() ? number : number + " " + symbol);
  return refuse(std::move(why), std::move(readings));
}

Result<void> check_number(const Number& number, const Unit* unit, const Asked& asked) {
  if (!number.why.empty()) return refuse_number(number.why, number.meant, unit, asked);
  if (!number.if_coarse.empty() && unit != nullptr && is_coarse(*unit)) {
    return refuse_number("may have a decimal point or parted thousands", number.if_coarse, unit, asked);
  }
  if (number.inches_only && unit != nullptr && std::string_view(unit->symbol) != "in") {
    return refuse_number("has a dash in it that may mean a span", {number.text}, unit, asked);
  }
  if (std::abs(number.value) > largest_number) {
    return refuse("is larger than anything on a saw", {}, "check the number of zeros", ErrorCode::out_of_range);
  }
  return {};
}

// A number without a unit, where a unit is needed: offered with each usual one.
tl::unexpected<Error> refuse_bare(const Number& number, std::string_view tolerance, std::optional<Dimension> kind) {
  std::vector<std::string> readings;
  if (kind) {
    for (const char* unit : typed::usual_units(*kind)) {
      readings.push_back(number.text + " " + unit);
      if (!tolerance.empty()) readings.back() += " +- " + std::string(tolerance);
    }
  }
  return refuse("has no unit", std::move(readings),
                kind ? typed::usual_units_text(*kind) : "write the unit after the number");
}

// A share of one or more without its sign may be percent.
Result<void> check_plain_share(const Number& number, const Unit* unit, const Asked& asked) {
  if (asked.kind != Dimension::share || unit != nullptr || std::abs(number.value) < 1.0) return {};
  std::vector<std::string> readings{number.text + " %"};
  if (std::abs(number.value) < 2.0) readings.push_back(typed::plain_number(100.0 * number.value) + " %");
  return refuse("may be a share or percent", std::move(readings));
}

Result<void> check_value(const Number& number, const Unit* unit, std::string_view tolerance, const Asked& asked) {
  if (auto fine = check_number(number, unit, asked); !fine) return fine;
  if (unit == nullptr && !is_plain_kind(asked.kind)) return refuse_bare(number, tolerance, asked.kind);
  return check_plain_share(number, unit, asked);
}

Quantity in_si(const Number& number, const Unit* unit) {
  const double scale = unit != nullptr ? unit->scale : 1.0;
  const double offset = unit != nullptr ? unit->offset : 0.0;
  return {number.value * scale + offset, unit, std::nullopt, number.step * scale};
}

Result<Quantity> finished(Quantity quantity) {
  const bool below_zero =
      quantity.unit != nullptr && quantity.unit->dimension == Dimension::temperature && quantity.si < 0.0;
  if (below_zero) return refuse("is below the absolute zero", {}, "", ErrorCode::out_of_range);
  return quantity;
}

Result<Quantity> read_single(const std::string& normal, const Asked& asked) {
  const Number number = typed::scan_number(normal);
  if (number.text.empty() && number.meant.empty() && number.rest == typed::trimmed(normal))
    return refuse_unknown(normal, asked);
  const auto unit = read_unit(normal, number, asked);
  if (!unit) return tl::unexpected(unit.error());
  if (auto fine = check_value(number, *unit, {}, asked); !fine) return tl::unexpected(fine.error());
  return finished(in_si(number, *unit));
}

// The tolerance as a number of its own, its doubts told together with the value.
Result<void> check_tolerance(const Number& value, const Unit* unit, const Number& tolerance, const Unit* own) {
  const std::string head = with_unit(value.text, unit) + " +- ";
  const auto whole = [&](const std::string& number) { return head + with_unit(number, own == unit ? nullptr : own); };
  std::vector<std::string> readings;
  std::transform(tolerance.meant.begin(), tolerance.meant.end(), std::back_inserter(readings), whole);
  if (!tolerance.why.empty()) return refuse("has a tolerance that " + tolerance.why, std::move(readings));
  if (tolerance.inches_only) return refuse("has a tolerance with a dash in it");
  const Unit* worth = own != nullptr ? own : unit;
  if (!tolerance.if_coarse.empty() && worth != nullptr && is_coarse(*worth)) {
    std::transform(tolerance.if_coarse.begin(), tolerance.if_coarse.end(), std::back_inserter(readings), whole);
    return refuse("has a tolerance that may have a decimal point or parted thousands", std::move(readings));
  }
  if (tolerance.value < 0.0) return refuse("has a negative tolerance", {whole(tolerance.text.substr(1))});
  if (tolerance.value == 0.0)
    return refuse("has a tolerance of nothing", {}, "no reading is exact; leave the tolerance out");
  if (tolerance.value > largest_number)
    return refuse("has a tolerance larger than anything on a saw", {}, "", ErrorCode::out_of_range);
  return {};
}

tl::unexpected<Error> refuse_relative(const Number& value, const Unit* unit, const Number& tolerance) {
  std::vector<std::string> readings;
  const double share = std::abs(value.value) * tolerance.value / 100.0;
  const bool offset = unit == nullptr || unit->offset != 0.0;
  if (value.why.empty() && tolerance.why.empty() && !offset && share > 0.0) {
    readings.push_back(with_unit(value.text, unit) + " +- " + typed::plain_number(share));
  }
  return refuse("has a tolerance in percent", std::move(readings), "write the tolerance in the value's own unit");
}

Result<Quantity> read_with_tolerance(const std::string& normal, std::size_t at, const Asked& asked) {
  const std::string left = normal.substr(0, at);
  const std::string right = normal.substr(at + 2);
  if (right.find("+-") != std::string::npos) return refuse("has more than one tolerance");
  const Number value = typed::scan_number(left);
  const Number tolerance = typed::scan_number(right);
  if (value.text.empty() && value.meant.empty()) return refuse("is a tolerance without a value");
  if (typed::trimmed(right).empty()) {
    const auto alone = read_back(left, asked.kind);
    return refuse("has a tolerance without a number", alone ? std::vector{*alone} : std::vector<std::string>{});
  }
  const auto unit = read_unit(left, value, asked);
  if (!unit) return tl::unexpected(unit.error());
  if (tolerance.rest == "%" && asked.kind != Dimension::share) return refuse_relative(value, *unit, tolerance);
  const auto own = read_unit(right, tolerance, {*unit != nullptr ? (*unit)->dimension : asked.kind, false});
  if (!own) return refuse("has a tolerance of another kind, or that cannot be read", {}, "", own.error().code);
  const Unit* whole = *unit != nullptr ? *unit : *own;
  if (auto fine = check_value(value, whole, tolerance.text, asked); !fine) return tl::unexpected(fine.error());
  if (auto fine = check_tolerance(value, whole, tolerance, *own); !fine) return tl::unexpected(fine.error());
  Quantity quantity = in_si(value, whole);
  const Unit* worth = *own != nullptr ? *own : whole;
  quantity.sigma = tolerance.value * (worth != nullptr ? worth->scale : 1.0);
  return finished(quantity);
}

Result<Quantity> read_normal(const std::string& normal, const Asked& asked) {
  const std::size_t at = normal.find("+-");
  return at == std::string::npos ? read_single(normal, asked) : read_with_tolerance(normal, at, asked);
}

// Keeps only meanings that can themselves be read, each once.
void sift(std::vector<std::string>& readings, std::optional<Dimension> kind) {
  std::vector<std::string> kept;
  for (std::string& reading : readings) {
    const bool again = std::find(kept.begin(), kept.end(), reading) != kept.end();
    if (again || reading.size() > longest_text || !read_normal(reading, {kind, false})) continue;
    kept.push_back(std::move(reading));
  }
  readings = std::move(kept);
}

Result<Quantity> read_text(std::string_view text, std::optional<Dimension> kind) {
  if (text.size() > longest_text) return refuse("is longer than 64 bytes");
  std::string why;
  const auto normal = typed::normal_form(text, why);
  if (!normal) return refuse(std::move(why));
  if (normal->empty())
    return refuse("is empty", {}, kind ? typed::usual_units_text(*kind) : "write a number and its unit");
  auto quantity = read_normal(*normal, {kind, true});
  if (!quantity) sift(quantity.error().readings, kind);
  return quantity;
}

// The sentence for a person: what was typed, why it is not taken, what it could have meant.
Error told(Error error, std::string_view text, std::string_view path) {
  error.message = typed::quoted(text) + " " + error.message;
  for (std::size_t i = 0; i < error.readings.size(); ++i) {
    error.message += i == 0 ? ": " : i + 1 == error.readings.size() ? " or " : ", ";
    error.message += error.readings[i];
  }
  if (!error.readings.empty()) error.message += "?";
  error.path = path;
  return error;
}

}  // namespace

Result<Quantity> parse_quantity(std::string_view text, Dimension expected, std::string_view path) {
  auto quantity = read_text(text, expected);
  if (!quantity) return tl::unexpected(told(std::move(quantity.error()), text, path));
  return quantity;
}

Result<Quantity> parse_any_quantity(std::string_view text) {
  auto quantity = read_text(text, std::nullopt);
  if (!quantity) return tl::unexpected(told(std::move(quantity.error()), text, {}));
  return quantity;
}

}  // namespace portwright::base
