#include "study/study.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>

#include "base/shown_unit.hpp"
#include "study/case.hpp"
#include "study/figure_text.hpp"
#include "study/findings.hpp"
#include "study/next_reading.hpp"
#include "study/samples.hpp"
#include "study/sensitivity.hpp"
#include "tables/assumptions.hpp"

namespace portwright::study {

namespace {

using geometry::Survey;

constexpr double half_range = 1.959963984540054;

/// "assumed.corner.primary.roof" and "assumed.rod_ratio" -> the row of the table.
const tables::AssumptionRow* assumption_row(std::string_view path) {
  constexpr std::string_view prefix = "assumed.";
  if (!path.starts_with(prefix)) return nullptr;
  std::string_view name = path.substr(prefix.size());
  name = name.substr(0, name.find('.'));
  for (const tables::AssumptionRow& row : tables::assumptions())
    if (row.name == name) return &row;
  return nullptr;
}

Assumed assumed_of(const geometry::Input& input) {
  const tables::AssumptionRow* row = assumption_row(input.path);
  const base::Unit* typed = row != nullptr ? base::find_unit(row->unit, input.dimension) : nullptr;
  const base::ShownUnit shown = typed != nullptr
                                    ? base::ShownUnit{typed->symbol, 1.0 / typed->scale, -typed->offset / typed->scale}
                                    : base::shown_unit(input.dimension);
  Assumed out;
  out.name = row != nullptr ? input.path.substr(std::string_view("assumed.").size()) : input.path;
  out.value = shown.of(input.value);
  out.low = shown.of(std::max(input.value - half_range * input.sigma, input.least));
  out.high = shown.of(std::min(input.value + half_range * input.sigma, input.greatest));
  out.unit = shown.unit;
  out.source = input.source;
  return out;
}

std::vector<Assumed> assumed(const Case& study_case) {
  std::vector<Assumed> out;
  for (const geometry::Input& input : study_case.survey().inputs)
    if (input.assumed) out.push_back(assumed_of(input));
  if (study_case.speed_from() != "usual") return out;
  const tables::AssumptionRow& row = tables::assumption("speed");
  constexpr double rpm = 60.0;
  out.push_back({row.name, row.value * rpm, (row.value - half_range * row.sigma) * rpm,
                 (row.value + half_range * row.sigma) * rpm, "rpm", row.source});
  return out;
}

/// Readings and assumptions that move a figure; of an unknown one, those it waits for are named elsewhere.
std::vector<std::string> from(const Survey& survey, const Sensitivity& sensitivity, std::size_t entry) {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < survey.inputs.size(); ++i)
    if (sensitivity.moves(i, entry)) out.push_back(survey.inputs[i].path);
  return out;
}

}  // namespace

/// Samples of the saw as it is, and what they were drawn for.
class StockSamples {
 public:
  StockSamples(Case& study_case, const Options& options)
      : speed_(study_case.speed()),
        count_(options.samples),
        samples_(study_case, as_it_is, standard_draws(study_case.survey().sources.size(), options.samples)) {
    for (std::size_t e = 0; e < study_case.entries().size(); ++e) ranges_.push_back(samples_.range(0, e));
  }

  [[nodiscard]] bool serves(const Case& other, const Options& options) const {
    return speed_ == other.speed() && count_ == options.samples;
  }
  [[nodiscard]] const Samples& samples() const { return samples_; }
  [[nodiscard]] const std::optional<numerics::Range>& range(std::size_t e) const { return ranges_[e]; }

 private:
  static constexpr std::array<const cuts::Prepared*, 1> as_it_is{nullptr};
  double speed_;
  int count_;
  Samples samples_;
  std::vector<std::optional<numerics::Range>> ranges_;
};

KeptStock sample_stock(const Survey& survey, const Options& options) {
  Case study_case(survey, options);
  return std::make_shared<const StockSamples>(study_case, options);
}

namespace {

/// Everything that the answers are made from.
class Drawn {
 public:
  Drawn(const Survey& survey, const cuts::Prepared* cuts, const Options& options, const StockSamples* kept = nullptr)
      : study_case(survey, options), values(survey.values()), cuts_(cuts) {
    const auto& draws = standard_draws(survey.sources.size(), options.samples);
    std::vector<const cuts::Prepared*> lists;
    if (kept != nullptr && kept->serves(study_case, options)) {
      stock_ = &kept->samples();
      kept_ = kept;
    } else {
      lists.push_back(nullptr);
    }
    if (cuts != nullptr) lists.push_back(cuts);
    if (!lists.empty()) own_ = std::make_unique<Samples>(study_case, lists, draws);
    subject_ = cuts != nullptr || stock_ == nullptr ? own_.get() : stock_;
    subject_list_ = cuts != nullptr ? lists.size() - 1 : 0;
    if (stock_ == nullptr) stock_ = own_.get();
  }

  [[nodiscard]] bool has_cuts() const { return cuts_ != nullptr; }
  [[nodiscard]] const Measures& stock() const { return stock_->as_read(0); }
  [[nodiscard]] const Measures& measures() const { return subject_->as_read(subject_list_); }
  [[nodiscard]] const Column& stock_column(std::size_t e) const { return stock_->column(0, e); }
  [[nodiscard]] const Column& column(std::size_t e) const { return subject_->column(subject_list_, e); }
  [[nodiscard]] std::optional<numerics::Range> stock_range(std::size_t e) const {
    return kept_ != nullptr ? kept_->range(e) : stock_->range(0, e);
  }
  [[nodiscard]] std::optional<numerics::Range> range(std::size_t e) const {
    return has_cuts() ? subject_->range(subject_list_, e) : stock_range(e);
  }
  [[nodiscard]] const cuts::Prepared* cuts() const { return cuts_; }

  Case study_case;
  std::vector<double> values;

 private:
  const cuts::Prepared* cuts_;
  const StockSamples* kept_ = nullptr;
  std::unique_ptr<Samples> own_;
  const Samples* stock_ = nullptr;
  const Samples* subject_ = nullptr;
  std::size_t subject_list_ = 0;
};

Figure figure_of(const Drawn& drawn, std::size_t e, const Sensitivity* sensitivity, base::UnitStyle style) {
  const Entry& entry = drawn.study_case.entries()[e];
  const Known value = entry.value(drawn.measures()), stock = entry.value(drawn.stock());
  Figure figure = make_figure(drawn.study_case, entry, value, drawn.column(e), drawn.range(e), style);
  if (sensitivity != nullptr) figure.from = from(drawn.study_case.survey(), *sensitivity, e);
  if (!drawn.has_cuts() || !stock) return figure;
  figure.stock = spread_of(entry, *stock, drawn.stock_range(e));
  if (value) figure.change = make_change(entry, *value - *stock, difference(drawn.stock_column(e), drawn.column(e)));
  return figure;
}

std::vector<Finding> findings_of(const Drawn& drawn, const geometry::Engine& engine, base::UnitStyle style) {
  std::vector<Held> held;
  const std::vector<Entry>& entries = drawn.study_case.entries();
  for (std::size_t e = 0; e < entries.size(); ++e) {
    const Known value = entries[e].value(drawn.measures());
    if (value) held.push_back({&entries[e], *value, &drawn.column(e)});
  }
  return find(drawn.study_case.survey(), engine, drawn.measures(), held, style);
}

/// Share of each error source in one figure's variance, greatest first, then the readings without error.
std::vector<Share> shares_of(const Survey& survey, const Sensitivity& sensitivity, std::size_t entry) {
  std::vector<Share> out;
  const double variance = sensitivity.variance(entry);
  std::vector<bool> named(survey.inputs.size(), false);
  for (std::size_t s = 0; s < survey.sources.size(); ++s) {
    const double part = sensitivity.of_source(s, entry);
    if (part == 0.0) continue;
    Share share{survey.sources[s].name, 0.0, "", part * part / variance, false};
    for (std::size_t i = 0; i < survey.inputs.size(); ++i) {
      const geometry::Input& input = survey.inputs[i];
      if (input.path != survey.sources[s].name) continue;
      const base::ShownUnit shown = base::shown_unit(input.dimension);
      share = {input.path, shown.of(input.value), shown.unit, share.share, input.assumed};
      named[i] = true;
    }
    out.push_back(std::move(share));
  }
  std::stable_sort(out.begin(), out.end(), [](const Share& a, const Share& b) { return a.share > b.share; });
  for (std::size_t i = 0; i < survey.inputs.size(); ++i) {
    const geometry::Input& input = survey.inputs[i];
    const base::ShownUnit shown = base::shown_unit(input.dimension);
    if (!named[i] && sensitivity.moves(i, entry))
      out.push_back({input.path, shown.of(input.value), shown.unit, 0.0, input.assumed});
  }
  return out;
}

std::unique_ptr<geometry::Engine> engine_of(const Survey& survey, const std::vector<double>& values,
                                            const cuts::Prepared* cuts) {
  auto engine = std::make_unique<geometry::Engine>();
  geometry::resolve(survey, values, *engine);
  if (cuts != nullptr) cuts::apply(*cuts, *engine);
  return engine;
}

}  // namespace

Study study(const Survey& survey, const cuts::CutList& cut_list, const cuts::Prepared* cuts, const Options& options) {
  return study(survey, cut_list, cuts, options, nullptr);
}

Study study(const Survey& survey, const cuts::CutList& cut_list, const cuts::Prepared* cuts, const Options& options,
            const StockSamples* kept) {
  Drawn drawn(survey, cuts, options, kept);
  std::optional<Sensitivity> sensitivity;
  if (options.next_reading) sensitivity.emplace(drawn.study_case, drawn.cuts());
  Study out;
  out.speed = drawn.study_case.speed();
  out.speed_from = drawn.study_case.speed_from();
  for (std::size_t e = 0; e < drawn.study_case.entries().size(); ++e)
    out.figures.push_back(figure_of(drawn, e, sensitivity ? &*sensitivity : nullptr, options.style));
  out.findings = findings_of(drawn, *engine_of(survey, drawn.values, drawn.cuts()), options.style);
  out.assumed = assumed(drawn.study_case);
  if (sensitivity) out.next_reading = next_readings(drawn.study_case, drawn.measures(), *sensitivity, options.style);
  if (cuts != nullptr) {
    const cuts::Account account =
        cuts::account(cut_list, survey, *engine_of(survey, drawn.values, nullptr), options.folder);
    out.warnings = account.warnings;
    out.metal = account.metal;
  }
  return out;
}

base::Result<Why> why(const Survey& survey, const cuts::Prepared* cuts, std::string_view figure,
                      const Options& options) {
  Drawn drawn(survey, cuts, options);
  const std::vector<Entry>& entries = drawn.study_case.entries();
  const auto found =
      std::find_if(entries.begin(), entries.end(), [&](const Entry& entry) { return entry.id == figure; });
  if (found == entries.end())
    return base::fail(base::ErrorCode::not_found, "there is no figure " + std::string(figure), std::string(figure),
                      "study lists every figure of a saw");
  const auto e = static_cast<std::size_t>(found - entries.begin());
  const Sensitivity sensitivity(drawn.study_case, drawn.cuts());
  return Why{figure_of(drawn, e, &sensitivity, options.style), shares_of(survey, sensitivity, e)};
}

}  // namespace portwright::study
