// A rubbing on a photo of the book: measured for a page, and kept as a port's outline.
#include "desk/rubbing.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "desk/book/field_path.hpp"
#include "desk/book/photos.hpp"
#include "desk/book/saw_tree.hpp"
#include "desk/book/shelf.hpp"
#include "desk/rubbing_parts.hpp"
#include "geometry/window.hpp"

namespace portwright::desk {
namespace {

using base::ErrorCode;

constexpr const char* photo_kind = "photo";

// A photo in sight, with the newest readings of the saw it belongs to.
struct Seen {
  book::Document photo;
  ShelfSaw saw;
  book::Tree whole;
  saw::Readings readings;
};

base::ResultAll<Seen> seen_of(Shelf& shelf, const std::string& id) {
  auto photo = shelf.book.get(id);
  const bool gone = !photo && (photo.error().code == ErrorCode::not_found || photo.error().code == ErrorCode::usage);
  if (!photo && !gone) return only_error(photo);
  if (gone || photo->kind != photo_kind || photo->hidden_itself)
    return tl::unexpected(
        base::Errors{{ErrorCode::not_found, "The book has no photo \u201C" + id + "\u201D.", "photo", "", {}}});
  auto saw = find_saw(shelf, photo->belongs_to, true);
  if (!saw) return only_error(saw);
  Seen out{*std::move(photo), *std::move(saw), {}, {}};
  out.whole = whole_tree(out.saw);
  auto read = read_tree(out.whole);
  if (!read) return tl::unexpected(read.error());
  out.readings = std::move(read->readings);
  return out;
}

base::ResultAll<RubbingPhoto> photo_of(Shelf& shelf, const Seen& seen, RubbingMemory* memory) {
  const std::string hash = kept_hash(seen.photo, "picture");
  auto blob = shelf.book.blob(hash);
  if (!blob) return only_error(blob);
  auto photo = rubbing_photo(blob->bytes, hash, memory);
  if (!photo) return only_error(photo);
  return *std::move(photo);
}

std::optional<double> first_of(const saw::Reading& reading) {
  for (const saw::Typed& typed : reading.repeats)
    if (typed.value) return typed.value->si;
  return std::nullopt;
}

const saw::Port* port_of(const saw::Readings& readings, const std::string& name) {
  const auto found = std::find_if(readings.ports.begin(), readings.ports.end(),
                                  [&](const saw::Port& port) { return port.name == name; });
  return found == readings.ports.end() ? nullptr : &*found;
}

base::Errors no_port(const Seen& seen, const std::string& name) {
  std::string names;
  for (const saw::Port& port : seen.readings.ports) names += (names.empty() ? "" : ", ") + port.name;
  return {{ErrorCode::not_found,
           seen.saw.saw.title + " has no port \u201C" + name + "\u201D.",
           "port",
           names.empty() ? "Begin one first." : "It has " + names + '.',
           {}}};
}

// What the saw's own readings add: its bore, and whether the port has a bridge.
base::ResultAll<rubbing::Hints> with_readings(const wire::RubbingHints& asked, const Seen& seen,
                                              const std::string& name) {
  auto hints = hints_of(asked);
  if (!hints) return hints;
  if (const auto bore = first_of(seen.readings.crank.bore); bore && *bore > 0.02 && *bore < 0.2)
    hints->bore = 1e3 * *bore;
  if (name.empty()) return hints;
  const saw::Port* port = port_of(seen.readings, name);
  if (port == nullptr) return tl::unexpected(no_port(seen, name));
  hints->bridge = port->bridge.taken();
  return hints;
}

std::string places_text(const std::vector<wire::Pair2>& places) {
  std::string out;
  for (const wire::Pair2& p : places) out += fmt::format("{}{:.2f},{:.2f}", out.empty() ? "" : "; ", p[0], p[1]);
  return out;
}

book::Tree record_of(const BookRubbingRequest& request, const wire::RubbingAnswer& answer) {
  book::Tree out;
  const auto put = [&](const char* leaf, std::string text) { put_part(out, leaf, text_leaf(std::move(text))); };
  put("name", "rubbing of " + request.port);
  put("photo", request.photo);
  put("port", request.port);
  put("corners", places_text(answer.corners));
  put("inside", places_text(request.hints.inside));
  put("points", places_text(request.hints.points));
  put("upright", places_text(request.hints.upright));
  put("across", request.hints.across);
  put("down", request.hints.down);
  put("face", request.hints.face);
  put("line", request.hints.line);
  put("taped", request.hints.taped ? "yes" : "no");
  put("area", fmt::format("{:.4f} cm2", answer.area.value));
  put("low", fmt::format("{:.4f} cm2", answer.area.low));
  put("high", fmt::format("{:.4f} cm2", answer.area.high));
  return out;
}

// An outline that the geometry would not take is not kept.
base::Result<void> is_a_window(const rubbing::Measured& measured) {
  std::vector<geometry::Point> points;
  for (const rubbing::Point& p : measured.points) points.push_back({1e-3 * p.x, 1e-3 * p.y});
  const auto window = geometry::Window::from_outline(points, 0.0);
  if (!window) return tl::unexpected(window.error());
  return {};
}

class Keeping {
 public:
  Keeping(const BookRubbingRequest& request, const Seen& seen) : request_(request), seen_(seen) {}

  base::Result<book::Deed> deed(const wire::RubbingAnswer& answer) {
    const std::string path = "port." + request_.port + '.';
    std::vector<std::string> halves;
    for (const std::string& row : parted(answer.outline_text, "; "))
      for (std::string& half : parted(row, ", ")) halves.push_back(std::move(half));
    for (const auto& [field, value] :
         {std::pair{path + "outline", list_leaf(halves)}, std::pair{path + "seen", text_leaf("inside")}})
      if (auto done = set(field, "", value); !done) return tl::unexpected(done.error());
    const std::string note = "photo" + (seen_.photo.title.empty() ? std::string() : ": " + seen_.photo.title);
    if (auto done = set(path + "outline_within", ".read", list_leaf({answer.within.text})); !done)
      return tl::unexpected(done.error());
    if (auto done = set(path + "outline_within", ".note", text_leaf(note)); !done) return tl::unexpected(done.error());
    deed_.label = short_label(path + "outline from a photo: " + answer.area.text);
    deed_.added.push_back({book::new_id(), "rubbing", seen_.saw.saw.id, book::print(record_of(request_, answer))});
    return std::move(deed_);
  }

 private:
  static std::vector<std::string> parted(const std::string& text, const std::string& mark) {
    std::vector<std::string> out;
    for (std::size_t at = 0; at <= text.size();) {
      const std::size_t end = std::min(text.find(mark, at), text.size());
      out.push_back(text.substr(at, end - at));
      at = end + mark.size();
    }
    return out;
  }
  base::Result<void> set(const std::string& field, const std::string& leaf, const book::Tree& value) {
    const auto place = find_field(seen_.whole, field);
    if (!place) return tl::unexpected(place.error());
    const book::Document& readings = *seen_.saw.readings;
    deed_.changes.push_back(
        {readings.id, place->path + leaf, book::print(value), request_.base.value_or(readings.revision)});
    return {};
  }

  const BookRubbingRequest& request_;
  const Seen& seen_;
  book::Deed deed_;
};

base::Errors refused(const char* path, const std::string& message) {
  return {{ErrorCode::usage, message, path, "Nothing was written.", {}}};
}

}  // namespace

base::ResultAll<wire::RubbingAnswer> rubbing(const RubbingRequest& request, RubbingMemory* memory) {
  auto shelf = open_shelf(request.book, Reach::read);
  if (!shelf) return only_error(shelf);
  const auto seen = seen_of(*shelf, request.photo);
  if (!seen) return tl::unexpected(seen.error());
  const auto hints = with_readings(request.hints, *seen, request.port);
  if (!hints) return tl::unexpected(hints.error());
  const auto photo = photo_of(*shelf, *seen, memory);
  if (!photo) return tl::unexpected(photo.error());
  return measured_rubbing(*photo, request.photo, request.hints, *hints, request.style).answer;
}

base::ResultAll<wire::BookDoneAnswer> book_rubbing(const BookRubbingRequest& request, RubbingMemory* memory) {
  auto shelf = open_shelf(request.book, Reach::write, request.by);
  if (!shelf) return only_error(shelf);
  const auto seen = seen_of(*shelf, request.photo);
  if (!seen) return tl::unexpected(seen.error());
  const auto found = find_saw(*shelf, request.saw);
  if (!found) return only_error(found);
  if (found->saw.id != seen->saw.saw.id) return tl::unexpected(refused("photo", "This photo is of another saw."));
  if (!seen->saw.readings) return tl::unexpected(refused("saw", found->saw.title + " has no readings."));
  const auto known = shelf->book.done_with(request.by.token);
  if (!known) return only_error(known);
  if (*known) return done(*shelf, &found->saw, {});
  if (request.port.empty()) return tl::unexpected(no_port(*seen, request.port));
  const auto hints = with_readings(request.hints, *seen, request.port);
  if (!hints) return tl::unexpected(hints.error());
  const auto photo = photo_of(*shelf, *seen, memory);
  if (!photo) return tl::unexpected(photo.error());
  const RubbingResult result = measured_rubbing(*photo, request.photo, request.hints, *hints, base::UnitStyle::metric);
  if (result.why) return tl::unexpected(base::Errors{*result.why});
  if (!result.answer.keep.empty()) return tl::unexpected(refused("across", result.answer.keep));
  if (const auto window = is_a_window(*result.measured); !window) return only_error(window);
  auto deed = Keeping(request, *seen).deed(result.answer);
  if (!deed) return only_error(deed);
  return done(*shelf, &found->saw, *std::move(deed));
}

}  // namespace portwright::desk
