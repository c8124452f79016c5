#include "desk/cut_sheet.hpp"

#include <algorithm>
#include <cmath>
#include <ctime>
#include <numbers>

#include "base/quantity/text.hpp"
#include "desk/aims.hpp"
#include "desk/book/bench_hand.hpp"
#include "desk/planned.hpp"
#include "desk/written.hpp"
#include "draw/pdf.hpp"
#include "plan/work.hpp"
#include "sheet/cut_sheet.hpp"

namespace portwright::desk {
namespace {

base::Result<sheet::Paper> paper_of(const std::string& name) {
  if (name.empty()) return sheet::a4;
  if (name == "A5" || name == "a5") return sheet::a5;
  if (const auto paper = sheet::find_paper(name)) return *paper;
  return base::fail(base::ErrorCode::usage, "\u201C" + name + "\u201D is no paper this program knows.", "paper",
                    "A4, Letter or A5.");
}

// Own judgement: beyond these a reading says nothing about the cut.
constexpr double widest_edge = 5.0 * std::numbers::pi / 180.0, widest_length = 0.5e-3;

/// Half bands: an angle is of timed edges, a length of squish and turned depth. Of a chord it is six times that.
base::Result<void> take_band(const std::string& text, plan::Bench& bench) {
  const auto is_digit = [&](std::size_t i) { return i < text.size() && text[i] >= '0' && text[i] <= '9'; };
  bool had_angle = false, had_length = false;
  const auto refuse = [&](const std::string& why, const std::string& hint) {
    return base::fail(base::ErrorCode::unreadable, "\u201C" + text + "\u201D is no band" + why + ".", "band", hint);
  };
  std::size_t start = 0;
  for (std::size_t i = 0; i <= text.size() && !text.empty(); ++i) {
    const bool parts =
        i == text.size() || text[i] == ';' || (text[i] == ',' && !(i > 0 && is_digit(i - 1) && is_digit(i + 1)));
    if (!parts) continue;
    const auto read = base::parse_any_quantity(text.substr(start, i - start));
    const bool angle = read && read->unit && read->unit->dimension == base::Dimension::angle;
    const bool length = read && read->unit && read->unit->dimension == base::Dimension::length;
    if ((!angle && !length) || read->si <= 0.0) return refuse("", "Half a band, as in: 1 deg, 0.05 mm");
    if (angle ? had_angle : had_length)
      return refuse(std::string(": it names ") + (angle ? "an angle" : "a length") + " twice",
                    "One angle for edges and one length for squish, as in: 1 deg, 0.05 mm");
    if (read->si > (angle ? widest_edge : widest_length))
      return refuse(std::string(": ") + (angle ? "over 5 deg" : "over 0.5 mm") + " to either side anything would pass",
                    "Up to 5 deg and 0.5 mm, as in: 1 deg, 0.05 mm");
    (angle ? had_angle : had_length) = true;
    if (angle) bench.edge_band = read->si;
    if (length) bench.squish_band = read->si, bench.depth_band = 2.0 * read->si, bench.width_band = 6.0 * read->si;
    start = i + 1;
  }
  return {};
}

base::ResultAll<plan::Bench> bench_of(const CutSheetRequest& request, const BenchHand& learnt) {
  plan::Bench bench;
  bench.hand = learnt.ground.sigma;
  bench.lathe = learnt.turned.sigma;
  base::Errors errors;
  if (auto taken = take_band(request.band, bench); !taken) errors.push_back(taken.error());
  if (!request.hand.empty()) {
    const auto hand = base::parse_quantity(request.hand, base::Dimension::length, "hand");
    if (!hand)
      errors.push_back(hand.error());
    else if (hand->si <= 0.0 || hand->si > 1e-3)
      errors.push_back({base::ErrorCode::out_of_range,
                        "\u201C" + request.hand + "\u201D is no hand.",
                        "hand",
                        "Over 0 and up to 1 mm.",
                        {}});
    else
      bench.hand = hand->si;
  }
  if (!errors.empty()) return tl::unexpected(std::move(errors));
  return bench;
}

std::string counted(int count, const char* one) { return std::to_string(count) + " " + one + (count == 1 ? "" : "s"); }

/// "Your hand: 0.07 mm for ground cuts, from 9 cuts of 3 saws, which went past by 0.03 mm on average."
std::string hand_text(const std::string& whose, const plan::OwnHand& hand, int saws, int digits) {
  std::string out = whose + base::number_text(1e3 * hand.sigma, digits) + " mm, from " + counted(hand.cuts, "cut") +
                    " of " + counted(saws, "saw");
  if (hand.leans)
    out += std::string(hand.mean > 0.0 ? "; you go past" : "; you stop short") + " by " +
           base::number_text(1e3 * std::abs(hand.mean), digits) + " mm on average";
  return out + ".";
}

/// What the book has learnt of this builder, where it is what the sheet goes by.
std::vector<std::string> hand_rows(const CutSheetRequest& request, const BenchHand& learnt) {
  std::vector<std::string> out;
  if (learnt.ground.cuts > 0 && request.hand.empty())
    out.push_back(hand_text("Your hand at the grinder: ", learnt.ground, learnt.ground_saws, 2));
  if (learnt.turned.cuts > 0)
    out.push_back(hand_text("Your hand at the lathe: ", learnt.turned, learnt.turned_saws, 3));
  return out;
}

std::string number(double mm) { return base::number_text(mm, 2) + " mm"; }

/// The list that was set out with: the one decided by hand, or of the plans before the first cut the one that is
/// likest to what is done.
cuts::CutList set_out_with(const CutSheetRequest& request, const plan::Settings& settings) {
  if (!request.cuts.empty()) return cuts::parse_cuts(request.cuts).value_or(cuts::CutList());
  PlanRequest first = request.plan;
  first.done.clear();
  const auto before = planned(first);
  const plan::Way* nearest = nullptr;
  std::ptrdiff_t most = 0;
  const auto matches = [&](const plan::Way& way) {
    return std::count_if(settings.done.begin(), settings.done.end(), [&](const cuts::Cut& cut) {
      return std::any_of(way.exact.begin(), way.exact.end(),
                         [&](const cuts::Cut& other) { return other.act == cut.act && other.port == cut.port; });
    });
  };
  if (before)
    for (const plan::Way& way : before->plan.ways)
      if (matches(way) > most) most = matches(way), nearest = &way;
  return nearest == nullptr ? cuts::CutList() : nearest->exact;
}

/// What was planned before the first cut for each cut that is done; of a cut that no plan had, nothing.
std::vector<sheet::SheetDone> done_rows(const CutSheetRequest& request, const plan::Settings& settings,
                                        const plan::Work& work) {
  std::vector<sheet::SheetDone> out;
  if (settings.done.empty()) return out;
  const cuts::CutList set_out = set_out_with(request, settings);
  for (const plan::WorkStep& step : work.steps) {
    if (!step.done) continue;
    sheet::SheetDone row{step.what, "\u2014", step.amount > 0.0 ? number(1e3 * step.amount) : "\u2014", "\u2014"};
    for (const cuts::Cut& cut : set_out) {
      if (!plan::same_place(cut, step.cut) || step.amount <= 0.0) continue;
      row.planned = number(1e3 * std::abs(cut.amount));
      const double left = 1e3 * (step.amount - std::abs(cut.amount));
      row.left = (left >= 0.0 ? "+" : "") + number(left);
    }
    out.push_back(std::move(row));
  }
  return out;
}

/// Of a list decided by hand the figures that it moves, and what they come to.
std::vector<wire::PlanWish> wished_of(const Planned& made) {
  if (!made.answer.wishes.empty()) return made.answer.wishes;
  std::vector<wire::PlanWish> out;
  for (const study::Figure& figure : made.answer.plans.front().figures) {
    const bool edge = figure.id.ends_with(".opens") || figure.id.ends_with(".width_of_bore");
    if (edge || figure.id == "squish.clearance" || figure.id == "timing.blowdown" || figure.id == "chamber.volume")
      out.push_back({{}, figure.id, figure.label, figure.unit, "is", 0.0, 0.0, figure.stock_text, figure.text});
  }
  return out;
}

std::vector<sheet::SheetWish> wish_rows(const Planned& made) {
  std::vector<sheet::SheetWish> out;
  geometry::Engine now = geometry::resolve(made.opened.survey);
  study::Options options = made.settings.study;
  options.next_reading = false;
  const auto prepared = cuts::prepare(made.settings.done, made.opened.survey, made.settings.folder);
  const bool begun = !made.settings.done.empty() && prepared;
  const auto figures = begun ? study::study(made.opened.survey, made.settings.done, prepared->get(), options).figures
                             : std::vector<study::Figure>();
  for (const wire::PlanWish& wish : wished_of(made)) {
    sheet::SheetWish row{wish.label, wish.stock_text, wish.asked_text, {}};
    for (const study::Figure& figure : figures)
      if (figure.id == wish.figure && figure.value)
        row.reached = base::value_text({*figure.value, {}, {}}, figure.unit, made.settings.study.style);
    out.push_back(std::move(row));
  }
  return out;
}

std::vector<std::string> note_rows(const wire::PlanWay& way, const std::vector<std::string>& kept) {
  std::vector<std::string> out = kept;
  out.push_back((way.metal_mm3 ? way.metal_text + " of metal. " : "") + way.reversible_text);
  for (const wire::PlanLimit& limit : way.limits)
    if (limit.chance >= 0.001) out.push_back(limit.label + " " + limit.text + ".");
  for (const std::string& moved : way.moved) out.push_back(moved);
  for (const std::string& warning : way.warnings) out.push_back(warning);
  for (const study::Finding& finding : way.findings)
    if (finding.state >= study::State::caution && !stands_on_top(way, finding))
      out.push_back(finding.text + " " + finding.fix);
  out.push_back(
      "Every port is read again after the squish is settled and before the first roof is marked. Heights count over "
      "the base face as it then is. Both edges of the wheel, opening and closing, so that its zero does not matter.");
  for (std::string& note : out)
    if (!note.empty() && note.front() >= 'a' && note.front() <= 'z')
      note.front() = static_cast<char>(note.front() - 32);
  return out;
}

/// What the done cuts brought within its band, and what could not be checked.
std::vector<std::string> left_alone(const std::vector<std::string>& kept, const std::vector<std::string>& unchecked,
                                    bool by_hand) {
  std::vector<std::string> out;
  for (const std::string& one : kept)
    if (by_hand || one.ends_with("leave it") || one.ends_with("put on")) out.push_back(one + ".");
  for (const std::string& one : unchecked) out.push_back(one + ".");
  return out;
}

std::vector<std::string> stop_rows(const wire::PlanWay& way) {
  std::vector<std::string> out;
  for (const study::Finding& finding : way.findings)
    if (stands_on_top(way, finding)) out.push_back(finding.text + " " + finding.fix);
  return out;
}

}  // namespace

base::ResultAll<Sheet> cut_sheet_drawn(const CutSheetRequest& request) {
  const auto paper = paper_of(request.paper);
  if (!paper) return tl::unexpected(base::Errors{paper.error()});
  const BenchHand learnt = bench_hand(request.plan.file, request.plan.book);
  const auto bench = bench_of(request, learnt);
  if (!bench) return tl::unexpected(bench.error());
  const plan::Bands bands{bench->edge_band, bench->squish_band, bench->width_band};
  const bool by_hand = !request.cuts.empty();
  if (by_hand && !request.plan.wishes.empty())
    return tl::unexpected(base::Errors{{base::ErrorCode::usage,
                                        "Wishes and cuts are given at once.",
                                        "cuts",
                                        "Give what to reach, or the cuts that are decided.",
                                        {}}});
  auto made = by_hand ? planned_by_hand(request.plan, request.cuts, bands) : planned(request.plan, &bands);
  if (!made) return tl::unexpected(made.error());
  const std::size_t ways = made->plan.ways.size();
  if (request.way < 1 || static_cast<std::size_t>(request.way) > ways)
    return tl::unexpected(
        base::Errors{{base::ErrorCode::not_found,
                      "There is no plan " + std::to_string(request.way) + ".",
                      "way",
                      by_hand ? "A list of cuts is one way."
                              : "These wishes have " + std::to_string(ways) + "; plan --all lists them.",
                      {}}});
  const auto way = static_cast<std::size_t>(request.way) - 1;
  const auto work = plan::work_of(made->plan.ways[way], made->opened.survey, made->settings, *bench);
  if (!work) return tl::unexpected(work.error());
  sheet::CutSheetInput input{*work, made->opened.readings.name, made->opened.readings.state, {}};
  input.plan = by_hand ? "cuts as listed" : "plan " + std::to_string(request.way) + " of " + std::to_string(ways);
  input.by_wish = !by_hand;
  input.wishes = wish_rows(*made);
  input.done = done_rows(request, made->settings, *work);
  input.stops = stop_rows(made->answer.plans[way]);
  input.notes = note_rows(made->answer.plans[way], left_alone(made->plan.kept, made->answer.unchecked, by_hand));
  const std::vector<std::string> hands = hand_rows(request, learnt);
  input.notes.insert(input.notes.end(), hands.begin(), hands.end());
  input.cautions = cautions();
  input.paper = *paper;
  input.style = request.plan.style;
  const draw::Document document = sheet::draw_cut_sheet(input);
  draw::PdfOptions options;
  options.date = static_cast<std::int64_t>(std::time(nullptr));
  auto bytes = draw::to_pdf(document, options);
  if (!bytes) return tl::unexpected(base::Errors{bytes.error()});
  Sheet out;
  out.about.head = std::move(made->answer.head);
  out.about.kind = "cut-sheet";
  out.about.format = "pdf";
  out.about.bytes = static_cast<int>(bytes->size());
  out.about.pages = static_cast<int>(document.pages.size());
  out.about.paper = std::string(paper->name);
  out.about.notes.push_back(
      "Cut to the stop mark, read, and only then on. --done with what was really cut plans the rest.");
  out.about.notes.insert(out.about.notes.end(), hands.begin(), hands.end());
  out.bytes = std::move(*bytes);
  return out;
}

base::ResultAll<wire::WrittenAnswer> cut_sheet(const CutSheetRequest& request) {
  auto sheet = cut_sheet_drawn(request);
  if (!sheet) return tl::unexpected(sheet.error());
  if (auto done = put(request.output, sheet->bytes); !done) return tl::unexpected(base::Errors{done.error()});
  sheet->about.file = request.output;
  return std::move(sheet->about);
}

}  // namespace portwright::desk
