#pragma once
// Which rows speak of which field or figure.

#include <string_view>

namespace portwright::tables {

/// Whether a row's pattern speaks of a field or figure. Parts are divided by points; `*` stands for one part (a port,
/// ring or place name), and `port[exhaust].opens` for `port.<any name>.opens` of a port of that kind.
/// @param id field path or figure id: `port.exhaust.opens`, `piston.ring.1.peg`
/// @param kind of the port that `id` speaks of: exhaust | transfer | boost | intake | air; empty otherwise
[[nodiscard]] bool matches(std::string_view pattern, std::string_view id, std::string_view kind = {});

}  // namespace portwright::tables
