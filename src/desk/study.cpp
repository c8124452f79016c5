#include "study/study.hpp"

#include "desk/aims.hpp"
#include "desk/book/source.hpp"
#include "desk/case.hpp"
#include "desk/desk.hpp"
#include "desk/gaps.hpp"
#include "desk/labels.hpp"

namespace portwright::desk {
namespace {

constexpr double mm3_per_m3 = 1e9;

}  // namespace

wire::StudyAnswer study_of(Case opened, const study::Options& options, const study::StockSamples* kept) {
  study::Study result = study::study(opened.survey, opened.cut_list, opened.cuts(), options, kept);
  wire::StudyAnswer answer;
  answer.head = std::move(opened.head);
  answer.head.assumed = std::move(result.assumed);
  answer.rpm = result.speed * 60.0;
  answer.rpm_from = result.speed_from;
  answer.aims = aims_of(result.figures, opened.readings, options.style);
  answer.figures = std::move(result.figures);
  fill_labels(answer.figures, labels_of(opened.survey, result.speed));
  fill_all_texts(answer.figures, options.style);
  answer.findings = std::move(result.findings);
  fill_letters(answer.findings);
  answer.gaps = gaps_of(answer.findings, answer.figures, options.style);
  answer.acceptances = std::move(opened.accepted);
  mark_accepted(answer.findings, answer.acceptances);
  answer.next_reading = std::move(result.next_reading);
  answer.warnings = std::move(result.warnings);
  if (opened.has_cuts() && result.metal.known()) answer.metal_mm3 = *result.metal * mm3_per_m3;
  answer.cautions = cautions();
  return answer;
}

base::ResultAll<wire::StudyAnswer> study(const StudyRequest& request) {
  auto opened = open_case(request.file, request.cuts, request.book);
  if (!opened) return tl::unexpected(opened.error());
  return study_of(std::move(*opened), study_options(request.rpm, request.style));
}

}  // namespace portwright::desk
