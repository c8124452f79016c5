#include "cli/manual.hpp"

#include "cli/page.hpp"
#include "wire/answer.hpp"

namespace portwright::cli {
namespace {

constexpr ExitStatus statuses[] = {
    {0, "done"},
    {1, "a fault in the program"},
    {2, "the command was not understood"},
    {3, "a limit asked about with --fail-on is passed; findings alone never change the status"},
    {4, "input is invalid; what stands beside it is still answered"},
    {5, "a file, port, figure or saw is not there"},
    {6, "the book is held by another program, or somebody else changed the same thing since"},
    {7, "storage is full or refuses; nothing is lost"},
    {8, "stopped; what was ready is answered"},
};

constexpr const char* tagline = "figures, margins and cuts of a two-stroke saw engine";

std::string usage_line(const Command& command) {
  std::string out = "portwright " + std::string(command.name);
  if (command.group) return out + " COMMAND [argument ...] [options]";
  for (const Argument& argument : command.arguments) {
    const std::string name = std::string(argument.name) + (argument.several ? " ..." : "");
    out += argument.required ? ' ' + name : " [" + name + ']';
  }
  return out + " [options]";
}

std::string option_words(const Option& option) {
  std::string out = option.letter.empty() ? "" : std::string(option.letter) + ", ";
  out += option.name;
  if (!option.value.empty()) out += ' ' + std::string(option.value);
  return out;
}

std::string option_doc(const Option& option) {
  std::string out(option.doc);
  std::string list;
  for (const std::string_view choice : option.choices) list += (list.empty() ? "" : ", ") + std::string(choice);
  return list.empty() || out.find(':') != std::string::npos ? out : out + ": " + list;
}

void examples(Page& page, const std::vector<Example>& all) {
  for (const Example& example : all) {
    page.line("  " + std::string(example.line));
    page.paragraph({"      ", Ink::plain}, example.what, Ink::faint);
  }
}

void options(Page& page, const std::vector<Option>& all) {
  constexpr std::size_t width = 26;
  for (const Option& option : all)
    page.paragraph({"  " + left(option_words(option), width) + ' ', Ink::plain}, option_doc(option));
}

// Text inside troff: a leading point or quote would be a request, a hyphen a soft one.
std::string troff(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '\\')
      out += "\\e";
    else if (c == '-')
      out += "\\-";
    else
      out += c;
  }
  return !out.empty() && (out[0] == '.' || out[0] == '\'') ? "\\&" + out : out;
}

void man_option(std::string& out, const Option& option) {
  out += ".TP\n\\fB" + troff(option_words(option)) + "\\fR\n" + troff(option_doc(option)) + ".\n";
}

void man_command(std::string& out, const Command& command) {
  out += ".SS \"" + troff(usage_line(command)) + "\"\n" + troff(command.summary) + ".\n";
  if (!command.detail.empty()) out += ".PP\n" + troff(command.detail) + "\n";
  for (const Argument& argument : command.arguments)
    out += ".TP\n\\fI" + troff(argument.name) + "\\fR\n" + troff(argument.doc) + ".\n";
  for (const Option& option : command.options) man_option(out, option);
}

}  // namespace

std::span<const ExitStatus> exit_statuses() { return statuses; }

std::string overview(bool coloured) {
  Page page(coloured);
  page.line({{"portwright", Ink::bold}, {std::string(": ") + tagline, Ink::plain}});
  page.line();
  std::vector<Example> first;
  for (const char* name : {"new", "study", "edge", "run", "template"}) {
    const Command* command = find_command(name);
    const bool what_if = std::string_view(name) == "study";
    first.push_back(command->examples.front());
    if (what_if) first.push_back(command->examples[1]);
  }
  examples(page, first);
  page.heading("Commands");
  constexpr std::size_t width = 17;
  for (const Command& command : commands())
    if (!command.hidden && stands_first(command))
      page.paragraph({"  " + left(command.name, width), Ink::plain}, command.summary);
  page.heading("Everywhere");
  options(page, common_options());
  page.paragraph({"  " + left("--version", 26) + ' ', Ink::plain}, "name and version");
  page.line();
  page.paragraph({},
                 "portwright COMMAND --help has examples of each. Lengths, angles and volumes are typed with their "
                 "unit: 0.5 mm, 20 thou, 1 3/16 in, 103 deg, 8.9 cc.");
  return page.text();
}

std::string command_help(const Command& command, bool coloured) {
  Page page(coloured);
  page.paragraph({}, std::string(command.name) + ": " + std::string(command.summary), Ink::bold);
  page.line();
  examples(page, command.examples);
  page.line();
  page.paragraph({"Usage  ", Ink::bold}, usage_line(command));
  if (!command.detail.empty()) {
    page.line();
    page.paragraph({}, command.detail);
  }
  page.line();
  constexpr std::size_t width = 26;
  for (const Command* member : members_of(command))
    page.paragraph({"  " + left(member->name, width) + ' ', Ink::plain}, member->summary);
  if (command.group) page.line();
  for (const Argument& argument : command.arguments)
    page.paragraph({"  " + left(argument.name, width) + ' ', Ink::plain}, argument.doc);
  options(page, command.options);
  options(page, common_options());
  return page.text();
}

std::string man_page() {
  std::string out = ".TH PORTWRIGHT 1 \"\" \"" + troff(wire::program_name()) +
                    "\" \"User Commands\"\n.SH NAME\nportwright \\- " + troff(tagline) + "\n";
  out += ".SH SYNOPSIS\n\\fBportwright\\fR \\fICOMMAND\\fR [\\fIargument\\fR ...] [\\fIoption\\fR ...]\n.SH EXAMPLES\n";
  for (const Command& command : commands()) {
    if (command.hidden) continue;
    for (const Example& example : command.examples)
      out += ".TP\n.B " + troff(example.line) + "\n" + troff(example.what) + ".\n";
  }
  out += ".SH COMMANDS\n";
  for (const Command& command : commands())
    if (!command.hidden) man_command(out, command);
  out += ".SH OPTIONS OF EVERY COMMAND\n";
  for (const Option& option : common_options()) man_option(out, option);
  out += ".SH EXIT STATUS\n";
  for (const ExitStatus& status : exit_statuses())
    out += ".TP\n.B " + std::to_string(status.status) + "\n" + troff(status.meaning) + ".\n";
  out +=
      ".SH ENVIRONMENT\n.TP\n.B NO_COLOR\nset to anything: no colour. Colour is used on a terminal only.\n.TP\n.B "
      "SOURCE_DATE_EPOCH\ndate put into PDF files, in seconds since 1970.\n";
  out +=
      ".TP\n.B PORTWRIGHT_BOOK\npath of the book, where \\-\\-book names none.\n.TP\n.B "
      "PORTWRIGHT_AUTHOR\nwho writes into the book; else the user's name.\n";
  out +=
      ".SH CAUTIONS\nFigures are estimates from readings. Measure, creep up, stop short: metal that is cut does not "
      "come back. Where doubt remains, a qualified small\\-engine technician decides.\n";
  return out;
}

}  // namespace portwright::cli
