// Where one figure comes from: of the study, or of a use case that turns the engine first.
#include <cmath>

#include "desk/aims.hpp"
#include "desk/case.hpp"
#include "desk/desk.hpp"
#include "desk/heat.hpp"
#include "desk/labels.hpp"
#include "desk/nearest.hpp"
#include "desk/revs.hpp"
#include "desk/run.hpp"
#include "desk/turning.hpp"
#include "study/study.hpp"

namespace portwright::desk {
namespace {

using Figures = std::vector<study::Figure>;

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

/// What a use case that turns the engine has to show.
struct Shown {
  wire::Head head;
  Figures figures;
  std::string at = {};  ///< " at 8 500 rpm"; empty: no one speed
};

std::string at_speed(double rpm) { return " at " + base::number_text(rpm, 0) + " rpm"; }

template <class Answer>
base::ResultAll<Shown> shown(base::ResultAll<Answer> answer) {
  if (!answer) return tl::unexpected(answer.error());
  return Shown{std::move(answer->head), std::move(answer->figures)};
}

std::string speed_text(const std::optional<double>& rpm) { return rpm ? std::to_string(std::lround(*rpm)) : ""; }

base::ResultAll<Shown> run_shown(const StudyRequest& of) {
  const auto opened = open_turning(of.file, of.cuts, of.book);
  if (!opened) return tl::unexpected(opened.error());
  const auto speed = speed_of(speed_text(of.rpm), geometry::resolve(opened->survey));
  if (!speed) return only(speed);
  RunRequest request{of.file, of.cuts, speed_text(speed->rpm), "", ""};
  request.style = of.style;
  request.book = of.book;
  request.bands = false;
  auto answer = run(request);
  if (!answer) return tl::unexpected(answer.error());
  Shown out{std::move(answer->head), std::move(answer->figures), at_speed(speed->rpm)};
  for (wire::RunPoint& point : answer->points)
    out.figures.insert(out.figures.end(), point.figures.begin(), point.figures.end());
  return out;
}

/// Figures by the first word of their ids.
struct Turned {
  const char* word;
  base::ResultAll<Shown> (*ask)(const StudyRequest&);
};
const Turned turned[] = {{"heat.",
                          [](const StudyRequest& of) {
                            HeatRequest request{of.file, of.cuts, speed_text(of.rpm), "", of.style, of.book};
                            request.brief = true;
                            auto answer = heat(request);
                            const std::string at = answer ? at_speed(answer->rpm) : "";
                            auto out = shown(std::move(answer));
                            if (out) out->at = at;
                            return out;
                          }},
                         {"bottom_end.",
                          [](const StudyRequest& of) {
                            return shown(revs({of.file, of.cuts, speed_text(of.rpm), "", of.style, of.book}));
                          }},
                         {"drive.",
                          [](const StudyRequest& of) {
                            ChainRequest request{of.file, of.cuts};
                            request.style = of.style;
                            request.book = of.book;
                            return shown(chain(request));
                          }},
                         {"crank.gauge",
                          [](const StudyRequest& of) {
                            return shown(crank({of.file, of.cuts, of.style, of.book}));
                          }},
                         {"run.", run_shown}};

base::ResultAll<wire::WhyAnswer> why_turned(const WhyRequest& request, const Turned& how) {
  auto found = how.ask(request.of);
  if (!found) return tl::unexpected(found.error());
  const auto id = full_id(request.figure, found->figures);
  if (!id) return tl::unexpected(id.error());
  wire::WhyAnswer answer;
  answer.head = std::move(found->head);
  for (study::Figure& figure : found->figures)
    if (figure.id == *id) answer.figure = std::move(figure);
  answer.figure.label += found->at;
  return answer;
}

}  // namespace

base::ResultAll<wire::WhyAnswer> why(const WhyRequest& request) {
  auto opened = open_case(request.of.file, request.of.cuts, request.of.book);
  if (!opened) return tl::unexpected(opened.error());
  const study::Options options = study_options(request.of.rpm, request.of.style);
  study::Study all = study::study(opened->survey, opened->cut_list, opened->cuts(), options);
  const auto id = full_id(request.figure, all.figures);
  if (!id && request.turns)
    for (const Turned& how : turned)
      if (request.figure.starts_with(how.word)) return why_turned(request, how);
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
