#include "saw/reader.hpp"

#include <algorithm>
#include <iterator>

#include "base/quantity/normal.hpp"

namespace portwright::saw {
namespace {

using base::typed::quoted;

// Walks all fields with no file at hand and notes where each key lies.
struct KeyWalk {
  std::string place;
  std::vector<std::string>& out;

  void add(const char* key) { out.push_back(place.empty() ? key : place + "." + key); }
  void reading(const char* key, const Reading&, base::Dimension) { add(key); }
  void turn(const char* key, const Reading&) { add(key); }
  void places(const char* key, const Places&, base::Dimension) { add(key); }
  void several(const char* key, const Several&, base::Dimension) { add(key); }
  void pairs(const char* key, const Pairs&, base::Dimension, base::Dimension) { add(key); }
  void number(const char* key, const Number&) { add(key); }
  void flag(const char* key, const Flag&) { add(key); }
  void words(const char* key, const std::string&) { add(key); }
  void word(const char* key, const std::string&, Words) { add(key); }
  void octane(const char* key, const Octane&) { add(key); }
  void power_at(const char* key, const PowerAt&) { add(key); }
  template <class T>
  void table(const char* key, const T& member) {
    add(key);
    KeyWalk inner{out.back(), out};
    fields(member, inner);
  }
  template <class T>
  void tables(const char* key, const std::vector<T>&) {
    table(key, T{});
  }
};

// "opens" typed at the top: the table it belongs to, when only one has it.
std::string home_of(std::string_view key) {
  std::string home;
  for (const std::string& path : known_paths()) {
    const std::size_t point = path.rfind('.');
    if (point == std::string::npos || std::string_view(path).substr(point + 1) != key) continue;
    if (!home.empty()) return {};
    home = path.substr(0, point);
  }
  return home;
}

constexpr const char* counted[] = {"first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth"};

std::string ordinal(std::size_t index) {
  return index < std::size(counted) ? counted[index] : std::to_string(index + 1) + "th";
}

bool is_port_name(std::string_view name) {
  if (name.empty() || name.size() > 64 || name[0] < 'a' || name[0] > 'z') return false;
  return std::all_of(name.begin(), name.end(),
                     [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_'; });
}

const std::vector<std::string> port_kinds = {"exhaust", "transfer", "boost", "intake", "air"};

std::string list_of(const std::vector<std::string>& words) {
  std::string out;
  for (const std::string& word : words) out += (out.empty() ? "" : ", ") + word;
  return out;
}

}  // namespace

const std::vector<std::string>& known_paths() {
  static const std::vector<std::string> paths = [] {
    std::vector<std::string> out;
    KeyWalk walk{{}, out};
    const Readings empty;
    fields(empty, walk);
    return out;
  }();
  return paths;
}

const Node* Reader::find(const char* key) {
  known_.emplace_back(key);
  return node_.member(key);
}

std::string Reader::at(std::string_view key) const {
  return path_.empty() ? std::string(key) : path_ + "." + std::string(key);
}

void Reader::refuse(base::ErrorCode code, std::string message, std::string path, std::string hint,
                    std::vector<std::string> readings) {
  troubles_.whole.push_back({code, std::move(message), std::move(path), std::move(hint), std::move(readings)});
}

void Reader::doubt(std::string message, std::string path, std::string hint, std::vector<std::string> readings) {
  troubles_.readings.push_back(
      {base::ErrorCode::unreadable, std::move(message), std::move(path), std::move(hint), std::move(readings)});
}

bool Reader::is_table(const char* key, const Node& node) {
  if (node.kind == Node::Kind::table) return true;
  refuse(base::ErrorCode::not_a_saw_file, at(key) + " must be a table", at(key),
         "write [" + at(key) + "] and its readings below");
  return false;
}

bool Reader::is_tables(const char* key, const Node& node) {
  const bool list = node.kind == Node::Kind::list;
  if (list &&
      std::all_of(node.items.begin(), node.items.end(), [](const Node& n) { return n.kind == Node::Kind::table; }))
    return true;
  refuse(base::ErrorCode::not_a_saw_file, at(key) + " stands for several, each a table of its own", at(key),
         "write [[" + at(key) + "]] before each");
  return false;
}

void Reader::tables(const char* key, std::vector<Port>& to) {
  const Node* found = find(key);
  if (found == nullptr || !is_tables(key, *found)) return;
  for (const Node& item : found->items) {
    const bool named = port_is_named(item, to);
    const std::string where = named ? at(key) + "." + item.member("name")->text : std::string(key);
    const bool kind = port_has_kind(item, where);
    Troubles aside;
    Reader reader(item, where, named && kind ? troubles_ : aside);
    fields(to.emplace_back(), reader);
    reader.refuse_unknown();
    if (named && kind) continue;  // else: name and kind are said already, the rest still counts
    for (base::Error& error : aside.whole)
      if (error.path != where + ".name" && error.path != where + ".kind") troubles_.whole.push_back(std::move(error));
    for (base::Error& error : aside.readings)
      if (error.path != where + ".name" && error.path != where + ".kind")
        troubles_.readings.push_back(std::move(error));
  }
}

bool Reader::port_is_named(const Node& node, const std::vector<Port>& before) {
  const std::string which = "the " + ordinal(before.size()) + " [[port]]";
  const Node* name = node.member("name");
  if (name == nullptr || name->kind != Node::Kind::text || name->text.empty()) {
    refuse(base::ErrorCode::not_a_saw_file, which + " has no name", "port", "give it a name: name = \"exhaust\"");
    return false;
  }
  if (!is_port_name(name->text)) {
    refuse(base::ErrorCode::not_a_saw_file, which + " is called " + quoted(name->text), "port",
           "a name is small letters, digits and _, a letter first, 64 at most");
    return false;
  }
  if (std::any_of(before.begin(), before.end(), [&](const Port& port) { return port.name == name->text; })) {
    refuse(base::ErrorCode::not_a_saw_file, "two ports are called " + name->text, "port." + name->text + ".name",
           "give each its own name");
    return false;
  }
  return true;
}

bool Reader::port_has_kind(const Node& node, const std::string& where) {
  const Node* kind = node.member("kind");
  if (kind == nullptr || kind->kind != Node::Kind::text || kind->text.empty()) {
    refuse(base::ErrorCode::not_a_saw_file, where + " has no kind", where + ".kind", "one of " + list_of(port_kinds),
           port_kinds);
    return false;
  }
  if (std::find(port_kinds.begin(), port_kinds.end(), kind->text) != port_kinds.end()) return true;
  const std::string near = nearest(kind->text, port_kinds);
  refuse(base::ErrorCode::not_a_saw_file, quoted(kind->text) + " is no kind of port", where + ".kind",
         near.empty() ? "one of " + list_of(port_kinds) : "did you mean " + near + "?", port_kinds);
  return false;
}

void Reader::refuse_unknown() {
  for (std::size_t i = 0; i < node_.keys.size(); ++i) {
    const std::string& key = node_.keys[i];
    if (std::find(known_.begin(), known_.end(), key) != known_.end()) continue;
    const std::string near = nearest(key, known_);
    const std::string home = near.empty() ? home_of(key) : std::string();
    std::string hint;
    if (!near.empty()) hint = "did you mean " + near + "?";
    if (!home.empty()) hint = key + " belongs to " + home;
    std::string message = quoted(key) + (path_.empty() ? " is not a key of a saw file" : " is not a key of " + path_) +
                          " (line " + std::to_string(node_.items[i].line) + ")";
    refuse(base::ErrorCode::unknown_key, std::move(message), at(key), std::move(hint),
           near.empty() ? std::vector<std::string>{} : std::vector<std::string>{at(near)});
  }
}

}  // namespace portwright::saw
