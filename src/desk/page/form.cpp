// A saw's readings as a form: what was typed, what was understood, what to take next.
#include <algorithm>
#include <map>
#include <utility>

#include "desk/book.hpp"
#include "desk/book/source.hpp"
#include "desk/checked.hpp"
#include "desk/page/fields_seen.hpp"
#include "desk/page/opened.hpp"
#include "desk/shown.hpp"
#include "saw/guide.hpp"
#include "tables/instruments.hpp"

namespace portwright::desk {
namespace {

using base::Dimension;

std::string spoken(std::string name) {
  std::replace(name.begin(), name.end(), '_', ' ');
  return name;
}

/// A label with its name filled in, beginning with a capital.
std::string filled_label(std::string_view label, const std::string& called) {
  std::string out(label);
  if (const std::size_t at = out.find("{}"); at != std::string::npos) out.replace(at, 2, spoken(called));
  if (out.ends_with(", ")) out.erase(out.size() - 2);
  if (!out.empty() && out[0] >= 'a' && out[0] <= 'z') out[0] = static_cast<char>(out[0] - 'a' + 'A');
  return out;
}

std::string joined(const std::vector<std::string>& texts) {
  std::string out;
  for (const std::string& text : texts) out += (out.empty() ? "" : "; ") + text;
  return out;
}

/// Kinds of window that have their examples in common.
std::string family(const FieldSeen& seen) {
  if (seen.port == nullptr) return {};
  if (seen.port->kind == "boost") return "transfer";
  return seen.port->kind == "air" ? "intake" : seen.port->kind;
}

/// Examples of the blank file, by the family of the window and the path without names and numbers; under an empty
/// family the first of any. The blank shows no window that a skirt opens: its examples stand here.
const std::map<std::pair<std::string, std::string>, std::string>& examples() {
  static const std::map<std::pair<std::string, std::string>, std::string> all = [] {
    std::map<std::pair<std::string, std::string>, std::string> out = {
        {{"intake", "port.centre"}, "180 deg"},        {{"intake", "port.opens"}, "68 deg"},
        {{"intake", "port.closes"}, "68 deg"},         {{"intake", "port.duration"}, "136 deg"},
        {{"intake", "port.twin.opens"}, "68 deg"},     {{"intake", "port.twin.closes"}, "68 deg"},
        {{"intake", "port.twin.duration"}, "136 deg"}, {{"intake", "port.roof"}, "16.5 mm"},
        {{"intake", "port.floor"}, "8.3 mm"},          {{"intake", "port.drop"}, "12.7 mm"}};
    see_fields(saw::example_readings(), [&](const FieldSeen& seen) {
      if (seen.typed.empty()) return;
      out.emplace(std::pair{family(seen), seen.general}, joined(seen.typed));
      out.emplace(std::pair{std::string(), seen.general}, joined(seen.typed));
    });
    return out;
  }();
  return all;
}

/// An example for a field: of its own kind of window, else of any; empty when there is none.
std::string example(const FieldSeen& seen) {
  for (const std::string& of : {family(seen), std::string()})
    if (const auto found = examples().find({of, seen.general}); found != examples().end()) return found->second;
  return {};
}

/// Whether a saw of this kind has no use for the field.
bool is_seldom(const FieldSeen& seen, const saw::Readings& readings) {
  if (!seen.typed.empty()) return false;
  const auto within = [&](std::string_view table) { return seen.general.starts_with(table); };
  if (seen.port != nullptr) {
    const bool fed = seen.port->kind == "transfer" || seen.port->kind == "boost";
    if (within("port.twin.")) return !seen.port->mirrored.value_or(false);
    return (within("port.passage.") && !fed) || (within("port.duct.") && fed);
  }
  return (within("intake.reed.") && readings.intake.kind == "skirt") || seen.general == "pipe.profile";
}

/// What was understood of a field: its inputs, else the mean of its repeats, else its words.
std::string understood(const FieldSeen& seen, const geometry::Survey& survey, base::UnitStyle style) {
  std::vector<std::string> out;
  for (const geometry::Input& input : survey.inputs) {
    const bool own = input.path == seen.path || input.path.starts_with(seen.path + '.');
    if (own && !input.assumed) out.push_back(as_understood(input, style).text);
  }
  if (!out.empty() || seen.typed.empty()) return joined(out);
  if (seen.reading == nullptr)
    return seen.kind == "choice" || seen.kind == "words" ? joined(seen.typed) : std::string();
  double sum = 0.0;
  int count = 0;
  for (const saw::Typed& typed : seen.reading->repeats)
    if (typed.value) sum += typed.value->si, ++count;
  if (count == 0) return {};
  const base::ShownUnit shown = base::shown_unit(*seen.dimension);
  return base::value_text({shown.of(sum / count), {}, {}}, shown.unit, style);
}

std::vector<std::string> instruments_of(const FieldSeen& seen) {
  if (seen.reading == nullptr) return {};
  const std::string kind = seen.port != nullptr ? seen.port->kind : std::string();
  std::vector<std::string> names = tables::instrument_names(*seen.dimension, seen.path, kind);
  if (const tables::InstrumentRow* usual = tables::usual_instrument(seen.path, *seen.dimension, kind)) {
    const auto at = std::find(names.begin(), names.end(), usual->name);
    if (at != names.end()) std::rotate(names.begin(), at, at + 1);
  }
  return names;
}

std::vector<std::string> units_of(Dimension dimension) {
  std::vector<std::string> out;
  for (const base::Unit& unit : base::units())
    if (unit.dimension == dimension) out.emplace_back(unit.symbol);
  return out;
}

base::Errors errors_at(const base::Errors& all, const std::string& path) {
  base::Errors out;
  for (const base::Error& error : all)
    if (error.path == path || error.path.starts_with(path + '.')) out.push_back(error);
  return out;
}

wire::FormField field_of(const FieldSeen& seen, const saw::GuideRow& row, const Case& opened, base::UnitStyle style) {
  wire::FormField out;
  out.path = seen.path;
  out.label = filled_label(row.label, seen.called);
  out.kind = seen.kind;
  if (seen.dimension) {
    out.dimension = base::dimension_name(*seen.dimension);
    out.units = units_of(*seen.dimension);
  }
  if (seen.second) out.second_dimension = base::dimension_name(*seen.second);
  out.typical = example(seen);
  out.how = row.how;
  out.drawing = row.drawing;
  out.number = row.number + (seen.called == "intake" && seen.general == "cylinder.squish" ? 1 : 0);
  out.typed = seen.typed;
  if (seen.reading != nullptr) {
    out.with = seen.reading->with;
    out.setup = seen.reading->setup;
    out.note = seen.reading->note;
  }
  out.errors = errors_at(opened.errors, seen.path);
  out.read = understood(seen, opened.survey, style);
  out.choices = seen.choices;
  out.instruments = instruments_of(seen);
  out.seldom = is_seldom(seen, opened.readings);
  return out;
}

/// The steps of the work, empty, each port's own after each other.
std::vector<wire::FormGroup> groups_of(const saw::Readings& readings) {
  std::vector<wire::FormGroup> out;
  for (const saw::GuideGroup& group : saw::guide_groups()) {
    if (!group.each_port) {
      out.push_back({std::string(group.id), std::string(group.label), "", {}});
      continue;
    }
    for (const saw::Port& port : readings.ports) {
      std::string label(group.label);
      label.replace(label.find("{}"), 2, spoken(port.name));
      out.push_back({std::string(group.id) + '.' + port.name, label, port.name, {}});
    }
  }
  return out;
}

void add_fields(const Case& opened, base::UnitStyle style, wire::FormAnswer& out) {
  out.groups = groups_of(opened.readings);
  see_fields(opened.readings, [&](const FieldSeen& seen) {
    const saw::GuideRow* row = saw::guide_row(seen.general);
    if (row == nullptr) return;
    wire::FormField field = field_of(seen, *row, opened, style);
    out.taken += field.typed.empty() ? 0 : 1;
    out.asked += field.seldom ? 0 : 1;
    for (wire::FormGroup& group : out.groups) {
      const bool own = group.id == row->group || (seen.port != nullptr && group.port == seen.port->name &&
                                                  group.id == std::string(row->group) + '.' + group.port);
      if (own) group.fields.push_back(std::move(field));
      if (own) break;
    }
  });
  std::erase_if(out.groups, [](const wire::FormGroup& group) { return group.fields.empty(); });
}

std::string label_of(const wire::FormAnswer& form, const std::string& path) {
  for (const wire::FormGroup& group : form.groups)
    for (const wire::FormField& field : group.fields)
      if (field.path == path || field.path.starts_with(path + '.')) return field.label;
  const saw::GuideRow* row = saw::guide_row(path);
  return row != nullptr ? filled_label(row->label, "") : path;
}

/// Ports, a ring, a window in the skirt, a row of fins.
std::vector<wire::FormAddition> additions(const saw::Readings& readings) {
  struct Usual {
    const char *name, *kind, *label;
  };
  constexpr Usual usual[] = {{"exhaust", "exhaust", "Exhaust"},
                             {"primary", "transfer", "Primary transfers"},
                             {"secondary", "transfer", "Secondary transfers"},
                             {"third", "transfer", "Third transfers"},
                             {"boost", "boost", "Boost"},
                             {"intake", "intake", "Intake window"},
                             {"air", "air", "Air window"}};
  std::vector<wire::FormAddition> out;
  for (const Usual& one : usual) {
    const bool there = std::any_of(readings.ports.begin(), readings.ports.end(), [&](const saw::Port& port) {
      return port.name == one.name || (port.kind == one.kind && port.kind != "transfer");
    });
    if (!there) out.push_back({"port", one.label, std::string("port.") + one.name + ".kind", one.kind});
  }
  const auto next = [](std::size_t count) { return std::to_string(count + 1); };
  if (!readings.piston.ring.empty() && readings.piston.ring.size() < 4)
    out.push_back({"ring", "Another ring", "piston.ring." + next(readings.piston.ring.size()) + ".below_crown", ""});
  out.push_back(
      {"skirt window", "Window in the skirt", "piston.window." + next(readings.piston.window.size()) + ".centre", ""});
  out.push_back({"fins", "Row of fins", "cooling.fins." + next(readings.cooling.fins.size()) + ".from", ""});
  return out;
}

/// Revision, and what a sister lent, of a saw of the book.
base::Result<bool> add_from_book(const FormRequest& request, wire::FormAnswer& out) {
  const std::string name = request.file.substr(request.file.find(':') + 1);
  const auto shown = book_show({request.book, name});
  if (!shown) return tl::unexpected(shown.error().front());
  out.revision = shown->revision;
  for (const wire::BookField& kept : shown->fields)
    for (wire::FormGroup& group : out.groups)
      for (wire::FormField& field : group.fields)
        if (field.path == kept.path) field.borrowed_from = kept.borrowed_from;
  return true;
}

}  // namespace

wire::FormAnswer form(const Opened& saw, base::UnitStyle style) {
  const Case& opened = saw.stock();
  wire::FormAnswer out;
  out.head = opened.head;
  add_fields(opened, style, out);
  const study::Study result = study::study(opened.survey, {}, nullptr, study_options({}, style));
  out.head.assumed = result.assumed;
  for (const study::NextReading& next : result.next_reading)
    out.missing.push_back({next.reading, label_of(out, next.reading), next.narrows});
  for (const geometry::EdgeCheck& check : opened.survey.checks)
    if (check.rows.size() > 1) out.checks.push_back(checked_edge(check, style));
  out.wheel = opened.survey.wheel_verdict;
  out.may_add = additions(opened.readings);
  return out;
}

base::ResultAll<wire::FormAnswer> form(const FormRequest& request) {
  const auto saw = open_saw(request.file, request.book);
  if (!saw) return tl::unexpected(saw.error());
  wire::FormAnswer out = form(**saw, request.style);
  if (is_of_book(request.file))
    if (const auto added = add_from_book(request, out); !added) return tl::unexpected(base::Errors{added.error()});
  return out;
}

}  // namespace portwright::desk
