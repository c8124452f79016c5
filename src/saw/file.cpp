#include "saw/file.hpp"

#include "base/file.hpp"
#include "base/quantity/normal.hpp"
#include "saw/reader.hpp"
#include "saw/text_guard.hpp"

namespace portwright::saw {
namespace {

constexpr const char* format_name = "portwright saw 1";

void check_format(Readings& readings, Troubles& troubles) {
  if (readings.format.empty()) readings.format = format_name;
  if (readings.format == format_name) return;
  troubles.whole.push_back({base::ErrorCode::unknown_format,
                            base::typed::quoted(readings.format) + " is not a format this program reads",
                            "format",
                            std::string("this program reads \"") + format_name + "\"",
                            {}});
}

void check_name(const Readings& readings, Troubles& troubles) {
  if (!readings.name.empty()) return;
  troubles.whole.push_back(
      {base::ErrorCode::not_a_saw_file, "the saw has no name", "name", "write name = \"...\" at the top", {}});
}

}  // namespace

base::ResultAll<ReadSaw> read_saw(std::string_view text) {
  const base::Result<Node> root = parse_tree(text);
  if (!root) return tl::unexpected<base::Errors>(base::Errors{root.error()});
  ReadSaw out;
  Troubles troubles;
  Reader reader(*root, "", troubles);
  fields(out.readings, reader);
  reader.refuse_unknown();
  check_format(out.readings, troubles);
  check_name(out.readings, troubles);
  if (!troubles.whole.empty()) return tl::unexpected<base::Errors>(std::move(troubles.whole));
  out.errors = std::move(troubles.readings);
  return out;
}

base::ResultAll<ReadSaw> read_saw_file(const std::string& path) {
  const base::Result<std::string> text = base::read_file(path, file_cap);
  if (!text) return tl::unexpected<base::Errors>(base::Errors{text.error()});
  return read_saw(*text);
}

}  // namespace portwright::saw
