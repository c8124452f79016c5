#pragma once
// A saw file and a cut list, opened: what every use case starts from. Inside the module only.

#include <memory>
#include <string>

#include "cuts/cut.hpp"
#include "geometry/survey.hpp"
#include "saw/file.hpp"
#include "study/study.hpp"
#include "wire/answer.hpp"

namespace portwright::desk {

struct Case {
  saw::Readings readings;
  geometry::Survey survey;
  cuts::CutList cut_list;
  std::shared_ptr<const cuts::Prepared> prepared;  ///< null without cuts
  base::Errors errors;                             ///< single readings that are wrong; the rest stands
  std::vector<wire::Acceptance> accepted;          ///< of a saw of the book
  wire::Head head;                                 ///< saw, cuts and errors; `assumed` is the study's to fill

  [[nodiscard]] bool has_cuts() const { return prepared != nullptr; }
  [[nodiscard]] const cuts::Prepared* cuts() const { return prepared.get(); }
};

/// Opens a saw file (`-`: standard input; `book:NAME`: a saw of the book) with a cut list (empty: none).
/// Errors: the file or the cut list cannot be taken as a whole, or the cuts leave an engine that cannot be.
[[nodiscard]] base::ResultAll<Case> open_case(const std::string& file, const std::string& cuts_text,
                                              const std::string& book);

/// The same for a use case that writes a file: single bad readings refuse it too.
[[nodiscard]] base::ResultAll<Case> open_sound_case(const std::string& file, const std::string& cuts_text,
                                                    const std::string& book);

/// Puts cuts onto an open case.
[[nodiscard]] base::ResultAll<Case> with_cuts(Case opened, const std::string& file, const std::string& cuts_text);

/// What cuts make impossible that was possible before.
[[nodiscard]] base::Errors broken_by(const Case& opened, const cuts::Prepared& prepared);

/// Where file names in a cut list start: the saw file's folder.
[[nodiscard]] std::string folder_of(const std::string& file);

/// The study of a case as an answer. `kept` samples are of the very survey of the case.
[[nodiscard]] wire::StudyAnswer study_of(Case opened, const study::Options& options,
                                         const study::StockSamples* kept = nullptr);

[[nodiscard]] study::Options study_options(std::optional<double> rpm, base::UnitStyle style);

}  // namespace portwright::desk
