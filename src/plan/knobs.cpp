#include "plan/knobs.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "base/number_text.hpp"
#include "base/quantity/text.hpp"
#include "cuts/grammar.hpp"
#include "cuts/words.hpp"
#include "plan/moves.hpp"
#include "study/figures.hpp"

namespace portwright::plan {
namespace {

using base::Dimension;
using cuts::Act;
using geometry::PortKind;

constexpr double degree = std::numbers::pi / 180.0;
constexpr double most_turned = 1e-3, most_roof = 2e-3, most_ground = 1.5e-3, most_skirt = 2e-3,
                 most_advance = 4.0 * degree, most_outlets = 2.0;
constexpr std::size_t usual_knobs = 6;

/// Signs of the cuts: up and wider are plus, off a face is minus.
double sign_of(Knob::Kind kind) {
  return kind == Knob::Kind::roof || kind == Knob::Kind::widen || kind == Knob::Kind::advance ? 1.0 : -1.0;
}

Act act_of(Knob::Kind kind) {
  switch (kind) {
    case Knob::Kind::base:
      return Act::base;
    case Knob::Kind::band:
      return Act::band;
    case Knob::Kind::crown_edge:
      return Act::crown_edge;
    case Knob::Kind::dome:
      return Act::dome;
    case Knob::Kind::widen:
      return Act::widen;
    case Knob::Kind::roof:
      return Act::roof;
    case Knob::Kind::floor:
      return Act::floor;
    case Knob::Kind::skirt_intake:
      return Act::skirt;
    case Knob::Kind::mouth:
      return Act::mouth;
    case Knob::Kind::outlets:
      return Act::outlets;
    case Knob::Kind::advance:
      return Act::advance;
  }
  return Act::base;
}

cuts::Cut cut_of(Act act, const std::string& port, double amount, Dimension dimension) {
  cuts::Cut out;
  out.act = act;
  out.port = port;
  out.amount = cuts::canonical_amount(amount, dimension);
  return out;
}

class Finder {
 public:
  Finder(const geometry::Survey& survey, const geometry::Engine& stock)
      : survey_(survey), stock_(stock), moves_(moves_of(survey, stock)) {}

  /// The usual ones first: those that a builder cuts before all others.
  std::vector<Knob> find() {
    whole(MoveKind::base, Knob::Kind::base, "base", "Turn the base face, the cylinder comes down");
    of_kind(Knob::Kind::roof, PortKind::exhaust, "Raise");
    of_kind(Knob::Kind::widen, PortKind::exhaust, "Widen");
    of_kind(Knob::Kind::roof, PortKind::transfer, "Raise");
    of_kind(Knob::Kind::floor, PortKind::intake, "Lower");
    whole(MoveKind::band, Knob::Kind::band, "band", "Turn the squish band");
    mouths();
    of_kind(Knob::Kind::widen, PortKind::transfer, "Widen");
    whole(MoveKind::crown_edge, Knob::Kind::crown_edge, "crown edge", "Turn the crown's edge, leaving a pop-up");
    of_kind(Knob::Kind::widen, PortKind::intake, "Widen");
    whole(MoveKind::skirt_intake, Knob::Kind::skirt_intake, "skirt intake", "Shorten the intake skirt");
    of_kind(Knob::Kind::roof, PortKind::boost, "Raise");
    of_kind(Knob::Kind::widen, PortKind::boost, "Widen");
    whole(MoveKind::dome, Knob::Kind::dome, "dome", "Turn the crown's middle");
    outlets();
    advance();
    return std::move(out_);
  }

 private:
  void whole(MoveKind of, Knob::Kind kind, const char* name, const char* label) {
    const auto move = std::find_if(moves_.begin(), moves_.end(), [&](const Move& one) { return one.kind == of; });
    if (move == moves_.end()) return;
    Knob knob{kind, {}, name, label, 0.0, move->width, {}, {}, {}};
    knob.most = std::min(move->most, kind == Knob::Kind::skirt_intake ? most_skirt : most_turned);
    out_.push_back(std::move(knob));
  }

  [[nodiscard]] std::vector<std::string> ports_of(PortKind kind) const {
    std::vector<std::string> out;
    for (const geometry::PortSlots& port : survey_.ports)
      if (port.kind == kind && port.twin_of < 0) out.push_back(port.name);
    return out;
  }

  /// One amount for all ports of a kind that can be cut so.
  void of_kind(Knob::Kind kind, PortKind ports, const char* verb) {
    Knob knob;
    knob.kind = kind;
    for (const std::string& name : ports_of(ports)) {
      const bool there = std::any_of(moves_.begin(), moves_.end(), [&](const Move& move) {
        const bool same = kind == Knob::Kind::widen ? move.kind == MoveKind::widen
                          : kind == Knob::Kind::floor
                              ? move.kind == MoveKind::floor_intake
                              : move.kind == MoveKind::roof_exhaust || move.kind == MoveKind::roof_transfer;
        return same && move.port == name;
      });
      if (there) knob.ports.push_back(name);
    }
    if (knob.ports.empty()) return;
    const bool many = knob.ports.size() > 1;
    const std::string of = many ? std::string(study::kind_name(ports)) + "s" : study::kind_name(ports);
    const std::string word = kind == Knob::Kind::roof ? "roof" : kind == Knob::Kind::floor ? "floor" : "widen";
    knob.name = word + " " + of;
    const std::string edge = many ? "' " + word + "s" : " " + word;
    knob.label = std::string(verb) + " the " + of + (kind == Knob::Kind::widen ? "" : edge);
    knob.most = kind == Knob::Kind::roof && ports == PortKind::exhaust ? most_roof : most_ground;
    out_.push_back(std::move(knob));
  }

  /// Where the case stands in the way of a passage.
  void mouths() {
    Knob knob;
    knob.kind = Knob::Kind::mouth;
    for (std::size_t i = 0; i < survey_.ports.size(); ++i) {
      const geometry::PortSlots& slots = survey_.ports[i];
      const geometry::Passage& way = stock_.ports[i].passage;
      if (slots.twin_of >= 0 || !way.mouth || !way.foot || !(*way.mouth < *way.foot)) continue;
      knob.ports.push_back(slots.name);
      knob.least.push_back(*way.mouth);
      knob.whole.push_back(*way.foot);
      knob.ledge.push_back(way.case_step.value_or(0.0) * stock_.ports[i].count);
    }
    if (knob.ports.empty()) return;
    knob.name = "mouths";
    knob.label = "Open the case to the transfers";
    knob.most = 1.0;
    out_.push_back(std::move(knob));
  }

  void outlets() {
    Knob knob{Knob::Kind::outlets, {}, "outlets", "Widen the muffler's outlets", most_outlets - 1.0, 0.0, {}, {}, {}};
    if (!stock_.muffler_outlets) return;
    knob.least.push_back(*stock_.muffler_outlets);
    out_.push_back(std::move(knob));
  }

  void advance() {
    if (stock_.advance || !stock_.breathing.advance_curve.empty())
      out_.push_back({Knob::Kind::advance, {}, "advance", "Advance the spark", most_advance, 0.0, {}, {}, {}});
  }

  const geometry::Survey& survey_;
  const geometry::Engine& stock_;
  std::vector<Move> moves_;
  std::vector<Knob> out_;
};

/// "roof transfer" for "roof transfers", and the other way round.
std::string without_plural(std::string text) {
  if (!text.empty() && text.back() == 's') text.pop_back();
  return text;
}

/// "1.2 mm", of the advance "3 deg"; a share has no end of its own.
base::Result<double> end_of(const Knob& knob, const std::string& text, const std::string& path) {
  if (knob.kind == Knob::Kind::mouth || knob.kind == Knob::Kind::outlets)
    return base::fail(base::ErrorCode::unreadable, cuts::shown(knob.name) + " goes to an end of its own.", path,
                      "Leave \u201Cup to\u201D away.");
  const bool turns = knob.kind == Knob::Kind::advance;
  const auto read = base::parse_quantity(text, turns ? Dimension::angle : Dimension::length, path);
  if (!read) return tl::unexpected(read.error());
  const double longest = turns ? 15.0 * degree : 6e-3, least = turns ? 0.1 * degree : 0.02e-3;
  if (read->si < least || read->si > longest)
    return base::fail(base::ErrorCode::out_of_range, cuts::shown(text) + " is no end for " + knob.name + ".", path,
                      turns ? "Give 0.1 to 15 deg." : "Give 0.02 to 6 mm.");
  return read->si;
}

}  // namespace

cuts::CutList Knob::cuts(double amount) const {
  cuts::CutList out;
  if (!(amount > no_cut)) return out;
  if (kind == Kind::outlets) {
    cuts::Cut cut;
    cut.act = Act::outlets;
    for (const double area : least)
      cut.amounts.push_back(cuts::canonical_amount(area * (1.0 + amount), Dimension::area));
    out.push_back(std::move(cut));
  } else if (kind == Kind::mouth) {
    double more = 0.0;
    for (std::size_t i = 0; i < ports.size(); ++i) {
      const double area = amount * (whole[i] - least[i]);
      more += area * ledge[i];
      out.push_back(cut_of(Act::mouth, ports[i], least[i] + area, Dimension::area));
    }
    if (more > 0.0) out.push_back(cut_of(Act::case_volume, "", more, Dimension::volume));
  } else {
    const Dimension dimension = kind == Kind::advance ? Dimension::angle : Dimension::length;
    if (ports.empty()) out.push_back(cut_of(act_of(kind), {}, sign_of(kind) * amount, dimension));
    for (const std::string& port : ports) out.push_back(cut_of(act_of(kind), port, sign_of(kind) * amount, dimension));
    if (kind == Kind::skirt_intake) out.back().side = "intake";
    if (kind == Kind::crown_edge) out.back().width = cuts::canonical_amount(width, Dimension::length);
  }
  for (cuts::Cut& cut : out) cut.text = cuts::cut_text(cut);
  return out;
}

std::string Knob::amount_text(double amount) const {
  switch (kind) {
    case Kind::mouth:
      return base::number_text(100.0 * amount, 0) + " % of the way open";
    case Kind::outlets:
      return "to " + base::number_text(100.0 * (1.0 + amount), 0) + " % of their area";
    case Kind::advance:
      return "+" + base::number_text(amount / degree, 1) + " deg";
    default:
      return base::value_text({1e3 * amount, 1e3 * amount - 0.02, 1e3 * amount + 0.02}, "mm", base::UnitStyle::shop);
  }
}

std::vector<Knob> knobs_of(const geometry::Survey& survey, const geometry::Engine& stock) {
  return Finder(survey, stock).find();
}

base::ResultAll<std::vector<Knob>> chosen(const std::vector<Knob>& all, std::string_view text) {
  const auto asked = cuts::part_list(text);
  if (!asked) return tl::unexpected(base::Errors{asked.error()});
  std::vector<Knob> out;
  base::Errors errors;
  std::vector<std::string_view> names;
  for (const Knob& knob : all) names.emplace_back(knob.name);
  for (std::size_t i = 0; i < asked->size(); ++i) {
    const std::string typed = (*asked)[i].text;
    std::string word = cuts::lower(typed), end;
    if (const std::size_t at = word.find(" up to "); at != std::string::npos) {
      end = word.substr(at + 7);
      word.resize(at);
    }
    const auto same = [&](const Knob& knob) {
      if (without_plural(knob.name) == without_plural(word)) return true;
      return knob.ports.size() == 1 && knob.name.substr(0, knob.name.find(' ')) + " " + knob.ports[0] == word;
    };
    const auto found = std::find_if(all.begin(), all.end(), same);
    if (found == all.end()) {
      const std::string_view near = cuts::nearest_word(word, names);
      std::string may;
      for (const std::string_view name : names) may += (may.empty() ? "" : "; ") + std::string(name);
      errors.push_back({base::ErrorCode::not_found,
                        cuts::shown(typed) + " is no cut that can be left free on this saw.",
                        "free." + std::to_string(i + 1),
                        near.empty() ? "It has: " + may + "." : "Did you mean \u201C" + std::string(near) + "\u201D?",
                        {}});
      continue;
    }
    Knob knob = *found;
    if (!end.empty()) {
      const auto most = end_of(knob, end, "free." + std::to_string(i + 1));
      if (!most) {
        errors.push_back(most.error());
        continue;
      }
      knob.most = *most;
    }
    if (std::none_of(out.begin(), out.end(), [&](const Knob& one) { return one.name == knob.name; }))
      out.push_back(std::move(knob));
  }
  if (!errors.empty()) return tl::unexpected(std::move(errors));
  if (asked->empty())
    out.assign(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(std::min(usual_knobs, all.size())));
  return out;
}

cuts::CutList cuts_of(std::span<const Knob> knobs, std::span<const double> amounts) {
  // Squish first, because it moves every port; widen before raising; intake; transfers, then the case; the day's rest.
  static constexpr std::array order{Knob::Kind::base,    Knob::Kind::band,         Knob::Kind::crown_edge,
                                    Knob::Kind::dome,    Knob::Kind::widen,        Knob::Kind::roof,
                                    Knob::Kind::floor,   Knob::Kind::skirt_intake, Knob::Kind::mouth,
                                    Knob::Kind::outlets, Knob::Kind::advance};
  cuts::CutList out;
  for (const Knob::Kind kind : order)
    for (std::size_t k = 0; k < knobs.size(); ++k)
      if (knobs[k].kind == kind)
        for (cuts::Cut& cut : knobs[k].cuts(amounts[k])) out.push_back(std::move(cut));
  return out;
}

}  // namespace portwright::plan
