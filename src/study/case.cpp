#include "study/case.hpp"

#include <algorithm>
#include <array>

#include "tables/assumptions.hpp"

namespace portwright::study {

namespace {

/// Needs are small numbers below this.
constexpr std::size_t most_needs = 256;

base::Needs of_index(int need) { return need >= 0 ? base::Needs::of(need) : base::Needs{}; }

}  // namespace

Case::Case(const geometry::Survey& survey, const Options& options)
    : survey_(&survey),
      entries_(study::entries(survey)),
      needs_(survey.needs),
      stock_(std::make_unique<geometry::Engine>()),
      cut_(std::make_unique<geometry::Engine>()) {
  name_wants();
  choose_speed(options);
}

base::Needs Case::want(const std::string& path) {
  const auto found = std::find(needs_.begin(), needs_.end(), path);
  if (found != needs_.end()) return base::Needs::of(static_cast<int>(found - needs_.begin()));
  if (needs_.size() >= most_needs) return base::Needs::of(static_cast<int>(most_needs) - 1);
  needs_.push_back(path);
  return base::Needs::of(static_cast<int>(needs_.size()) - 1);
}

void Case::name_wants() {
  const auto either = [&](int need, const char* path) { return need >= 0 ? of_index(need) : want(path); };
  wants_.exhaust = either(survey_->exhaust_need, "port.exhaust");
  wants_.transfer = either(survey_->transfer_need, "port.transfer");
  wants_.intake = either(survey_->intake_need, "port.intake");
  wants_.impulse = want("impulse.where");
  wants_.clearance = want("a squish clearance above 0");
  wants_.chamber = want("a chamber above 0");
  wants_.crankcase = want("a case volume above the displacement");
  wants_.shape = want("a window shape that can be");
  wants_.opening = want("an edge that is passed between the dead centres");
}

void Case::choose_speed(const Options& options) {
  const int in_cut = survey_->in_cut.input;
  if (options.speed) {
    speed_ = *options.speed;
    speed_from_ = "asked";
  } else if (in_cut >= 0) {
    speed_ = survey_->inputs[static_cast<std::size_t>(in_cut)].value;
    speed_from_ = "in-cut reading";
  } else {
    speed_ = tables::assumption("speed").value;
    speed_from_ = "usual";
  }
}

void Case::measure_at(std::span<const double> values, std::span<const cuts::Prepared* const> lists,
                      std::span<Measures> out, std::span<const Measures> as_read) {
  geometry::resolve(*survey_, values, *stock_);
  for (std::size_t k = 0; k < lists.size(); ++k) {
    const Measures* held = as_read.empty() ? nullptr : &as_read[k];
    if (lists[k] == nullptr) {
      measure(*stock_, speed_, wants_, out[k], held);
      continue;
    }
    // The last list may work on the resolved engine itself.
    geometry::Engine& engine = k + 1 == lists.size() ? *stock_ : *cut_;
    if (&engine == cut_.get()) *cut_ = *stock_;
    cuts::apply(*lists[k], engine);
    measure(engine, speed_, wants_, out[k], held);
  }
}

void Case::measure_at(std::span<const double> values, const cuts::Prepared* cuts, Measures& out,
                      const Measures* as_read) {
  const std::array lists{cuts};
  measure_at(values, lists, std::span(&out, 1), as_read ? std::span(as_read, 1) : std::span<const Measures>());
}

std::vector<std::string> Case::paths(const base::Needs& needs) const {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < needs_.size(); ++i)
    if (needs.has(static_cast<int>(i))) out.push_back(needs_[i]);
  return out;
}

}  // namespace portwright::study
