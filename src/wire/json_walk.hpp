#pragma once
// JSON by the table of shapes: the writer, the reader and the describer that walk it. Inside the module only; the .cpp
// files that include it say which answers and asks they make.

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>
#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

#include "wire/json.hpp"
#include "wire/json_tree.hpp"
#include "wire/shapes.hpp"

namespace portwright::wire {

template <class T>
struct IsOptional : std::false_type {};
template <class T>
struct IsOptional<std::optional<T>> : std::true_type {};
template <class T>
struct IsList : std::false_type {};
template <class T>
struct IsList<std::vector<T>> : std::true_type {};

// ---- writing

struct Writer;
template <class T>
Json written_as(const char* name, const T& value);

struct Writer {
  Json out = Json::object();
  void is(const char*, const char*) {}
  void constant(const char* name, const char* text, const char*) { out[name] = text; }
  template <class T>
  void field(const char* name, const T& value, const char*) {
    out[name] = written_as(name, value);
  }
  template <class T>
  void maybe(const char* name, const std::optional<T>& value, const char* doc) {
    if (value) field(name, *value, doc);
  }
  template <class T>
  void may(const char* name, const T& value, const char* doc) {
    field(name, value, doc);
  }
};

template <class T>
Json written_as(const char* name, const T& value) {
  if constexpr (std::is_same_v<T, double>) {
    if (!std::isfinite(value)) throw std::logic_error(std::string("a number that is not finite in ") + name);
    return value;
  } else if constexpr (std::is_enum_v<T>) {
    return EnumWords<T>::words.at(static_cast<std::size_t>(value));
  } else if constexpr (std::is_same_v<T, std::string> || std::is_integral_v<T>) {
    return value;
  } else if constexpr (IsOptional<T>::value) {
    return value ? written_as(name, *value) : Json(nullptr);
  } else if constexpr (IsList<T>::value) {
    Json list = Json::list();
    for (const auto& item : value) list.push_back(written_as(name, item));
    return list;
  } else {
    Writer writer;
    shape(writer, value);
    return std::move(writer.out);
  }
}

// ---- reading

// A value of another shape than the table's; caught in from_json and never seen outside.
struct Misfit {
  std::string path, wanted;
};
struct UnknownKey {
  std::string path;
};

// Whether keys that the table does not have are passed over, as in answers of a later program, or refused.
enum class Keys { passed_over, refused };

template <class T>
void read_into(const Json& json, const std::string& path, T& value, Keys keys);

struct Reader {
  const Json& in;
  std::string path;
  Keys keys;
  std::vector<std::string_view> known{};
  [[nodiscard]] std::string place(const char* name) const { return path.empty() ? name : path + '.' + name; }
  void is(const char*, const char*) {}
  void constant(const char* name, const char* text, const char*) {
    known.emplace_back(name);
    const Json* said = in.find(name);
    if (said == nullptr) throw Misfit{place(name), "to be there"};
    const bool versioned = std::string_view(name) == "program";
    if (!versioned && !(said->is(Json::Kind::text) && said->text() == text))
      throw Misfit{place(name), std::string("to say ") + text};
  }
  template <class T>
  void field(const char* name, T& value, const char* doc) {
    if (in.find(name) == nullptr) throw Misfit{place(name), "to be there"};
    may(name, value, doc);
  }
  template <class T>
  void maybe(const char* name, std::optional<T>& value, const char* doc) {
    if (in.find(name) != nullptr)
      may(name, value.emplace(), doc);
    else
      known.emplace_back(name);
  }
  template <class T>
  void may(const char* name, T& value, const char*) {
    known.emplace_back(name);
    if (const Json* said = in.find(name)) read_into(*said, place(name), value, keys);
  }
  void finish() const {
    if (keys == Keys::passed_over) return;
    for (const auto& [key, value] : in.parts())
      if (std::find(known.begin(), known.end(), key) == known.end()) throw UnknownKey{place(key.c_str())};
  }
};

template <class E>
E word_of(const Json& json, const std::string& path) {
  const auto& words = EnumWords<E>::words;
  for (std::size_t i = 0; i < words.size(); ++i)
    if (json.is(Json::Kind::text) && json.text() == words[i]) return static_cast<E>(i);
  throw Misfit{path, "to be one of the words"};
}

template <class T>
void read_into(const Json& json, const std::string& path, T& value, Keys keys) {
  using Kind = Json::Kind;
  if constexpr (std::is_same_v<T, bool>) {
    if (!json.is(Kind::flag)) throw Misfit{path, "to be true or false"};
    value = json.flag();
  } else if constexpr (std::is_same_v<T, double>) {
    if (!json.is(Kind::number) && !json.is(Kind::whole)) throw Misfit{path, "to be a number"};
    value = json.number();
  } else if constexpr (std::is_integral_v<T>) {
    if (!json.is(Kind::whole) || json.whole() < std::int64_t{std::numeric_limits<T>::min()} ||
        json.whole() > std::int64_t{std::numeric_limits<T>::max()})
      throw Misfit{path, "to be a whole number"};
    value = static_cast<T>(json.whole());
  } else if constexpr (std::is_same_v<T, std::string>) {
    if (!json.is(Kind::text)) throw Misfit{path, "to be text"};
    value = json.text();
  } else if constexpr (std::is_enum_v<T>) {
    value = word_of<T>(json, path);
  } else if constexpr (IsOptional<T>::value) {
    value.reset();
    if (!json.is(Kind::null)) read_into(json, path, value.emplace(), keys);
  } else if constexpr (IsList<T>::value) {
    if (!json.is(Kind::list)) throw Misfit{path, "to be a list"};
    value.clear();
    for (const Json& item : json.items()) {
      auto& place = value.emplace_back();
      read_into(item, path + '.' + std::to_string(value.size()), place, keys);
    }
  } else {
    if (!json.is(Kind::object)) throw Misfit{path, "to be an object"};
    Reader reader{json, path, keys};
    shape(reader, value);
    reader.finish();
  }
}

// ---- schemas

struct Describer {
  Json& definitions;
  Json properties = Json::object();
  Json required = Json::list();
  std::string name{}, doc{};

  void is(const char* shape_name, const char* text) {
    name = shape_name;
    doc = text;
  }
  void constant(const char* key, const char* text, const char* what) {
    const bool versioned = std::string_view(key) == "program";
    properties[key] = versioned ? of_type("string") : Json::object({{"const", text}});
    properties[key]["description"] = what;
    required.push_back(key);
  }
  template <class T>
  void field(const char* key, const T& value, const char* what) {
    properties[key] = described(value);
    properties[key]["description"] = what;
    required.push_back(key);
  }
  template <class T>
  void maybe(const char* key, const std::optional<T>&, const char* what) {
    properties[key] = described(T{});
    properties[key]["description"] = what;
  }
  template <class T>
  void may(const char* key, const T& value, const char* what) {
    properties[key] = described(value);
    properties[key]["description"] = what;
  }
  [[nodiscard]] Json object() const {
    return Json::object({{"description", doc}, {"type", "object"}, {"properties", properties}, {"required", required}});
  }

  static Json of_type(const char* type) { return Json::object({{"type", type}}); }

  template <class T>
  Json described(const T&) {
    if constexpr (std::is_same_v<T, bool>)
      return of_type("boolean");
    else if constexpr (std::is_same_v<T, double>)
      return of_type("number");
    else if constexpr (std::is_integral_v<T>)
      return of_type("integer");
    else if constexpr (std::is_same_v<T, std::string>)
      return of_type("string");
    else if constexpr (std::is_enum_v<T>)
      return Json::object({{"enum", Json::list({EnumWords<T>::words.begin(), EnumWords<T>::words.end()})}});
    else if constexpr (IsOptional<T>::value)
      return nullable(described(typename T::value_type{}));
    else if constexpr (IsList<T>::value)
      return Json::object({{"type", "array"}, {"items", described(typename T::value_type{})}});
    else
      return reference(T{});
  }
  static Json nullable(Json inner) {
    if (Json* type = inner.find("type"); type != nullptr && type->is(Json::Kind::text)) {
      *type = Json::list({*type, "null"});
      return inner;
    }
    return Json::object({{"anyOf", Json::list({std::move(inner), of_type("null")})}});
  }
  template <class T>
  Json reference(const T& value) {
    Describer inner{definitions};
    shape(inner, value);
    if (definitions.find(inner.name) == nullptr) definitions[inner.name] = inner.object();
    return Json::object({{"$ref", "#/$defs/" + inner.name}});
  }
};

template <class A>
Schema schema_of() {
  Json definitions = Json::object();
  Describer describer{definitions};
  shape(describer, std::as_const(*std::make_unique<A>()));
  Json out = Json::object(
      {{"$schema", "https://json-schema.org/draft/2020-12/schema"}, {"title", "portwright " + describer.name + " 1"}});
  Json object = describer.object();
  for (Json::Part& part : object.parts()) out.parts().push_back(std::move(part));
  if (!definitions.parts().empty()) out["$defs"] = definitions;
  return {describer.name, out.dump() + '\n'};
}

template <class T>
base::Result<T> read_text(std::string_view text, Keys keys) {
  const auto json = Json::parse(text);
  if (!json) return base::fail(base::ErrorCode::unreadable, "This is not JSON.");
  try {
    T answer;
    read_into(*json, "", answer, keys);
    return answer;
  } catch (const Misfit& misfit) {
    return base::fail(base::ErrorCode::unreadable,
                      "Expected " + (misfit.path.empty() ? "the answer" : misfit.path) + ' ' + misfit.wanted + '.',
                      misfit.path);
  } catch (const UnknownKey& unknown) {
    return base::fail(base::ErrorCode::unknown_key, "\u201C" + unknown.path + "\u201D is not asked for here.",
                      unknown.path);
  }
}

template <class A>
std::string written_text(const A& answer) {
  return written_as("answer", answer).dump() + '\n';
}

}  // namespace portwright::wire
