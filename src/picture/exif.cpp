// What a camera noted beside the pixels: a small reader that believes no length and no place it is told.

#include <array>
#include <cctype>
#include <optional>

#include "picture/read.hpp"

namespace portwright::picture {
namespace {

using Bytes = std::string_view;

std::uint32_t byte_at(Bytes bytes, std::size_t at) { return static_cast<unsigned char>(bytes[at]); }

// Numbers of two and four bytes in the order that the note says; nothing where they do not fit in.
struct Note {
  Bytes bytes;
  bool little = false;

  [[nodiscard]] std::optional<std::uint32_t> number(std::size_t at, std::size_t size) const {
    if (at > bytes.size() || bytes.size() - at < size) return std::nullopt;
    std::uint32_t value = 0;
    for (std::size_t i = 0; i < size; ++i) value = value << 8U | byte_at(bytes, little ? at + size - 1 - i : at + i);
    return value;
  }
};

std::optional<Note> note_of(Bytes tiff) {
  if (tiff.size() < 8) return std::nullopt;
  const Bytes order = tiff.substr(0, 2);
  if (order != "II" && order != "MM") return std::nullopt;
  const Note note{tiff, order == "II"};
  if (note.number(2, 2) != 42U) return std::nullopt;
  return note;
}

// Of a JPEG: the part of the camera's segment that is a TIFF, looked for before the pixels begin.
Bytes tiff_in_jpeg(Bytes bytes) {
  constexpr Bytes mark("Exif\0\0", 6);
  std::size_t at = 2;
  while (at + 4 <= bytes.size() && byte_at(bytes, at) == 0xFF) {
    const std::uint32_t marker = byte_at(bytes, at + 1);
    if (marker == 0xFF) {
      ++at;
      continue;
    }
    if (marker == 0xDA || marker == 0xD9) break;
    const std::size_t length = byte_at(bytes, at + 2) << 8U | byte_at(bytes, at + 3);
    if (length < 2 || bytes.size() - at - 2 < length) break;
    const Bytes body = bytes.substr(at + 4, length - 2);
    if (marker == 0xE1 && body.substr(0, mark.size()) == mark) return body.substr(mark.size());
    at += 2 + length;
  }
  return {};
}

Bytes tiff_in_png(Bytes bytes) {
  std::size_t at = 8;
  while (at + 12 <= bytes.size()) {
    std::size_t length = 0;
    for (std::size_t i = 0; i < 4; ++i) length = length << 8U | byte_at(bytes, at + i);
    if (bytes.size() - at - 12 < length) break;
    const Bytes name = bytes.substr(at + 4, 4);
    if (name == "eXIf") return bytes.substr(at + 8, length);
    if (name == "IEND") break;
    at += 12 + length;
  }
  return {};
}

std::optional<Note> camera_note(Bytes bytes) {
  const auto kind = kind_of(bytes);
  if (!kind) return std::nullopt;
  return note_of(*kind == Kind::jpeg ? tiff_in_jpeg(bytes) : tiff_in_png(bytes));
}

// Where the entry `tag` of the list that begins at `list` stands; twelve bytes are there.
std::optional<std::size_t> entry(const Note& note, std::size_t list, std::uint32_t tag) {
  const auto count = note.number(list, 2);
  for (std::size_t i = 0; count && i < *count; ++i) {
    const std::size_t at = list + 2 + 12 * i;
    const auto here = note.number(at, 2);
    if (!here || !note.number(at + 8, 4)) return std::nullopt;
    if (*here == tag) return at;
  }
  return std::nullopt;
}

// `2026:05:03 14:02:11`, and nothing that only looks like it.
bool is_moment(Bytes text) {
  constexpr Bytes form = "dddd:dd:dd dd:dd:dd";
  if (text.size() != form.size()) return false;
  for (std::size_t i = 0; i < form.size(); ++i) {
    const bool digit = std::isdigit(static_cast<unsigned char>(text[i])) != 0;
    if (form[i] == 'd' ? !digit : text[i] != form[i]) return false;
  }
  const auto two = [&](std::size_t at) { return (text[at] - '0') * 10 + text[at + 1] - '0'; };
  return two(0) >= 18 && two(5) >= 1 && two(5) <= 12 && two(8) >= 1 && two(8) <= 31 && two(11) <= 23 && two(14) <= 59 &&
         two(17) <= 60;
}

}  // namespace

int orientation_of(std::string_view bytes) {
  constexpr std::uint32_t orientation = 0x0112;
  constexpr std::uint32_t short_number = 3;
  const auto note = camera_note(bytes);
  if (!note) return 1;
  const auto at = entry(*note, note->number(4, 4).value_or(0), orientation);
  if (!at || note->number(*at + 2, 2) != short_number || note->number(*at + 4, 4) != 1U) return 1;
  const std::uint32_t value = note->number(*at + 8, 2).value_or(1);
  return value >= 1 && value <= 8 ? static_cast<int>(value) : 1;
}

std::string taken_of(std::string_view bytes) {
  constexpr std::uint32_t more = 0x8769;
  constexpr std::uint32_t original_moment = 0x9003;
  constexpr std::uint32_t letters = 2;
  constexpr std::uint32_t length = 20;  // with the zero at its end
  const auto note = camera_note(bytes);
  if (!note) return {};
  const auto link = entry(*note, note->number(4, 4).value_or(0), more);
  if (!link) return {};
  const auto at = entry(*note, note->number(*link + 8, 4).value_or(0), original_moment);
  if (!at || note->number(*at + 2, 2) != letters || note->number(*at + 4, 4) != length) return {};
  const std::size_t place = note->number(*at + 8, 4).value_or(0);
  if (place > note->bytes.size() || note->bytes.size() - place < length) return {};
  const Bytes text = note->bytes.substr(place, length - 1);
  return is_moment(text) ? std::string(text) : std::string();
}

}  // namespace portwright::picture
