// The only file that knows libharu. Its callbacks never throw: errors are kept and turned into base::Error at the end.
#include "draw/pdf.hpp"

#include <hpdf.h>
#include <unistd.h>

#include <algorithm>
#include <charconv>
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <cstring>
#include <memory>
#include <numbers>
#include <span>

#include "draw/lettering.hpp"
#include "draw/words.hpp"

namespace portwright::draw {
namespace {

constexpr double points_per_mm = 72.0 / 25.4;
constexpr std::size_t longest_text = 2000;  // code points; the library refuses strings over 32 kB

/// First trouble the library met.
struct Trouble {
  HPDF_STATUS code = 0;
  HPDF_STATUS detail = 0;
};

extern "C" void keep_trouble(HPDF_STATUS code, HPDF_STATUS detail, void* user) {
  auto* trouble = static_cast<Trouble*>(user);
  if (trouble->code == 0) *trouble = {code, detail};
}

struct FreeDocument {
  void operator()(HPDF_Doc doc) const { HPDF_Free(doc); }
};
using DocumentHandle = std::unique_ptr<std::remove_pointer_t<HPDF_Doc>, FreeDocument>;

struct Faces {
  HPDF_Font plain = nullptr;
  HPDF_Font bold = nullptr;
};

HPDF_Font load_face(HPDF_Doc doc, const std::string& path, Trouble& trouble) {
  if (trouble.code != 0 || ::access(path.c_str(), R_OK) != 0) return nullptr;
  const char* name = HPDF_LoadTTFontFromFile(doc, path.c_str(), HPDF_TRUE);
  HPDF_Font font = name != nullptr ? HPDF_GetFont(doc, name, "UTF-8") : nullptr;
  if (font == nullptr) {
    HPDF_ResetError(doc);
    trouble = {};
  }
  return font;
}

/// Text as the library can take it: the basic plane only, and not too long.
std::string library_text(std::string_view text) {
  std::string out;
  std::size_t count = 0;
  for (const char32_t c : code_points(text)) {
    if (++count > longest_text) break;
    out += to_utf8(c > 0xFFFF ? U'\uFFFD' : c);
  }
  return out;
}

HPDF_REAL real(double v) { return static_cast<HPDF_REAL>(v); }

/// Puts one canvas on one page.
class PageWriter {
 public:
  PageWriter(HPDF_Page page, const Canvas& canvas, const Theme& theme, const Faces& faces)
      : page_(page), canvas_(canvas), theme_(theme), faces_(faces) {}

  void write() {
    HPDF_Page_SetWidth(page_, real(canvas_.width() * points_per_mm));
    HPDF_Page_SetHeight(page_, real(canvas_.height() * points_per_mm));
    if (!(theme_.colour(Role::ground) == Colour{255, 255, 255})) {
      put(FillItem{{rectangle(0, 0, canvas_.width(), canvas_.height())}, Role::ground, false});
    }
    for (const Item& item : canvas_.items()) std::visit([this](const auto& i) { put(i); }, item);
    while (clips_-- > 0) HPDF_Page_GRestore(page_);
  }

 private:
  /// A place on the canvas in PDF points, y up, after the printer correction.
  Point point(Point p) const {
    const Point c = canvas_.corrected(p);
    return {c.x * points_per_mm, (canvas_.height() - c.y) * points_per_mm};
  }
  void line_to(Point p) {
    const Point q = point(p);
    HPDF_Page_LineTo(page_, real(q.x), real(q.y));
  }

  /// A bent piece as Bezier curves no further than 0.0005 mm from the arc: a quarter circle errs by 2.8e-4 of the
  /// radius, and the error falls with the sixth power of the angle.
  void arc_to(const Vertex& from, Point to) {
    const Arc a = arc_of(from, to);
    constexpr double quarter = std::numbers::pi / 2;
    const double largest = quarter * std::min(1.0, std::pow(0.0005 / (2.8e-4 * a.radius), 1.0 / 6.0));
    const int parts = std::clamp(static_cast<int>(std::ceil(std::abs(a.sweep) / largest)), 1, 256);
    const double step = a.sweep / parts, k = 4.0 / 3.0 * std::tan(step / 4) * a.radius;
    for (int i = 0; i < parts; ++i) {
      const double s = a.start + i * step, e = s + step;
      const auto on = [&](double angle) {
        return Point{a.centre.x + a.radius * std::cos(angle), a.centre.y + a.radius * std::sin(angle)};
      };
      const Point start = on(s), end = i + 1 == parts ? to : on(e);
      const Point c1 = point(start + k * Point{-std::sin(s), std::cos(s)}),
                  c2 = point(end - k * Point{-std::sin(e), std::cos(e)}), q = point(end);
      HPDF_Page_CurveTo(page_, real(c1.x), real(c1.y), real(c2.x), real(c2.y), real(q.x), real(q.y));
    }
  }

  void piece_to(const Vertex& from, Point to) {
    if (from.bulge == 0.0 || from.at == to)
      line_to(to);
    else
      arc_to(from, to);
  }

  void trace(const std::vector<Path>& paths) {
    for (const Path& path : paths) {
      const std::size_t n = path.points.size();
      if (n == 0) continue;
      const Point first = point(path.points.front().at);
      HPDF_Page_MoveTo(page_, real(first.x), real(first.y));
      for (std::size_t i = 0; i + 1 < n; ++i) piece_to(path.points[i], path.points[i + 1].at);
      if (path.closed && path.points.back().bulge != 0.0) piece_to(path.points.back(), path.points.front().at);
      if (path.closed) HPDF_Page_ClosePath(page_);
    }
  }

  static bool is_empty(const Area& area) {
    return std::all_of(area.begin(), area.end(), [](const Path& p) { return p.points.empty(); });
  }

  void set_fill(const Colour& c) {
    HPDF_Page_SetRGBFill(page_, real(c.red / 255.0), real(c.green / 255.0), real(c.blue / 255.0));
  }
  void set_pen(Role role, double w, bool round) {
    const Colour& c = theme_.colour(role);
    HPDF_Page_SetRGBStroke(page_, real(c.red / 255.0), real(c.green / 255.0), real(c.blue / 255.0));
    HPDF_Page_SetLineWidth(page_, real(w * points_per_mm));
    HPDF_Page_SetLineCap(page_, round ? HPDF_ROUND_END : HPDF_BUTT_END);
    HPDF_Page_SetLineJoin(page_, round ? HPDF_ROUND_JOIN : HPDF_MITER_JOIN);
  }
  /// The library knows dashes in whole points only, so they are drawn as geometry.
  void trace_dashed(const std::vector<Path>& paths, Dash dash) {
    const auto lengths = dash_lengths(dash);
    const auto used =
        static_cast<std::size_t>(std::count_if(lengths.begin(), lengths.end(), [](double v) { return v > 0; }));
    if (used == 0) return trace(paths);
    for (const Path& path : paths) trace(dashed(path, std::span(lengths.data(), used)));
  }

  void put(const StrokeItem& item) {
    set_pen(item.stroke.role, item.stroke.weight * theme_.weight_factor, item.stroke.round);
    trace_dashed(item.paths, item.stroke.dash);
    HPDF_Page_Stroke(page_);
  }

  void put(const FillItem& item) {
    if (item.tint && theme_.tint <= 0) return;
    if (is_empty(item.area)) return;
    set_fill(item.tint ? theme_.tinted(item.role) : theme_.colour(item.role));
    trace(item.area);
    HPDF_Page_Eofill(page_);
  }

  void put(const LetteringItem& item) {
    const std::vector<Path> paths = lettering_paths(item);
    if (paths.empty()) return;
    if (item.style.halo > 0) {
      set_pen(Role::ground, item.style.halo, true);
      trace(paths);
      HPDF_Page_Stroke(page_);
    }
    set_pen(item.style.role, lettering_weight(item.style) * std::sqrt(theme_.weight_factor), true);
    trace(paths);
    HPDF_Page_Stroke(page_);
    lay_in(item);
  }

  /// The same letters as text that cannot be seen, as wide as the drawn ones.
  void lay_in(const LetteringItem& item) {
    if (faces_.plain == nullptr) return;
    TextStyle style = item.style;
    style.size = item.style.size / 0.73;  // capitals of the face are 0.73 em high
    const double wide = words_width(item.text, style.size);
    if (!(wide > 0)) return;
    const double stretch = std::clamp(lettering_width(item.text, item.style.size) / wide, 0.1, 3.0);
    show(item.at, item.text, style, faces_.plain, HPDF_INVISIBLE, stretch);
  }

  void put(const WordsItem& item) {
    HPDF_Font face = item.style.bold && faces_.bold != nullptr ? faces_.bold : faces_.plain;
    if (face == nullptr) {
      TextStyle style = item.style;
      style.size *= std::min(
          0.6, 0.73 * words_width(item.text, 1.0, style.bold) / std::max(1e-9, lettering_width(item.text, 0.73)));
      put(LetteringItem{item.at, item.text, style});
      return;
    }
    if (item.style.halo > 0) {
      set_pen(Role::ground, item.style.halo, true);
      show(item.at, item.text, item.style, face, HPDF_STROKE, 1.0);
    }
    set_fill(theme_.colour(item.style.role));
    show(item.at, item.text, item.style, face, HPDF_FILL, 1.0);
  }

  void show(Point at, const std::string& text, const TextStyle& style, HPDF_Font face, HPDF_TextRenderingMode mode,
            double stretch) {
    const std::string shown = library_text(text);
    HPDF_Page_SetFontAndSize(page_, face, real(style.size * points_per_mm));
    const double width = HPDF_Page_TextWidth(page_, shown.c_str()) * stretch;
    const double back = style.anchor == Anchor::start ? 0.0 : style.anchor == Anchor::middle ? width / 2 : width;
    const double t = -style.angle * std::numbers::pi / 180.0;
    const Point p = point(at);
    HPDF_Page_BeginText(page_);
    HPDF_Page_SetTextRenderingMode(page_, mode);
    HPDF_Page_SetHorizontalScalling(page_, real(100 * stretch));
    HPDF_Page_SetTextMatrix(page_, real(std::cos(t)), real(std::sin(t)), real(-std::sin(t)), real(std::cos(t)),
                            real(p.x - back * std::cos(t)), real(p.y - back * std::sin(t)));
    HPDF_Page_ShowText(page_, shown.c_str());
    HPDF_Page_EndText(page_);
  }

  void put(const ClipBegin& item) {
    HPDF_Page_GSave(page_);
    trace(is_empty(item.area) ? Area{rectangle(0, 0, 0, 0)} : item.area);
    HPDF_Page_Eoclip(page_);
    HPDF_Page_EndPath(page_);
    ++clips_;
  }
  void put(const ClipEnd&) {
    if (clips_ == 0) return;
    HPDF_Page_GRestore(page_);
    --clips_;
  }
  void put(const GroupBegin&) {}
  void put(const GroupEnd&) {}

  HPDF_Page page_;
  const Canvas& canvas_;
  const Theme& theme_;
  const Faces& faces_;
  int clips_ = 0;
};

std::int64_t date_of(const PdfOptions& options) {
  const char* text = std::getenv("SOURCE_DATE_EPOCH");
  if (text == nullptr) return options.date;
  std::int64_t seconds = 0;
  const char* end = text + std::strlen(text);
  const auto read = std::from_chars(text, end, seconds);
  return read.ec == std::errc{} && read.ptr == end && seconds >= 0 && seconds < 253402300800 ? seconds : options.date;
}

HPDF_Date calendar(std::int64_t seconds) {
  using namespace std::chrono;
  const sys_seconds time{std::chrono::seconds{seconds}};
  const auto day = floor<days>(time);
  const year_month_day ymd{day};
  const hh_mm_ss clock{time - day};
  HPDF_Date date{};
  date.year = static_cast<int>(ymd.year());
  date.month = static_cast<int>(static_cast<unsigned>(ymd.month()));
  date.day = static_cast<int>(static_cast<unsigned>(ymd.day()));
  date.hour = static_cast<int>(clock.hours().count());
  date.minutes = static_cast<int>(clock.minutes().count());
  date.seconds = static_cast<int>(clock.seconds().count());
  date.ind = 'Z';
  return date;
}

void describe(HPDF_Doc doc, const Document& document, const PdfOptions& options) {
  HPDF_SetCurrentEncoder(doc, "UTF-8");
  HPDF_SetInfoAttr(doc, HPDF_INFO_TITLE, library_text(clean_text(document.title)).c_str());
  if (!document.subject.empty())
    HPDF_SetInfoAttr(doc, HPDF_INFO_SUBJECT, library_text(clean_text(document.subject)).c_str());
  HPDF_SetInfoAttr(doc, HPDF_INFO_CREATOR, "Portwright");
  HPDF_SetInfoDateAttr(doc, HPDF_INFO_CREATION_DATE, calendar(date_of(options)));
  HPDF_SetViewerPreference(doc, HPDF_PRINT_SCALING_NONE);
}

bool has_only_finite(const Canvas& canvas) {
  const auto finite = [](Point p) { return std::isfinite(p.x) && std::isfinite(p.y); };
  const auto all = [&](const std::vector<Path>& paths) {
    return std::all_of(paths.begin(), paths.end(), [&](const Path& p) {
      return std::all_of(p.points.begin(), p.points.end(),
                         [&](const Vertex& v) { return finite(v.at) && std::isfinite(v.bulge); });
    });
  };
  return std::all_of(canvas.items().begin(), canvas.items().end(), [&](const Item& item) {
    if (const auto* s = std::get_if<StrokeItem>(&item)) return all(s->paths);
    if (const auto* f = std::get_if<FillItem>(&item)) return all(f->area);
    if (const auto* c = std::get_if<ClipBegin>(&item)) return all(c->area);
    if (const auto* l = std::get_if<LetteringItem>(&item)) return finite(l->at) && std::isfinite(l->style.size);
    if (const auto* w = std::get_if<WordsItem>(&item)) return finite(w->at) && std::isfinite(w->style.size);
    return true;
  });
}

base::Result<void> check(const Document& document) {
  if (document.pages.empty()) return base::fail(base::ErrorCode::impossible, "a paper without pages cannot be written");
  for (const Canvas& page : document.pages) {
    const bool fits = page.width() >= 2 && page.height() >= 2 && page.width() <= 5000 && page.height() <= 5000;
    if (!fits) return base::fail(base::ErrorCode::impossible, "a page must be 2 mm to 5 m wide and high");
    if (!has_only_finite(page))
      return base::fail(base::ErrorCode::impossible, "a drawing holds a place that is not a number");
  }
  return {};
}

base::Result<std::string> bytes_of(HPDF_Doc doc, const Trouble& trouble) {
  if (trouble.code == 0) HPDF_SaveToStream(doc);
  std::string bytes;
  if (trouble.code == 0) {
    bytes.resize(HPDF_GetStreamSize(doc));
    HPDF_UINT32 size = static_cast<HPDF_UINT32>(bytes.size());
    HPDF_ResetStream(doc);
    HPDF_ReadFromStream(doc, reinterpret_cast<HPDF_BYTE*>(bytes.data()), &size);
    bytes.resize(size);
  }
  if (trouble.code != 0 && trouble.code != HPDF_STREAM_EOF) {
    return base::fail(base::ErrorCode::fault, "the paper could not be made: PDF error " + std::to_string(trouble.code) +
                                                  ", " + std::to_string(trouble.detail));
  }
  return bytes;
}

}  // namespace

base::Result<std::string> to_pdf(const Document& document, const PdfOptions& options) {
  if (auto ok = check(document); !ok) return tl::unexpected(ok.error());
  Trouble trouble;
  const DocumentHandle doc(HPDF_New(keep_trouble, &trouble));
  if (!doc) return base::fail(base::ErrorCode::fault, "the paper could not be made: no memory");
  HPDF_SetCompressionMode(doc.get(), HPDF_COMP_ALL);
  HPDF_UseUTFEncodings(doc.get());
  Faces faces;
  faces.plain = load_face(doc.get(), options.face, trouble);
  faces.bold = load_face(doc.get(), options.face_bold, trouble);
  describe(doc.get(), document, options);
  const Theme& theme = options.theme != nullptr ? *options.theme : theme_print();
  for (const Canvas& canvas : document.pages) {
    HPDF_Page page = trouble.code == 0 ? HPDF_AddPage(doc.get()) : nullptr;
    if (page != nullptr) PageWriter(page, canvas, theme, faces).write();
  }
  return bytes_of(doc.get(), trouble);
}

}  // namespace portwright::draw
