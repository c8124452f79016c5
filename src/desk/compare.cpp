#include <algorithm>

#include "desk/aims.hpp"
#include "desk/case.hpp"
#include "desk/desk.hpp"
#include "desk/labels.hpp"

namespace portwright::desk {
namespace {

bool same_place(const study::Finding& a, const study::Finding& b) { return a.rule == b.rule && a.figure == b.figure; }

// Rules whose state differs, and those passed in either case; worst first.
std::vector<wire::ComparedFinding> compared(const std::vector<study::Finding>& a,
                                            const std::vector<study::Finding>& b) {
  std::vector<wire::ComparedFinding> out;
  for (const study::Finding& first : a) {
    const auto second = std::find_if(b.begin(), b.end(), [&](const study::Finding& f) { return same_place(f, first); });
    wire::ComparedFinding row{first.rule, first.figure, first.state, {}, first.text, {}};
    if (second != b.end()) {
      row.b = second->state;
      row.text_b = second->text;
    }
    out.push_back(std::move(row));
  }
  for (const study::Finding& second : b)
    if (std::none_of(a.begin(), a.end(), [&](const study::Finding& f) { return same_place(f, second); }))
      out.push_back({second.rule, second.figure, {}, second.state, {}, second.text});
  std::erase_if(out, [](const wire::ComparedFinding& row) { return row.a == row.b && row.a == study::State::ok; });
  const auto worst = [](const wire::ComparedFinding& row) {
    return std::max(row.a.value_or(study::State::ok), row.b.value_or(study::State::ok));
  };
  std::stable_sort(out.begin(), out.end(), [&](const auto& x, const auto& y) { return worst(x) > worst(y); });
  return out;
}

void add_assumed(std::vector<study::Assumed>& to, const std::vector<study::Assumed>& more) {
  for (const study::Assumed& item : more)
    if (std::none_of(to.begin(), to.end(),
                     [&](const study::Assumed& known) { return known.name == item.name && known.value == item.value; }))
      to.push_back(item);
}

}  // namespace

base::ResultAll<wire::CompareAnswer> compare(const CompareRequest& request) {
  const bool one_saw = request.file_b.empty() || request.file_b == request.file_a;
  auto a = open_case(request.file_a, "", request.book);
  if (!a) return tl::unexpected(a.error());
  // One saw is read once, so that `-` will do for both sides.
  auto b =
      one_saw ? with_cuts(*a, request.file_a, request.cuts_b) : open_case(request.file_b, request.cuts_b, request.book);
  if (!b) return tl::unexpected(b.error());
  a = with_cuts(std::move(*a), request.file_a, request.cuts_a);
  if (!a) return tl::unexpected(a.error());
  const study::Options options = study_options(request.rpm, request.style);
  const study::Study study_a = study::study(a->survey, a->cut_list, a->cuts(), options);
  const study::Study study_b = study::study(b->survey, b->cut_list, b->cuts(), options);
  wire::CompareAnswer answer;
  // One saw is drawn from the same samples on both sides, so that a difference has its own, narrower range.
  answer.figures = study::compare(a->survey, a->cuts(), one_saw ? a->survey : b->survey, b->cuts(), options);
  auto labels = labels_of(a->survey, study_a.speed);
  labels.merge(labels_of(b->survey, study_b.speed));
  fill_labels(answer.figures, labels);
  answer.findings = compared(study_a.findings, study_b.findings);
  answer.head = std::move(a->head);
  answer.head.assumed = study_a.assumed;
  add_assumed(answer.head.assumed, study_b.assumed);
  answer.cuts_b = b->head.cuts;
  if (!one_saw) {
    answer.saw_b = b->head.saw;
    for (base::Error error : b->errors) {
      error.message = "Second saw: " + error.message;
      answer.head.errors.push_back(std::move(error));
    }
  }
  answer.cautions = cautions();
  return answer;
}

}  // namespace portwright::desk
