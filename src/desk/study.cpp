#include "study/study.hpp"

#include "desk/aims.hpp"
#include "desk/book/source.hpp"
#include "desk/case.hpp"
#include "desk/desk.hpp"
#include "desk/gaps.hpp"
#include "desk/labels.hpp"
#include "desk/nearest.hpp"

namespace portwright::desk {
namespace {

constexpr double mm3_per_m3 = 1e9;

base::ResultAll<std::string> full_id(const std::string& asked, const std::vector<study::Figure>& figures) {
  std::vector<std::string> ids, endings, last_words;
  for (const study::Figure& figure : figures) {
    if (figure.id == asked) return asked;
    ids.push_back(figure.id);
    last_words.push_back(figure.id.substr(figure.id.rfind('.') + 1));
    const std::string tail = '.' + asked;
    if (figure.id.size() > tail.size() && figure.id.compare(figure.id.size() - tail.size(), tail.size(), tail) == 0)
      endings.push_back(figure.id);
  }
  if (endings.size() == 1) return endings.front();
  const std::vector<std::string>& meant = asked.find('.') == std::string::npos ? last_words : ids;
  base::Error error{base::ErrorCode::not_found,
                    "This saw has no figure \u201C" + asked + "\u201D.",
                    "",
                    did_you_mean(asked, meant),
                    {}};
  if (endings.size() > 1) {
    error.code = base::ErrorCode::usage;
    error.message = "\u201C" + asked + "\u201D could be several figures.";
    error.hint = "Name one of them.";
    error.readings = endings;
  }
  if (error.hint.empty()) error.hint = "study --all lists every figure by its id.";
  return tl::unexpected(base::Errors{error});
}

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

base::ResultAll<wire::WhyAnswer> why(const WhyRequest& request) {
  auto opened = open_case(request.of.file, request.of.cuts, request.of.book);
  if (!opened) return tl::unexpected(opened.error());
  const study::Options options = study_options(request.of.rpm, request.of.style);
  study::Study all = study::study(opened->survey, opened->cut_list, opened->cuts(), options);
  const auto id = full_id(request.figure, all.figures);
  if (!id) return tl::unexpected(id.error());
  auto result = study::why(opened->survey, opened->cuts(), *id, options);
  if (!result) return tl::unexpected(base::Errors{result.error()});
  wire::WhyAnswer answer;
  answer.head = std::move(opened->head);
  answer.head.assumed = std::move(all.assumed);
  answer.aim = aim_of(result->figure, opened->readings, request.of.style);
  answer.figure = std::move(result->figure);
  answer.figure.label = labels_of(opened->survey, all.speed)[*id];
  study::fill_texts(answer.figure, request.of.style);
  answer.inputs = std::move(result->inputs);
  return answer;
}

}  // namespace portwright::desk
