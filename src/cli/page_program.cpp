#include "cli/page_program.hpp"

#include <cstdlib>

#include "cli/page.hpp"
#include "cli/saying.hpp"
#include "desk/page.hpp"
#include "wire/json_page.hpp"

namespace portwright::cli {
namespace {

std::string bore_text(const wire::BoreAnswer& answer, const Setting&) {
  std::string out = answer.sentence + '\n';
  for (const wire::Waiting& waiting : answer.waits) out += waiting.text + '\n';
  return out;
}

int run_bore(const Words& words) {
  const desk::WhatIf what_if{words.value("--cuts"), {}, style_of(words)};
  return say(desk::bore(desk::BoreRequest{words.argument(0), what_if, words.value("--book")}), words, bore_text);
}

std::string form_text(const wire::FormAnswer& answer, const Setting&) {
  std::string out;
  for (const wire::FormGroup& group : answer.groups) {
    out += group.label + '\n';
    for (const wire::FormField& field : group.fields)
      if (!field.typed.empty()) out += "  " + left(field.label, 40) + field.read + '\n';
  }
  return out;
}

int run_form(const Words& words) {
  return say(desk::form(desk::FormRequest{words.argument(0), style_of(words), words.value("--book")}), words,
             form_text);
}

std::string steps_text(const wire::StepsAnswer& answer, const Setting&) {
  std::string out;
  for (const wire::Step& step : answer.steps) out += left(step.title, 30) + step.text + '\n';
  return out;
}

int run_steps(const Words& words) {
  const auto saw = desk::open_saw(words.argument(0), words.value("--book"));
  if (!saw) return say_errors(saw.error(), words.has("--json"));
  return say(desk::steps(**saw, {words.value("--cuts")}), words, steps_text);
}

int run_drawing(const Words& words) {
  const std::string number = words.value("--number", "0");
  const auto svg = desk::drawing({words.argument(0), std::atoi(number.c_str())});
  if (!svg) return say_errors(svg.error(), words.has("--json"));
  std::cout << *svg;
  return 0;
}

constexpr BookAction all_actions[] = {
    {"bore", run_bore}, {"form", run_form}, {"steps", run_steps}, {"drawing", run_drawing}};

}  // namespace

std::span<const BookAction> page_actions() { return all_actions; }

}  // namespace portwright::cli
