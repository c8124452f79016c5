// Outlines: read from a file, and moved by a cut.

#include <algorithm>
#include <filesystem>

#include "base/file.hpp"
#include "base/quantity/normal.hpp"
#include "base/quantity/text.hpp"
#include "cuts/prepared.hpp"
#include "cuts/words.hpp"
#include "saw/file.hpp"

namespace portwright::cuts {

using base::Dimension;
using base::ErrorCode;
using geometry::Point;
using geometry::Window;

namespace {

constexpr std::size_t longest_file = 64 * 1024;
constexpr std::size_t most_points = 500;

struct Columns {
  std::vector<Point> points;
  bool wall_side = false;
};

tl::unexpected<base::Error> refuse_line(std::size_t line, const std::string& why) {
  return base::fail(ErrorCode::unreadable, "line " + std::to_string(line) + " of the outline " + why, {},
                    "a line is two lengths with their units, as in: -12.0 mm  0.5 mm");
}

/// Texts of the quantities in a line: a new one starts once the last one has its unit.
std::vector<std::string> quantities(const std::vector<Word>& words) {
  std::vector<std::string> out;
  bool complete = true;
  for (const Word& word : words) {
    std::string text = word.text;
    while (!text.empty() && text.back() == ',') text.pop_back();
    if (text.empty()) continue;
    if (complete)
      out.push_back(text);
    else
      out.back() += (out.back() == "-" ? "" : " ") + text;
    complete = std::any_of(text.begin(), text.end(), [](char c) { return base::typed::is_letter(c) || c == '"'; });
  }
  return out;
}

base::Result<void> take_line(Columns& columns, const Phrase& phrase, std::size_t line) {
  if (lower(phrase.words.front().text) == "seen") {
    columns.wall_side = lower(phrase.text).find("wall side") != std::string::npos;
    const bool known = columns.wall_side || lower(phrase.text).find("inside") != std::string::npos;
    if (!known) return refuse_line(line, "says neither \"seen inside\" nor \"seen wall side\"");
    return {};
  }
  const auto texts = quantities(phrase.words);
  if (texts.size() != 2) return refuse_line(line, "is not two lengths: " + shown(phrase.text));
  const auto x = base::parse_quantity(texts[0], Dimension::length);
  const auto y = base::parse_quantity(texts[1], Dimension::length);
  if (!x) return refuse_line(line, "cannot be taken: " + x.error().message);
  if (!y) return refuse_line(line, "cannot be taken: " + y.error().message);
  if (columns.points.size() == most_points) return refuse_line(line, "is one more than the 500 points there may be");
  columns.points.push_back({x->si, y->si});
  return {};
}

base::Result<Columns> read_columns(std::string_view text) {
  Columns columns;
  for (std::size_t line = 1; !text.empty(); ++line) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    const auto phrases = part_list(text.substr(0, std::min(end, text.substr(0, end).find('#'))));
    if (!phrases) return refuse_line(line, "cannot be taken: " + phrases.error().message);
    if (phrases->size() > 1) return refuse_line(line, "has a semicolon or a line end in it");
    if (phrases->size() == 1) {
      if (auto fine = take_line(columns, phrases->front(), line); !fine) return tl::unexpected(fine.error());
    }
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  if (columns.wall_side) {
    for (Point& point : columns.points) point.x = -point.x;
  }
  return columns;
}

base::Result<Window> outline_in_saw(const Cut& cut, const std::string& path) {
  const auto read = saw::read_saw_file(path);
  if (!read) return tl::unexpected(read.error().front());
  const geometry::Survey survey = geometry::survey(read->readings);
  const int entry = survey.find_port(cut.port);
  if (entry < 0) return base::fail(ErrorCode::not_found, "has no port " + shown(cut.port));
  const Window& traced = survey.ports[static_cast<std::size_t>(entry)].traced;
  if (traced.empty()) return base::fail(ErrorCode::not_found, "has no outline of the port " + shown(cut.port));
  return traced.moved_down(-traced.roof());
}

}  // namespace

base::Result<Window> read_outline(const Cut& cut, const std::string& path) {
  if (std::filesystem::path(path).extension() == ".toml") return outline_in_saw(cut, path);
  const auto text = base::read_file(path, longest_file);
  if (!text) return tl::unexpected(text.error());
  const auto columns = read_columns(*text);
  if (!columns) return tl::unexpected(columns.error());
  return Window::from_outline(columns->points, 0.0);
}

Window cut_outline(const Window& outline, const Step& step) {
  const bool roof = step.act == Act::roof || (step.act == Act::weld && step.side == Side::roof);
  const bool floor = step.act == Act::floor || (step.act == Act::weld && step.side == Side::floor);
  const double up = step.act == Act::weld && roof ? -step.amount : step.amount;
  const double middle = 0.5 * (outline.roof() + outline.floor());
  const Window::Extent extent = outline.extent();
  const double centre = 0.5 * (extent.left + extent.right);
  std::vector<Point> points;
  for (const auto& loop : outline.polygons(1e-6)) points.insert(points.end(), loop.begin(), loop.end());
  for (Point& p : points) {
    const bool right = p.x > centre, above = p.y < middle;
    if (step.act == Act::widen && right && step.side != Side::left) p.x += step.amount;
    if (step.act == Act::widen && !right && step.side != Side::right) p.x -= step.amount;
    if ((roof && above) || (floor && !above)) p.y -= up;
  }
  auto cut = Window::from_outline(points, 0.0);
  return cut ? *std::move(cut) : Window();
}

}  // namespace portwright::cuts
