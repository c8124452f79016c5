#include "desk/written.hpp"

#include <filesystem>
#include <iostream>

#include "base/file.hpp"
#include "desk/desk.hpp"
#include "saw/file.hpp"

namespace portwright::desk {

base::Result<void> put(const std::string& output, const std::string& bytes) {
  if (output != "-") return base::write_file_atomic(output, bytes);
  std::cout.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  std::cout.flush();
  if (!std::cout) return base::fail(base::ErrorCode::storage, "Standard output could not be written.");
  return {};
}

base::Result<void> refuse_existing(const std::string& output) {
  std::error_code ignored;
  if (output == "-" || !std::filesystem::exists(output, ignored)) return {};
  return base::fail(base::ErrorCode::storage, "\u201C" + output + "\u201D is already there.", {},
                    "Choose another name; nothing is written over what a person typed.");
}

base::ResultAll<wire::WrittenAnswer> blank(const BlankRequest& request) {
  const std::string name = request.name.empty() ? "New saw" : request.name;
  const std::string text = saw::blank_saw(name);
  // A name that the saw file could not hold is refused before anything is written.
  if (auto back = saw::read_saw(text); !back) return tl::unexpected(back.error());
  if (auto free = refuse_existing(request.output); !free) return tl::unexpected(base::Errors{free.error()});
  if (auto done = put(request.output, text); !done) return tl::unexpected(base::Errors{done.error()});
  wire::WrittenAnswer answer;
  answer.kind = "new";
  answer.file = request.output;
  answer.format = "toml";
  answer.bytes = static_cast<int>(text.size());
  return answer;
}

}  // namespace portwright::desk
