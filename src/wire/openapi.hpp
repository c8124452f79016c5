#pragma once
// What the server answers to, as an OpenAPI 3.1 document.
// @source{memory, OpenAPI Specification 3.1.0}

#include <string>
#include <vector>

namespace portwright::wire {

/// One operation of the API.
struct Operation {
  std::string method;                   ///< "get" | "post"
  std::string path;                     ///< "/api/ask/study"
  std::string summary;                  ///< one sentence
  std::string ask;                      ///< name of the schema of the body; empty: none
  std::string answer;                   ///< name of the schema of the answer; empty: see media
  std::string media;                    ///< media type of an answer that is no JSON; empty: JSON
  std::vector<int> problems;            ///< statuses that are answered by a problem document
  std::string who = {};                 ///< "machine" alone, "device" too, "anybody"
  std::vector<std::string> takes = {};  ///< media types of a body that is no JSON
  std::vector<std::string> query = {};  ///< names in the query
};

/// The document: paths in the order given, schemas of wire::schemas() and wire::ask_schemas() as components.
[[nodiscard]] std::string openapi_text(const std::vector<Operation>& operations);

}  // namespace portwright::wire
