#include "wire/openapi.hpp"

#include <string_view>
#include <utility>

#include "wire/json.hpp"
#include "wire/json_tree.hpp"

namespace portwright::wire {
namespace {

const std::string components = "#/components/schemas/";

// "#/$defs/Figure" -> "#/components/schemas/Figure", everywhere below.
void move_references(Json& json) {
  constexpr std::string_view defs = "#/$defs/";
  if (Json* to = json.find("$ref"); to != nullptr && to->text().starts_with(defs))
    *to = components + to->text().substr(defs.size());
  for (auto& [name, part] : json.parts()) move_references(part);
  for (Json& item : json.items()) move_references(item);
}

void add_schema(Json& all, const Schema& schema) {
  Json json = Json::parse(schema.text).value();
  move_references(json);
  if (Json* definitions = json.find("$defs"))
    for (auto& [name, definition] : definitions->parts())
      if (all.find(name) == nullptr) all[name] = definition;
  json.erase("$defs");
  json.erase("$schema");
  all[schema.name] = std::move(json);
}

Json content(const std::string& media, Json schema) {
  return Json::object({{media, Json::object({{"schema", std::move(schema)}})}});
}

Json reference(const std::string& name) { return Json::object({{"$ref", components + name}}); }

Json answer_of(const Operation& operation) {
  Json out = Json::object({{"description", "done"}});
  if (!operation.answer.empty())
    out["content"] = content("application/json", reference(operation.answer));
  else if (!operation.media.empty())
    out["content"] = content(operation.media, Json::object({{"type", "string"}}));
  return out;
}

// What stands in the address: `{photo}` in the path, and the names of the query.
Json parameters_of(const Operation& operation) {
  Json out = Json::list();
  const auto add = [&](const std::string& name, const char* place) {
    out.push_back(Json::object({{"name", name},
                                {"in", place},
                                {"required", std::string_view(place) == "path"},
                                {"schema", Json::object({{"type", "string"}})}}));
  };
  const std::size_t begin = operation.path.find('{'), end = operation.path.find('}');
  if (begin < end && end != std::string::npos) add(operation.path.substr(begin + 1, end - begin - 1), "path");
  for (const std::string& name : operation.query) add(name, "query");
  return out;
}

Json body_of(const Operation& operation) {
  if (operation.takes.empty()) return content("application/json", reference(operation.ask));
  Json out = Json::object();
  for (const std::string& type : operation.takes) out[type] = Json::object({{"schema", Json::object()}});
  return out;
}

Json operation_of(const Operation& operation) {
  Json out = Json::object({{"summary", operation.summary}});
  if (!operation.who.empty()) out["x-portwright-who"] = operation.who;
  if (Json parameters = parameters_of(operation); !parameters.items().empty())
    out["parameters"] = std::move(parameters);
  if (!operation.ask.empty() || !operation.takes.empty())
    out["requestBody"] = Json::object({{"required", true}, {"content", body_of(operation)}});
  Json responses = Json::object({{"200", answer_of(operation)}});
  for (const int status : operation.problems)
    responses[std::to_string(status)] = Json::object(
        {{"description", "a problem"}, {"content", content("application/problem+json", reference("problem"))}});
  out["responses"] = std::move(responses);
  return out;
}

}  // namespace

std::string openapi_text(const std::vector<Operation>& operations) {
  Json shapes = Json::object();
  for (const Schema& schema : schemas()) add_schema(shapes, schema);
  for (const Schema& schema : ask_schemas()) add_schema(shapes, schema);
  Json paths = Json::object();
  for (const Operation& operation : operations)
    paths[operation.path] = Json::object({{operation.method, operation_of(operation)}});
  const std::string program = program_name();
  const Json info = Json::object(
      {{"title", "Portwright"},
       {"version", program.substr(program.rfind(' ') + 1)},
       {"description",
        "The program's answers over HTTP: on this machine, and on the workshop's network while that is switched on. "
        "Every "
        "POST carries Content-Type: application/json (a photo its own type), X-Portwright: 1, its Origin, and the "
        "cookie that /api/enter or "
        "/api/pair gave. x-portwright-who says who may ask: the machine itself, a paired device too, or anybody."}});
  return Json::object({{"openapi", "3.1.0"},
                       {"info", info},
                       {"paths", paths},
                       {"components", Json::object({{"schemas", shapes}})}})
             .dump() +
         '\n';
}

}  // namespace portwright::wire
