# Writes the C++ file that holds the built page: cmake -DPAGE=dist -DOUTPUT=page_files.cpp -P embed.cmake
# Every file is packed by gzip; those that a browser may also want as they are (the index) are kept both ways.
file(GLOB_RECURSE files RELATIVE ${PAGE} ${PAGE}/*)
list(SORT files)
set(types
  ".html=text/html; charset=utf-8" ".js=text/javascript; charset=utf-8" ".css=text/css; charset=utf-8"
  ".svg=image/svg+xml" ".woff2=font/woff2" ".json=application/json" ".txt=text/plain; charset=utf-8" ".png=image/png")

# bytes NAME FILE: an array of the file's bytes.
function(bytes name file)
  file(READ ${file} hex HEX)
  string(REGEX REPLACE "(..)" "0x\\1," hex "${hex}")
  set(arrays "${arrays}constexpr unsigned char ${name}[] = {\n${hex}0x00};\n" PARENT_SCOPE)
endfunction()

set(arrays "")
set(rows "")
set(number 0)
foreach(file IN LISTS files)
  string(REGEX MATCH "\\.[a-z0-9]+$" ending "${file}")
  set(type "")
  foreach(pair IN LISTS types)
    if(pair MATCHES "^\\${ending}=(.*)$")
      set(type "${CMAKE_MATCH_1}")
    endif()
  endforeach()
  if(type STREQUAL "")
    message(FATAL_ERROR "The page holds ${file}, whose kind this table does not know.")
  endif()
  execute_process(COMMAND gzip -9 -n -c ${PAGE}/${file} OUTPUT_FILE ${OUTPUT}.gz RESULT_VARIABLE failed)
  if(failed)
    message(FATAL_ERROR "gzip failed on ${file}.")
  endif()
  bytes(plain_${number} ${PAGE}/${file})
  bytes(packed_${number} ${OUTPUT}.gz)
  string(APPEND rows "    {\"${file}\", \"${type}\", text(plain_${number}), text(packed_${number})},\n")
  math(EXPR number "${number} + 1")
endforeach()
file(REMOVE ${OUTPUT}.gz)
file(WRITE ${OUTPUT}.new "// Made from the built page.
#include \"server/page_files.hpp\"

namespace portwright::server {
namespace {

${arrays}
template <std::size_t n>
std::string_view text(const unsigned char (&bytes)[n]) {
  return {reinterpret_cast<const char*>(bytes), n - 1};
}

}  // namespace

std::span<const PageFile> built_in_page() {
  static const PageFile files[] = {
${rows}  };
  return files;
}

}  // namespace portwright::server
")
file(RENAME ${OUTPUT}.new ${OUTPUT})
