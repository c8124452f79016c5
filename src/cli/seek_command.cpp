#include "cli/seek_command.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>

#include "cli/parts.hpp"
#include "cli/progress.hpp"
#include "cli/saying.hpp"
#include "cli/turning.hpp"
#include "desk/seek.hpp"

namespace portwright::cli {
namespace {

constexpr std::size_t name_width = 40, gain_width = 18;

std::string percent(double value) {
  const std::string digits = base::number_text(std::abs(value), 1);
  const bool nothing = digits.find_first_of("123456789") == std::string::npos;
  return (nothing ? "" : value < 0.0 ? "\u2212" : "+") + digits + " %";
}

void alone(Page& page, const wire::SeekAnswer& answer) {
  if (answer.alone.empty()) return;
  constexpr std::size_t width = 9;
  const char* names[] = {"wish", "pull", "power", "heat"};
  std::string heads;
  for (const char* name : names) heads += right(name, width);
  page.heading("Each cut alone, as far as it goes", heads);
  for (const wire::SeekAlone& one : answer.alone) {
    const std::string what = one.label + ", " + one.amount_text;
    std::string numbers;
    for (const double value : {one.aim, one.pull, one.power, one.heat}) numbers += right(percent(value), width);
    if (columns(what) > page_width - 3 - columns(numbers)) page.line("  " + one.label, Ink::plain);
    page.line({{"  " + left(columns(what) > page_width - 3 - columns(numbers) ? "  " + one.amount_text : what,
                            page_width - 2 - columns(numbers)),
                Ink::plain},
               {numbers, Ink::changed}});
  }
}

void gain(Page& page, const char* name, const wire::SeekGain& gain) {
  page.line({{"     " + left(name, name_width - 5), Ink::plain},
             {right(gain.text, gain_width), gain.told_apart ? Ink::changed : Ink::faint},
             {gain.range_text.empty() ? "" : "  " + gain.range_text, Ink::faint}});
}

void one_answer(Page& page, const wire::SeekAnswer& answer, std::size_t number, bool all) {
  const wire::SeekWay& way = answer.answers[number];
  page.line();
  page.line({{"  " + std::to_string(number + 1) + "  " + way.why, Ink::bold},
             {"   " + way.metal_text + " of metal", Ink::faint}});
  for (const wire::SeekCut& step : way.steps)
    page.paragraph({"     " + step.label + ": ", Ink::plain},
                   step.amount_text + (step.at_end ? ", as far as it may go: more was not tried" : ""), Ink::changed);
  if (answer.aim_text != "most power" && answer.aim_text != "most pull" && answer.aim_text != "least heat")
    gain(page, answer.aim_text.c_str(), way.aim);
  gain(page, "pull", way.pull);
  gain(page, "most power", way.power);
  gain(page, "heat into the cylinder's wall", way.heat);
  if (all) {
    std::string torque;
    for (const wire::SeekTorque& one : way.torque)
      torque += (torque.empty() ? "" : ", ") + percent(one.percent) + " at " + base::number_text(one.rpm, 0);
    page.paragraph({"     torque: ", Ink::faint}, torque + " rpm", Ink::faint);
    page.paragraph({"     knock integral, greatest: ", Ink::faint}, base::number_text(way.knock, 2), Ink::faint);
  }
  for (const std::string& worse : way.worse) page.paragraph({"     Worse: ", Ink::caution}, worse);
  page.paragraph({"     --cuts ", Ink::faint}, '"' + way.cuts + '"', Ink::faint);
}

std::string seek_text(const wire::SeekAnswer& answer, const Setting& setting) {
  Page page(setting.coloured);
  head(page, answer.head, "seek");
  page.paragraph({"", Ink::plain}, answer.sentence, Ink::bold);
  if (!answer.bar_text.empty()) page.paragraph({"  ", Ink::plain}, answer.bar_text, Ink::faint);
  alone(page, answer);
  page.heading("Answers, changes from stock",
               std::to_string(answer.tried_count) + " lists of cuts tried" + (answer.out_of_time ? ", time over" : ""));
  if (answer.answers.empty()) page.line("  none", Ink::faint);
  for (std::size_t i = 0; i < answer.answers.size(); ++i) one_answer(page, answer, i, setting.all);
  page.line();
  for (const std::string& warning : answer.warnings) page.paragraph({"  ! ", Ink::caution}, warning + ".");
  for (const std::string& kept : answer.kept) page.paragraph({"  Held: ", Ink::bold}, kept + ".", Ink::faint);
  const std::size_t spoke = setting.all ? answer.against.size() : std::min<std::size_t>(1, answer.against.size());
  for (std::size_t i = 0; i < spoke; ++i)
    page.paragraph({"  Against lists that were tried: ", Ink::bold}, answer.against[i] + ".", Ink::faint);
  stopped(page, answer.stopped);
  page.paragraph({"  ", Ink::plain}, answer.promise, Ink::faint);
  assumed_running(page, answer.head.assumed, setting);
  cautions(page, answer.cautions);
  return page.text();
}

/// 0 where it was not said.
base::Result<double> number_of(const Words& words, const char* option) {
  const std::string text = words.value(option);
  if (text.empty()) return 0.0;
  double out = 0.0;
  const auto read = std::from_chars(text.data(), text.data() + text.size(), out);
  if (read.ec == std::errc() && read.ptr == text.data() + text.size() && out >= 1.0 && out <= 3600.0) return out;
  return base::fail(base::ErrorCode::usage, "\u201C" + text + "\u201D is no number for " + option + ".", option + 2,
                    "Give 1 to 3600.");
}

}  // namespace

Command seek_command() {
  return {"seek",
          "cuts for a wish about the engine: most power, pull, torque at a speed; searched by the simulation",
          "What is wanted most comes first, then what must hold: other speeds, heat, squish, widths. Several answers "
          "between pull, power and heat, each with the range of its gains; where the gain is less than its range, that "
          "is said. Takes about a minute; Ctrl-C stops it and keeps what is there.",
          {{"FILE", true, "saw file; - is standard input; book:NAME", Offers::files, {}, false}},
          {{"--wish", "", "TEXT", "\"most torque at 8000 rpm; squish at least 0.5 mm\"", {}, Offers::nothing},
           {"--free", "", "LIST", "cuts that may be made: \"base; roof exhaust up to 1.2 mm\"", {}, Offers::nothing},
           {"--seconds", "", "N", "of searching (25), before ranges are run", {}, Offers::nothing},
           {"--lists", "", "N", "lists of cuts to try at most (160)", {}, Offers::nothing},
           {"--keep", "", "FILE", "keep what was tried, and go on from it when it is there", {}, Offers::files},
           {"--step", "", "LENGTH", "what your hand can cut (0.05 mm); none: not rounded", {}, Offers::nothing},
           {"--chance", "", "SHARE", "chance of passing a limit that a list may have (5 %)", {}, Offers::nothing},
           {"--all", "", "", "torque over the speeds, knock, and every objection", {}, Offers::nothing}},
          {{"portwright seek larch.saw.toml --wish \"most power\"", "the usual six cuts"},
           {"portwright seek larch.saw.toml --wish \"most pull; heat at most +5 %\" --keep pull.txt", "to be gone on"},
           {"portwright seek larch.saw.toml --wish \"most power\" --free mouths", "what opening the case would bring"}},
          false};
}

int run_seek(const Words& words) {
  const auto answer = [&]() -> base::ResultAll<wire::SeekAnswer> {
    const StopSignals signals;
    Progress progress(is_coloured(Stream::error));
    desk::SeekRequest request;
    request.file = words.argument(0);
    request.wishes = words.value("--wish");
    request.free = words.value("--free");
    request.step = words.value("--step");
    request.chance = words.value("--chance");
    request.keep = words.value("--keep");
    request.style = style_of(words);
    request.book = words.value("--book");
    const auto seconds = number_of(words, "--seconds"), lists = number_of(words, "--lists");
    if (!seconds) return tl::unexpected(base::Errors{seconds.error()});
    if (!lists) return tl::unexpected(base::Errors{lists.error()});
    request.seconds = *seconds;
    request.lists = static_cast<int>(*lists);
    return desk::seek(request, [&](const wire::SeekAnswer& so_far) {
      std::string what = so_far.doing;
      if (so_far.best) what += ", best " + percent(so_far.best->aim);
      return progress(so_far.share, what);
    });
  }();
  const int status = say<wire::SeekAnswer>(answer, words, seek_text);
  return answer && answer->stopped ? exit_stopped : status;
}

}  // namespace portwright::cli
