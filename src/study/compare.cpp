// Two cases side by side: cut lists of one saw by the same samples, two saws by independent ones.

#include <algorithm>
#include <array>

#include "study/case.hpp"
#include "study/figure_text.hpp"
#include "study/samples.hpp"
#include "study/study.hpp"

namespace portwright::study {

namespace {

/// One side of the comparison.
struct Side {
  const Case* study_case;
  const Samples* samples;
  std::size_t list;

  [[nodiscard]] std::optional<std::size_t> find(const std::string& id) const {
    const std::vector<Entry>& entries = study_case->entries();
    for (std::size_t e = 0; e < entries.size(); ++e)
      if (entries[e].id == id) return e;
    return std::nullopt;
  }
  [[nodiscard]] Known value(std::size_t e) const { return study_case->entries()[e].value(samples->as_read(list)); }
};

void fill(const Side& side, std::size_t e, base::UnitStyle style, std::optional<double>& value, std::string& text) {
  const Known known = side.value(e);
  text = "\u2014";
  if (!known) return;
  const Entry& entry = side.study_case->entries()[e];
  const base::Spread spread = spread_of(entry, *known, side.samples->range(side.list, e));
  value = spread.value;
  text = figure_text(entry, spread, style);
}

Compared compare_one(const Side& a, std::optional<std::size_t> in_a, const Side& b, std::optional<std::size_t> in_b,
                     base::UnitStyle style) {
  const Entry& entry = in_a ? a.study_case->entries()[*in_a] : b.study_case->entries()[*in_b];
  Compared row;
  row.id = entry.id;
  row.unit = entry.row->unit;
  row.text_a = row.text_b = "\u2014";
  if (in_a) fill(a, *in_a, style, row.a, row.text_a);
  if (in_b) fill(b, *in_b, style, row.b, row.text_b);
  if (!row.a || !row.b) return row;
  const Column differences = difference(a.samples->column(a.list, *in_a), b.samples->column(b.list, *in_b));
  const Change change = make_change(entry, *b.value(*in_b) - *a.value(*in_a), differences);
  row.change = change.value;
  row.low = change.low;
  row.high = change.high;
  row.distinguishable = change.distinguishable;
  row.text_change = base::change_text({change.value, change.low, change.high}, row.unit, style);
  return row;
}

std::vector<Compared> compare_sides(const Side& a, const Side& b, base::UnitStyle style) {
  std::vector<Compared> out;
  for (std::size_t e = 0; e < a.study_case->entries().size(); ++e)
    out.push_back(compare_one(a, e, b, b.find(a.study_case->entries()[e].id), style));
  for (std::size_t e = 0; e < b.study_case->entries().size(); ++e)
    if (!a.find(b.study_case->entries()[e].id)) out.push_back(compare_one(a, std::nullopt, b, e, style));
  return out;
}

}  // namespace

std::vector<Compared> compare(const geometry::Survey& a, const cuts::Prepared* cuts_a, const geometry::Survey& b,
                              const cuts::Prepared* cuts_b, const Options& options) {
  if (&a == &b) {
    Case one(a, options);
    const std::array<const cuts::Prepared*, 2> lists{cuts_a, cuts_b};
    const Samples samples(one, lists, standard_draws(a.sources.size(), options.samples));
    return compare_sides({&one, &samples, 0}, {&one, &samples, 1}, options.style);
  }
  // One table for both, so that the errors of the two saws are drawn apart. Both turn at the first one's speed.
  Case first(a, options);
  Options same_speed = options;
  same_speed.speed = first.speed();
  Case second(b, same_speed);
  const numerics::NormalDraws& draws = standard_draws(a.sources.size() + b.sources.size(), options.samples);
  const std::array list_a{cuts_a}, list_b{cuts_b};
  const Samples samples_a(first, list_a, draws), samples_b(second, list_b, draws, static_cast<int>(a.sources.size()));
  return compare_sides({&first, &samples_a, 0}, {&second, &samples_b, 0}, options.style);
}

}  // namespace portwright::study
