// In the place of the page's files when the program is built without them.
#include "server/page_files.hpp"

namespace portwright::server {

#ifndef PORTWRIGHT_PAGE
std::span<const PageFile> built_in_page() { return {}; }
#endif

}  // namespace portwright::server
