#include "cli/turning.hpp"

#include <optional>

#include "cli/heat_text.hpp"
#include "cli/progress.hpp"
#include "cli/saying.hpp"
#include "desk/heat.hpp"
#include "desk/revs.hpp"
#include "desk/run.hpp"

namespace portwright::cli {
namespace {

// A file that goes to standard output has it for itself.
std::optional<base::Error> shared_output(const Words& words) {
  const int files = (words.value("--plot") == "-" ? 1 : 0) + (words.value("--traces") == "-" ? 1 : 0) +
                    (words.value("--picture") == "-" ? 1 : 0);
  if (files == 0 || (files == 1 && !words.has("--json"))) return std::nullopt;
  return base::Error{base::ErrorCode::usage,
                     "Standard output can hold one thing only.",
                     "",
                     "Give a file to each of --plot, --traces and --picture, and to any of them beside --json.",
                     {}};
}

template <class A>
std::string no_text(const A&, const Setting&) {
  return {};
}

// Asks while the progress line runs and Ctrl-C is listened to; says the answer when the line is gone.
template <class A, class Ask>
int say_watched(const Words& words, std::string (*text)(const A&, const Setting&), Ask&& ask) {
  if (const auto shared = shared_output(words)) return say_errors({*shared}, words.has("--json"));
  const auto answer = [&] {
    const StopSignals signals;
    Progress progress(is_coloured(Stream::error));
    return ask([&progress](double share, const std::string& what) { return progress(share, what); });
  }();
  const bool is_taken =
      words.value("--plot") == "-" || words.value("--traces") == "-" || words.value("--picture") == "-";
  const int status = say<A>(answer, words, is_taken ? no_text<A> : text);
  return answer && answer->stopped ? exit_stopped : status;
}

}  // namespace

int run_curve(const Words& words) {
  return say_watched<wire::RunAnswer>(words, run_text, [&](const desk::Watch& watch) {
    desk::RunRequest request;
    request.file = words.argument(0);
    request.cuts = words.value("--cuts");
    request.speeds = words.value("--rpm");
    request.plot = words.value("--plot");
    request.traces = words.value("--traces");
    request.bands = !words.has("--no-bands");
    request.style = style_of(words);
    request.book = words.value("--book");
    return desk::run(request, watch);
  });
}

int run_crank(const Words& words) {
  return say_watched<wire::CrankAnswer>(words, crank_text, [&](const desk::Watch& watch) {
    return desk::crank({words.argument(0), words.value("--cuts"), style_of(words), words.value("--book")}, watch);
  });
}

int run_airflow(const Words& words) {
  return say_watched<wire::AirflowAnswer>(words, airflow_text, [&](const desk::Watch& watch) {
    return desk::airflow({words.argument(0), words.value("--cuts"), words.value("--rpm"), words.value("--plot"),
                          style_of(words), words.value("--book")},
                         watch);
  });
}

int run_heat(const Words& words) {
  return say_watched<wire::HeatAnswer>(words, heat_text, [&](const desk::Watch& watch) {
    desk::HeatRequest request;
    request.file = words.argument(0);
    request.cuts = words.value("--cuts");
    request.speed = words.value("--rpm");
    request.picture = words.value("--picture");
    request.style = style_of(words);
    request.book = words.value("--book");
    return desk::heat(request, watch);
  });
}

int run_revs(const Words& words) {
  return say_watched<wire::RevsAnswer>(words, revs_text, [&](const desk::Watch& watch) {
    return desk::revs({words.argument(0), words.value("--cuts"), words.value("--rpm"), words.value("--picture"),
                       style_of(words), words.value("--book")},
                      watch);
  });
}

int run_chain(const Words& words) {
  return say_watched<wire::ChainAnswer>(words, chain_text, [&](const desk::Watch& watch) {
    desk::ChainRequest request;
    request.file = words.argument(0);
    request.cuts = words.value("--cuts");
    request.style = style_of(words);
    request.book = words.value("--book");
    return desk::chain(request, watch);
  });
}

}  // namespace portwright::cli
