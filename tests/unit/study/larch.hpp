#pragma once
// Studies of the invented saw of the table of cuts.

#include <string>

#include "../support/larch_text.hpp"
#include "cuts/cut.hpp"
#include "geometry/survey.hpp"
#include "saw/file.hpp"
#include "study/study.hpp"

namespace portwright::study {

using bench::larch_text;

inline geometry::Survey survey_of(const std::string& text) {
  return geometry::survey(saw::read_saw(text).value().readings);
}

inline const Figure& figure(const Study& study, const std::string& id) {
  for (const Figure& one : study.figures)
    if (one.id == id) return one;
  throw std::runtime_error("no figure " + id);
}

inline const Finding* finding(const Study& study, const std::string& rule) {
  for (const Finding& one : study.findings)
    if (one.rule == rule) return &one;
  return nullptr;
}

inline Study study_of(const std::string& text, const Options& options = {}) {
  return study(survey_of(text), {}, nullptr, options);
}

inline Study study_of(const std::string& text, const std::string& cut_text, const Options& options = {}) {
  const geometry::Survey survey = survey_of(text);
  const cuts::CutList list = cuts::parse_cuts(cut_text).value();
  const auto prepared = cuts::prepare(list, survey, "").value();
  return study(survey, list, prepared.get(), options);
}

}  // namespace portwright::study
