// The rows of the hidden commands for drawings in the table of commands.
#include "cli/commands.hpp"

namespace portwright::cli {
namespace {

constexpr Argument file{"FILE", true, "saw file; - is standard input; book:NAME", Offers::files, {}, false};
const Option cuts{"--cuts", "", "TEXT", "cuts to try, in order, parted by semicolons", {}, Offers::nothing};

Command bore_command() {
  return {"bore", "the bore unrolled as numbers and paths, and what is open at each degree",        "",  {file},
          {cuts}, {{"portwright bore larch.saw.toml --json", "what a drawing of it is made from"}}, true};
}

Command form_command() {
  return {"form", "the readings in the order of the work, taken or not",
          "",     {file},
          {},     {{"portwright form larch.saw.toml --json", "what a form for them is made from"}},
          true};
}

Command steps_command() {
  return {"steps", "a cut list as steps with bounds, and the cuts that may follow",
          "",      {file},
          {cuts},  {{"portwright steps larch.saw.toml --cuts \"base -0.5 mm\" --json", "one step"}},
          true};
}

Command drawing_command() {
  return {"drawing",
          "one drawing of the measuring sheet (SVG)",
          "",
          {{"NAME", true, "as the form has it: head, wheel, solder, section, window ...", Offers::nothing, {}, false}},
          {{"--number", "", "N", "the reading in hand", {}, Offers::nothing}},
          {{"portwright drawing solder --number 1", "squish at the exhaust side"}},
          true};
}

}  // namespace

std::vector<Command> page_commands() { return {bore_command(), form_command(), steps_command(), drawing_command()}; }

}  // namespace portwright::cli
