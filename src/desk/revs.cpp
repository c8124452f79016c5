#include "desk/revs.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "desk/aims.hpp"
#include "desk/figure_findings.hpp"
#include "desk/gaps.hpp"
#include "desk/revs_figures.hpp"
#include "desk/revs_picture.hpp"
#include "desk/written.hpp"
#include "study/run_figures.hpp"
#include "tables/assumptions.hpp"

namespace portwright::desk {

namespace {

using bottom_end::NodeForces;

constexpr int last_degree = 360;
constexpr double lighter_share = 0.9;

struct Speeds {
  Speed cut, free;
};

Speed free_as_read(const geometry::Engine& engine) {
  if (engine.breathing.limiter) return {*engine.breathing.limiter * rpm_per_rev, "limiter"};
  if (engine.no_load) return {*engine.no_load * rpm_per_rev, "no-load reading"};
  return {tables::assumption("free_speed").value * rpm_per_rev, "usual"};
}

base::Result<Speeds> speeds_for(const std::string& text, const geometry::Engine& engine) {
  const auto cut = speed_of(text, engine);
  if (!cut) return tl::unexpected(cut.error());
  return Speeds{*cut, text.empty() ? free_as_read(engine) : *cut};
}

std::string rpm_words(double rpm) { return base::number_text(rpm, 0) + " rpm"; }

RevsFound find_all(const RevsSides& sides, const Speeds& speeds) {
  RevsFound out;
  out.question = {speeds.cut.rpm / rpm_per_rev, speeds.free.rpm / rpm_per_rev, bottom_end::usual_duty()};
  const bottom_end::Draws draws;
  out.now = bottom_end::sample(sides.subject(), out.question, draws);
  out.ladder = bottom_end::ladder_of(sides.subject(), draws);
  out.stock = sides.has_cuts ? bottom_end::sample(sides.before(), out.question, draws) : out.now;
  out.stock_ladder = sides.has_cuts ? bottom_end::ladder_of(sides.before(), draws) : out.ladder;
  return out;
}

/// Forces of a turn, as the series and the sentences tell them: in the cut, or free where it was not turned.
struct Told {
  bottom_end::Bench bench;
  std::vector<NodeForces> loaded, free;

  Told(const bottom_end::Subject& subject, const bottom_end::Question& question)
      : bench(*subject.machine, last_degree) {
    const bottom_end::Drawn middle = bottom_end::Draws::middle(subject.machine->parts, subject.stock);
    free = bench.free(middle, question.free_speed);
    loaded = bench.has_gas() ? bench.cut(middle, question.cut_speed) : free;
  }
};

struct SeriesRow {
  const char *id, *label, *unit;
  double (*value)(const Told&, std::size_t);
};
const SeriesRow series_rows[] = {
    {"thrust", "Side thrust, + toward the power stroke's side", "N",
     [](const Told& t, std::size_t i) { return t.loaded[i].thrust; }},
    {"wall_left", "Wall left under the skirt on the side then pressed", "%",
     [](const Told& t, std::size_t i) { return 100.0 * t.bench.wall_at(i, t.loaded[i].thrust).value_or(0.0); }},
    {"wall_pressure", "Skirt on the wall left", "MPa",
     [](const Told& t, std::size_t i) { return 1e-6 * t.bench.wall_pressure_at(i, t.loaded[i].thrust); }},
    {"pin_height", "Piston pin below its place at TDC", "mm",
     [](const Told& t, std::size_t i) { return 1e3 * t.bench.grid().nodes[i].drop; }},
    {"rod", "Rod, + pressed", "N", [](const Told& t, std::size_t i) { return t.loaded[i].rod; }},
    {"rod_free", "Rod at free-rev, + pressed", "N", [](const Told& t, std::size_t i) { return t.free[i].rod; }},
    {"small_end", "Small end", "N", [](const Told& t, std::size_t i) { return t.loaded[i].small_end.size(); }},
    {"big_end", "Big end", "N", [](const Told& t, std::size_t i) { return t.loaded[i].big_end.size(); }},
    {"big_end_free", "Big end at free-rev", "N", [](const Told& t, std::size_t i) { return t.free[i].big_end.size(); }},
    {"main", "Main bearings together", "N", [](const Told& t, std::size_t i) { return t.loaded[i].main.size(); }},
};

bool is_about_wall(const SeriesRow& row) { return std::string_view(row.id).starts_with("wall"); }

void add_series(const Told& now, const Told* stock, wire::RevsAnswer& answer) {
  for (int degree = 0; degree <= last_degree; ++degree) answer.angle_deg.push_back(degree);
  const auto values = [](const Told& told, const SeriesRow& row) {
    std::vector<double> out;
    for (int degree = 0; degree <= last_degree; ++degree)
      out.push_back(row.value(told, static_cast<std::size_t>(degree % last_degree)));
    return out;
  };
  for (const SeriesRow& row : series_rows) {
    if (is_about_wall(row) && !now.bench.wall_at(0, 0.0)) continue;
    answer.series.push_back(
        {row.id, row.label, row.unit, values(now, row), stock ? values(*stock, row) : std::vector<double>{}});
  }
}

std::string newtons(double force) { return study::three_digits(force, "N", base::UnitStyle::metric); }
std::string percent(double share) { return base::number_text(100.0 * share, 0) + " %"; }

/// Bearings whose rating is not read, for a person: "big end and main bearings"; empty: all are.
std::string unrated(const std::vector<wire::Rung>& rungs) {
  std::vector<std::string> names;
  for (const wire::Rung& rung : rungs)
    if (rung.kind == "hard" && rung.id.ends_with(".load") && !rung.free)
      names.push_back(rung.id == "main.load" ? "main bearings" : rung.id == "big_end.load" ? "big end" : "small end");
  std::string out;
  for (std::size_t i = 0; i < names.size(); ++i)
    out += (i == 0 ? "" : i + 1 == names.size() ? " and " : ", ") + names[i];
  return out;
}

std::string ceiling_sentence(const RevsFound& found, const std::vector<wire::Rung>& rungs, const Speeds& speeds) {
  const auto& ceiling = found.ladder.ceiling.free;
  if (!ceiling) return {};
  const double rpm = rpm_per_rev * ceiling->value, low = rpm_per_rev * ceiling->low.value_or(ceiling->value);
  std::string by;
  bool has_rating = false;
  for (const wire::Rung& rung : rungs) {
    if (rung.kind != "hard" || !rung.free) continue;
    has_rating = has_rating || rung.id.ends_with(".load");
    if (std::abs(rung.free->rpm - rpm) < 1e-6) by = rung.name;
  }
  if (!by.empty()) by[0] = static_cast<char>(std::tolower(static_cast<unsigned char>(by[0])));
  // Seen from below: what a ceiling may be at the least comes first.
  const double shown = std::floor(low / 100.0) * 100.0;
  const std::string from = rpm_words(shown), lacking = unrated(rungs);
  std::string out = has_rating ? "Free, the first hard limit may stand from " + from + " on"
                               : "No hard limit of this bottom end itself is known: no bearing has a rating. What is "
                                 "published of piston speed for any engine begins to forbid at " +
                                     from;
  out += has_rating && !by.empty() ? " (" + by + ")." : ".";
  const std::string free = rpm_words(speeds.free.rpm);
  if (speeds.free.rpm > rpm)
    out += ' ' + free + " lies beyond it.";
  else
    out += speeds.free.rpm > low ? ' ' + free + " lies within its range." : ' ' + free + " does not reach it.";
  if (has_rating && !lacking.empty()) out += " The " + lacking + " without a rating may be the first to go.";
  return out + " It is no permission: the maker's permitted speed stands before it.";
}

std::string thrust_sentence(const Told& told) {
  std::size_t most = 0, tightest = 0;
  for (std::size_t i = 0; i < told.loaded.size(); ++i) {
    if (std::abs(told.loaded[i].thrust) > std::abs(told.loaded[most].thrust)) most = i;
    if (told.bench.wall_pressure_at(i, told.loaded[i].thrust) >
        told.bench.wall_pressure_at(tightest, told.loaded[tightest].thrust))
      tightest = i;
  }
  const auto side = [&](std::size_t i) {
    return told.loaded[i].thrust >= 0.0 ? " toward the power stroke's side" : " toward the other side";
  };
  const auto share = told.bench.wall_at(most, told.loaded[most].thrust);
  std::string out = "The piston leans hardest " + std::to_string(most) + " deg after TDC, the pin " +
                    base::number_text(1e3 * told.bench.grid().nodes[most].drop, 0) + " mm down its way, " +
                    newtons(std::abs(told.loaded[most].thrust)) + side(most);
  if (!share) return out + '.';
  out += "; the windows leave " + percent(*share) + " of the wall under the skirt there";
  if (tightest == most) return out + ", and nowhere is it pressed more.";
  const double thrust = told.loaded[tightest].thrust;
  return out + ". What is left of the wall is pressed most " + std::to_string(tightest) +
         " deg after TDC: " + newtons(std::abs(thrust)) + " on " + percent(*told.bench.wall_at(tightest, thrust)) +
         " of it, " +
         study::three_digits(1e-6 * told.bench.wall_pressure_at(tightest, thrust), "MPa", base::UnitStyle::metric) +
         '.';
}

/// What a piston a tenth lighter on the same crank does to load, balance and shaking.
std::string lighter_sentence(const RevsSides& sides, const RevsFound& found) {
  bottom_end::Drawn drawn = bottom_end::Draws::middle(sides.cut.parts, sides.subject().stock);
  const double mass = drawn.masses.piston;
  drawn.masses.piston *= lighter_share;
  const bottom_end::Bench bench(sides.cut, last_degree);
  const bottom_end::Numbers light = bench.numbers(found.question, drawn);
  const bottom_end::Numbers& now = found.now.middle;
  const auto grams = [](double kilograms) { return base::number_text(1e3 * kilograms, 0) + " g"; };
  return "A piston a tenth lighter (" + grams(mass) + " to " + grams(drawn.masses.piston) +
         ") on the same crank: balanced share " + percent(now.balance) + " to " + percent(light.balance) +
         ", shaking at free-rev " + newtons(now.free.peaks.shaking) + " to " + newtons(light.free.peaks.shaking) +
         ", big end " + newtons(now.free.peaks.big_end) + " to " + newtons(light.free.peaks.big_end) + '.';
}

std::string duty_words(const RevsFound& found) {
  const bottom_end::Duty& duty = found.question.duty;
  return percent(duty.work) + " at work at " + rpm_words(found.question.cut_speed * rpm_per_rev) + ", " +
         percent(duty.free) + " free at " + rpm_words(found.question.free_speed * rpm_per_rev) +
         ", the rest idling at " + rpm_words(duty.idle_speed * rpm_per_rev);
}

std::vector<std::string> revs_cautions() {
  std::vector<std::string> out = cautions();
  out.push_back(
      "Do not turn a saw free to find its limit: a rod, a clutch or a flywheel that lets go, and a chain that leaves "
      "the bar, hurt whoever stands in line. The maker's permitted speed holds for clutch, flywheel and chain too; "
      "none "
      "of these is on this ladder.");
  return out;
}

base::Result<void> write_picture(const RevsRequest& request, const Case& opened, wire::RevsAnswer& answer) {
  if (request.picture.empty()) return {};
  const auto svg = revs_picture(opened, answer);
  if (!svg) return tl::unexpected(svg.error());
  if (auto done = put(request.picture, *svg); !done) return done;
  answer.written.push_back(request.picture);
  return {};
}

void fill(const RevsRequest& request, const RevsSides& sides, const Speeds& speeds, wire::RevsAnswer& answer) {
  const RevsFound found = find_all(sides, speeds);
  answer.turned = !sides.cut.gas.empty();
  answer.figures = revs_figures(sides, found, request.style);
  answer.findings = findings_on(answer.figures, request.style);
  fill_letters(answer.findings);
  answer.rungs = revs_rungs(sides, found, request.style);
  const Told now(sides.subject(), found.question);
  std::optional<Told> stock;
  if (sides.has_cuts) stock.emplace(sides.before(), found.question);
  add_series(now, stock ? &*stock : nullptr, answer);
  const bool has_life = std::any_of(answer.figures.begin(), answer.figures.end(),
                                    [](const study::Figure& figure) { return figure.id == "bottom_end.life"; });
  if (has_life) answer.duty = duty_words(found);
  answer.sentences = {ceiling_sentence(found, answer.rungs, speeds), thrust_sentence(now),
                      lighter_sentence(sides, found)};
  std::erase(answer.sentences, "");
}

}  // namespace

base::ResultAll<wire::RevsAnswer> revs(const RevsRequest& request, const Watch& watch) {
  const auto opened = open_turning(request.file, request.cuts, request.book);
  if (!opened) return tl::unexpected(opened.error());
  const auto made = revs_sides(*opened);
  if (!made) return tl::unexpected(made.error());
  RevsSides& sides = **made;
  const auto speeds = speeds_for(request.speed, sides.cut_engine);
  if (!speeds) return only(speeds);
  Progress progress(watch, sides.has_cuts ? 2.0 : 1.0);
  add_gas(sides, speeds->cut.rpm / rpm_per_rev, progress);
  wire::RevsAnswer answer;
  answer.head = opened->head;
  answer.head.assumed = assumed_parts(sides.cut);
  if (sides.networks)
    for (study::Assumed& one : assumed_of(sides.networks->cut_network)) answer.head.assumed.push_back(std::move(one));
  answer.cut_rpm = speeds->cut.rpm;
  answer.cut_from = speeds->cut.from;
  answer.free_rpm = speeds->free.rpm;
  answer.free_from = speeds->free.from;
  answer.waits = sides.waits;
  answer.cautions = revs_cautions();
  answer.stopped = progress.stopped();
  if (answer.stopped) return answer;
  fill(request, sides, *speeds, answer);
  if (auto done = write_picture(request, *opened, answer); !done) return only(done);
  return answer;
}

}  // namespace portwright::desk
