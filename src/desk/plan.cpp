#include "desk/plan.hpp"

#include <algorithm>
#include <cmath>

#include "base/quantity/text.hpp"
#include "desk/aims.hpp"
#include "desk/case.hpp"
#include "desk/labels.hpp"
#include "desk/planned.hpp"
#include "plan/work.hpp"

namespace portwright::desk {
namespace {

constexpr double mm3_per_m3 = 1e9;

/// Figures of a builder's page that are shown with a plan when the cuts change them.
constexpr const char* told[] = {"timing.blowdown",     "squish.clearance",       "squish.working",
                                "chamber.volume",      "chamber.full_ratio",     "chamber.trapped_ratio",
                                "skirt.cover_exhaust", "skirt.cover_intake",     "crown.over_floors",
                                "piston.top_land",     "spigot.clearance",       "impulse.covered",
                                "wall.least",          "crown.over_intake_roof", "timing.stagger"};

/// Figures that cuts may spoil: what has no value of them was not checked.
constexpr const char* checked[] = {"squish.working",    "skirt.cover_exhaust", "skirt.cover_intake", "piston.top_land",
                                   "crown.over_floors", "spigot.clearance",    "wall.least",         "impulse.covered"};

bool is_checked(const study::Figure& figure) {
  return std::find(std::begin(checked), std::end(checked), figure.id) != std::end(checked) ||
         (figure.id.starts_with("ring.") && figure.id.ends_with(".peg_wall"));
}

bool is_told(const study::Figure& figure) {
  if (std::find(std::begin(told), std::end(told), figure.id) != std::end(told)) return true;
  const auto ends = [&](std::string_view tail) { return std::string_view(figure.id).ends_with(tail); };
  return figure.id.starts_with("port.") && (ends(".opens") || ends(".duration") || ends(".width_of_bore"));
}

bool changes(const study::Figure& figure) {
  return figure.change && std::abs(figure.change->value) > 1e-9 * std::max(1.0, std::abs(figure.value.value_or(0.0)));
}

/// "0.3 mm, 0.5 mm". The comma that parts two is the one with a blank or a letter beside it.
base::Result<std::vector<double>> gaskets_of(const std::string& text) {
  std::vector<double> out;
  const auto is_digit = [&](std::size_t i) { return i < text.size() && text[i] >= '0' && text[i] <= '9'; };
  std::size_t start = 0;
  for (std::size_t i = 0; i <= text.size() && !text.empty(); ++i) {
    const bool parts =
        i == text.size() || text[i] == ';' || (text[i] == ',' && !(i > 0 && is_digit(i - 1) && is_digit(i + 1)));
    if (!parts) continue;
    const auto read = base::parse_quantity(text.substr(start, i - start), base::Dimension::length, "gaskets");
    if (!read) return tl::unexpected(read.error());
    if (read->si <= 0.0 || read->si > 2.5e-3 || out.size() >= 6)
      return base::fail(base::ErrorCode::out_of_range, "\u201C" + text + "\u201D are no gaskets to plan with.",
                        "gaskets", "Give up to six thicknesses over 0 and up to 2.5 mm.");
    out.push_back(read->si);
    start = i + 1;
  }
  return out;
}

/// Words of the answers: the study's numbers in the style asked for.
class Teller {
 public:
  Teller(const Case& opened, const plan::Settings& settings, const study::KeptStock& kept)
      : opened_(opened), settings_(settings), kept_(kept) {
    study::Options options = settings.study;
    options.next_reading = false;
    study::Study study = study::study(opened.survey, {}, nullptr, options, kept.get());
    stock_ = std::move(study.findings);
    assumed = std::move(study.assumed);
    const auto labels = labels_of(opened.survey, study.speed);
    for (const study::Figure& figure : study.figures) {
      if (!is_checked(figure) || figure.value || figure.waits_for.empty()) continue;
      std::string waits;
      for (const std::string& path : figure.waits_for) waits += (waits.empty() ? "" : ", ") + path;
      const auto label = labels.find(figure.id);
      unchecked.push_back((label == labels.end() ? figure.id : label->second) + " is not checked; it waits for " +
                          waits);
    }
  }

  std::vector<study::Assumed> assumed;
  std::vector<std::string> unchecked;  ///< each a sentence

  wire::PlanWish wish(const plan::Wanted& wanted) const {
    constexpr const char* relations[] = {"is", "at least", "at most"};
    const char* relation = relations[static_cast<std::size_t>(wanted.relation)];
    wire::PlanWish out{wanted.wish,  wanted.figure, wanted.label, wanted.unit, relation,
                       wanted.stock, wanted.asked,  {},           {}};
    out.stock_text = text(wanted.stock, wanted.unit);
    out.asked_text =
        (wanted.relation == plan::Relation::is ? "" : std::string(relation) + " ") + text(wanted.asked, wanted.unit);
    return out;
  }

  wire::PlanWay way(const plan::Plan& whole, const plan::Way& way) const {
    wire::PlanWay out;
    out.cuts = cuts::cuts_text(way.cuts);
    out.exact = cuts::cuts_text(way.exact);
    add_steps(way, out);
    for (std::size_t g = 0; g < whole.wanted.size(); ++g) out.wishes.push_back(reached(whole.wanted[g], way, g));
    add_study(whole, way, out);
    for (const study::HardLimit& limit : way.limits) out.limits.push_back(limit_of(limit));
    if (way.metal) out.metal_mm3 = *way.metal * mm3_per_m3;
    if (way.metal_exact) out.metal_exact_mm3 = *way.metal_exact * mm3_per_m3;
    out.work_text = work_text(way);
    out.metal_text = way.metal ? base::number_text(*out.metal_mm3, 0) + " mm\u00B3" : "waits for readings";
    out.reversible = way.reversible;
    out.reversible_text = reversible_text(way);
    for (const std::string& warning : way.warnings) out.warnings.push_back(sentence(warning));
    return out;
  }

 private:
  /// With its capital and its point.
  static std::string sentence(std::string words) {
    if (!words.empty() && words.front() >= 'a' && words.front() <= 'z')
      words.front() = static_cast<char>(words.front() - 32);
    if (!words.empty() && words.back() != '.') words += '.';
    return words;
  }

  std::string text(double value, const std::string& unit) const {
    return base::value_text({value, {}, {}}, unit, settings_.study.style);
  }

  void add_steps(const plan::Way& way, wire::PlanWay& out) const {
    for (std::size_t k = 0; k < way.cuts.size(); ++k) {
      const cuts::Cut& cut = way.cuts[k];
      const bool done = plan::is_done(way.cuts, k, settings_.done);
      std::string exact;
      std::optional<double> within;
      // What is done stands before what is left of the same cut.
      for (std::size_t e = 0; e < way.exact.size(); ++e)
        if (plan::same_place(cut, way.exact[e]) && plan::is_done(way.exact, e, settings_.done) == done)
          exact = cuts::cut_text(way.exact[e]), within = e < way.within.size() ? way.within[e] : std::nullopt;
      const std::string range = within ? "\u00B1" + base::number_text(1e3 * *within, 2) + " mm" : "";
      out.steps.push_back(
          {cuts::cut_text(cut), std::move(exact), (done ? "Done: " : "") + step_words(cut, range), {}, range});
      if (within) out.steps.back().within_mm = 1e3 * *within;
    }
  }

  std::string step_words(const cuts::Cut& cut, const std::string& range) const {
    const double mm = 1e3 * std::abs(cut.amount);
    const std::string amount = base::value_text({mm, mm - 0.02, mm + 0.02}, "mm", settings_.study.style) + thou(mm) +
                               (range.empty() ? "" : " " + range);
    std::string port = cut.port;
    std::replace(port.begin(), port.end(), '_', ' ');
    switch (cut.act) {
      case cuts::Act::gasket_out:
        return "Leave the base gasket out.";
      case cuts::Act::gasket_to:
        return "Fit a base gasket of " + amount + ", measured fitted and torqued.";
      case cuts::Act::base:
        return "Turn " + amount + " off the base face.";
      case cuts::Act::band:
        return "Turn " + amount + " off the squish band, from below on an arbor.";
      case cuts::Act::crown_edge:
        return "Turn the crown's edge down by " + amount + ", " + text(1e3 * cut.width, "mm") + " wide.";
      case cuts::Act::dome:
        return "Turn the crown's middle down by " + amount + ".";
      case cuts::Act::widen:
        return "Widen the " + port + " by " + amount + " each side.";
      case cuts::Act::roof:
        return "Raise the " + port + " roof by " + amount + ".";
      case cuts::Act::floor:
        return "Lower the " + port + " floor by " + amount + ".";
      case cuts::Act::skirt:
        return "Shorten the " + cut.side + " skirt by " + amount + ".";
      default:
        return cuts::cut_text(cut);
    }
  }
  /// Value texts leave thou out beside long lengths; a cut is told in both.
  std::string thou(double mm) const {
    const bool there = text(mm, "mm").find("thou") != std::string::npos;
    if (there || settings_.study.style != base::UnitStyle::shop) return {};
    return " (" + base::number_text(mm / 0.0254, 0) + " thou)";
  }

  wire::PlanReached reached(const plan::Wanted& wanted, const plan::Way& way, std::size_t g) const {
    wire::PlanReached out{wanted.figure, way.reached_exact[g], way.reached[g], way.left[g], {}, {}};
    out.reached_text = text(out.reached, wanted.unit);
    const double half = wanted.unit == "mm" ? 0.02 : 0.1;
    out.left_text = base::change_text({out.left, out.left - half, out.left + half}, wanted.unit, settings_.study.style);
    return out;
  }

  wire::PlanLimit limit_of(const study::HardLimit& limit) const {
    wire::PlanLimit out{limit.rule, limit.figure,   limit.label,  limit.unit, limit.value,
                        limit.stop, limit.margin(), limit.chance, {}};
    out.text =
        text(limit.value, limit.unit) + ", " + (limit.at_least ? "at least " : "at most ") +
        text(limit.stop, limit.unit) + ": " + text(limit.margin(), limit.unit) + " left, passed with a chance of " +
        (limit.chance < 0.01 ? "under 1" : base::number_text(100.0 * limit.chance, limit.chance < 0.1 ? 1 : 0)) + " %";
    return out;
  }

  static std::string work_text(const plan::Way& way) {
    int turned = 0, ground = 0;
    for (const cuts::Cut& cut : way.cuts) {
      const bool by_hand = cut.act == cuts::Act::roof || cut.act == cuts::Act::floor || cut.act == cuts::Act::widen ||
                           cut.act == cuts::Act::skirt;
      const bool gasket = cut.act == cuts::Act::gasket_out || cut.act == cuts::Act::gasket_to;
      (by_hand ? ground : turned) += gasket ? 0 : 1;
    }
    std::string out = turned > 0 ? std::to_string(turned) + " turned" : "";
    if (ground > 0) out += (out.empty() ? "" : ", ") + std::to_string(ground) + " by hand";
    return out;
  }

  static std::string reversible_text(const plan::Way& way) {
    if (way.cuts.empty()) return "Nothing is cut.";
    if (way.reversible) return "The gasket put back, everything is as it was.";
    const bool gasket = std::any_of(way.cuts.begin(), way.cuts.end(), [](const cuts::Cut& cut) {
      return cut.act == cuts::Act::gasket_out || cut.act == cuts::Act::gasket_to;
    });
    return gasket ? "The gasket can be put back; the metal does not come back." : "The metal does not come back.";
  }

  void add_study(const plan::Plan& whole, const plan::Way& way, wire::PlanWay& out) const {
    const auto prepared = cuts::prepare(way.cuts, opened_.survey, settings_.folder);
    study::Options options = settings_.study;
    options.next_reading = false;
    study::Study study =
        study::study(opened_.survey, way.cuts, prepared ? prepared->get() : nullptr, options, kept_.get());
    std::vector<study::Figure> figures;
    for (study::Figure& figure : study.figures)
      if (is_told(figure) && changes(figure)) figures.push_back(std::move(figure));
    fill_labels(figures, labels_of(opened_.survey, study.speed));
    fill_all_texts(figures, settings_.study.style);
    for (const study::Figure& figure : figures) add_moved(whole, figure, out);
    out.figures = std::move(figures);
    for (const study::Finding& finding : study.findings)
      if (finding.state == study::State::stop && !was_stopped(finding)) out.newly_stopped.push_back(finding.rule);
    out.findings = std::move(study.findings);
  }

  [[nodiscard]] bool was_stopped(const study::Finding& finding) const {
    return std::any_of(stock_.begin(), stock_.end(), [&](const study::Finding& before) {
      return before.rule == finding.rule && before.figure == finding.figure && before.state == study::State::stop;
    });
  }

  static constexpr const char* both_sides = "One cut moves both sides of a mirrored port.";

  /// A second side that was read as one of its own.
  [[nodiscard]] bool has_other_side(const std::string& port) const {
    const int entry = opened_.survey.find_port(port);
    const auto& ports = opened_.survey.ports;
    return entry >= 0 && std::any_of(ports.begin(), ports.end(),
                                     [&](const auto& one) { return one.twin_of == entry && one.own_edge; });
  }

  [[nodiscard]] bool opened_by_skirt(const std::string& port) const {
    const int entry = opened_.survey.find_port(port);
    return entry >= 0 &&
           geometry::opened_by(opened_.survey.ports[static_cast<std::size_t>(entry)].kind) == geometry::OpenedBy::skirt;
  }

  /// Where a port opens, what skirts cover and what stands over floors: said when no wish holds it.
  void add_moved(const plan::Plan& whole, const study::Figure& figure, wire::PlanWay& out) const {
    const bool wished = std::any_of(whole.wanted.begin(), whole.wanted.end(),
                                    [&](const plan::Wanted& wanted) { return wanted.figure == figure.id; });
    if (wished || !figure.value || !figure.stock) return;
    const std::string change = figure.label + ": " + figure.stock_text + " to " + figure.text;
    if (figure.id.starts_with("port.") && figure.id.ends_with(".opens")) {
      const std::string port = figure.id.substr(5, figure.id.size() - 5 - 6);
      const std::string both = port.substr(0, port.find('.'));
      const bool held = std::any_of(whole.wanted.begin(), whole.wanted.end(), [&](const plan::Wanted& wanted) {
        return wanted.figure.starts_with("port." + both + ".") && !wanted.figure.ends_with("width_of_bore");
      });
      // One cut moves both sides: where they differ, the one that no wish holds is named with its own number.
      if (port != both || (held && has_other_side(both))) return out.moved.push_back(change + ". " + both_sides);
      if (held || whole.wanted.empty()) return;
      out.moved.push_back(change + (opened_by_skirt(port)
                                        ? ". Only metal put on gives that back."
                                        : ". The wish \u201C" + port + " opens as stock\u201D holds it."));
    } else if (figure.id == "skirt.cover_exhaust" || figure.id == "skirt.cover_intake") {
      out.moved.push_back(change + ". No roof gives that back.");
    } else if (figure.id == "crown.over_floors" || figure.id == "spigot.clearance" || figure.id == "impulse.covered") {
      out.moved.push_back(change + ".");
    }
  }

  const Case& opened_;
  const plan::Settings& settings_;
  const study::KeptStock& kept_;
  std::vector<study::Finding> stock_;
};

}  // namespace

namespace {

/// What is typed beside the wishes; all errors at once.
base::ResultAll<plan::Settings> settings_of(const PlanRequest& request, const Case& opened) {
  base::Errors errors;
  const auto take = [&](auto result, auto& to) {
    if (result)
      to = *std::move(result);
    else
      errors.push_back(result.error());
  };
  plan::Settings settings;
  take(step_of(request.step), settings.step);
  take(chance_of(request.chance), settings.chance);
  take(gaskets_of(request.gaskets), settings.gaskets);
  settings.folder = folder_of(request.file);
  settings.study = study_options(request.rpm, request.style);
  if (auto done = cuts::parse_cuts(request.done); !done)
    errors.insert(errors.end(), done.error().begin(), done.error().end());
  else if (auto ready = cuts::prepare(*done, opened.survey, settings.folder); !ready)
    errors.insert(errors.end(), ready.error().begin(), ready.error().end());
  else
    settings.done = *std::move(done);
  if (!errors.empty()) return tl::unexpected(std::move(errors));
  return settings;
}

/// Both lists of ways in one order: those without a new stop first, then as planned.
void sort_ways(plan::Plan& whole, wire::PlanAnswer& answer) {
  std::vector<std::size_t> order(answer.plans.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return answer.plans[a].newly_stopped.size() < answer.plans[b].newly_stopped.size();
  });
  std::vector<plan::Way> ways;
  std::vector<wire::PlanWay> plans;
  for (const std::size_t i : order) {
    ways.push_back(std::move(whole.ways[i]));
    plans.push_back(std::move(answer.plans[i]));
  }
  whole.ways = std::move(ways);
  answer.plans = std::move(plans);
}

Planned answered(Case opened, plan::Settings settings, plan::Plan whole) {
  const study::KeptStock kept = study::sample_stock(opened.survey, settings.study);
  Teller teller(opened, settings, kept);
  wire::PlanAnswer answer;
  for (const plan::Wanted& wanted : whole.wanted) answer.wishes.push_back(teller.wish(wanted));
  for (const plan::Way& way : whole.ways) answer.plans.push_back(teller.way(whole, way));
  sort_ways(whole, answer);
  answer.kept = whole.kept;
  answer.unchecked = whole.untried;
  answer.unchecked.insert(answer.unchecked.end(), teller.unchecked.begin(), teller.unchecked.end());
  for (const plan::Refused& one : whole.refused) answer.refused.push_back({cuts::cuts_text(one.cuts), one.why});
  answer.chance = settings.chance;
  for (const cuts::Cut& cut : settings.done) answer.done.push_back(cuts::cut_text(cut));
  answer.cautions = cautions();
  answer.head = opened.head;
  answer.head.assumed = std::move(teller.assumed);
  return {std::move(opened), std::move(settings), std::move(whole), std::move(answer)};
}

}  // namespace

base::Result<double> step_of(const std::string& text) {
  if (text.empty()) return 0.05e-3;
  if (text == "none") return 0.0;
  const auto read = base::parse_quantity(text, base::Dimension::length, "step");
  if (!read) return tl::unexpected(read.error());
  constexpr double finest = 0.005e-3, coarsest = 0.5e-3;
  if (read->si < finest || read->si > coarsest)
    return base::fail(base::ErrorCode::out_of_range, "\u201C" + text + "\u201D is no step that a hand cuts by.", "step",
                      "Give 0.005 to 0.5 mm, or none.");
  return read->si;
}

base::Result<double> chance_of(const std::string& text) {
  if (text.empty()) return 0.05;
  const auto read = base::parse_quantity(text, base::Dimension::share, "chance");
  if (!read) return tl::unexpected(read.error());
  if (read->si < 0.005 || read->si > 0.4)
    return base::fail(base::ErrorCode::out_of_range, "\u201C" + text + "\u201D is no chance to plan by.", "chance",
                      "Give 0.5 to 40 %.");
  return read->si;
}

base::ResultAll<Planned> planned(const PlanRequest& request, const plan::Bands* sheet) {
  auto opened = open_sound_case(request.file, "", request.book);
  if (!opened) return tl::unexpected(opened.error());
  const auto wishes = plan::parse_wishes(request.wishes);
  auto settings = settings_of(request, *opened);
  base::Errors errors = wishes ? base::Errors() : wishes.error();
  if (!settings) errors.insert(errors.end(), settings.error().begin(), settings.error().end());
  if (!errors.empty()) return tl::unexpected(std::move(errors));
  if (sheet != nullptr || !settings->done.empty()) settings->bands = sheet != nullptr ? *sheet : plan::Bands();
  settings->inside = sheet != nullptr;
  auto whole = plan::make_plan(*wishes, opened->survey, *settings);
  if (!whole) return tl::unexpected(whole.error());
  Planned out = answered(*std::move(opened), *std::move(settings), *std::move(whole));
  out.answer.step_text = request.step.empty() ? "0.05 mm" : request.step == "none" ? "" : request.step;
  return out;
}

base::ResultAll<Planned> planned_by_hand(const PlanRequest& request, const std::string& text,
                                         const plan::Bands& bands) {
  auto opened = open_sound_case(request.file, "", request.book);
  if (!opened) return tl::unexpected(opened.error());
  const auto list = cuts::parse_cuts(text);
  auto settings = settings_of(request, *opened);
  base::Errors errors = list ? base::Errors() : list.error();
  if (!settings) errors.insert(errors.end(), settings.error().begin(), settings.error().end());
  if (!errors.empty()) return tl::unexpected(std::move(errors));
  // Amounts that were decided are not rounded, unless it is asked for.
  if (request.step.empty()) settings->step = 0.0;
  settings->bands = bands;
  auto way = plan::way_of(*list, opened->survey, *settings);
  if (!way) return tl::unexpected(way.error());
  plan::Plan whole;
  whole.kept = way->left_alone;
  whole.ways.push_back(*std::move(way));
  return answered(*std::move(opened), *std::move(settings), std::move(whole));
}

bool stands_on_top(const wire::PlanWay& way, const study::Finding& finding) {
  const auto& fresh = way.newly_stopped;
  return finding.state == study::State::stop &&
         (finding.rule == "skirt_cover" || std::find(fresh.begin(), fresh.end(), finding.rule) != fresh.end());
}

base::ResultAll<wire::PlanAnswer> plan(const PlanRequest& request) {
  auto out = planned(request);
  if (!out) return tl::unexpected(out.error());
  return std::move(out->answer);
}

}  // namespace portwright::desk
