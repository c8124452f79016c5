#include "draw/svg.hpp"

#include <charconv>
#include <cmath>
#include <numbers>

#include "draw/lettering.hpp"
#include "draw/words.hpp"

namespace portwright::draw {
namespace {

std::string hex(const Colour& c) {
  constexpr char digits[] = "0123456789abcdef";
  std::string out = "#";
  for (const std::uint8_t v : {c.red, c.green, c.blue}) {
    out += digits[v >> 4];
    out += digits[v & 15U];
  }
  return out;
}

/// Puts one canvas into text.
class Writer {
 public:
  Writer(const Canvas& canvas, const SvgOptions& options)
      : canvas_(canvas), options_(options), theme_(options.theme != nullptr ? *options.theme : theme_print()) {}

  std::string write() {
    head();
    for (const Item& item : canvas_.items()) std::visit([this](const auto& i) { put(i); }, item);
    return std::move(out_) + "</svg>\n";
  }

 private:
  void head() {
    const std::string w = plain_number(canvas_.width()), h = plain_number(canvas_.height());
    const std::string id = escaped(options_.id_prefix);
    out_ += "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"" + w + "mm\" height=\"" + h + "mm\" viewBox=\"0 0 " +
            w + " " + h + "\" role=\"img\" aria-labelledby=\"" + id + "-title " + id +
            "-desc\" fill=\"none\" font-family=\"Inter, 'DejaVu Sans', "
            "sans-serif\" style=\"font-variant-numeric:tabular-nums\">\n";
    out_ += "<title id=\"" + id + "-title\">" + escaped(canvas_.title) + "</title>\n";
    out_ += "<desc id=\"" + id + "-desc\">" + escaped(canvas_.description) + "</desc>\n";
    if (options_.ground) {
      out_ += "<rect width=\"" + w + "\" height=\"" + h + "\" fill=\"" + hex(theme_.colour(Role::ground)) + "\"/>\n";
    }
  }

  std::string number(double v) const { return plain_number(v); }
  std::string place(Point p) const {
    const Point c = canvas_.corrected(p);
    return number(c.x) + " " + number(c.y);
  }

  /// One piece of a path; a half circle or more is parted so that its direction is beyond doubt.
  void add_piece(std::string& d, const Vertex& from, Point to) const {
    if (from.bulge == 0.0 || from.at == to) {
      d += "L" + place(to);
      return;
    }
    const Arc a = arc_of(from, to);
    const int parts = std::abs(from.bulge) > 0.99 ? 2 : 1;
    const std::string radii = "A" + number(a.radius * canvas_.correction.x) + " " +
                              number(a.radius * canvas_.correction.y) + " 0 0 " + (a.sweep > 0 ? "1 " : "0 ");
    for (int k = 1; k <= parts; ++k) {
      const double angle = a.start + a.sweep * k / parts;
      const Point end =
          k == parts ? to : Point{a.centre.x + a.radius * std::cos(angle), a.centre.y + a.radius * std::sin(angle)};
      d += radii + place(end);
    }
  }

  std::string data(const std::vector<Path>& paths) const {
    std::string d;
    for (const Path& path : paths) {
      const std::size_t n = path.points.size();
      if (n == 0) continue;
      d += "M" + place(path.points.front().at);
      for (std::size_t i = 0; i + 1 < n; ++i) add_piece(d, path.points[i], path.points[i + 1].at);
      if (path.closed && path.points.back().bulge != 0.0) add_piece(d, path.points.back(), path.points.front().at);
      if (path.closed) d += "Z";
    }
    return d;
  }

  std::string pen(Role role, double w, bool round) const {
    std::string out = " stroke=\"" + hex(theme_.colour(role)) + "\" stroke-width=\"" + number(w) + "\"";
    return round ? out + " stroke-linecap=\"round\" stroke-linejoin=\"round\"" : out;
  }

  static std::string dashes(Dash dash) {
    std::string list;
    for (const double v : dash_lengths(dash)) {
      if (v > 0) list += (list.empty() ? "" : " ") + plain_number(v);
    }
    return list.empty() ? "" : " stroke-dasharray=\"" + list + "\"";
  }

  void put(const StrokeItem& item) {
    const Stroke& s = item.stroke;
    out_ += "<path d=\"" + data(item.paths) + "\"" + pen(s.role, s.weight * theme_.weight_factor, s.round) +
            dashes(s.dash) + "/>\n";
  }

  void put(const FillItem& item) {
    if (item.tint && theme_.tint <= 0) return;
    const Colour colour = item.tint ? theme_.tinted(item.role) : theme_.colour(item.role);
    out_ += "<path d=\"" + data(item.area) + "\" fill=\"" + hex(colour) + "\" fill-rule=\"evenodd\"/>\n";
  }

  void put(const LetteringItem& item) {
    const std::string d = data(lettering_paths(item));
    if (item.style.halo > 0) out_ += "<path d=\"" + d + "\"" + pen(Role::ground, item.style.halo, true) + "/>\n";
    const double w = lettering_weight(item.style) * std::sqrt(theme_.weight_factor);
    out_ += "<path role=\"img\" aria-label=\"" + escaped(item.text) + "\" d=\"" + d + "\"" +
            pen(item.style.role, w, true) + "/>\n";
  }

  void put(const WordsItem& item) {
    const TextStyle& s = item.style;
    const Point at = canvas_.corrected(item.at);
    out_ += "<text x=\"" + number(at.x) + "\" y=\"" + number(at.y) + "\" font-size=\"" + number(s.size) + "\" fill=\"" +
            hex(theme_.colour(s.role)) + "\"";
    if (s.bold) out_ += " font-weight=\"650\"";
    if (s.anchor != Anchor::start)
      out_ += s.anchor == Anchor::middle ? " text-anchor=\"middle\"" : " text-anchor=\"end\"";
    if (s.angle != 0.0)
      out_ += " transform=\"rotate(" + number(s.angle) + " " + number(at.x) + " " + number(at.y) + ")\"";
    if (s.halo > 0) out_ += pen(Role::ground, s.halo, true) + " paint-order=\"stroke\"";
    out_ += ">" + escaped(item.text) + "</text>\n";
  }

  void put(const ClipBegin& item) {
    const std::string id = escaped(options_.id_prefix) + "-clip" + std::to_string(++clips_);
    out_ += "<clipPath id=\"" + id + "\"><path clip-rule=\"evenodd\" d=\"" + data(item.area) +
            "\"/></clipPath>\n<g clip-path=\"url(#" + id + ")\">\n";
  }
  void put(const ClipEnd&) { out_ += "</g>\n"; }

  void put(const GroupBegin& item) {
    out_ += "<g";
    if (!item.id.empty()) out_ += " id=\"" + escaped(options_.id_prefix) + "-" + escaped(item.id) + "\"";
    out_ += ">\n";
    if (!item.title.empty()) out_ += "<title>" + escaped(item.title) + "</title>\n";
  }
  void put(const GroupEnd&) { out_ += "</g>\n"; }

  const Canvas& canvas_;
  const SvgOptions& options_;
  const Theme& theme_;
  std::string out_;
  int clips_ = 0;
};

}  // namespace

std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : clean_text(text)) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default:
        out += c;
    }
  }
  return out;
}

std::string plain_number(double value, int decimals) {
  char buffer[400];
  const auto end = std::to_chars(buffer, buffer + sizeof buffer, std::isfinite(value) ? value : 0.0,
                                 std::chars_format::fixed, decimals);
  std::string text(buffer, end.ptr);
  if (text.find('.') != std::string::npos) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
  }
  return text == "-0" ? "0" : text;
}

std::string to_svg(const Canvas& canvas, const SvgOptions& options) { return Writer(canvas, options).write(); }

}  // namespace portwright::draw
