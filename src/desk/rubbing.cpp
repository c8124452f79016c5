#include "desk/rubbing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/file.hpp"
#include "base/quantity/text.hpp"
#include "desk/rubbing_parts.hpp"
#include "desk/written.hpp"
#include "picture/read.hpp"
#include "rubbing/kept_points.hpp"

namespace portwright::desk {
namespace {

using base::ErrorCode;
using rubbing::Point;

constexpr double least_side = 100.0, greatest_side = 130.0;  // of a printed square [mm]
constexpr std::size_t remembered = 2;

base::Error wrong(const char* path, std::string message, std::string hint = {}) {
  return {ErrorCode::usage, std::move(message), path, std::move(hint), {}};
}

std::vector<wire::Pair2> pairs_of(const rubbing::Loop& points) {
  std::vector<wire::Pair2> out;
  for (const Point& p : points) out.push_back({p.x, p.y});
  return out;
}

// Places of a list: so many at least and at most, or none.
rubbing::Loop places_of(const std::vector<wire::Pair2>& list, std::size_t least, std::size_t most, const char* path,
                        base::Errors& errors) {
  rubbing::Loop out;
  const bool pairs = std::all_of(list.begin(), list.end(), [](const wire::Pair2& p) {
    return p.size() == 2 && std::isfinite(p[0]) && std::isfinite(p[1]) && std::abs(p[0]) < 1e5 && std::abs(p[1]) < 1e5;
  });
  if (!pairs || (!list.empty() && (list.size() < least || list.size() > most))) {
    errors.push_back(wrong(path, least == most
                                     ? fmt::format("Give {} places, each as x and y in pixels.", least)
                                     : fmt::format("Give {} to {} places, each as x and y in pixels.", least, most)));
    return out;
  }
  for (const wire::Pair2& p : list) out.push_back({p[0], p[1]});
  return out;
}

std::optional<double> side_of(const std::string& text, const char* path, base::Errors& errors) {
  if (text.empty()) return std::nullopt;
  const auto read = base::parse_quantity(text, base::Dimension::length, path);
  if (!read) {
    errors.push_back(read.error());
    return std::nullopt;
  }
  const double mm = 1e3 * read->si;
  if (mm >= least_side && mm <= greatest_side) return mm;
  errors.push_back({ErrorCode::out_of_range,
                    "\u201C" + text + "\u201D is no side of the printed square.",
                    path,
                    "It is drawn with 120 mm inside; measure from black to black.",
                    {}});
  return std::nullopt;
}

wire::RubbingSize size_of(const rubbing::Size& size, double per_unit, const char* unit, base::UnitStyle style) {
  const base::Spread spread{per_unit * size.value, per_unit * std::max(0.0, size.value - size.plus_minus),
                            per_unit * (size.value + size.plus_minus)};
  return {spread.value,
          *spread.low,
          *spread.high,
          unit,
          base::value_text(spread, unit, style),
          base::range_text(spread, unit, style)};
}

std::string reason_of(const std::string& part) {
  if (part == "scale") return "size of this print";
  if (part == "edge") return "how sharp the edge is seen";
  if (part == "line") return "half the width of the pencil's line";
  if (part == "flatness") return "how flat sheet and strip lie";
  if (part == "bend") return "bend of the paper in the bore";
  return "points put by hand";
}

std::vector<wire::RubbingPart> parts_of(const rubbing::Measured& measured) {
  std::vector<wire::RubbingPart> out;
  for (const rubbing::Part& part : measured.parts) {
    const double cm2 = 0.01 * part.plus_minus;
    out.push_back({part.name, cm2, fmt::format("{}: \u00B1{:.3f} cm\u00B2", reason_of(part.name), cm2)});
  }
  return out;
}

// The outline as its field takes it; two openings joined by a slit need one more digit.
std::string outline_text(const rubbing::Loop& points, bool fine) {
  std::string out;
  for (const Point& p : points)
    out += fmt::format("{}{:.{}f} mm, {:.{}f} mm", out.empty() ? "" : "; ", p.x, fine ? 3 : 2, p.y, fine ? 3 : 2);
  return out;
}

void fill_measured(wire::RubbingAnswer& out, const rubbing::Measured& measured, bool fine, base::UnitStyle style) {
  out.found = true;
  out.outline = pairs_of(measured.outline);
  out.handles = pairs_of(measured.handles);
  out.points = pairs_of(measured.points);
  out.moved = measured.moved;
  out.area = size_of(measured.area, 0.01, "cm2", style);
  out.width = size_of(measured.width, 1.0, "mm", style);
  out.height = size_of(measured.height, 1.0, "mm", style);
  out.within = size_of({measured.within, 0.0}, 1.0, "mm", style);
  out.within.text = fmt::format("{:.2f} mm", measured.within);
  out.within.range.clear();
  out.line_width = measured.line_width;
  out.parts = parts_of(measured);
  out.outline_text = outline_text(measured.points, fine);
}

std::string svg_of(const rubbing::Measured& measured) {
  constexpr double rim = 2.0;
  const rubbing::Extent e = rubbing::extent_of({measured.points});
  std::string points;
  for (const Point& p : measured.points) points += fmt::format("{:.3f},{:.3f} ", p.x, p.y);
  return fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0:.3f}mm\" height=\"{1:.3f}mm\" viewBox=\"{2:.3f} {3:.3f} "
      "{0:.3f} {1:.3f}\"><title>Outline of a window, from inside, true scale</title><polygon points=\"{4}\" "
      "fill=\"none\" stroke=\"black\" stroke-width=\"0.13\"/></svg>\n",
      e.width() + 2 * rim, e.height() + 2 * rim, e.left - rim, e.top - rim, points);
}

}  // namespace

RubbingMemory::RubbingMemory() : inside_(std::make_unique<Inside>()) {}
RubbingMemory::~RubbingMemory() = default;

base::Result<RubbingPhoto> rubbing_photo(const std::string& bytes, const std::string& hash, RubbingMemory* memory) {
  if (memory != nullptr) {
    const std::lock_guard hold(memory->inside().guard);
    for (const RubbingMemory::Inside::One& one : memory->inside().known)
      if (one.hash == hash) return RubbingPhoto{one.grey, one.square};
  }
  const auto picture = picture::read_picture(bytes);
  if (!picture) return tl::unexpected(picture.error());
  const auto grey = std::make_shared<const picture::Grey>(picture::grey_of(*picture));
  RubbingPhoto out{grey, rubbing::find_square(*grey)};
  if (memory != nullptr) {
    const std::lock_guard hold(memory->inside().guard);
    auto& known = memory->inside().known;
    known.insert(known.begin(), {hash, out.grey, out.square});
    if (known.size() > remembered) known.pop_back();
  }
  return out;
}

base::ResultAll<rubbing::Hints> hints_of(const wire::RubbingHints& hints) {
  base::Errors errors;
  rubbing::Hints out;
  static_cast<void>(places_of(hints.corners, 4, 4, "corners", errors));
  out.inside = places_of(hints.inside, 1, 2, "inside", errors);
  out.points = places_of(hints.points, 3, rubbing::most_points, "points", errors);
  out.upright = places_of(hints.upright, 2, 2, "upright", errors);
  out.across = side_of(hints.across, "across", errors);
  out.down = side_of(hints.down, "down", errors);
  out.taped = hints.taped;
  if (hints.line != "inner" && hints.line != "middle" && hints.line != "outer")
    errors.push_back(wrong("line", "A pencil's line is taken at its inner side, its middle or its outer side."));
  out.line = hints.line == "inner"   ? rubbing::LineSide::inner
             : hints.line == "outer" ? rubbing::LineSide::outer
                                     : rubbing::LineSide::middle;
  if (hints.face != "inside" && hints.face != "wall side")
    errors.push_back(wrong("face", "A rubbing shows the inside or the wall side."));
  out.wall_side = hints.face == "wall side";
  if (!errors.empty()) return tl::unexpected(std::move(errors));
  return out;
}

RubbingResult measured_rubbing(const RubbingPhoto& photo, const std::string& name, const wire::RubbingHints& asked,
                               const rubbing::Hints& hints, base::UnitStyle style) {
  RubbingResult out;
  wire::RubbingAnswer& answer = out.answer;
  answer.photo = name;
  base::Result<rubbing::Square> square = photo.square;
  if (!asked.corners.empty()) {
    rubbing::Corners corners;
    for (std::size_t i = 0; i < 4; ++i) corners[i] = {asked.corners[i][0], asked.corners[i][1]};
    square = rubbing::square_near(*photo.grey, corners);
  }
  if (!square) {
    out.why = square.error();
  } else {
    const rubbing::Rubbing measured = rubbing::measure(*photo.grey, *square, hints);
    answer.square = true;
    answer.corners = pairs_of({square->corners.begin(), square->corners.end()});
    answer.scale = measured.scale;
    answer.straightness = square->straightness;
    answer.tilt = measured.tilt;
    answer.findings = measured.findings;
    out.measured = measured.measured;
    out.why = measured.why;
  }
  answer.measured = hints.across && hints.down;
  if (out.measured) fill_measured(answer, *out.measured, hints.inside.size() > 1, style);
  if (out.why) answer.why = out.why->message + (out.why->hint.empty() ? "" : ' ' + out.why->hint);
  for (wire::RubbingSize* size : {&answer.area, &answer.width, &answer.height, &answer.within})
    if (size->unit.empty()) size->unit = size == &answer.area ? "cm2" : "mm";
  answer.keep = !answer.found ? answer.why
                : !answer.measured
                    ? "Measure the white inside of the printed square both ways on this print, and type both."
                    : "";
  return out;
}

base::ResultAll<wire::RubbingAnswer> rubbing_file(const RubbingFileRequest& request) {
  auto hints = hints_of(request.hints);
  if (!hints) return tl::unexpected(hints.error());
  if (!request.bore.empty()) {
    const auto bore = base::parse_quantity(request.bore, base::Dimension::length, "bore");
    if (!bore) return tl::unexpected(base::Errors{bore.error()});
    if (!(bore->si >= 0.02 && bore->si <= 0.2))
      return tl::unexpected(
          base::Errors{{ErrorCode::out_of_range, "\u201C" + request.bore + "\u201D is no bore.", "bore", "", {}}});
    hints->bore = 1e3 * bore->si;
  }
  const auto bytes = base::read_file(request.file, picture::Caps{}.bytes);
  if (!bytes) return tl::unexpected(base::Errors{bytes.error()});
  const auto photo = rubbing_photo(*bytes, {}, nullptr);
  if (!photo) return tl::unexpected(base::Errors{photo.error()});
  hints->bridge = hints->inside.size() > 1;
  RubbingResult result = measured_rubbing(*photo, request.file, request.hints, *hints, request.style);
  if (!request.output.empty() && result.measured)
    if (auto done = put(request.output, svg_of(*result.measured)); !done)
      return tl::unexpected(base::Errors{done.error()});
  return std::move(result.answer);
}

}  // namespace portwright::desk
