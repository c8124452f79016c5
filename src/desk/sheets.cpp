#include <ctime>

#include "base/quantity/text.hpp"
#include "desk/case.hpp"
#include "desk/desk.hpp"
#include "desk/labels.hpp"
#include "desk/shown.hpp"
#include "desk/written.hpp"
#include "draw/pdf.hpp"
#include "draw/svg.hpp"
#include "sheet/map.hpp"
#include "sheet/measuring_sheet.hpp"
#include "sheet/paper_template.hpp"

namespace portwright::desk {
namespace {

template <class T>
tl::unexpected<base::Errors> alone(const base::Result<T>& failed) {
  return tl::unexpected(base::Errors{failed.error()});
}

// A value of the command line in the unit of its kind's figures [mm], [deg].
base::Result<double> shown_value(const std::string& text, base::Dimension dimension, const std::string& path) {
  const auto quantity = base::parse_quantity(text, dimension, path);
  if (!quantity) return tl::unexpected(quantity.error());
  return quantity->si * base::shown_unit(dimension).per_si;
}

base::Result<sheet::Paper> paper_of(const std::string& name) {
  if (name.empty()) return sheet::a4;
  const auto paper = sheet::find_paper(name);
  if (!paper)
    return base::fail(base::ErrorCode::usage, "\u201C" + name + "\u201D is no paper this program knows.", "paper",
                      "A4 or Letter.");
  return *paper;
}

// "99.2 mm, 99.6 mm", or one length for both. The comma that parts them is the one with a blank or a letter beside it;
// a decimal comma has digits on both sides.
base::Result<sheet::Printer> printer_of(const std::string& text) {
  sheet::Printer printer;
  if (text.empty()) return printer;
  const auto is_digit = [&](std::size_t i) { return i < text.size() && text[i] >= '0' && text[i] <= '9'; };
  std::size_t split = std::string::npos;
  for (std::size_t i = 1; i < text.size() && split == std::string::npos; ++i)
    if (text[i] == ';' || (text[i] == ',' && !(is_digit(i - 1) && is_digit(i + 1)))) split = i;
  const auto across = shown_value(text.substr(0, split), base::Dimension::length, "printer");
  if (!across) return tl::unexpected(across.error());
  const auto along =
      split == std::string::npos ? across : shown_value(text.substr(split + 1), base::Dimension::length, "printer");
  if (!along) return tl::unexpected(along.error());
  printer.across = *across;
  printer.along = *along;
  return printer;
}

sheet::Labels labels(const Case& opened) {
  sheet::Labels out = sheet::labels_of(opened.survey);
  out.saw = opened.readings.name;
  out.state = opened.readings.state;
  out.plan = plan_name(opened.cut_list.size());
  return out;
}

std::vector<study::Finding> findings(const Case& opened, base::UnitStyle style) {
  return study::study(opened.survey, opened.cut_list, opened.cuts(), study_options({}, style)).findings;
}

// The engine before any cut, then after each in order.
base::ResultAll<std::vector<geometry::Engine>> engines(const Case& opened, const std::string& file) {
  const geometry::Engine stock = geometry::resolve(opened.survey);
  std::vector<geometry::Engine> out = {stock};
  for (std::size_t count = 1; count <= opened.cut_list.size(); ++count) {
    const cuts::CutList first(opened.cut_list.begin(), opened.cut_list.begin() + static_cast<std::ptrdiff_t>(count));
    const auto prepared = cuts::prepare(first, opened.survey, folder_of(file));
    if (!prepared) return tl::unexpected(prepared.error());
    out.push_back(stock);
    cuts::apply(**prepared, out.back());
  }
  return out;
}

Sheet sheet_of(const char* kind, const char* format, std::string bytes) {
  Sheet out;
  out.about.kind = kind;
  out.about.format = format;
  out.about.bytes = static_cast<int>(bytes.size());
  out.bytes = std::move(bytes);
  return out;
}

base::ResultAll<Sheet> pdf_sheet(const char* kind, const draw::Document& document, const std::string& paper) {
  draw::PdfOptions options;
  options.date = static_cast<std::int64_t>(std::time(nullptr));
  auto bytes = draw::to_pdf(document, options);
  if (!bytes) return alone(bytes);
  Sheet out = sheet_of(kind, "pdf", std::move(*bytes));
  out.about.pages = static_cast<int>(document.pages.size());
  out.about.paper = paper;
  return out;
}

base::ResultAll<wire::WrittenAnswer> written(base::ResultAll<Sheet> sheet, const std::string& output) {
  if (!sheet) return tl::unexpected(sheet.error());
  if (auto done = put(output, sheet->bytes); !done) return alone(done);
  sheet->about.file = output;
  return std::move(sheet->about);
}

}  // namespace

base::ResultAll<Sheet> map_sheet(const MapRequest& request) {
  auto opened = open_sound_case(request.file, request.cuts, request.book);
  if (!opened) return tl::unexpected(opened.error());
  const auto after = engines(*opened, request.file);
  if (!after) return tl::unexpected(after.error());
  const auto found = findings(*opened, request.style);
  sheet::MapInput input{*after, opened->cut_list, labels(*opened), found, {}};
  if (!request.at.empty()) {
    const auto at = base::parse_quantity(request.at, base::Dimension::angle, "at");
    if (!at) return alone(at);
    input.angle = at->si;
  }
  const auto document = sheet::draw_map(input);
  if (!document) return alone(document);
  draw::SvgOptions options;
  options.theme = &draw::theme_paper();
  Sheet out = sheet_of("map", "svg", draw::to_svg(document->pages.front(), options));
  out.about.notes.push_back("True scale: 1 mm on the page is 1 mm in the bore.");
  out.about.head = std::move(opened->head);
  return out;
}

base::ResultAll<wire::WrittenAnswer> map(const MapRequest& request) {
  return written(map_sheet(request), request.output);
}

base::ResultAll<Sheet> template_sheet(const TemplateRequest& request) {
  auto opened = open_sound_case(request.file, request.cuts, request.book);
  if (!opened) return tl::unexpected(opened.error());
  const auto paper = paper_of(request.paper);
  if (!paper) return alone(paper);
  const auto printer = printer_of(request.printer);
  if (!printer) return alone(printer);
  const auto after = engines(*opened, request.file);
  if (!after) return tl::unexpected(after.error());
  const auto found = findings(*opened, request.style);
  sheet::TemplateInput input{*after, opened->cut_list, labels(*opened), found, *paper, *printer};
  if (!request.paper_thickness.empty()) {
    const auto thickness = shown_value(request.paper_thickness, base::Dimension::length, "paper-thickness");
    if (!thickness) return alone(thickness);
    input.paper_thickness = *thickness;
  }
  const auto document = sheet::draw_template(input);
  if (!document) return alone(document);
  auto answer = pdf_sheet("template", *document, std::string(paper->name));
  if (!answer) return answer;
  answer->about.notes.push_back(
      "Print at 100 %, then hold your ruler to both bars: each must measure 100 mm. If not, give what they measure "
      "with --printer.");
  answer->about.head = std::move(opened->head);
  return answer;
}

base::ResultAll<wire::WrittenAnswer> paper_template(const TemplateRequest& request) {
  return written(template_sheet(request), request.output);
}

base::ResultAll<Sheet> blank_measuring_sheet(const MeasuringSheetRequest& request) {
  const auto paper = paper_of(request.paper);
  if (!paper) return alone(paper);
  return pdf_sheet("measuring-sheet", sheet::draw_measuring_sheet(*paper), std::string(paper->name));
}

base::ResultAll<wire::WrittenAnswer> measuring_sheet(const MeasuringSheetRequest& request) {
  return written(blank_measuring_sheet(request), request.output);
}

}  // namespace portwright::desk
