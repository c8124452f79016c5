#include "cli/plan_text.hpp"
#include "cli/parts.hpp"
#include "desk/plan.hpp"

namespace portwright::cli {
namespace {

constexpr std::size_t name_width = 32, number_width = 14;

void wishes(Page& page, const wire::PlanAnswer& answer) {
  // "at least 12.00 mm (472 thou)" and a blank before it.
  constexpr std::size_t asked = 29, stock = 18;
  page.heading("Wished", right("stock", stock) + right("asked", asked));
  for (const wire::PlanWish& wish : answer.wishes)
    page.line({{"  " + left(wish.label, page_width - 2 - stock - asked), Ink::plain},
               {right(wish.stock_text, stock), Ink::faint},
               {right(wish.asked_text, asked), Ink::bold}});
}

void reached(Page& page, const wire::PlanAnswer& answer, const wire::PlanWay& way) {
  for (std::size_t i = 0; i < way.wishes.size(); ++i) {
    const wire::PlanReached& one = way.wishes[i];
    const bool off = one.left_text.find_first_of("123456789") != std::string::npos;
    page.line({{"     " + left(answer.wishes[i].label, name_width - 3), Ink::plain},
               {right(one.reached_text, number_width + 6), Ink::changed},
               {off ? (answer.done.empty() ? "   rounding leaves " : "   leaves ") + parted(one.left_text).number
                    : std::string("   met"),
                Ink::faint}});
  }
}

const wire::PlanLimit* nearest(const wire::PlanWay& way) {
  const wire::PlanLimit* out = nullptr;
  for (const wire::PlanLimit& limit : way.limits)
    if (out == nullptr || limit.chance > out->chance) out = &limit;
  return out;
}

void told(Page& page, const study::Finding& finding) {
  page.paragraph(
      {std::string("     ") + shape_of(finding.state) + ' ' + word_of(finding.state) + ". ", ink_of(finding.state)},
      finding.text);
}

void limits(Page& page, const wire::PlanWay& way, bool all) {
  for (const wire::PlanLimit& limit : way.limits)
    if (all || &limit == nearest(way))
      page.paragraph({"     Limit: ", Ink::faint}, limit.label + " " + limit.text + ".");
  for (const study::Finding& finding : way.findings)
    if (finding.state >= study::State::caution && !desk::stands_on_top(way, finding)) told(page, finding);
}

void one_way(Page& page, const wire::PlanAnswer& answer, std::size_t number, const Setting& setting) {
  const wire::PlanWay& way = answer.plans[number];
  page.line();
  page.line({{"  " + std::to_string(number + 1) + "  ", Ink::bold},
             {way.cuts.empty() ? std::string("nothing to cut")
                               : (way.metal_mm3 ? way.metal_text + " of metal" : "metal waits for readings"),
              Ink::bold},
             {way.work_text.empty() ? "" : "   " + way.work_text, Ink::faint}});
  for (const study::Finding& finding : way.findings)
    if (desk::stands_on_top(way, finding)) told(page, finding);
  page.paragraph({"     ", Ink::plain}, way.reversible_text, Ink::faint);
  for (const wire::PlanCut& step : way.steps) page.paragraph({"     ", Ink::plain}, step.text, Ink::changed);
  reached(page, answer, way);
  limits(page, way, setting.all);
  for (const std::string& moved : way.moved) page.paragraph({"     Moves: ", Ink::faint}, moved);
  for (const std::string& warning : way.warnings) page.paragraph({"     ! ", Ink::caution}, warning);
  page.paragraph({"     --cuts ", Ink::faint}, '"' + way.cuts + '"', Ink::faint);
  if (setting.all && way.exact != way.cuts)
    page.paragraph({"     exactly ", Ink::faint}, '"' + way.exact + '"', Ink::faint);
}

}  // namespace

std::string plan_text(const wire::PlanAnswer& answer, const Setting& setting) {
  Page page(setting.coloured);
  head(page, answer.head, "plan");
  wishes(page, answer);
  const std::string rounded = answer.step_text.empty() ? "not rounded" : "rounded to " + answer.step_text;
  for (const std::string& kept : answer.kept) page.paragraph({"  Kept: ", Ink::bold}, kept + ".", Ink::faint);
  for (const std::string& one : answer.unchecked)
    page.paragraph({"  For want of readings: ", Ink::bold}, one + ".", Ink::faint);
  page.heading("Plans: without a new stop first, then least metal", rounded);
  constexpr std::size_t usual = 3;
  const std::size_t shown = setting.all ? answer.plans.size() : std::min(usual, answer.plans.size());
  for (std::size_t i = 0; i < shown; ++i) one_way(page, answer, i, setting);
  page.line();
  if (shown < answer.plans.size())
    page.paragraph({"  ", Ink::plain},
                   std::to_string(answer.plans.size() - shown) + " more with more metal; --all shows every way.",
                   Ink::faint);
  for (const wire::PlanRefused& one : answer.refused)
    page.paragraph({"  Not offered: ", Ink::faint}, one.cuts + ". " + one.why + ".", Ink::faint);
  assumed(page, answer.head.assumed, setting);
  cautions(page, answer.cautions);
  return page.text();
}

}  // namespace portwright::cli
