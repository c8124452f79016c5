#include "cli/program.hpp"

#include <algorithm>
#include <charconv>
#include <cstdint>
#include <cstdlib>
#include <exception>
#include <filesystem>
#include <iostream>
#include <span>
#include <stdexcept>

#include "base/quantity/text.hpp"
#include "cli/batch_command.hpp"
#include "cli/book_program.hpp"
#include "cli/manual.hpp"
#include "cli/page_program.hpp"
#include "cli/plan_text.hpp"
#include "cli/rubbing_command.hpp"
#include "cli/saying.hpp"
#include "cli/seek_command.hpp"
#include "cli/texts.hpp"
#include "cli/turning.hpp"
#include "cli/words.hpp"
#include "desk/cut_sheet.hpp"
#include "desk/desk.hpp"
#include "desk/plan.hpp"
#include "desk/written.hpp"
#include "server/openapi.hpp"
#include "server/serve.hpp"
#include "wire/batch.hpp"
#include "wire/json.hpp"

namespace portwright::cli {
namespace {

base::Result<std::optional<double>> rpm_of(const Words& words) {
  if (!words.has("--rpm")) return std::optional<double>();
  std::string text = words.value("--rpm");
  const bool bare = text.find_first_not_of("0123456789. ") == std::string::npos;
  const auto quantity = base::parse_quantity(bare ? text + " rpm" : text, base::Dimension::speed, "rpm");
  if (!quantity) return tl::unexpected(quantity.error());
  const double rpm = quantity->si * 60.0;
  constexpr double least = 500.0, greatest = 30000.0;
  if (rpm < least || rpm > greatest)
    return base::fail(base::ErrorCode::out_of_range, "\u201C" + text + "\u201D is no speed a saw runs at.", "rpm",
                      "Give 500 to 30000 rpm.");
  return std::optional<double>(rpm);
}

bool is_passed(const wire::StudyAnswer& answer, const std::string& state) {
  const study::State least = state == "stop" ? study::State::stop : study::State::caution;
  return std::any_of(answer.findings.begin(), answer.findings.end(),
                     [&](const auto& f) { return !f.accepted && f.state >= least; });
}

int run_study(const Words& words) {
  const auto rpm = rpm_of(words);
  if (!rpm) return say_errors({rpm.error()}, words.has("--json"));
  const auto answer =
      desk::study({words.argument(0), words.value("--cuts"), *rpm, style_of(words), words.value("--book")});
  const int status = say(answer, words, study_text);
  return status == 0 && words.has("--fail-on") && is_passed(*answer, words.value("--fail-on")) ? exit_limit_passed
                                                                                               : status;
}

int run_why(const Words& words) {
  const auto rpm = rpm_of(words);
  if (!rpm) return say_errors({rpm.error()}, words.has("--json"));
  return say(desk::why({{words.argument(0), words.value("--cuts"), *rpm, style_of(words), words.value("--book")},
                        words.argument(1)}),
             words, why_text);
}

int run_check(const Words& words) {
  return say(desk::check({words.argument(0), style_of(words), words.value("--book")}), words, check_text);
}

int run_compare(const Words& words) {
  const auto rpm = rpm_of(words);
  if (!rpm) return say_errors({rpm.error()}, words.has("--json"));
  const std::string second = words.argument(1);
  if (second.empty() && !words.has("--cuts") && !words.has("--cuts-b"))
    return say_errors({{base::ErrorCode::usage,
                        "There is nothing to compare with.",
                        "",
                        "Name a second saw, or cuts with --cuts or --cuts-b.",
                        {}}},
                      words.has("--json"));
  return say(desk::compare({words.argument(0), second, words.value("--cuts"), words.value("--cuts-b"), *rpm,
                            style_of(words), words.value("--book")}),
             words, compare_text);
}

int run_edge(const Words& words) {
  return say(desk::edge({words.argument(0), words.argument(1), words.value("--edge"), words.value("--at"),
                         words.value("--cuts"), style_of(words), words.value("--book")}),
             words, edge_text);
}

desk::PlanRequest plan_request(const Words& words, std::optional<double> rpm) {
  return {words.argument(0),
          words.value("--wish"),
          words.value("--gaskets"),
          words.value("--step"),
          words.value("--chance"),
          words.value("--done"),
          rpm,
          style_of(words),
          words.value("--book")};
}

int run_plan(const Words& words) {
  const auto rpm = rpm_of(words);
  if (!rpm) return say_errors({rpm.error()}, words.has("--json"));
  return say(desk::plan(plan_request(words, *rpm)), words, plan_text);
}

int run_units(const Words& words) { return say(desk::units({words.argument(0), style_of(words)}), words, units_text); }

// A file that is written: what was written is said on standard error when the file itself goes to standard output.
template <class Ask>
int run_written(const Words& words, const std::string& otherwise, Ask&& ask) {
  const std::string output = words.value("--output", otherwise);
  const bool json = words.has("--json");
  if (output.empty())
    return say_errors({{base::ErrorCode::usage,
                        std::string(words.command->name) + " needs -o FILE: where to write it.",
                        "",
                        "portwright " + std::string(words.command->name) + " --help shows how.",
                        {}}},
                      json);
  if (json && output == "-")
    return say_errors(
        {{base::ErrorCode::usage, "With --json the file needs a place of its own.", "", "Give one with -o FILE.", {}}},
        json);
  const base::ResultAll<wire::WrittenAnswer> answer = ask(output);
  if (!answer) return say_errors(answer.error(), json);
  if (json)
    std::cout << wire::to_json(*answer);
  else if (output != "-")
    std::cout << written_text(*answer, setting_of(words));
  return 0;
}

int run_new(const Words& words) {
  return run_written(words, "-", [&](const std::string& output) { return desk::blank({words.argument(0), output}); });
}

int run_map(const Words& words) {
  return run_written(words, "", [&](const std::string& output) {
    return desk::map({words.argument(0), words.value("--cuts"), output, words.value("--at"), style_of(words),
                      words.value("--book")});
  });
}

int run_template(const Words& words) {
  return run_written(words, "", [&](const std::string& output) {
    return desk::paper_template({words.argument(0), words.value("--cuts"), output, words.value("--paper"),
                                 words.value("--printer"), words.value("--paper-thickness"), style_of(words),
                                 words.value("--book")});
  });
}

base::Result<int> way_of(const Words& words) {
  const std::string text = words.value("--way", "1");
  int way = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), way);
  if (error != std::errc() || end != text.data() + text.size())
    return base::fail(base::ErrorCode::usage, "\u201C" + text + "\u201D is no number of a plan.", "way",
                      "Give 1, 2 ..");
  return way;
}

int run_cut_sheet(const Words& words) {
  const auto rpm = rpm_of(words);
  if (!rpm) return say_errors({rpm.error()}, words.has("--json"));
  const auto way = way_of(words);
  if (!way) return say_errors({way.error()}, words.has("--json"));
  return run_written(words, "", [&](const std::string& output) {
    return desk::cut_sheet({plan_request(words, *rpm), *way, words.value("--band"), words.value("--hand"),
                            words.value("--paper"), output, words.value("--cuts")});
  });
}

int run_measuring_sheet(const Words& words) {
  return run_written(words, "", [&](const std::string& output) {
    return desk::measuring_sheet({output, words.value("--paper")});
  });
}

base::Result<std::optional<std::uint16_t>> port_of(const Words& words) {
  if (!words.has("--port")) return std::optional<std::uint16_t>();
  const std::string text = words.value("--port");
  std::uint16_t port = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), port);
  if (error != std::errc() || end != text.data() + text.size())
    return base::fail(base::ErrorCode::usage, "\u201C" + text + "\u201D is no port.", "", "Give 1 to 65535; 0: any.");
  return std::optional<std::uint16_t>(port);
}

int run_serve(const Words& words) {
  const auto port = port_of(words);
  if (!port) return say_errors({port.error()}, words.has("--json"));
  const auto served = server::serve(
      {words.value("--book"), *port, !words.has("--no-browser"), words.has("--as-root"), words.has("--network")},
      std::cout);
  return served ? 0 : say_errors({served.error()}, words.has("--json"));
}

int run_completion(const Words& words) {
  std::cout << (words.argument(0) == "bash" ? bash_completion() : zsh_completion());
  return 0;
}

int run_man(const Words&) {
  std::cout << man_page();
  return 0;
}

// Every document that is published in docs/schema.
std::vector<wire::Schema> published() {
  std::vector<wire::Schema> out = wire::schemas();
  for (wire::Schema& ask : wire::ask_schemas()) out.push_back(std::move(ask));
  for (wire::Schema& line : wire::batch_schemas()) out.push_back(std::move(line));
  out.push_back({"openapi", server::openapi()});
  return out;
}

int run_schema(const Words& words) {
  const std::string folder = words.value("--write");
  for (const wire::Schema& schema : published()) {
    if (folder.empty()) {
      std::cout << schema.text;
      continue;
    }
    const auto path = std::filesystem::path(folder) / (schema.name + ".json");
    if (auto done = desk::put(path.string(), schema.text); !done)
      return say_errors({done.error()}, words.has("--json"));
  }
  return 0;
}

struct Action {
  const char* command;
  int (*run)(const Words&);
};
constexpr Action actions[] = {{"study", run_study},
                              {"why", run_why},
                              {"check", run_check},
                              {"compare", run_compare},
                              {"edge", run_edge},
                              {"plan", run_plan},
                              {"seek", run_seek},
                              {"batch", run_batch},
                              {"run", run_curve},
                              {"airflow", run_airflow},
                              {"heat", run_heat},
                              {"crank", run_crank},
                              {"revs", run_revs},
                              {"chain", run_chain},
                              {"units", run_units},
                              {"new", run_new},
                              {"map", run_map},
                              {"template", run_template},
                              {"sheet", run_cut_sheet},
                              {"measuring-sheet", run_measuring_sheet},
                              {"rubbing", run_rubbing},
                              {"serve", run_serve},
                              {"completion", run_completion},
                              {"man", run_man},
                              {"schema", run_schema}};

int run_words(const Words& words) {
  if (words.has("--help") || words.command->group) {
    std::cout << command_help(*words.command, is_coloured(Stream::out));
    return 0;
  }
  for (const Action& action : actions)
    if (words.command->name == action.command) return action.run(words);
  for (const BookAction& action : book_actions())
    if (words.command->name == action.command) return action.run(words);
  for (const BookAction& action : page_actions())
    if (words.command->name == action.command) return action.run(words);
  throw std::logic_error("a command of the table has no action");
}

// What stands before any command: help and version.
std::optional<int> run_before_commands(const std::vector<std::string>& words) {
  const std::string first = words.empty() ? "--help" : words.front();
  if (first == "--version") {
    std::cout << wire::program_name() << '\n';
    return 0;
  }
  if (first != "--help" && first != "-h" && first != "help") return std::nullopt;
  const bool asked = first == "help" && words.size() > 1;
  const Command* command = asked ? find_command(std::span(words).subspan(1)).command : nullptr;
  if (asked && (command == nullptr || (command->group && words.size() > 2))) return std::nullopt;
  std::cout << (command ? command_help(*command, is_coloured(Stream::out)) : overview(is_coloured(Stream::out)));
  return 0;
}

int run_any(std::vector<std::string> words) {
  const bool json = std::find(words.begin(), words.end(), "--json") != words.end();
  if (const auto done = run_before_commands(words)) return *done;
  if (words.front() == "help") words.erase(words.begin());
  const auto parsed = parse_words(words);
  return parsed ? run_words(*parsed) : say_errors({parsed.error()}, json);
}

}  // namespace

int run(const std::vector<std::string>& words) {
  try {
    const int status = run_any(words);
    std::cout.flush();
    if (std::cout) return status;
    std::cerr << "\u2715 Standard output could not be written.\n";
    return base::exit_status(base::ErrorCode::storage);
  } catch (const std::exception& broken) {
    const bool json = std::find(words.begin(), words.end(), "--json") != words.end();
    return say_errors({{base::ErrorCode::fault,
                        std::string("A fault in the program: ") + broken.what() + '.',
                        "",
                        "Keep the saw file: it shows the fault.",
                        {}}},
                      json);
  }
}

}  // namespace portwright::cli
