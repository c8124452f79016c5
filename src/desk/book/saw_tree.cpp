#include "desk/book/saw_tree.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <optional>

#include "saw/fields.hpp"

namespace portwright::desk {
namespace {

using book::Tree;

std::vector<std::string> texts_of(const std::vector<saw::Typed>& typed) {
  std::vector<std::string> out;
  for (const saw::Typed& one : typed) out.push_back(one.text);
  return out;
}

std::vector<saw::Typed> typed_of(const std::vector<std::string>& texts) {
  std::vector<saw::Typed> out;
  for (const std::string& text : texts) out.push_back({text, std::nullopt});
  return out;
}

Tree reading_tree(const saw::Reading& reading) {
  Tree out;
  put_part(out, "read", list_leaf(texts_of(reading.repeats)));
  put_part(out, "with", text_leaf(reading.with));
  put_part(out, "setup", text_leaf(reading.setup));
  put_part(out, "note", text_leaf(reading.note));
  return out;
}

const std::vector<std::string>& list_at(const Tree& branch, std::string_view path) {
  static const std::vector<std::string> none;
  const Tree* leaf = book::find(branch, path);
  return leaf && leaf->kind == Tree::Kind::list ? leaf->list : none;
}

saw::Reading reading_from(const Tree& branch) {
  return {typed_of(list_at(branch, "read")), text_at(branch, "with"), text_at(branch, "setup"),
          text_at(branch, "note")};
}

// From readings to the tree of one table.
class Planter {
 public:
  explicit Planter(Tree& out) : out_(out) {}

  void reading(const char* key, const saw::Reading& from, base::Dimension) { put_part(out_, key, reading_tree(from)); }
  void turn(const char* key, const saw::Reading& from) { put_part(out_, key, reading_tree(from)); }
  void places(const char* key, const saw::Places& from, base::Dimension) {
    plant_all(key, from.places, [](Tree& part, const std::pair<std::string, saw::Reading>& place) {
      part = reading_tree(place.second);
      put_part(part, "place", text_leaf(place.first));
    });
  }
  void several(const char* key, const saw::Several& from, base::Dimension) {
    put_part(out_, key, list_leaf(texts_of(from.items)));
  }
  void pairs(const char* key, const saw::Pairs& from, base::Dimension, base::Dimension) {
    std::vector<std::string> halves;
    for (const auto& [first, second] : from.rows) {
      halves.push_back(first.text);
      halves.push_back(second.text);
    }
    put_part(out_, key, list_leaf(std::move(halves)));
  }
  void number(const char* key, const saw::Number& from) {
    words(key, from.has_value() ? plain_number(*from) : from.text);
  }
  void flag(const char* key, const saw::Flag& from) {
    if (!from.has_value()) return words(key, from.text);
    Tree leaf;
    leaf.kind = Tree::Kind::flag;
    leaf.flag = *from;
    put_part(out_, key, std::move(leaf));
  }
  void words(const char* key, const std::string& from) { put_part(out_, key, text_leaf(from)); }
  void word(const char* key, const std::string& from, saw::Words) { words(key, from); }
  void octane(const char* key, const saw::Octane& from) { words(key, from.text); }
  void power_at(const char* key, const saw::PowerAt& from) { words(key, from.text); }
  template <class T>
  void table(const char* key, const T& from) {
    Tree branch;
    plant(branch, from);
    put_part(out_, key, std::move(branch));
  }
  template <class T>
  void tables(const char* key, const std::vector<T>& from) {
    plant_all(key, from, [](Tree& part, const T& item) { plant(part, item); });
  }

 private:
  template <class T>
  static void plant(Tree& branch, const T& from) {
    Planter inner(branch);
    fields(from, inner);
  }
  template <class T, class F>
  void plant_all(const char* key, const std::vector<T>& items, F&& one) {
    if (items.empty()) return;
    Tree branch;
    std::vector<std::string> order;
    for (const T& item : items) {
      Tree part;
      one(part, item);
      order.push_back(key[0] + std::to_string(order.size() + 1));
      put_part(branch, order.back(), std::move(part));
    }
    put_part(branch, "order", list_leaf(std::move(order)));
    put_part(out_, key, std::move(branch));
  }

  Tree& out_;
};

// From the tree of one table to readings.
class Picker {
 public:
  explicit Picker(const Tree& in) : in_(in) {}

  void reading(const char* key, saw::Reading& to, base::Dimension) { to = reading_from(part(key)); }
  void turn(const char* key, saw::Reading& to) { to = reading_from(part(key)); }
  void places(const char* key, saw::Places& to, base::Dimension) {
    for (const std::string& name : ordered_keys(part(key))) {
      const Tree& place = part_of(part(key), name);
      if (saw::Reading reading = reading_from(place); !(reading == saw::Reading{}))
        to.places.emplace_back(text_at(place, "place"), std::move(reading));
    }
  }
  void several(const char* key, saw::Several& to, base::Dimension) { to.items = typed_of(list_at(in_, key)); }
  void pairs(const char* key, saw::Pairs& to, base::Dimension, base::Dimension) {
    const std::vector<std::string>& halves = list_at(in_, key);
    for (std::size_t i = 0; i < halves.size(); i += 2)
      to.rows.emplace_back(saw::Typed{halves[i], std::nullopt},
                           saw::Typed{i + 1 < halves.size() ? halves[i + 1] : std::string(), std::nullopt});
  }
  void number(const char* key, saw::Number& to) {
    const std::string text = text_at(in_, key);
    double value = 0.0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error == std::errc() && end == text.data() + text.size() && std::isfinite(value))
      to = value;
    else
      to.text = text;
  }
  void flag(const char* key, saw::Flag& to) {
    const Tree& leaf = part(key);
    if (leaf.kind == Tree::Kind::flag)
      to = leaf.flag;
    else
      to.text = leaf.text;
  }
  void words(const char* key, std::string& to) { to = text_at(in_, key); }
  void word(const char* key, std::string& to, saw::Words) { words(key, to); }
  void octane(const char* key, saw::Octane& to) { words(key, to.text); }
  void power_at(const char* key, saw::PowerAt& to) { words(key, to.text); }
  template <class T>
  void table(const char* key, T& to) {
    Picker inner(part(key));
    fields(to, inner);
  }
  template <class T>
  void tables(const char* key, std::vector<T>& to) {
    for (const std::string& name : ordered_keys(part(key))) {
      Picker inner(part_of(part(key), name));
      fields(to.emplace_back(), inner);
    }
  }

 private:
  static const Tree& part_of(const Tree& branch, std::string_view key) {
    static const Tree nothing;
    const Tree* found = book::find(branch, key);
    return found ? *found : nothing;
  }
  [[nodiscard]] const Tree& part(std::string_view key) const { return part_of(in_, key); }

  const Tree& in_;
};

}  // namespace

Tree text_leaf(std::string text) {
  Tree leaf;
  leaf.kind = Tree::Kind::text;
  leaf.text = std::move(text);
  return leaf;
}

Tree list_leaf(std::vector<std::string> list) {
  Tree leaf;
  leaf.kind = Tree::Kind::list;
  leaf.list = std::move(list);
  return leaf;
}

void put_part(Tree& branch, std::string_view name, Tree value) {
  if (value.empty_branch() || (value.kind == Tree::Kind::text && value.text.empty()) ||
      (value.kind == Tree::Kind::list && value.list.empty()))
    return;
  const auto place = std::lower_bound(branch.parts.begin(), branch.parts.end(), name,
                                      [](const book::Part& part, std::string_view key) { return part.name < key; });
  if (place != branch.parts.end() && place->name == name)
    place->tree = std::move(value);
  else
    branch.parts.insert(place, book::Part{std::string(name), std::move(value)});
}

std::string text_at(const Tree& branch, std::string_view path) {
  const Tree* leaf = book::find(branch, path);
  return leaf && leaf->kind == Tree::Kind::text ? leaf->text : std::string();
}

std::string plain_number(double number) {
  std::array<char, 32> buffer{};
  const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), number).ptr;
  return {buffer.data(), end};
}

std::vector<std::string> ordered_keys(const Tree& branch) {
  std::vector<std::string> keys = list_at(branch, "order");
  for (const book::Part& part : branch.parts)
    if (part.name != "order" && std::find(keys.begin(), keys.end(), part.name) == keys.end()) keys.push_back(part.name);
  return keys;
}

std::string free_key(const Tree& branch, char letter) {
  const std::vector<std::string> keys = ordered_keys(branch);
  std::size_t number = keys.size() + 1;
  const auto taken = [&] { return std::find(keys.begin(), keys.end(), letter + std::to_string(number)) != keys.end(); };
  while (taken()) ++number;
  return letter + std::to_string(number);
}

Tree tree_of(const saw::Readings& readings) {
  Tree out;
  Planter planter(out);
  fields(readings, planter);
  return out;
}

saw::Readings readings_of(const Tree& tree) {
  saw::Readings out;
  Picker picker(tree);
  fields(out, picker);
  return out;
}

base::ResultAll<saw::ReadSaw> read_tree(const Tree& tree) { return saw::read_saw(saw::write_saw(readings_of(tree))); }

}  // namespace portwright::desk
