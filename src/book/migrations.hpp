#pragma once
// The tables, schema by schema. Rows are only ever appended here: a book of any released schema can be brought up to
// date.

#include <span>

namespace portwright::book {

inline constexpr int application_id = 0x50575242;  ///< "PWRB" in the header of the file

/// SQL that leads from schema i to schema i + 1, tables only; applied in one transaction each.
[[nodiscard]] std::span<const char* const> migrations();

/// SQL that makes the index of words, the same as in the migrations.
[[nodiscard]] const char* search_table();

/// The newest schema that this program knows: the number of migrations.
[[nodiscard]] int newest_schema();

}  // namespace portwright::book
