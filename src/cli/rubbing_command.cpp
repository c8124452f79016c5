#include "cli/rubbing_command.hpp"

#include <charconv>
#include <iostream>

#include "cli/page.hpp"
#include "cli/saying.hpp"
#include "desk/rubbing.hpp"
#include "wire/json_page.hpp"

namespace portwright::cli {
namespace {

// "812,604; 1400,610": pairs of pixels.
base::Result<std::vector<wire::Pair2>> places_of(const Words& words, const char* option) {
  std::vector<wire::Pair2> out;
  const std::string text = words.value(option);
  const char* at = text.data();
  const char* const end = at + text.size();
  while (at != end) {
    wire::Pair2 pair(2);
    for (double& number : pair) {
      while (at != end && (*at == ' ' || *at == ',' || *at == ';')) ++at;
      const auto read = std::from_chars(at, end, number);
      if (read.ec != std::errc())
        return base::fail(base::ErrorCode::usage, "\u201C" + text + "\u201D are no places in a picture.", option + 2,
                          "Give pixels: \"812,604\", several parted by semicolons.");
      at = read.ptr;
    }
    out.push_back(std::move(pair));
    while (at != end && (*at == ' ' || *at == ';')) ++at;
  }
  return out;
}

std::string signed_range(const wire::RubbingSize& size) {
  return size.text + (size.range.empty() ? "" : "   " + size.range + "  (95 %)");
}

std::string rubbing_text(const wire::RubbingAnswer& answer, const Setting& setting) {
  Page page(setting.coloured);
  page.heading("A window from its rubbing", answer.photo);
  page.rule();
  if (answer.found) {
    page.line({{left("area", 10), Ink::plain}, {signed_range(answer.area), Ink::bold}});
    page.line({{left("width", 10), Ink::plain}, {signed_range(answer.width), Ink::plain}});
    page.line({{left("height", 10), Ink::plain}, {signed_range(answer.height), Ink::plain}});
    page.line({{left("true to", 10), Ink::plain}, {answer.within.text + ", to each side", Ink::plain}});
    page.line();
    page.line("What makes the area's range", Ink::bold);
    for (const wire::RubbingPart& part : answer.parts) page.paragraph({"  ", Ink::plain}, part.text);
  } else {
    page.paragraph({"", Ink::plain}, answer.why, Ink::caution);
  }
  if (!answer.findings.empty()) page.line();
  for (const std::string& finding : answer.findings) page.paragraph({"\u00B7 ", Ink::faint}, finding);
  if (!answer.found) return page.text();
  page.line();
  page.line("As the port's outline takes it, seen from inside", Ink::bold);
  page.paragraph({"  ", Ink::plain}, answer.outline_text);
  return page.text();
}

}  // namespace

Command rubbing_command() {
  return {
      "rubbing",
      "a window's outline and area from the photo of its rubbing",
      "The rubbing lies in the printed square on the last page of the measuring sheet. The square gives the scale, "
      "the light the edge; everything that is not known has its part in the range. Paper that grew while it was wet "
      "is not known.",
      {{"FILE", true, "photo, JPEG or PNG", Offers::files, {}, false}},
      {{"--across",
        "",
        "LENGTH",
        "white inside of the square as measured on this print, side to side",
        {},
        Offers::nothing},
       {"--down", "", "LENGTH", "the same from roof to floor", {}, Offers::nothing},
       {"--bore", "", "LENGTH", "bore that the paper was pressed into", {}, Offers::nothing},
       {"--inside", "", "X,Y", "pixel within the window; two for the openings beside a bridge", {}, Offers::nothing},
       {"--corners",
        "",
        "PLACES",
        "the square's inner corners: left at the roof's side, then clockwise",
        {},
        Offers::nothing},
       {"--upright", "", "PLACES", "two pixels on a line along the bore", {}, Offers::nothing},
       {"--line", "", "SIDE", "where a pencil's line is taken (middle)", {"inner", "middle", "outer"}, Offers::words},
       {"--wall-side", "", "", "the photo shows the face that lay at the wall", {}, Offers::nothing},
       {"--taped", "", "", "the paper lies flat, taped by all its edges", {}, Offers::nothing},
       {"--output", "-o", "FILE", "the outline at true scale (SVG)", {}, Offers::files}},
      {{"portwright rubbing exhaust.jpg --across \"119.6 mm\" --down \"119.8 mm\" --taped", "a window with its range"},
       {"portwright rubbing exhaust.jpg --inside 1280,900 -o outline.svg", "where several could be meant"}},
      false};
}

int run_rubbing(const Words& words) {
  const bool json = words.has("--json");
  desk::RubbingFileRequest request{
      words.argument(0), words.value("--bore"), {}, style_of(words), words.value("--output")};
  for (const auto& [option, list] :
       {std::pair{"--inside", &request.hints.inside}, std::pair{"--corners", &request.hints.corners},
        std::pair{"--upright", &request.hints.upright}}) {
    auto places = places_of(words, option);
    if (!places) return say_errors({places.error()}, json);
    *list = *std::move(places);
  }
  request.hints.across = words.value("--across");
  request.hints.down = words.value("--down");
  request.hints.line = words.value("--line", "middle");
  request.hints.face = words.has("--wall-side") ? "wall side" : "inside";
  request.hints.taped = words.has("--taped");
  const auto answer = desk::rubbing_file(request);
  if (!answer) return say_errors(answer.error(), json);
  std::cout << (json ? wire::to_json(*answer) : rubbing_text(*answer, setting_of(words)));
  return answer->found ? 0 : base::exit_status(base::ErrorCode::unreadable);
}

}  // namespace portwright::cli
