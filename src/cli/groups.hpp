#pragma once
// What a builder looks at, grouped by what is decided with it.

#include <span>
#include <string_view>
#include <vector>

#include "wire/answer.hpp"

namespace portwright::cli {

struct Group {
  const char* title;                      ///< `{rpm}` stands for the speed taken
  std::vector<std::string_view> figures;  ///< patterns: `*` for one part, `port[transfer]` for the ports of a kind
};

[[nodiscard]] std::span<const Group> groups();

/// Figures of a group in its order.
[[nodiscard]] std::vector<const study::Figure*> members(const Group& group, const std::vector<study::Figure>& figures,
                                                        const std::vector<wire::Port>& ports);

}  // namespace portwright::cli
