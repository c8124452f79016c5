// A cut list as steps with bounds, and the cuts that may follow it.
#include "desk/page/steps.hpp"

#include <algorithm>
#include <cmath>

#include "desk/page/opened.hpp"
#include "sheet/cut_rows.hpp"

namespace portwright::desk {
namespace {

using cuts::Act;
using cuts::AmountForm;
using cuts::Cut;
using cuts::CutList;
using geometry::Engine;

/// The text of all steps, or everything that is wrong with them.
base::ResultAll<std::string> list_text(const StepsRequest& request) {
  if (request.steps.empty()) return request.cuts;
  std::string text;
  base::Errors errors;
  for (std::size_t i = 0; i < request.steps.size(); ++i) {
    const auto one = text_of(request.steps[i], i + 1);
    if (!one)
      errors.push_back(one.error());
    else
      text += (text.empty() ? "" : "; ") + *one;
  }
  if (!errors.empty()) return tl::unexpected(std::move(errors));
  return text;
}

/// Amounts that a saw allows of one cut of a list, the others as they are.
class Bounds {
 public:
  Bounds(const Opened& saw, const CutList& list, std::size_t at) : saw_(saw), list_(list), at_(at) {}

  /// Cuts the rule's ends short where the saw refuses them. `safe` is an amount to start from.
  void put(wire::Step& step, const StepRule& rule, double safe) {
    step.step = rule.step;
    step.least = std::min(rule.from, *step.amount);
    step.most = std::max(rule.to, *step.amount);
    if (!refusal(safe).empty()) return;
    step.least_says = shortened(*step.least, safe, rule.step);
    step.most_says = shortened(*step.most, safe, rule.step);
  }

 private:
  /// Why an amount is refused; empty: it is not.
  std::string refusal(double amount) {
    list_[at_].amount = amount * si_per_unit(list_[at_]);
    const auto prepared = cuts::prepare(list_, saw_.stock().survey, folder_of(saw_.file()));
    if (!prepared) return prepared.error().front().message;
    const base::Errors broken = broken_by(saw_.stock(), **prepared);
    return broken.empty() ? std::string() : broken.front().message;
  }

  /// Draws an end in to the last amount that is allowed; says why.
  std::string shortened(double& end, double safe, double step) {
    const std::string why = refusal(end);
    if (why.empty()) return {};
    double allowed = safe, refused = end;
    while (std::abs(refused - allowed) > 0.1 * step) {
      const double middle = 0.5 * (allowed + refused);
      (refusal(middle).empty() ? allowed : refused) = middle;
    }
    constexpr double parts = 100.0;  // a hundredth of a millimetre, inward
    end = end > safe ? std::floor(allowed * parts) / parts : std::ceil(allowed * parts) / parts;
    return why;
  }

  const Opened& saw_;
  CutList list_;
  std::size_t at_;
};

std::vector<Engine> engines_after(const Case& stock, const cuts::Prepared& prepared, std::size_t count) {
  std::vector<Engine> out = {geometry::resolve(stock.survey)};
  for (std::size_t k = 1; k <= count; ++k) {
    out.push_back(out.front());
    cuts::apply(prepared, out.back(), k);
  }
  return out;
}

int entry_of(const geometry::Survey& survey, const Cut& cut) {
  return cut.port.empty() ? -1 : survey.find_port(cut.port);
}

std::optional<double> now_in_unit(const Engine& before, const Cut& cut, int entry) {
  const AmountForm form = cuts::form_of(cut).amount;
  if (form != AmountForm::size && form != AmountForm::areas && form != AmountForm::octane) return std::nullopt;
  const base::Known now = size_now(before, cut, entry);
  return now ? std::optional(*now / si_per_unit(cut)) : std::nullopt;
}

void put_row(const sheet::CutRow& row, wire::Step& step) {
  step.title = row.what;
  step.now_text = row.now;
  step.stop_text = row.stop;
  step.then_text = row.then;
  step.wheel_stop = row.wheel_stop;
  step.wheel_then = row.wheel_end;
}

/// Amount to stop short at: of what is crept up on by length.
void put_stop(const Cut& cut, wire::Step& step) {
  const bool crept = cut.act == Act::roof || cut.act == Act::floor || cut.act == Act::widen || cut.act == Act::skirt ||
                     cut.act == Act::dome;
  if (!crept || cut.amount == 0.0) return;
  step.stop = (cut.amount - std::copysign(sheet::short_of(cut.amount), cut.amount)) / si_per_unit(cut);
}

wire::Step made(const Opened& saw, const CutList& list, std::size_t at, const Engine& before,
                const sheet::CutRow& row) {
  const Cut& cut = list[at];
  wire::Step step = step_of(cut);
  put_row(row, step);
  put_stop(cut, step);
  const AmountForm form = cuts::form_of(cut).amount;
  if (form == AmountForm::none || form == AmountForm::file) return step;
  const std::optional<double> now = now_in_unit(before, cut, entry_of(saw.stock().survey, cut));
  const StepRule rule = rule_of(cut, now);
  if (form == AmountForm::areas) {
    step.least = rule.from;
    step.most = rule.to;
    step.step = rule.step;
    return step;
  }
  // The amount itself where it is allowed, else nothing done.
  const bool sound = broken_by(saw.stock(), **cuts::prepare(list, saw.stock().survey, folder_of(saw.file()))).empty();
  Bounds(saw, list, at).put(step, rule, sound ? *step.amount : now.value_or(0.0));
  return step;
}

double rounded_to(double value, double step) { return std::round(std::round(value / step) * step * 1e9) / 1e9; }

/// A cut with its first amount.
Cut begun(Cut cut, const Engine& engine, int entry) {
  const std::optional<double> now = now_in_unit(engine, cut, entry);
  const StepRule rule = rule_of(cut, now);
  const double amount = now ? rounded_to(*now + rule.first, rule.step) : rule.first;
  cut.amount = std::clamp(amount, rule.from, rule.to) * si_per_unit(cut);
  if (cut.act == Act::outlets) cut.amounts = {cut.amount};
  if (cut.act == Act::octane) {
    using geometry::OctaneScale;
    const OctaneScale scale = engine.breathing.octane_scale;
    cut.part = scale == OctaneScale::pump ? "pump" : scale == OctaneScale::motor ? "motor" : "research";
  }
  constexpr double usual_ring = 5e-3;
  if (cut.act == Act::crown_edge) cut.width = rounded_to(engine.squish_band.value_or(usual_ring) * 1e3, 0.5) * 1e-3;
  cut.text = cuts::cut_text(cut);
  return cut;
}

std::vector<wire::Step> offers(const Opened& saw, const CutList& list, const Engine& now) {
  std::vector<wire::Step> out;
  const geometry::Survey& survey = saw.stock().survey;
  const sheet::Labels labels = sheet::labels_of(survey);
  CutList longer = list;
  longer.emplace_back();
  for (const Cut& kind : possible_cuts(survey, now)) {
    const int entry = entry_of(survey, kind);
    longer.back() = begun(kind, now, entry);
    const auto prepared = cuts::prepare(longer, survey, folder_of(saw.file()));
    if (!prepared || !broken_by(saw.stock(), **prepared).empty()) continue;
    std::vector<Engine> pair(2, now);
    pair[1] = geometry::resolve(survey);
    cuts::apply(**prepared, pair[1]);
    wire::Step step = step_of(longer.back());
    put_row(sheet::cut_rows({pair, std::span(&longer.back(), 1)}, labels).front(), step);
    const StepRule rule = rule_of(longer.back(), now_in_unit(now, longer.back(), entry));
    if (step.amount || !step.amounts.empty()) {
      step.least = rule.from;
      step.most = rule.to;
      step.step = rule.step;
    }
    out.push_back(std::move(step));
  }
  return out;
}

}  // namespace

base::ResultAll<wire::StepsAnswer> steps(const Opened& saw, const StepsRequest& request) {
  const auto text = list_text(request);
  if (!text) return tl::unexpected(text.error());
  const auto list = cuts::parse_cuts(*text);
  if (!list) return tl::unexpected(list.error());
  const Case& stock = saw.stock();
  const auto prepared = cuts::prepare(*list, stock.survey, folder_of(saw.file()));
  if (!prepared) return tl::unexpected(prepared.error());
  wire::StepsAnswer out;
  out.head = stock.head;
  for (const Cut& cut : *list) out.head.cuts.push_back(cuts::cut_text(cut));
  for (base::Error& error : broken_by(stock, **prepared)) out.head.errors.push_back(std::move(error));
  out.text = cuts::cuts_text(*list);
  const std::vector<Engine> after = engines_after(stock, **prepared, list->size());
  const auto rows = sheet::cut_rows({after, *list}, sheet::labels_of(stock.survey));
  for (std::size_t i = 0; i < list->size(); ++i) out.steps.push_back(made(saw, *list, i, after[i], rows[i]));
  out.may_add = offers(saw, *list, after.back());
  return out;
}

}  // namespace portwright::desk
