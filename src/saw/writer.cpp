// The text of a saw file: sections in the order of saw/fields.hpp, in each the single lines before the tables below it.
#include <array>
#include <charconv>
#include <cmath>

#include "saw/fields.hpp"
#include "saw/file.hpp"
#include "saw/toml_text.hpp"

namespace portwright::saw {
namespace {

constexpr std::size_t inline_cap = 100;  // characters of a table written on one line

std::string between(std::string_view open, std::string_view text, std::string_view close) {
  std::string out(open);
  out.append(text).append(close);
  return out;
}

template <class T, class F>
std::string list_text(const std::vector<T>& items, F&& text) {
  std::string out;
  for (const T& item : items) out += (out.empty() ? "" : ", ") + text(item);
  return between("[", out, "]");
}

std::string repeats_text(const std::vector<Typed>& repeats) {
  if (repeats.size() == 1 && !repeats[0].text.empty()) return toml_text(repeats[0].text);
  return list_text(repeats, [](const Typed& typed) { return toml_text(typed.text); });
}

bool is_plain(const Reading& reading) { return reading.with.empty() && reading.setup.empty() && reading.note.empty(); }

std::string reading_text(const Reading& reading) {
  if (is_plain(reading)) return repeats_text(reading.repeats);
  std::string out;
  const auto add = [&out](const char* key, const std::string& text) {
    out += (out.empty() ? "" : ", ") + std::string(key) + " = " + text;
  };
  if (reading.taken()) add("value", repeats_text(reading.repeats));
  if (!reading.with.empty()) add("with", toml_text(reading.with));
  if (!reading.setup.empty()) add("setup", toml_text(reading.setup));
  if (!reading.note.empty()) add("note", toml_text(reading.note));
  return between("{ ", out, " }");
}

std::string places_text(const Places& places) {
  if (places.places.size() == 1 && places.places[0].first.empty()) return reading_text(places.places[0].second);
  std::string out;
  for (const auto& [place, reading] : places.places)
    out += (out.empty() ? "" : ", ") + toml_key(place) + " = " + reading_text(reading);
  return between("{ ", out, " }");
}

std::string number_text(double number) {
  std::array<char, 32> buffer{};
  const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), number).ptr;
  std::string out(buffer.data(), end);
  if (out.find_first_of(".e") == std::string::npos && std::abs(number) >= 1e15)
    out += ".0";  // TOML's whole numbers end
  return out;
}

// Lines of one table and, below them, the tables inside it.
class Writer {
 public:
  explicit Writer(std::string path) : path_(std::move(path)) {}

  void reading(const char* key, const Reading& from, base::Dimension) {
    if (from.taken() || !is_plain(from)) line(key, reading_text(from));
  }
  void turn(const char* key, const Reading& from) { reading(key, from, base::Dimension::angle); }
  void places(const char* key, const Places& from, base::Dimension) {
    if (from.taken()) line(key, places_text(from));
  }
  void several(const char* key, const Several& from, base::Dimension) {
    if (from.taken()) line(key, list_text(from.items, [](const Typed& typed) { return toml_text(typed.text); }));
  }
  void pairs(const char* key, const Pairs& from, base::Dimension, base::Dimension) {
    const auto row = [](const std::pair<Typed, Typed>& pair) {
      return between("[", toml_text(pair.first.text) + ", " + toml_text(pair.second.text), "]");
    };
    if (from.taken()) line(key, list_text(from.rows, row));
  }
  void number(const char* key, const Number& from) {
    if (from && std::isfinite(*from)) line(key, number_text(*from));
    words(key, from.text);
  }
  void flag(const char* key, const Flag& from) {
    if (from) line(key, *from ? "true" : "false");
    words(key, from.text);
  }
  void words(const char* key, const std::string& from) {
    if (!from.empty()) line(key, toml_text(from));
  }
  void word(const char* key, const std::string& from, Words) { words(key, from); }
  void octane(const char* key, const Octane& from) { words(key, from.text); }
  void power_at(const char* key, const PowerAt& from) { words(key, from.text); }

  template <class T>
  void table(const char* key, const T& from) {
    if (from == T{}) return;
    Writer inner(below(key));
    fields(from, inner);
    const std::string one_line = inner.one_line();
    if (!path_.empty() && inner.tables_.empty() && one_line.size() <= inline_cap) return line(key, one_line);
    if (!inner.lines_.empty()) tables_ += between("\n[", inner.path_, "]\n") + inner.text();
    tables_ += inner.tables_;
  }
  template <class T>
  void tables(const char* key, const std::vector<T>& from) {
    for (const T& item : from) {
      Writer inner(below(key));
      fields(item, inner);
      tables_ += between("\n[[", inner.path_, "]]\n") + inner.text() + inner.tables_;
    }
  }

  [[nodiscard]] std::string whole() const { return text() + tables_; }

 private:
  [[nodiscard]] std::string below(const char* key) const { return path_.empty() ? key : path_ + "." + key; }
  void line(const char* key, const std::string& text) { lines_.push_back(std::string(key) + " = " + text); }
  [[nodiscard]] std::string text() const {
    std::string out;
    for (const std::string& line : lines_) out += line + "\n";
    return out;
  }
  [[nodiscard]] std::string one_line() const {
    std::string out;
    for (const std::string& line : lines_) out += (out.empty() ? "" : ", ") + line;
    return between("{ ", out, " }");
  }

  std::string path_;
  std::vector<std::string> lines_;
  std::string tables_;
};

}  // namespace

std::string write_saw(const Readings& readings) {
  Writer writer("");
  fields(readings, writer);
  return writer.whole();
}

}  // namespace portwright::saw
