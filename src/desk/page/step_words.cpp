// Words of cuts: apart, together, and what a rule reaches over.
#include <algorithm>
#include <cmath>

#include "base/quantity/number.hpp"
#include "desk/page/steps.hpp"

namespace portwright::desk {
namespace {

using base::typed::plain_number;
using cuts::Act;
using cuts::AmountForm;
using cuts::Cut;
using cuts::Form;
using cuts::SideForm;

const char* form_name(AmountForm form) {
  constexpr const char* names[] = {"none", "change", "quantity", "size", "areas", "octane", "file"};
  return names[static_cast<std::size_t>(form)];
}

std::string act_of(const Cut& cut, const Form& form) {
  std::string out(form.word);
  if (cut.act == Act::gasket_out) out += " out";
  if (form.port) out += ' ' + cut.port;
  if (form.side == SideForm::needed) out += ' ' + cut.side;
  return out;
}

/// The form that an act's words begin with.
const Form* form_at(const std::string& act) {
  const Form* found = nullptr;
  for (const Form& form : cuts::forms()) {
    const std::string word = std::string(form.word) + (form.act == Act::gasket_out ? " out" : "");
    const bool begins = act.starts_with(word) && (act.size() == word.size() || act[word.size()] == ' ');
    if (begins && (found == nullptr || word.size() > found->word.size())) found = &form;
  }
  return found;
}

std::string number_text(double amount, const std::string& unit, bool sign) {
  std::string out = plain_number(amount);
  if (sign && out.front() != '-') out.insert(out.begin(), '+');
  return unit.empty() ? out : out + ' ' + unit;
}

std::string amount_text(const wire::StepIn& step, AmountForm form) {
  std::string out;
  switch (form) {
    case AmountForm::none:
      return {};
    case AmountForm::octane:
      return " to \"" + (step.amount ? plain_number(*step.amount) + ' ' : std::string()) + step.words + '"';
    case AmountForm::file:
      return " to \"" + step.words + '"';
    case AmountForm::areas:
      for (const double area : step.amounts) out += ' ' + number_text(area, step.unit, false);
      if (step.amounts.empty() && step.amount) out += ' ' + number_text(*step.amount, step.unit, false);
      return " to" + out;
    default:
      break;
  }
  if (step.amount) out = ' ' + number_text(*step.amount, step.unit, form == AmountForm::change);
  return (form == AmountForm::size ? " to" : "") + out;
}

bool ends_a_cut(const std::string& part) { return part.find_first_of(";\n\r\"") != std::string::npos; }

/// A rule about what is there: `span` to either side, inside the bounds.
StepRule about(std::optional<double> now, double span, double least, double most, double step, double first) {
  if (!now) return {least, most, step, first};
  return {std::max(least, *now - span), std::min(most, *now + span), step, first};
}

}  // namespace

double si_per_unit(const Cut& cut) {
  const base::Dimension dimension = cuts::form_of(cut).dimension;
  if (dimension == base::Dimension::count) return 1.0;
  const base::Unit* unit = base::find_unit(cuts::canonical_unit(dimension), dimension);
  return unit != nullptr ? unit->scale : 1.0;
}

wire::Step step_of(const Cut& cut) {
  const Form& form = cuts::form_of(cut);
  wire::Step out;
  out.text = cuts::cut_text(cut);
  out.act = act_of(cut, form);
  out.form = form_name(form.amount);
  out.target = form.port ? cut.port : !cut.side.empty() ? cut.side : cut.part;
  if (form.side == SideForm::optional) out.tail = cut.side;
  if (cut.act == Act::crown_edge) out.tail = "wide " + cuts::amount_text(cut.width, form.dimension);
  if (form.amount == AmountForm::file) out.words = cut.file;
  if (form.amount == AmountForm::octane) out.words = cut.part;
  if (form.amount == AmountForm::none || form.amount == AmountForm::file) return out;
  // The nearest number with 12 digits, as the canonical text has it.
  const auto in_unit = [&](double si) { return std::round(si / si_per_unit(cut) * 1e9) / 1e9; };
  if (form.amount != AmountForm::octane) out.unit = cuts::canonical_unit(form.dimension);
  if (form.amount == AmountForm::areas)
    for (const double area : cut.amounts) out.amounts.push_back(in_unit(area));
  else
    out.amount = in_unit(cut.amount);
  return out;
}

base::Result<std::string> text_of(const wire::StepIn& step, std::size_t number) {
  if (ends_a_cut(step.act) || ends_a_cut(step.unit) || ends_a_cut(step.tail) || ends_a_cut(step.words) ||
      step.act.find_first_not_of(' ') == std::string::npos)
    return base::fail(base::ErrorCode::bad_cut,
                      "A step is one cut: its words may hold no semicolon and no quotation mark.",
                      "cuts." + std::to_string(number));
  const Form* form = form_at(step.act);
  std::string out = step.act + amount_text(step, form != nullptr ? form->amount : AmountForm::change);
  return step.tail.empty() ? out : out + ' ' + step.tail;
}

StepRule rule_of(const Cut& cut, std::optional<double> now) {
  switch (cut.act) {
    case Act::gasket_to:
      return about(now, 1.0, 0.0, 2.0, 0.05, -0.1);
    case Act::base:
      return {-2.0, 0.0, 0.05, -0.2};
    case Act::band:
      return {-1.5, 0.0, 0.05, -0.2};
    case Act::crown_edge:
      return {-1.5, 0.0, 0.05, -0.2};
    case Act::dome:
      return {-2.0, 0.0, 0.1, -0.3};
    case Act::roof:
      return {0.0, 3.0, 0.1, 0.5};
    case Act::floor:
      return {-3.0, 0.0, 0.1, -0.5};
    case Act::widen:
      return {0.0, 4.0, 0.1, 0.5};
    case Act::corner:
      return about(now, 6.0, 0.0, 15.0, 0.5, 0.5);
    case Act::skirt:
      return {-5.0, 0.0, 0.1, -0.5};
    case Act::mouth:
      return about(now, 2.0, 0.1, 12.0, 0.05, 0.2);
    case Act::case_volume:
      return {-20.0, 20.0, 1.0, 5.0};
    case Act::stuff:
      return {0.0, 40.0, 1.0, 5.0};
    case Act::petal:
      return about(now, 0.25, 0.1, 1.0, 0.01, -0.05);
    case Act::venturi:
      return about(now, 6.0, 4.0, 60.0, 0.5, 1.0);
    case Act::outlets:
      return about(now, 4.0, 0.1, 30.0, 0.1, 0.5);
    case Act::advance:
      return {-10.0, 10.0, 0.5, 2.0};
    case Act::octane:
      return about(now, 12.0, 70.0, 120.0, 1.0, 1.0);
    case Act::weld:
      return {0.0, 3.0, 0.1, 0.5};
    case Act::sleeve:
      return about(now, 4.0, 20.0, 90.0, 0.5, -1.0);
    default:
      return {};
  }
}

base::Known size_now(const geometry::Engine& engine, const Cut& cut, int entry) {
  const geometry::Port* port = entry >= 0 && entry < static_cast<int>(engine.ports.size())
                                   ? &engine.ports[static_cast<std::size_t>(entry)]
                                   : nullptr;
  const geometry::Piston& piston = engine.piston;
  const auto change_of = [](const base::Known& known) { return known * base::Known(0.0); };
  const base::Known none = base::Known::waits_for(0);
  switch (cut.act) {
    case Act::gasket_out:
    case Act::gasket_to:
      return engine.base_gasket;
    case Act::band:
      return change_of(engine.squish);
    case Act::dome:
      return change_of(piston.dome);
    case Act::roof:
      return port != nullptr ? change_of(port->roof) : none;
    case Act::floor:
      return port != nullptr ? change_of(port->floor) : none;
    case Act::weld:
      return port != nullptr ? change_of(cut.side == "roof" ? port->roof : port->floor) : none;
    case Act::widen:
      return port != nullptr ? change_of(port->width) : none;
    case Act::corner:
      return port != nullptr ? (cut.side == "roof" ? port->corner_roof : port->corner_floor) : none;
    case Act::skirt:
      return change_of(cut.side == "exhaust"  ? piston.skirt_exhaust
                       : cut.side == "intake" ? piston.skirt_intake
                                              : piston.skirt_side);
    case Act::mouth:
      return port != nullptr ? port->passage.mouth : none;
    case Act::case_volume:
    case Act::stuff:
      return change_of(engine.case_at_tdc);
    case Act::petal:
      return engine.breathing.reed.thickness;
    case Act::venturi:
      return engine.venturi;
    case Act::outlets:
      return engine.muffler_outlets;
    case Act::octane:
      return engine.octane;
    case Act::sleeve:
      return engine.bore;
    default:
      return 0.0;
  }
}

std::vector<Cut> possible_cuts(const geometry::Survey& survey, const geometry::Engine& engine) {
  std::vector<Cut> out;
  const auto add = [&](Cut cut, int entry) {
    const base::Known now = size_now(engine, cut, entry);
    const bool gasket = cut.act == Act::gasket_out || cut.act == Act::gasket_to;
    if (now && !(gasket && *now <= 0.0)) out.push_back(std::move(cut));
  };
  const auto add_sides = [&](const Form& form, Cut cut, int entry) {
    if (form.side != SideForm::needed) return add(std::move(cut), entry);
    for (const std::string_view side : form.sides) {
      cut.side = side;
      add(cut, entry);
    }
  };
  for (const Form& form : cuts::forms()) {
    if (form.amount == AmountForm::file) continue;
    Cut cut;
    cut.act = form.act;
    if (!form.port) {
      add_sides(form, cut, -1);
      continue;
    }
    for (std::size_t i = 0; i < survey.ports.size() && i < engine.ports.size(); ++i) {
      const geometry::PortKind kind = survey.ports[i].kind;
      const bool fed = kind == geometry::PortKind::transfer || kind == geometry::PortKind::boost;
      if (survey.ports[i].twin_of >= 0 || (form.act == Act::mouth && !fed) ||
          (form.act == Act::corner && engine.ports[i].traced))
        continue;
      cut.port = survey.ports[i].name;
      add_sides(form, cut, static_cast<int>(i));
    }
  }
  return out;
}

}  // namespace portwright::desk
