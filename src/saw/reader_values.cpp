// Single readings of a saw file: text, number and unit; repeats; the long form; pairs; words.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/quantity/normal.hpp"
#include "base/quantity/text.hpp"
#include "saw/reader.hpp"

namespace portwright::saw {
namespace {

using base::typed::quoted;
using Kind = Node::Kind;

constexpr const char* long_keys[] = {"value", "with", "setup", "note"};

std::string lower(std::string_view text) {
  std::string out(text);
  for (char& c : out)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return out;
}

bool is_long_form(const Node& node) {
  return node.kind == Kind::table && std::all_of(node.keys.begin(), node.keys.end(), [](const std::string& key) {
           return std::find(std::begin(long_keys), std::end(long_keys), key) != std::end(long_keys);
         });
}

bool is_empty(const Reading& reading) {
  return !reading.taken() && reading.with.empty() && reading.setup.empty() && reading.note.empty();
}

// "tdc" and "bdc" as angles.
std::optional<base::Quantity> dead_centre(std::string_view text) {
  const std::string word = lower(base::typed::trimmed(text));
  if (word != "tdc" && word != "bdc") return std::nullopt;
  base::Quantity out;
  out.si = word == "tdc" ? 0.0 : std::numbers::pi;
  return out;
}

}  // namespace

Typed Reader::typed(const Node& node, const std::string& path, base::Dimension dimension, bool turn) {
  Typed out{node.text, std::nullopt};
  if (turn && (out.value = dead_centre(node.text))) return out;
  if (node.kind != Kind::text && node.kind != Kind::number) {
    doubt(quoted(node.text) + " is not a reading", path, "write it as a text, number and unit");
    return out;
  }
  base::Result<base::Quantity> read = base::parse_quantity(node.text, dimension, path);
  if (read)
    out.value = *read;
  else
    troubles_.readings.push_back(std::move(read.error()));
  return out;
}

void Reader::repeats(const Node& node, const std::string& path, Reading& to, base::Dimension dimension, bool turn) {
  if (node.kind == Kind::list)
    for (const Node& item : node.items) to.repeats.push_back(typed(item, path, dimension, turn));
  else if (node.kind != Kind::text || !node.text.empty())  // an empty text is a line not yet filled
    to.repeats.push_back(typed(node, path, dimension, turn));
}

void Reader::long_form(const Node& node, const std::string& path, Reading& to, base::Dimension dimension, bool turn) {
  if (const Node* found = node.member("value")) repeats(*found, path, to, dimension, turn);
  if (const Node* found = node.member("with")) to.with = plain_text(*found, path + ".with");
  if (const Node* found = node.member("setup")) to.setup = plain_text(*found, path + ".setup");
  if (const Node* found = node.member("note")) to.note = plain_text(*found, path + ".note");
}

void Reader::value(const Node& node, const std::string& path, Reading& to, base::Dimension dimension, bool turn) {
  if (node.kind != Kind::table) return repeats(node, path, to, dimension, turn);
  long_form(node, path, to, dimension, turn);
  const std::vector<std::string> known(std::begin(long_keys), std::end(long_keys));
  for (std::size_t i = 0; i < node.keys.size(); ++i) {
    const std::string& key = node.keys[i];
    if (std::find(known.begin(), known.end(), key) != known.end()) continue;
    const std::string near = nearest(key, known);
    refuse(base::ErrorCode::unknown_key,
           quoted(key) + " is not a key of a reading (line " + std::to_string(node.items[i].line) + ")",
           path + "." + key, near.empty() ? "a reading has value, with, setup and note" : "did you mean " + near + "?",
           near.empty() ? std::vector<std::string>{} : std::vector<std::string>{path + "." + near});
  }
}

void Reader::reading(const char* key, Reading& to, base::Dimension dimension) {
  if (const Node* node = find(key)) value(*node, at(key), to, dimension, false);
}

void Reader::turn(const char* key, Reading& to) {
  if (const Node* node = find(key)) value(*node, at(key), to, base::Dimension::angle, true);
}

void Reader::places(const char* key, Places& to, base::Dimension dimension) {
  const Node* node = find(key);
  if (node == nullptr) return;
  const auto add = [&](const std::string& place, const Node& from, const std::string& path) {
    Reading reading;
    value(from, path, reading, dimension, false);
    if (!is_empty(reading)) to.places.emplace_back(place, std::move(reading));
  };
  if (node->kind != Kind::table || is_long_form(*node)) return add("", *node, at(key));
  for (std::size_t i = 0; i < node->keys.size(); ++i) add(node->keys[i], node->items[i], at(key) + "." + node->keys[i]);
}

void Reader::several(const char* key, Several& to, base::Dimension dimension) {
  const Node* node = find(key);
  if (node == nullptr) return;
  if (node->kind == Kind::list)
    for (const Node& item : node->items) to.items.push_back(typed(item, at(key), dimension));
  else if (node->kind != Kind::text || !node->text.empty())
    to.items.push_back(typed(*node, at(key), dimension));
}

void Reader::pairs(const char* key, Pairs& to, base::Dimension first, base::Dimension second) {
  const Node* node = find(key);
  if (node == nullptr || (node->kind == Kind::text && node->text.empty())) return;
  const auto add = [&](const Node& row) {
    if (row.kind == Kind::list && row.items.size() == 2) {
      Typed a = typed(row.items[0], at(key), first);
      Typed b = typed(row.items[1], at(key), second);
      to.rows.emplace_back(std::move(a), std::move(b));
    } else {
      to.rows.emplace_back(Typed{row.text, std::nullopt}, Typed{});
      doubt(quoted(row.text) + " is not a pair", at(key), "write each row as [\"..\", \"..\"]");
    }
  };
  if (node->kind != Kind::list) return add(*node);
  for (const Node& row : node->items) add(row);
}

void Reader::number(const char* key, Number& to) {
  const Node* node = find(key);
  if (node == nullptr || (node->kind == Kind::text && node->text.empty())) return;
  const bool plain = node->kind == Kind::number && std::isfinite(node->number);
  const base::Result<base::Quantity> read = plain ? base::Quantity{node->number, nullptr, std::nullopt, 0.0}
                                                  : base::parse_quantity(node->text, base::Dimension::count);
  const bool taken = plain || node->kind == Kind::text;
  if (taken && read) {
    to = read->si;
    return;
  }
  to.text = node->text;
  doubt(quoted(node->text) + " is not a plain number", at(key), "write the number alone, without quotes");
}

void Reader::flag(const char* key, Flag& to) {
  const Node* node = find(key);
  if (node == nullptr || (node->kind == Kind::text && node->text.empty())) return;
  if (node->kind == Kind::flag) {
    to = node->flag;
    return;
  }
  to.text = node->text;
  doubt(quoted(node->text) + " is neither true nor false", at(key), "write true or false, without quotes");
}

std::string Reader::plain_text(const Node& node, const std::string& path) {
  if (node.kind != Kind::text) doubt(quoted(node.text) + " is not a text", path, "write it in quotes");
  return node.text;
}

void Reader::words(const char* key, std::string& to) {
  if (const Node* node = find(key)) to = plain_text(*node, at(key));
}

void Reader::word(const char* key, std::string& to, Words allowed) {
  const Node* node = find(key);
  if (node == nullptr) return;
  to = plain_text(*node, at(key));
  if (to.empty() || node->kind != Kind::text) return;
  const std::vector<std::string> known(allowed.begin(), allowed.end());
  const std::string plain = lower(base::typed::trimmed(to));
  if (const auto found = std::find(known.begin(), known.end(), plain); found != known.end()) {
    to = *found;
    return;
  }
  const std::string near = nearest(to, known);
  doubt(quoted(to) + " is not a word of " + at(key), at(key), near.empty() ? "" : "did you mean " + near + "?", known);
}

void Reader::octane(const char* key, Octane& to) {
  const Node* node = find(key);
  if (node == nullptr || node->text.empty()) return;
  to.text = node->text;
  const std::string plain = lower(base::typed::trimmed(to.text));
  const std::size_t blank = plain.find(' ');
  const std::string method(
      base::typed::trimmed(blank == std::string::npos ? std::string_view{} : std::string_view(plain).substr(blank)));
  const auto number = base::parse_quantity(plain.substr(0, blank), base::Dimension::count);
  if (number && (method == "pump" || method == "research" || method == "motor")) {
    to.number = number->si;
    to.method = method;
    return;
  }
  const std::string figure = number ? plain.substr(0, blank) : "95";
  doubt(quoted(to.text) + " does not say which octane", at(key), "a number and pump ((R+M)/2), research or motor",
        {figure + " pump", figure + " research", figure + " motor"});
}

void Reader::power_at(const char* key, PowerAt& to) {
  const Node* node = find(key);
  if (node == nullptr || node->text.empty()) return;
  to.text = node->text;
  const std::string plain = lower(to.text);
  const std::size_t word = plain.find(" at ");
  if (word == std::string::npos)
    return doubt(quoted(to.text) + " does not say at what speed", at(key), "write it as \"3.6 kW at 9000 rpm\"");
  const std::string_view text = to.text;
  auto power = base::parse_quantity(base::typed::trimmed(text.substr(0, word)), base::Dimension::power, at(key));
  auto speed = base::parse_quantity(base::typed::trimmed(text.substr(word + 4)), base::Dimension::speed, at(key));
  if (!power) troubles_.readings.push_back(power.error());
  if (!speed) troubles_.readings.push_back(speed.error());
  if (power && speed) {
    to.power = *power;
    to.speed = *speed;
  }
}

}  // namespace portwright::saw
