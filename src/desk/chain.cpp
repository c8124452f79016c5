#include <algorithm>
#include <cmath>

#include "desk/aims.hpp"
#include "desk/chain_members.hpp"
#include "desk/revs.hpp"
#include "desk/revs_figures.hpp"
#include "tables/assumptions.hpp"

namespace portwright::desk {

namespace {

using bottom_end::Ranged;
using cycle::Band;

constexpr double kilo = 1e-3, percent = 100.0;
constexpr const char* own = "own arithmetic";
constexpr double worth_a_sprocket =
    0.03;  ///< power left for wood that a change of sprocket is worth [-]: own judgement
/// Speeds of a stock curve that only looks for its peak [rpm].
constexpr double shape_shares[] = {0.65, 0.75, 0.85, 0.95, 1.0, 1.05, 1.15, 1.25};
constexpr double curve_speeds[] = {6000, 7000, 8000, 9000, 10000, 11000};

const FigureWords chain_speed_words = {"drive.chain_speed",
                                       "m/s",
                                       1.0,
                                       "Chain speed in the wood",
                                       "two pitches a tooth, teeth, rpm in the wood",
                                       "Each cutter takes its chip so often a second.",
                                       own};
const FigureWords chain_speed_free = {"drive.chain_speed_free",
                                      "m/s",
                                      1.0,
                                      "Chain speed without load",
                                      "two pitches a tooth, teeth, rpm without load",
                                      "A chain that breaks or jumps off leaves with it.",
                                      own};
const FigureWords force_words = {"drive.force",
                                 "N",
                                 1.0,
                                 "Pull of the chain in the wood",
                                 "torque in the wood less the chain's drag, over the sprocket's radius",
                                 "It is what the cutters have to lift chips with.",
                                 own};
const FigureWords power_words = {"drive.wood_power",
                                 "kW",
                                 kilo,
                                 "Power left for the wood",
                                 "greatest power of the engine less the chain's drag on bar and sprocket",
                                 "Cutting time goes against it, the saw pressed to its best speed.",
                                 "bench_saw"};
const FigureWords time_words = {"drive.cut_time",
                                "s",
                                1.0,
                                "One cut through round wood",
                                "area of the cut times the work for each area, over the power left",
                                "Wood, edge and kerf move it by half; only differences are worth the name.",
                                "bench_saw"};
const FigureWords change_words = {"drive.cut_time_change",
                                  "%",
                                  percent,
                                  "Change of cutting time",
                                  "stock's power left for the wood over the cut's, less one, draw by draw",
                                  "Both pressed to their own best speed, same chain and wood.",
                                  own};
const FigureWords same_feed_words = {"drive.cut_time_same_feed",
                                     "%",
                                     percent,
                                     "Change of cutting time, same feed",
                                     "rpm of stock in the wood over that of the cut, less one, draw by draw",
                                     "Pressed as before, the chip stays and the chain only runs faster or slower.",
                                     own};

Ranged ranged_of(const Band& band) { return {band.mean, band.low, band.high}; }

study::Figure waiting(const FigureWords& words, std::vector<std::string> waits_for) {
  study::Figure out = named_figure(words);
  out.text = "\u2014";
  out.waits_for = std::move(waits_for);
  return out;
}

/// What of pitch and teeth is missing, in a sentence; empty: nothing.
std::string missing_of(const DriveRead& read, std::vector<std::string>& paths) {
  std::string what;
  if (!(read.chain.pitch > 0.0)) paths.push_back("drive.chain_pitch"), what = "no chain pitch";
  if (!(read.chain.teeth > 0.0))
    paths.push_back("drive.teeth"), what += what.empty() ? "no teeth of the sprocket" : " and no teeth of the sprocket";
  if (what.empty()) return {};
  const std::string have =
      read.bar ? "A bar of " + base::number_text(100.0 * *read.bar, 0) + " cm is read, but " : "There is ";
  return have + what +
         ": chain speed, pull and the power left for the wood wait for it. The pitch is half the distance over three "
         "rivets, and is stamped on most chains.";
}

double free_rev(const geometry::Engine& engine) {
  if (engine.breathing.limiter) return *engine.breathing.limiter;
  return engine.no_load ? *engine.no_load : tables::assumption("free_speed").value;
}

/// A curve under the middles that only looks for its shape: the repeating turn, no proof.
std::vector<cycle::Point> shape_of(const cycle::Network& network, const Sides& sides, std::vector<double> rpm,
                                   const cycle::Tell& tell) {
  cycle::CurvePlan plan = sides.plan(std::move(rpm));
  plan.both_ways = false;
  plan.proven = false;
  plan.scattered_turns = 0;
  return cycle::run_curve(network, plan, tell).points;
}

/// The sets at three speeds, and the middles' curves that lie between.
struct Turned {
  Bands bands;
  Shape stock, cut;
};

std::optional<Turned> turned(const Sides& sides, const geometry::Survey& survey, int members, Progress& progress) {
  std::vector<cycle::Point> look;
  if (!rated_as_read(sides.stock)) {
    look = shape_of(sides.stock_network, sides, {std::begin(curve_speeds), std::end(curve_speeds)},
                    progress.stage("stock curve", 6.0));
    if (progress.stopped() || look.empty()) return std::nullopt;
  }
  auto bands = run_bands(sides, survey, look, {members, true, 1.5 * members}, progress);
  if (!bands) return std::nullopt;
  std::vector<double> rpm;
  for (const double share : shape_shares) rpm.push_back(share * bands->rated.rpm);
  Turned out{std::move(*bands), {}, {}};
  out.stock = Shape(shape_of(sides.stock_network, sides, rpm, progress.stage("between the speeds", 3.0)));
  out.cut = sides.has_cuts ? Shape(shape_of(sides.cut_network, sides, rpm, progress.stage("between the speeds", 3.0)))
                           : out.stock;
  if (progress.stopped()) return std::nullopt;
  return out;
}

/// The usual doubt about power that nothing anchors.
Ranged absolute(const Band& band, bool anchored) {
  if (anchored) return ranged_of(band);
  return {band.mean, std::min(band.low, (1.0 - study::doubt_of_power) * band.mean),
          std::max(band.high, (1.0 + study::doubt_of_power) * band.mean)};
}

struct Found {
  std::vector<Member> members;
  DriveRead read;
  bool has_cuts = false, anchored = false;

  [[nodiscard]] Band over(const OfMember& value) const { return band_over(members, value); }
};

double speed_in_wood(const drive::TorqueCurve& engine, const Member& member, const DriveRead& read) {
  return drive::working(engine, read.chain, member.force, member.drag).speed;
}

void add_pair(const Found& found, const FigureWords& words, const std::function<double(const Member&, bool cut)>& value,
              bool is_absolute, base::UnitStyle style, std::vector<study::Figure>& out) {
  const Band now = found.over([&](const Member& m) { return value(m, true); });
  out.push_back(ranged_figure(words, is_absolute ? absolute(now, found.anchored) : ranged_of(now), style));
  if (!found.has_cuts) return;
  const Band stock = found.over([&](const Member& m) { return value(m, false); });
  const Band change = found.over([&](const Member& m) { return value(m, true) - value(m, false); });
  add_change(out.back(), words.scale, is_absolute ? absolute(stock, found.anchored) : ranged_of(stock),
             ranged_of(change), style);
}

void add_figures(const Found& found, base::UnitStyle style, wire::ChainAnswer& answer) {
  const DriveRead& read = found.read;
  const auto engine = [](const Member& m, bool cut) -> const drive::TorqueCurve& { return cut ? m.cut : m.stock; };
  const auto best = [&](const Member& m, bool cut) { return drive::best_wood_power(engine(m, cut), m.drag); };
  std::vector<study::Figure>& out = answer.figures;
  add_pair(
      found, chain_speed_words,
      [&](const Member& m, bool cut) { return drive::chain_speed(read.chain, speed_in_wood(engine(m, cut), m, read)); },
      false, style, out);
  out.push_back(
      ranged_figure(force_words, absolute(found.over([](const Member& m) { return m.force; }), found.anchored), style));
  add_pair(found, power_words, best, true, style, out);
  if (const auto width = read.width())
    add_pair(
        found, time_words,
        [&](const Member& m, bool cut) {
          return drive::cutting_time(drive::round_area(*width), m.energy, best(m, cut));
        },
        true, style, out);
  if (!found.has_cuts) return;
  const auto by_power = found.over([&](const Member& m) { return best(m, false) / best(m, true) - 1.0; });
  const auto by_speed = found.over(
      [&](const Member& m) { return speed_in_wood(m.stock, m, read) / speed_in_wood(m.cut, m, read) - 1.0; });
  out.push_back(ranged_figure(change_words, ranged_of(by_power), style));
  out.push_back(ranged_figure(same_feed_words, ranged_of(by_speed), style));
}

std::string change_sentence(const wire::ChainAnswer& answer) {
  for (const study::Figure& figure : answer.figures) {
    if (figure.id != change_words.id) continue;
    if (*figure.low < 0.0 && *figure.high > 0.0)
      return "Cutting time is not told apart from stock: " +
             base::range_text({*figure.value, figure.low, figure.high}, "%", base::UnitStyle::metric) + " %.";
    return std::string("Cutting time ") + (*figure.value < 0.0 ? "falls" : "rises") + " by about " +
           base::number_text(std::abs(*figure.value), 0) + " % (" +
           base::range_text({*figure.value, figure.low, figure.high}, "%", base::UnitStyle::metric) +
           " %), each pressed to its own best speed; test cuts in alternating order settle it.";
  }
  return {};
}

std::string sprocket_sentence(const wire::ChainAnswer& answer) {
  const wire::Sprocket *best = nullptr, *fitted = nullptr;
  for (const wire::Sprocket& one : answer.sprockets) {
    if (one.fitted) fitted = &one;
    if (best == nullptr || one.chance > best->chance) best = &one;
  }
  if (best == nullptr || !(best->chance > 0.0)) return "The saw bogs with each sprocket looked at, pressed as it is.";
  const std::string teeth = std::to_string(best->teeth) + " teeth";
  const std::string chance = base::number_text(percent * best->chance, 0) + " % of the ways the unread could be";
  if (best == fitted) return "The fitted " + teeth + " leave most for the wood in " + chance + '.';
  if (fitted == nullptr || !(fitted->wood_power_kw > 0.0)) return teeth + " leave most for the wood in " + chance + '.';
  const double gain = best->wood_power_kw / fitted->wood_power_kw - 1.0;
  const std::string share = base::number_text(percent * std::max(0.0, gain), gain < 0.0095 ? 1 : 0) + " %";
  if (gain < worth_a_sprocket)
    return "The fitted " + std::to_string(fitted->teeth) + " teeth keep the engine near its best: " + teeth +
           " would leave " + share + " more for the wood, less than test cuts tell.";
  return teeth + " would leave " + share + " more for the wood than the fitted " + std::to_string(fitted->teeth) +
         ", and most of all in " + chance + (best->chance < 0.75 ? "; that is no clear call." : ".");
}

void add_clutch(const Found& found, double speed, wire::ChainAnswer& answer) {
  const double engages = found.read.clutch_engages.value_or(tables::assumption("clutch_engages").value);
  const double holds = tables::assumption("clutch_holds").value;
  const auto rpm = [](double n) { return base::number_text(10.0 * std::round(6.0 * n), 0) + " rpm"; };
  switch (drive::clutch_at(speed, engages, holds)) {
    case drive::Clutch::open:
      answer.warnings.push_back("At " + rpm(speed) + " the clutch, which begins to drive at " + rpm(engages) +
                                ", passes nothing on: no power reaches the wood.");
      break;
    case drive::Clutch::slips:
      answer.warnings.push_back("At " + rpm(speed) + " the clutch still slips under load: it begins to drive at " +
                                rpm(engages) + " and holds from about " + rpm(engages * holds) +
                                ". Slip heats drum and oil; the figures take it as holding.");
      break;
    case drive::Clutch::holds:
      break;
  }
}

std::vector<std::string> chain_cautions() {
  std::vector<std::string> out = cautions();
  out.push_back(
      "A chain at 20 to 30 m/s that breaks or jumps is thrown in its own plane: keep out of it, keep the catcher "
      "whole, "
      "and use the pitch, gauge and sprocket that bar and chain are made for. A larger sprocket runs the chain faster "
      "at every rpm; chain and bar have permitted speeds of their own.");
  return out;
}

void tell(const Found& found, base::UnitStyle style, wire::ChainAnswer& answer) {
  add_figures(found, style, answer);
  const double speed = found.over([&](const Member& m) { return speed_in_wood(m.cut, m, found.read); }).mean;
  answer.rpm = speed * rpm_per_rev;
  answer.rpm_from = found.read.in_cut ? "in-cut reading of the stock saw" : "greatest power of the stock curve";
  answer.sprockets = sprockets_of(found.members, found.read);
  answer.widths = widths_of(found.members, found.read);
  add_clutch(found, speed, answer);
  answer.sentences = {change_sentence(answer), sprocket_sentence(answer)};
  std::erase(answer.sentences, "");
}

void add_assumed(const DriveRead& read, wire::ChainAnswer& answer) {
  std::vector<const char*> names = {"chain_drag", "wood_energy", "load_by_width", "clutch_holds", "curve_place"};
  if (read.in_cut) names.push_back("in_cut_scatter");
  if (!read.clutch_engages) names.push_back("clutch_engages");
  for (const char* name : names) answer.head.assumed.push_back(assumed_row(name));
}

void say_missing(const std::string& sentence, const std::vector<std::string>& paths, wire::ChainAnswer& answer) {
  answer.waits.push_back(sentence);
  for (const FigureWords* words : {&chain_speed_words, &chain_speed_free, &force_words, &power_words, &time_words})
    answer.figures.push_back(waiting(*words, paths));
}

void say_not_turned(const base::Errors& errors, wire::ChainAnswer& answer) {
  std::string why = "The engine cannot be turned, so pull and power wait.";
  std::vector<std::string> paths;
  for (const base::Error& error : errors) {
    why += ' ' + error.message;
    if (!error.path.empty()) paths.push_back(error.path);
  }
  answer.waits.push_back(why);
  for (const FigureWords* words : {&force_words, &power_words}) answer.figures.push_back(waiting(*words, paths));
}

void say_width(const DriveRead& read, wire::ChainAnswer& answer) {
  answer.width_mm = 1e3 * read.width().value_or(0.0);
  if (!read.width())
    answer.waits.push_back("How long a cut takes and the sprocket for other widths wait for drive.wood or drive.bar.");
  else
    answer.width_from = read.wood && (!read.bar || *read.wood <= *read.bar) ? "wood" : "bar";
}

}  // namespace

base::ResultAll<wire::ChainAnswer> chain(const ChainRequest& request, const Watch& watch) {
  const auto opened = open_turning(request.file, request.cuts, request.book);
  if (!opened) return tl::unexpected(opened.error());
  const geometry::Engine engine = geometry::resolve(opened->survey);
  const auto read = drive_of(*opened, engine);
  if (!read) return only(read);
  wire::ChainAnswer answer;
  answer.head = opened->head;
  answer.cautions = chain_cautions();
  std::vector<std::string> paths;
  if (const std::string missing = missing_of(*read, paths); !missing.empty()) {
    say_missing(missing, paths, answer);
    return answer;
  }
  add_assumed(*read, answer);
  say_width(*read, answer);
  study::Figure free =
      ranged_figure(chain_speed_free, {drive::chain_speed(read->chain, free_rev(engine)), {}, {}}, request.style);
  free.label += ", at " + base::number_text(rpm_per_rev * free_rev(engine), 0) + " rpm";
  const auto sides = sides_of(*opened);
  if (!sides) {
    answer.figures.push_back(free);
    say_not_turned(sides.error(), answer);
    return answer;
  }
  for (study::Assumed& one : assumed_of((*sides)->cut_network)) answer.head.assumed.push_back(std::move(one));
  Progress progress(watch, 12.0 + 1.5 * request.members);
  const auto found_turned = turned(**sides, opened->survey, request.members, progress);
  answer.stopped = progress.stopped();
  answer.figures.push_back(free);
  if (!found_turned) {
    if (!answer.stopped) say_not_turned({}, answer);
    return answer;
  }
  const Bands& bands = found_turned->bands;
  answer.anchored = bands.anchored;
  answer.warnings = bands.warnings;
  Found found{members_of(bands, found_turned->stock, found_turned->cut, *read), *read, opened->has_cuts(),
              bands.anchored};
  if (found.members.empty())
    say_not_turned({}, answer);
  else
    tell(found, request.style, answer);
  return answer;
}

}  // namespace portwright::desk
