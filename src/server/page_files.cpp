#include "server/page_files.hpp"

#include "server/problem.hpp"

namespace portwright::server {
namespace {

constexpr std::string_view no_page =
    "<!doctype html>\n<html lang=\"en\"><meta charset=\"utf-8\"><title>Portwright</title>\n"
    "<h1>Portwright is running</h1>\n"
    "<p>This program was built without its page. The command line does everything: <code>portwright "
    "--help</code>.</p>\n"
    "<p>What a page would ask is described at <code>/api/openapi.json</code>.</p>\n</html>\n";

// "gzip", unless its weight is nought.
bool takes_gzip(const Request& request) {
  for (std::string line : values_of(request.headers, "Accept-Encoding")) {
    const std::size_t at = line.find("gzip");
    if (at == std::string::npos) continue;
    const std::string rest = line.substr(at + 4, line.find(',', at) - at - 4);
    return rest.find("q=0") == std::string::npos || rest.find("q=0.") != std::string::npos;
  }
  return false;
}

Response sent(const PageFile& file, const Request& request) {
  Response out;
  out.headers.emplace_back("Content-Type", std::string(file.type));
  out.headers.emplace_back("Vary", "Accept-Encoding");
  if (file.name.starts_with("assets/"))
    out.headers.emplace_back("Cache-Control", "public, max-age=31536000, immutable");
  if (!file.packed.empty() && takes_gzip(request)) {
    out.headers.emplace_back("Content-Encoding", "gzip");
    out.body = file.packed;
  } else if (!file.plain.empty()) {
    out.body = file.plain;
  } else {
    return problem(406, "packed", "Packed only", "The page's files are packed by gzip.");
  }
  return out;
}

}  // namespace

Response page_file(std::span<const PageFile> files, const Request& request) {
  const std::string path = path_of(request);
  const std::string name = path == "/" ? "index.html" : path.substr(1);
  for (const PageFile& file : files)
    if (file.name == name) return sent(file, request);
  if (path == "/") return sent({"index.html", "text/html; charset=utf-8", no_page, {}}, request);
  return problem(404, "not_found", "Not there", "There is nothing of that name.");
}

}  // namespace portwright::server
