#pragma once
// Holds a document against a JSON Schema: the words that our schemas use, and no others.

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

namespace json_schema {

using Json = nlohmann::json;

inline bool is_of(const Json& value, const std::string& type) {
  if (type == "null") return value.is_null();
  if (type == "boolean") return value.is_boolean();
  if (type == "integer") return value.is_number_integer();
  if (type == "number") return value.is_number();
  if (type == "string") return value.is_string();
  if (type == "array") return value.is_array();
  return type == "object" && value.is_object();
}

/// Every place where `value` departs from `schema`.
inline void check(const Json& schema, const Json& root, const Json& value, const std::string& place,
                  std::vector<std::string>& faults) {
  for (const auto& [word, rule] : schema.items()) {
    if (word == "$ref") {
      check(root.at("$defs").at(rule.get<std::string>().substr(8)), root, value, place, faults);
    } else if (word == "const") {
      if (value != rule) faults.push_back(place + " is not " + rule.dump());
    } else if (word == "enum") {
      if (std::find(rule.begin(), rule.end(), value) == rule.end()) faults.push_back(place + " is none of the words");
    } else if (word == "type") {
      bool fits = false;
      for (const Json& type : rule.is_array() ? rule : Json::array({rule}))
        fits = fits || is_of(value, type.get<std::string>());
      if (!fits) faults.push_back(place + " is no " + rule.dump());
    } else if (word == "anyOf") {
      bool fits = false;
      for (const Json& one : rule) {
        std::vector<std::string> of_one;
        check(one, root, value, place, of_one);
        fits = fits || of_one.empty();
      }
      if (!fits) faults.push_back(place + " fits none of several shapes");
    } else if (word == "required") {
      for (const Json& name : rule)
        if (value.is_object() && !value.contains(name.get<std::string>()))
          faults.push_back(place + " lacks " + name.get<std::string>());
    } else if (word == "properties") {
      for (const auto& [name, inner] : rule.items())
        if (value.is_object() && value.contains(name)) check(inner, root, value.at(name), place + '.' + name, faults);
    } else if (word == "items") {
      for (std::size_t i = 0; value.is_array() && i < value.size(); ++i)
        check(rule, root, value.at(i), place + '.' + std::to_string(i + 1), faults);
    } else if (word != "description" && word != "title" && word != "$schema" && word != "$defs") {
      faults.push_back("the schema uses " + word + ", which this check does not know");
    }
  }
}

inline std::vector<std::string> faults(const Json& schema, const Json& value) {
  std::vector<std::string> out;
  check(schema, schema, value, "answer", out);
  return out;
}

/// Keys that stand in the document and not in the schema: additions that nobody has published.
inline void unpublished(const Json& schema, const Json& root, const Json& value, const std::string& place,
                        std::vector<std::string>& out) {
  if (schema.contains("$ref"))
    return unpublished(root.at("$defs").at(schema.at("$ref").get<std::string>().substr(8)), root, value, place, out);
  if (schema.contains("anyOf"))
    for (const Json& one : schema.at("anyOf"))
      if (!value.is_null() && one.contains("$ref")) return unpublished(one, root, value, place, out);
  for (std::size_t i = 0; value.is_array() && i < value.size(); ++i)
    unpublished(schema.at("items"), root, value.at(i), place + '.' + std::to_string(i + 1), out);
  if (!value.is_object()) return;
  for (const auto& [name, inner] : value.items()) {
    if (!schema.contains("properties") || !schema.at("properties").contains(name))
      out.push_back(place + '.' + name);
    else
      unpublished(schema.at("properties").at(name), root, inner, place + '.' + name, out);
  }
}

}  // namespace json_schema
