#include "cli/commands.hpp"

#include "cli/batch_command.hpp"
#include "cli/rubbing_command.hpp"
#include "cli/seek_command.hpp"

namespace portwright::cli {
namespace {

constexpr Argument file{"FILE", true, "saw file; - is standard input; book:NAME", Offers::files, {}, false};
const Option cuts{"--cuts", "", "TEXT", "cuts to try, in order, parted by semicolons", {}, Offers::nothing};
const Option rpm{"--rpm",        "", "N", "speed for what depends on it; else the in-cut reading, else 9000", {},
                 Offers::nothing};
const Option paper{"--paper", "", "PAPER", "paper to print on (A4)", {"A4", "Letter"}, Offers::words};

Option output(std::string_view doc) { return {"--output", "-o", "FILE", doc, {}, Offers::files}; }

Command study_command() {
  return {
      "study",
      "what a saw is, what a cut would make of it, and what is left",
      "Every figure that the readings allow, with its 95 % range; limits held against them; the reading to take next. "
      "With --cuts each figure stands three times: stock, what-if, change.",
      {file},
      {cuts,
       rpm,
       {"--all", "", "", "every figure, by its id, not only the page of a builder", {}, Offers::nothing},
       {"--fail-on",
        "",
        "STATE",
        "exit with 3 when a finding is this bad or worse",
        {"caution", "stop"},
        Offers::words}},
      {{"portwright study larch.saw.toml", "the saw as it was read"},
       {"portwright study larch.saw.toml --cuts \"gasket out; roof exhaust +0.5 mm\"", "what these two cuts would do"},
       {"portwright study - --json < larch.saw.toml", "the same for another program"}},
      false};
}

Command why_command() {
  return {"why",
          "where one figure comes from and which reading matters most to it",
          "The formula in words, the inputs and each one's share of the doubt, the source, the band builders aim at.",
          {file, {"FIGURE", true, "id of a figure, or its end: blowdown", Offers::nothing, {}, false}},
          {cuts, rpm},
          {{"portwright why larch.saw.toml blowdown", "timing.blowdown by its end"},
           {"portwright why larch.saw.toml skirt.cover_exhaust --cuts \"base -0.5 mm\"", "after a cut"}},
          false};
}

Command check_command() {
  return {"check",
          "whether the readings agree with each other",
          "Edges read by degree wheel and by height are held against each other through stroke and rod. Of two "
          "readings that "
          "contradict each other neither is dropped.",
          {file},
          {{"--all", "", "", "every reading as it was understood", {}, Offers::nothing}},
          {{"portwright check larch.saw.toml", "what disagrees, and what would mend it"},
           {"portwright check larch.saw.toml --all", "and how each reading was understood"}},
          false};
}

Command compare_command() {
  return {
      "compare",
      "two saws, or two cut lists of one saw",
      "One saw is drawn from the same samples on both sides, so that a difference has its own, narrower range.",
      {file, {"FILE_B", false, "second saw; missing: the same saw", Offers::files, {}, false}},
      {cuts,
       {"--cuts-b", "", "TEXT", "cuts of the second case", {}, Offers::nothing},
       rpm,
       {"--all", "", "", "every figure, also those that are alike", {}, Offers::nothing}},
      {{"portwright compare larch.saw.toml alder.saw.toml", "two saws"},
       {"portwright compare larch.saw.toml --cuts \"base -1 mm\" --cuts-b \"band -1 mm\"", "two ways to cut one saw"}},
      false};
}

Command edge_command() {
  return {
      "edge",
      "one edge in all its forms: degrees, duration, mm, thou; before and after a cut",
      "--at moves the edge in thought. A bare angle is where the port opens; other forms say so: \"duration 160 deg\", "
      "\"closes 258 deg\", \"drop 24.5 mm\" below the crown edge's place at TDC, \"height 36.5 mm\" above the base "
      "face. What could mean two "
      "things is asked about.",
      {file, {"PORT", true, "name of the port", Offers::nothing, {}, false}},
      {{"--edge", "", "EDGE", "which edge; else the one that opens the port", {"roof", "floor"}, Offers::words},
       {"--at", "", "PLACE", "where the edge would be, before the cuts", {}, Offers::nothing},
       cuts},
      {{"portwright edge larch.saw.toml exhaust", "the roof as it was read"},
       {"portwright edge larch.saw.toml exhaust --at \"98 deg\"", "how far to raise it to open at 98"},
       {"portwright edge larch.saw.toml exhaust --at \"98 deg\" --cuts \"base -0.5 mm\"",
        "and what a base cut makes of that"}},
      false};
}

Command plan_command() {
  return {"plan",
          "from what you wish to the cuts that reach it, every way with its metal and margins",
          "What dropping the cylinder moved is given back at the roofs; skirt and intake are not, and that is said. No "
          "plan "
          "adds metal; the gasket is in, out, or one at hand. None passes a limit that must hold. What could mean two "
          "things is asked about; wishes that contradict each other say by how much.",
          {file},
          {{"--wish", "", "TEXT", "what to reach, parted by semicolons", {}, Offers::nothing},
           {"--gaskets", "", "LIST", "thicknesses at hand: \"0.3 mm, 0.5 mm\"; else in or out", {}, Offers::nothing},
           {"--done", "", "TEXT", "cuts that are done, as read; the rest is planned from them", {}, Offers::nothing},
           {"--step", "", "LENGTH", "what your hand can cut (0.05 mm); none: not rounded", {}, Offers::nothing},
           {"--chance", "", "SHARE", "chance of passing a limit that a plan may have (5 %)", {}, Offers::nothing},
           rpm,
           {"--all", "", "", "every way, every limit, and the exact cuts", {}, Offers::nothing}},
          {{"portwright plan larch.saw.toml --wish \"exhaust at 99 deg; squish 0.55 mm\"", "two wishes"},
           {"portwright plan larch.saw.toml --wish \"blowdown 21 deg\" --step \"1 thou\"", "rounded to a thou"}},
          false};
}

Command sheet_command() {
  return {"sheet",
          "a plan or a list of cuts as a cut sheet: steps, stop marks, what to read and how often (PDF)",
          "In working order: squish first, widen before raising, intake, transfers least. Each step stops short by a "
          "guard band, says how many readings that takes, and when to put the tool down. A band narrower than reading "
          "and hand allow is refused with the reading that would do. A5 is a card with the steps alone.",
          {file},
          {output("where to write it; - is standard output"),
           {"--wish", "", "TEXT", "what to reach, as in plan", {}, Offers::nothing},
           {"--cuts", "", "TEXT", "instead: cuts that are decided, as in map", {}, Offers::nothing},
           {"--way", "", "N", "which of the plans that plan lists (1)", {}, Offers::nothing},
           {"--done", "", "TEXT", "cuts that are done, as read; the rest is planned from them", {}, Offers::nothing},
           {"--band", "", "TEXT", "half bands: \"1 deg, 0.05 mm\"", {}, Offers::nothing},
           {"--hand", "", "LENGTH", "scatter of your ground cuts, one sigma (0.1 mm)", {}, Offers::nothing},
           {"--gaskets", "", "LIST", "thicknesses at hand: \"0.3 mm, 0.5 mm\"; else in or out", {}, Offers::nothing},
           {"--step", "", "LENGTH", "what your hand can cut (0.05 mm)", {}, Offers::nothing},
           {"--chance", "", "SHARE", "chance of passing a limit that a plan may have (5 %)", {}, Offers::nothing},
           rpm,
           {"--paper", "", "PAPER", "paper to print on (A4)", {"A4", "Letter", "A5"}, Offers::words}},
          {{"portwright sheet larch.saw.toml --wish \"exhaust at 99 deg\" -o cut.pdf", "the first plan"},
           {"portwright sheet larch.saw.toml --cuts \"base -0.3 mm\" -o cut.pdf", "own cuts"},
           {"portwright sheet l.saw.toml --wish \"squish 0.6 mm\" --paper A5 -o card.pdf", "a card for the wall"}},
          false};
}

Command run_command() {
  return {
      "run",
      "torque and power over speed, and what a cut would change",
      "Turns the whole engine by computation: gas in tract, case, every transfer passage, cylinder, exhaust and "
      "muffler. Differences from stock, with their ranges, are what to read; power itself is an order of size until "
      "the saw file has stock_power. Takes from seconds to minutes; Ctrl-C stops it and keeps what is ready.",
      {file},
      {cuts,
       {"--rpm", "", "SPEEDS", "one speed, or first:last:step; else 4500:12000:500", {}, Offers::nothing},
       {"--plot", "", "FILE", "draw torque and power, stock behind (SVG); at one speed its turn", {}, Offers::files},
       {"--traces", "", "FILE", "pressures, flows and areas over the turn, every speed (CSV)", {}, Offers::files},
       {"--no-bands", "", "", "leave out the ranges over the assumptions: much sooner done", {}, Offers::nothing},
       {"--all", "", "", "every figure at every speed", {}, Offers::nothing}},
      {{"portwright run larch.saw.toml --plot curve.svg", "the saw as it is, and its curve"},
       {"portwright run larch.saw.toml --cuts \"roof exhaust +0.5 mm\"", "what the cut changes, and what it may not"},
       {"portwright run larch.saw.toml --rpm 9000 --no-bands --plot turn.svg", "one turn at 9000 rpm, drawn"}},
      false};
}

Command crank_command() {
  return {"crank",
          "what the compression gauge would show, pulled over cold",
          "The same engine without a spark, with the gauge's own volume screwed in. Held against what was read it "
          "tells worn rings from a chamber measured wrong.",
          {file},
          {cuts},
          {{"portwright crank larch.saw.toml", "the saw as it is"},
           {"portwright crank larch.saw.toml --cuts \"gasket out\"", "after a cut"}},
          false};
}

Command airflow_command() {
  return {
      "airflow",
      "where the air goes, passage by passage, and what each corner of it costs",
      "Mass through tract, every transfer passage and the exhaust in one turn; what comes back; the loss of each "
      "by its cause; what opening the ledges at the case would bring, with the case volume it adds counted.",
      {file},
      {cuts,
       {"--rpm", "", "N", "speed; else the in-cut reading, else 9000", {}, Offers::nothing},
       {"--plot", "", "FILE", "draw the air's way as widths (SVG)", {}, Offers::files},
       {"--all", "", "", "every cause of loss, also the small ones", {}, Offers::nothing}},
      {{"portwright airflow larch.saw.toml --rpm 9000", "one speed"},
       {"portwright airflow larch.saw.toml --cuts \"mouth primary to 2.0 cm2\" --plot way.svg", "after a cut, drawn"}},
      false};
}

Command heat_command() {
  return {
      "heat",
      "where the cylinder runs hot, and what a cut or another way of running does to it",
      "Places of cylinder and piston ranked by heat, from the computed turn, the fins as read and many sets of "
      "assumptions; with --cuts each place against stock. Degrees are told only where one spot was read on this saw "
      "([readings] spot); without it there are ranks and differences with their range. Stopped hot, leaner, faster, "
      "fins full of chips: each told alone.",
      {file},
      {cuts,
       {"--rpm", "", "N", "speed; else the in-cut reading, else 9000", {}, Offers::nothing},
       {"--picture", "", "FILE", "draw lines of equal heat on the unrolled bore (SVG)", {}, Offers::files},
       {"--all", "", "", "where the heat goes, and every assumption", {}, Offers::nothing}},
      {{"portwright heat larch.saw.toml", "the saw as it is"},
       {"portwright heat larch.saw.toml --cuts \"roof exhaust +1 mm\" --picture heat.svg", "against stock, drawn"}},
      false};
}

Command revs_command() {
  return {
      "revs",
      "will the bottom end stand the rpm: loads, wall that is left, and the ladder of limits",
      "Forces over a turn from the computed pressures and the masses; side thrust and the wall that the windows leave "
      "for it; bearings, ring flutter, balance. The ladder lists limits of speed, free and in the cut: hard ones set "
      "the ceiling, notes never do. Masses that were not weighed are estimated widely and named. It is no permission "
      "to turn a saw faster than its maker allows.",
      {file},
      {cuts,
       {"--rpm", "", "N", "speed, free and in the cut; else each as read, else usual", {}, Offers::nothing},
       {"--picture", "", "FILE", "draw ladder, loads, thrust and wall left (SVG)", {}, Offers::files},
       {"--all", "", "", "every rung and figure, also those that wait", {}, Offers::nothing}},
      {{"portwright revs larch.saw.toml", "the saw as it is"},
       {"portwright revs larch.saw.toml --rpm 14000 --picture ladder.svg", "at 14000 rpm, drawn"},
       {"portwright revs larch.saw.toml --cuts \"widen exhaust +2 mm\"", "what a cut leaves for the piston"}},
      false};
}

Command chain_command() {
  return {
      "chain",
      "what reaches the wood: chain speed and pull, power left, sprocket, cutting time",
      "From the engine's torque under many sets of assumptions, less what chain and bar take. With cuts: by how much "
      "the cutting time may change, stock and cut under the same draws. Takes a minute or so; Ctrl-C stops it.",
      {file},
      {cuts, {"--all", "", "", "every sprocket and width", {}, Offers::nothing}},
      {{"portwright chain larch.saw.toml", "the saw as it is"},
       {"portwright chain larch.saw.toml --cuts \"outlets to 2.6 cm2\"", "what a cut brings in the wood"}},
      false};
}

Command units_command() {
  return {
      "units",
      "a typed quantity in every unit of its kind",
      "",
      {{"TEXT", true, "number and unit, as in a saw file", Offers::nothing, {}, true}},
      {},
      {{"portwright units 47 thou", "in mm, in, and the rest"}, {"portwright units \"1 3/16 in\"", "fractions too"}},
      false};
}

Command new_command() {
  return {"new",
          "an empty saw file to fill, in the order of the work",
          "A file that is already there is never written over.",
          {{"NAME", false, "name of the saw", Offers::nothing, {}, true}},
          {output("where to write it; else standard output")},
          {{"portwright new \"Larch 70\" -o larch.saw.toml", "start a saw"}},
          false};
}

Command map_command() {
  return {"map",
          "the bore unrolled, with windows, piston and skirt, at true scale (SVG)",
          "",
          {file},
          {output("where to write it; - is standard output"),
           {"--at", "", "DEG", "crank angle of the piston drawn, after TDC", {}, Offers::nothing},
           cuts},
          {{"portwright map larch.saw.toml -o larch.svg", "the saw as it is"},
           {"portwright map larch.saw.toml -o m.svg --at \"134 deg\" --cuts \"base -1 mm\"", "with a cut, at 134 deg"}},
          false};
}

Command template_command() {
  return {"template",
          "paper to wrap into the bore and mark the cut by, at true scale (PDF)",
          "Two bars on every page prove the scale with your own ruler. Give their lengths as measured with --printer, "
          "and the next "
          "print is true.",
          {file},
          {output("where to write it; - is standard output"),
           cuts,
           paper,
           {"--printer",
            "",
            "X,Y",
            "lengths of the bars across and along, as measured: \"99.2 mm, 99.6 mm\"",
            {},
            Offers::nothing},
           {"--paper-thickness", "", "LENGTH", "of the paper: it lies inside the bore", {}, Offers::nothing}},
          {{"portwright template larch.saw.toml --cuts \"roof exhaust +1 mm\" -o t.pdf", "a template for one cut"}},
          false};
}

Command measuring_sheet_command() {
  return {"measuring-sheet",
          "a sheet to take to the bench and write the readings on (PDF)",
          "",
          {},
          {output("where to write it; - is standard output"), paper},
          {{"portwright measuring-sheet -o sheet.pdf", "print it, fill it, type it in"}},
          false};
}

Command serve_command() {
  return {"serve",
          "the program as a page in the browser of this machine",
          "Listens on this machine only and opens the browser. The address that it prints lets one browser in, once. "
          "With --network, paired devices of the network may look and add. Ctrl+C ends it.",
          {},
          {{"--port", "", "N", "port to listen on; else 8470 or the next free one; 0: any", {}, Offers::nothing},
           {"--network", "", "", "let paired phones of this network in, for twelve hours", {}, Offers::nothing},
           {"--no-browser", "", "", "only print the address", {}, Offers::nothing},
           {"--as-root", "", "", "run it as root all the same", {}, Offers::nothing}},
          {{"portwright serve", "the usual book"},
           {"portwright serve --network", "a phone as second screen; the page shows its code"},
           {"portwright serve --no-browser --port 9000", "only the address, on this port"}},
          false};
}

Command completion_command() {
  return {"completion", "completion for a shell",
          "",           {{"SHELL", true, "bash or zsh", Offers::words, {"bash", "zsh"}, false}},
          {},           {{"source <(portwright completion bash)", "for this shell"}},
          false};
}

Command man_command() {
  return {"man", "this program's manual page, as troff", "", {}, {}, {{"portwright man | man -l -", "read it"}}, false};
}

Command schema_command() {
  return {"schema",
          "the JSON Schemas of every answer",
          "",
          {},
          {{"--write", "", "DIR", "folder to write them to, one a file", {}, Offers::files}},
          {{"portwright schema --write docs/schema", "after a change to the table of shapes"}},
          true};
}

}  // namespace

const std::vector<Command>& commands() {
  static const std::vector<Command> all = [] {
    std::vector<Command> out = {
        study_command(), why_command(),      check_command(), compare_command(),        edge_command(),
        plan_command(),  seek_command(),     run_command(),   airflow_command(),        crank_command(),
        heat_command(),  revs_command(),     chain_command(), units_command(),          new_command(),
        map_command(),   template_command(), sheet_command(), measuring_sheet_command()};
    out.push_back(rubbing_command());
    out.push_back(batch_command());
    for (Command& command : book_commands()) out.push_back(std::move(command));
    for (const auto& make : {serve_command, completion_command, man_command, schema_command}) out.push_back(make());
    for (Command& command : page_commands()) out.push_back(std::move(command));
    return out;
  }();
  return all;
}

const std::vector<Option>& common_options() {
  static const std::vector<Option> all = {
      {"--json", "", "", "the answer as JSON (docs/schema); errors too", {}, Offers::nothing},
      {"--units",
       "",
       "STYLE",
       "shop: thou beside mm, psi, cc; metric: mm, bar, cm\u00B3",
       {"shop", "metric"},
       Offers::words},
      {"--book", "", "PATH", "the book; else PORTWRIGHT_BOOK, else the usual place", {}, Offers::files},
      {"--help", "-h", "", "this help", {}, Offers::nothing},
  };
  return all;
}

const Command* find_command(std::string_view name) {
  for (const Command& command : commands())
    if (command.name == name) return &command;
  return nullptr;
}

Named find_command(std::span<const std::string> words) {
  if (words.size() > 1)
    if (const Command* command = find_command(words[0] + ' ' + words[1])) return {command, 2};
  if (words.empty() || words[0].find(' ') != std::string::npos) return {};
  const Command* command = find_command(words[0]);
  return {command, command ? std::size_t{1} : 0};
}

bool belongs(const Command& command, const Command& group) {
  return group.group && command.name.size() > group.name.size() && command.name.starts_with(group.name) &&
         command.name[group.name.size()] == ' ';
}

std::vector<const Command*> members_of(const Command& group) {
  std::vector<const Command*> out;
  for (const Command& command : commands())
    if (belongs(command, group)) out.push_back(&command);
  return out;
}

bool stands_first(const Command& command) { return command.name.find(' ') == std::string_view::npos; }

std::string_view last_word(const Command& command) {
  const std::size_t blank = command.name.rfind(' ');
  return blank == std::string_view::npos ? command.name : command.name.substr(blank + 1);
}

}  // namespace portwright::cli
