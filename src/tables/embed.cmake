# Writes the C++ file that holds the given files as bytes: cmake -DOUTPUT=.. -DROOT=.. -DFILES="a;b" -P embed.cmake
set(arrays "")
set(rows "")
set(number 0)
foreach(file IN LISTS FILES)
  file(READ ${file} bytes HEX)
  string(REGEX REPLACE "(..)" "0x\\1," bytes "${bytes}")
  string(REGEX REPLACE "(0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,)" "\\1\n" bytes "${bytes}")
  file(RELATIVE_PATH name ${ROOT} ${file})
  string(APPEND arrays "constexpr unsigned char file_${number}[] = {\n${bytes}0x00};\n")
  string(APPEND rows "  if (name == \"${name}\") return text(file_${number}, sizeof file_${number} - 1);\n")
  math(EXPR number "${number} + 1")
endforeach()
file(WRITE ${OUTPUT}.new "// Made from the tables of data/ at build time.
#include \"tables/document.hpp\"

namespace portwright::tables {
namespace {

${arrays}
std::string_view text(const unsigned char* bytes, std::size_t size) {
  return {reinterpret_cast<const char*>(bytes), size};
}

}  // namespace

std::string_view embedded(std::string_view name) {
${rows}  return {};
}

}  // namespace portwright::tables
")
file(RENAME ${OUTPUT}.new ${OUTPUT})
