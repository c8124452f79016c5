#include "wire/batch.hpp"

#include "wire/json_walk.hpp"

namespace portwright::wire {

template <class V>
void shape(V& v, Of<BatchCase> auto& s) {
  v.is("batch-case", "One line in: a case and a speed.");
  v.field("file", s.file, "saw file, or book:NAME");
  v.may("cuts", s.cuts, "cuts to try, parted by semicolons");
  v.field("rpm", s.rpm, "speed");
  v.may("id", s.id, "anything; it comes back beside the answer");
}

template <class V>
void shape(V& v, Of<BatchPoint> auto& s) {
  v.is("BatchPoint", "One settled point under the middle assumptions.");
  v.field("power_kw", s.power_kw, "brake power, an order of size until the saw's own is known");
  v.field("torque_nm", s.torque_nm, "brake torque");
  v.field("imep_bar", s.imep_bar, "mean effective pressure, net of the case's pumping");
  v.field("delivery_ratio", s.delivery_ratio, "fresh charge drawn in, over swept volume of the day's air");
  v.field("trapping", s.trapping, "share of the delivered that stays");
  v.field("charging", s.charging, "fresh charge that stays, over swept volume of the day's air");
  v.field("peak_pressure_bar", s.peak_pressure_bar, "greatest in the cylinder");
  v.field("exhaust_c", s.exhaust_c, "mean temperature at the window");
  v.field("knock", s.knock, "knock integral; 1 is knock");
  v.field("heat_w", s.heat_w, "heat into the cylinder's wall");
  v.field("label", s.label, "stable, alternating, two-solution or not settled");
  v.field("error", s.error, "estimate of the true error of imep, as a share");
  v.field("turns", s.turns, "turns that the search took");
}

template <class V>
void shape(V& v, Of<BatchLine> auto& s) {
  v.is("batch-line", "One line out: the point, or what is wrong with the line in.");
  v.field("line", s.line, "number of the line in, from 1");
  v.field("id", s.of.id, "as it came");
  v.field("file", s.of.file, "as it came");
  v.field("cuts", s.of.cuts, "as it came");
  v.field("rpm", s.of.rpm, "as it came");
  v.maybe("point", s.point, "what it comes to");
  v.may("errors", s.errors, "what is wrong; empty: nothing");
}

base::Result<BatchCase> read_batch_case(std::string_view text) { return read_text<BatchCase>(text, Keys::refused); }

std::string batch_line_text(const BatchLine& line) { return written_as("line", line).line() + '\n'; }

std::optional<int> batch_line_number(std::string_view text) {
  const auto line = read_text<BatchLine>(text, Keys::passed_over);
  return line ? std::optional(line->line) : std::nullopt;
}

std::vector<Schema> batch_schemas() { return {schema_of<BatchCase>(), schema_of<BatchLine>()}; }

}  // namespace portwright::wire
