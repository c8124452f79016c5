#include "desk/page/opened.hpp"

namespace portwright::desk {
base::ResultAll<Case> Opened::with(const std::string& cuts) const { return with_cuts(stock_, file_, cuts); }

study::KeptStock Opened::samples(const study::Options& options) const {
  const std::lock_guard hold(lock_);
  if (samples_ == nullptr || speed_ != options.speed) {
    samples_ = study::sample_stock(stock_.survey, options);
    speed_ = options.speed;
  }
  return samples_;
}

base::ResultAll<OpenedSaw> open_saw(const std::string& file, const std::string& book) {
  auto opened = open_case(file, {}, book);
  if (!opened) return tl::unexpected(opened.error());
  return OpenedSaw(std::make_shared<const Opened>(std::move(*opened), file));
}

base::ResultAll<wire::StudyAnswer> study(const Opened& saw, const WhatIf& what_if) {
  auto opened = saw.with(what_if.cuts);
  if (!opened) return tl::unexpected(opened.error());
  study::Options options = study_options(what_if.rpm, what_if.style);
  options.next_reading = what_if.next_reading;
  const study::KeptStock kept = saw.samples(options);
  return study_of(std::move(*opened), options, kept.get());
}

}  // namespace portwright::desk
