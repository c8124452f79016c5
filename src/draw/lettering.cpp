#include "draw/lettering.hpp"

#include <algorithm>
#include <charconv>
#include <cstring>
#include <map>
#include <numbers>

#include "draw/lettering_table.hpp"
#include "draw/words.hpp"

namespace portwright::draw {
namespace {

constexpr double gap = 2.4;           // between two letters, on the grid of 10
constexpr double capital_rise = 3.0;  // accents stand so much higher over capitals

/// Reads numbers and pen commands one after the other.
class Pen {
 public:
  explicit Pen(const char* text) : at_(text) {}
  /// The next command letter; 0 at the end.
  char command() {
    while (*at_ == ' ') ++at_;
    return *at_ != '\0' ? *at_++ : '\0';
  }
  double number() {
    while (*at_ == ' ') ++at_;
    double value = 0.0;
    at_ = std::from_chars(at_, at_ + std::strlen(at_), value).ptr;
    return value;
  }
  Point point() {
    const double x = number();
    return {x, number()};
  }

 private:
  const char* at_;
};

double bulge_of(char command, Pen& pen) {
  constexpr double quarter = 0.41421356237309503;  // tan(22.5 deg)
  switch (command) {
    case 'h':
      return 1.0;
    case 'H':
      return -1.0;
    case 'q':
      return quarter;
    case 'Q':
      return -quarter;
    case 'a':
      return pen.number();
    default:
      return 0.0;
  }
}

/// Strokes of a pen text, moved; y up, so that the bulge of the text (clockwise as seen) changes sign in place.
std::vector<Path> drawn(const char* text, Point move) {
  std::vector<Path> strokes;
  Pen pen(text);
  for (char command = pen.command(); command != '\0'; command = pen.command()) {
    if (command == 'm') {
      strokes.emplace_back();
    } else {
      strokes.back().points.back().bulge = -bulge_of(command, pen);
    }
    strokes.back().points.push_back({pen.point() + move, 0.0});
  }
  return strokes;
}

const DrawnLetter* find(std::span<const DrawnLetter> table, char32_t code) {
  const auto it = std::find_if(table.begin(), table.end(), [&](const DrawnLetter& l) { return l.code == code; });
  return it != table.end() ? &*it : nullptr;
}

Glyph accented_glyph(const AccentedLetter& composed) {
  const DrawnLetter& letter = *find(drawn_letters(), composed.letter);
  const DrawnLetter& accent = *find(drawn_accents(), composed.accent);
  const bool below = composed.accent == 0x327 || composed.accent == 0x328;
  const bool tall = composed.letter < U'a' || composed.letter == U'd';
  Glyph out{letter.width, drawn(letter.pen, {})};
  for (Path& p : drawn(accent.pen, {letter.width / 2, tall && !below ? capital_rise : 0.0}))
    out.strokes.push_back(std::move(p));
  return out;
}

std::map<char32_t, Glyph> make_glyphs() {
  std::map<char32_t, Glyph> glyphs;
  for (const DrawnLetter& l : drawn_letters()) glyphs.emplace(l.code, Glyph{l.width, drawn(l.pen, {})});
  for (const AccentedLetter& a : accented_letters()) glyphs.emplace(a.code, accented_glyph(a));
  return glyphs;
}

const std::map<char32_t, Glyph>& glyphs() {
  static const std::map<char32_t, Glyph> table = make_glyphs();
  return table;
}

}  // namespace

const Glyph& glyph(char32_t code) {
  static const Glyph box{4.4, drawn("m 0 0 l 0 10 l 4.4 10 l 4.4 0 l 0 0", {})};
  const auto it = glyphs().find(code);
  return it != glyphs().end() ? it->second : box;
}

bool has_glyph(char32_t code) { return glyphs().contains(code); }

double lettering_width(std::string_view text, double height) {
  double sum = 0.0;
  bool first = true;
  for (const char32_t c : code_points(text)) {
    sum += (first ? 0.0 : gap) + glyph(c).width;
    first = false;
  }
  return sum * height / 10.0;
}

std::vector<Path> lettering_paths(const LetteringItem& item) {
  const double scale = item.style.size / 10.0;
  const double width = lettering_width(item.text, item.style.size);
  double x = item.at.x - (item.style.anchor == Anchor::start    ? 0.0
                          : item.style.anchor == Anchor::middle ? width / 2
                                                                : width);
  const double angle = item.style.angle * std::numbers::pi / 180.0;
  std::vector<Path> out;
  for (const char32_t c : code_points(item.text)) {
    const Glyph& g = glyph(c);
    for (const Path& stroke : g.strokes) {
      Path path = placed(stroke, {scale, {x, item.at.y}, true});
      out.push_back(angle != 0.0 ? turned(std::move(path), item.at, angle) : std::move(path));
    }
    x += (g.width + gap) * scale;
  }
  return out;
}

double lettering_weight(const TextStyle& style) {
  return style.weight > 0 ? style.weight : std::max(0.13, style.size / 12.0);
}

}  // namespace portwright::draw
