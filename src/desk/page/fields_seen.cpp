#include "desk/page/fields_seen.hpp"

#include <type_traits>

#include "base/quantity/number.hpp"
#include "tables/materials.hpp"

namespace portwright::desk {
namespace {

using base::Dimension;

std::vector<std::string> texts(const std::vector<saw::Typed>& typed) {
  std::vector<std::string> out;
  for (const saw::Typed& one : typed) out.push_back(one.text);
  return out;
}

std::vector<std::string> some(const std::string& text) {
  return text.empty() ? std::vector<std::string>{} : std::vector<std::string>{text};
}

/// A visitor of saw/fields.hpp.
class Seer {
 public:
  Seer(FieldSeen at, const std::function<void(const FieldSeen&)>& each) : at_(std::move(at)), each_(each) {}

  void reading(const char* key, const saw::Reading& from, Dimension dimension) {
    FieldSeen seen = field(key, "reading");
    seen.dimension = dimension;
    seen.reading = &from;
    seen.typed = texts(from.repeats);
    each_(seen);
  }
  void turn(const char* key, const saw::Reading& from) { reading(key, from, Dimension::angle); }
  void places(const char* key, const saw::Places& from, Dimension dimension) {
    static const saw::Reading none;
    std::vector<std::pair<std::string, const saw::Reading*>> all;
    for (const auto& [name, one] : from.places) all.emplace_back(name, &one);
    for (const char* usual : {"exhaust", "intake"}) {
      const bool known = std::any_of(all.begin(), all.end(), [&](const auto& p) { return p.first == usual; });
      if (!known && (from.places.empty() || !from.places.front().first.empty())) all.emplace_back(usual, &none);
    }
    for (const auto& [name, one] : all) {
      FieldSeen seen = field(key, "reading");
      if (!name.empty()) seen.path += '.' + name;
      seen.called = name;
      seen.dimension = dimension;
      seen.reading = one;
      seen.typed = texts(one->repeats);
      each_(seen);
    }
  }
  void several(const char* key, const saw::Several& from, Dimension dimension) {
    FieldSeen seen = field(key, "several");
    seen.dimension = dimension;
    seen.typed = texts(from.items);
    each_(seen);
  }
  void pairs(const char* key, const saw::Pairs& from, Dimension first, Dimension second) {
    FieldSeen seen = field(key, "pairs");
    seen.dimension = first;
    seen.second = second;
    for (const auto& [a, b] : from.rows) {
      seen.typed.push_back(a.text);
      seen.typed.push_back(b.text);
    }
    each_(seen);
  }
  void number(const char* key, const saw::Number& from) {
    FieldSeen seen = field(key, "number");
    seen.dimension = Dimension::count;
    seen.typed = some(from.has_value() ? base::typed::plain_number(*from) : from.text);
    each_(seen);
  }
  void flag(const char* key, const saw::Flag& from) {
    FieldSeen seen = field(key, "flag");
    seen.typed = some(from.has_value() ? (*from ? "true" : "false") : from.text);
    seen.choices = {"true", "false"};
    each_(seen);
  }
  void words(const char* key, const std::string& from) {
    FieldSeen seen = field(key, "words");
    seen.typed = some(from);
    if (seen.general == "intake.reed.material")
      for (const tables::MaterialRow& row : tables::materials()) seen.choices.push_back(row.name);
    each_(seen);
  }
  void word(const char* key, const std::string& from, saw::Words allowed) {
    FieldSeen seen = field(key, "choice");
    seen.typed = some(from);
    seen.choices.assign(allowed.begin(), allowed.end());
    each_(seen);
  }
  void octane(const char* key, const saw::Octane& from) { plain(key, from.text); }
  void power_at(const char* key, const saw::PowerAt& from) { plain(key, from.text); }
  template <class T>
  void table(const char* key, const T& from) {
    walk(inside(key), from);
  }
  template <class T>
  void tables(const char* key, const std::vector<T>& from) {
    static const std::vector<T> one(1);
    const bool offered = from.empty() && std::is_same_v<T, saw::Ring>;
    const std::vector<T>& items = offered ? one : from;
    for (std::size_t i = 0; i < items.size(); ++i) {
      FieldSeen at = inside(key);
      at.called = std::to_string(i + 1);
      if constexpr (std::is_same_v<T, saw::Port>) {
        at.called = items[i].name;
        at.port = &items[i];
      }
      at.path += '.' + at.called;
      walk(std::move(at), items[i]);
    }
  }

 private:
  template <class T>
  void walk(FieldSeen at, const T& from) {
    Seer inner(std::move(at), each_);
    fields(from, inner);
  }
  void plain(const char* key, const std::string& text) {
    FieldSeen seen = field(key, "words");
    seen.typed = some(text);
    each_(seen);
  }
  [[nodiscard]] FieldSeen inside(const std::string& key) const {
    FieldSeen out = at_;
    out.path += (out.path.empty() ? "" : ".") + key;
    out.general += (out.general.empty() ? "" : ".") + key;
    return out;
  }
  [[nodiscard]] FieldSeen field(const std::string& key, const char* kind) const {
    FieldSeen out = inside(key);
    out.kind = kind;
    return out;
  }

  FieldSeen at_;
  const std::function<void(const FieldSeen&)>& each_;
};

}  // namespace

void see_fields(const saw::Readings& readings, const std::function<void(const FieldSeen&)>& each) {
  Seer seer({}, each);
  fields(readings, seer);
}

}  // namespace portwright::desk
