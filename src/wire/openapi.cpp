#include "wire/openapi.hpp"

#include <nlohmann/json.hpp>
#include <utility>

#include "wire/json.hpp"

namespace portwright::wire {
namespace {

using Json = nlohmann::ordered_json;

const std::string components = "#/components/schemas/";

// "#/$defs/Figure" -> "#/components/schemas/Figure", everywhere below.
void move_references(Json& json) {
  constexpr std::string_view defs = "#/$defs/";
  if (json.is_object() && json.contains("$ref") && json["$ref"].is_string()) {
    const std::string to = json["$ref"].get<std::string>();
    if (to.starts_with(defs)) json["$ref"] = components + to.substr(defs.size());
  }
  if (json.is_structured())
    for (Json& part : json) move_references(part);
}

void add_schema(Json& all, const Schema& schema) {
  Json json = Json::parse(schema.text);
  move_references(json);
  if (json.contains("$defs"))
    for (auto& [name, definition] : json["$defs"].items())
      if (!all.contains(name)) all[name] = definition;
  json.erase("$defs");
  json.erase("$schema");
  all[schema.name] = std::move(json);
}

Json content(const std::string& media, const Json& schema) { return Json{{media, Json{{"schema", schema}}}}; }

Json reference(const std::string& name) { return Json{{"$ref", components + name}}; }

Json answer_of(const Operation& operation) {
  Json out = {{"description", "done"}};
  if (!operation.answer.empty())
    out["content"] = content("application/json", reference(operation.answer));
  else if (!operation.media.empty())
    out["content"] = content(operation.media, Json{{"type", "string"}});
  return out;
}

Json operation_of(const Operation& operation) {
  Json out = {{"summary", operation.summary}};
  if (!operation.ask.empty())
    out["requestBody"] = {{"required", true}, {"content", content("application/json", reference(operation.ask))}};
  out["responses"]["200"] = answer_of(operation);
  for (const int status : operation.problems)
    out["responses"][std::to_string(status)] = {{"description", "a problem"},
                                                {"content", content("application/problem+json", reference("problem"))}};
  return out;
}

}  // namespace

std::string openapi_text(const std::vector<Operation>& operations) {
  Json schemas_json = Json::object();
  for (const Schema& schema : schemas()) add_schema(schemas_json, schema);
  for (const Schema& schema : ask_schemas()) add_schema(schemas_json, schema);
  Json paths = Json::object();
  for (const Operation& operation : operations) paths[operation.path][operation.method] = operation_of(operation);
  const Json out = {
      {"openapi", "3.1.0"},
      {"info",
       {{"title", "Portwright"},
        {"version", std::string(program_name()).substr(std::string("portwright ").size())},
        {"description",
         "The program's answers over HTTP, on this machine alone. Every POST carries Content-Type: application/json, "
         "X-Portwright: 1, its Origin, and the cookie that /api/enter gave."}}},
      {"paths", paths},
      {"components", {{"schemas", schemas_json}}}};
  return out.dump(2) + '\n';
}

}  // namespace portwright::wire
