#pragma once
// The saw file: TOML in, TOML out, everything kept as typed.

#include <string>
#include <string_view>

#include "saw/readings.hpp"

namespace portwright::saw {

/// A file that could be taken as a whole. `errors` are single readings that could not be read; they are kept as typed.
struct ReadSaw {
  Readings readings;
  base::Errors errors;
};

/// Reads a saw file's text. Refused as a whole (all that is wrong, at once): over 64 KiB, not UTF-8, not TOML, an
/// unknown key (with the nearest known one), an unknown format, no name, a port without name or kind, a name that is
/// not [a-z][a-z0-9_]* or stands twice, nesting deeper than 8.
[[nodiscard]] base::ResultAll<ReadSaw> read_saw(std::string_view text);

/// The same from a file. `-` is not handled here.
[[nodiscard]] base::ResultAll<ReadSaw> read_saw_file(const std::string& path);

/// The file's text in the fixed order of saw/fields.hpp; read_saw gives the same Readings back.
[[nodiscard]] std::string write_saw(const Readings& readings);

/// A commented file to fill, in the order of the work; it reads back as a saw with nothing but `name`.
[[nodiscard]] std::string blank_saw(std::string_view name);

}  // namespace portwright::saw
