// The text of a saw file. What is read can be written and reads back equal; what is refused says why.

#include "corpora/targets.hpp"
#include "saw/file.hpp"

using namespace portwright;
using portwright::corpora::require;

PORTWRIGHT_TARGET(saw_file) {
  const auto read = saw::read_saw(portwright::corpora::as_text(bytes));
  if (!read) {
    require(!read.error().empty(), "a refusal has an error");
    for (const base::Error& error : read.error()) require(!error.message.empty(), "a refusal says why");
    return;
  }
  require(!read->readings.name.empty(), "a saw read has a name");
  require(read->readings.format == "portwright saw 1", "the format is echoed");
  for (const base::Error& error : read->errors)
    require(!error.message.empty() && !error.path.empty(), "a reading refused says why and where");
  const std::string text = saw::write_saw(read->readings);
  if (text.size() > 64 * 1024) return;  // escapes and quotes may lengthen a file that was full
  const auto again = saw::read_saw(text);
  require(again.has_value(), "what is written can be read");
  require(again->readings == read->readings, "what is written reads back equal");
}
