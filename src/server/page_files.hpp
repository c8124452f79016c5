#pragma once
// The page's own files: the index, and assets named by the hash of what they hold.

#include <span>
#include <string>
#include <string_view>

#include "server/request.hpp"

namespace portwright::server {

/// One file of the page. Either form may be empty.
struct PageFile {
  std::string_view name;    ///< "index.html", "assets/index-1a2b3c.js"
  std::string_view type;    ///< media type
  std::string_view plain;   ///< as it is
  std::string_view packed;  ///< by gzip
};

/// The files that were built in; none when the program was built without its page.
[[nodiscard]] std::span<const PageFile> built_in_page();

/// The file at a path of the address: `/` is the index, `/assets/NAME` an asset, `/favicon.svg` and the like stand
/// beside the index. Without a page `/` says so in a page of its own. 404 and 406 (packed only, and the browser takes
/// no gzip) as problems.
[[nodiscard]] Response page_file(std::span<const PageFile> files, const Request& request);

}  // namespace portwright::server
