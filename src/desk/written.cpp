#include "desk/written.hpp"

#include <filesystem>
#include <fstream>
#include <iostream>

#include "base/file.hpp"
#include "desk/desk.hpp"
#include "saw/file.hpp"

namespace portwright::desk {

namespace {

namespace fs = std::filesystem;
constexpr std::size_t telling = 4;  // bytes that tell a PDF from a drawing from a table

std::string beginning(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  std::string out(telling, '\0');
  file.read(out.data(), static_cast<std::streamsize>(out.size()));
  out.resize(static_cast<std::size_t>(file.gcount()));
  return out;
}

/// A device or a pipe is written to, never put away and replaced.
base::Result<void> pour(const std::string& output, const std::string& bytes) {
  std::ofstream file(output, std::ios::binary);
  file << bytes << std::flush;
  if (!file) return base::fail(base::ErrorCode::storage, "\u201C" + output + "\u201D could not be written.");
  return {};
}

}  // namespace

base::Result<void> put(const std::string& output, const std::string& bytes) {
  std::error_code ignored;
  const fs::file_status there = fs::status(output, ignored);
  if (output != "-" && fs::exists(there) && !fs::is_regular_file(there) && !fs::is_directory(there))
    return pour(output, bytes);
  if (output != "-" && fs::is_regular_file(there)) {
    const std::string was = beginning(output);
    if (!was.empty() && was != bytes.substr(0, was.size()))
      return base::fail(base::ErrorCode::storage, "\u201C" + output + "\u201D holds something of another kind.", {},
                        "Choose another name; a drawing is written over a drawing alone.");
  }
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
