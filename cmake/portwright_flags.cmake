# Flags that every target of the house shares.
#  -ffp-contract=off      the same bits from both compilers
#  -fno-math-errno,
#  -fno-trapping-math     keep the speed of vectorised sqrt without giving up NaN guards
add_library(portwright_flags INTERFACE)
target_include_directories(portwright_flags INTERFACE ${PROJECT_SOURCE_DIR}/src)
target_compile_options(portwright_flags INTERFACE
  -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wno-sign-conversion -Wnon-virtual-dtor -Wold-style-cast
  -ffp-contract=off -fno-math-errno -fno-trapping-math)
# g++ 12 sees overlapping and boundless copies in plain string concatenation that are not there.
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
  target_compile_options(portwright_flags INTERFACE -Wno-restrict -Wno-stringop-overflow -Wno-array-bounds)
endif()
if(PORTWRIGHT_WERROR)
  target_compile_options(portwright_flags INTERFACE -Werror)
endif()
if(PORTWRIGHT_SANITIZE)
  target_compile_options(portwright_flags INTERFACE
    -fsanitize=address,undefined -fno-sanitize-recover=undefined -fno-omit-frame-pointer)
  target_link_options(portwright_flags INTERFACE -fsanitize=address,undefined)
endif()
if(PORTWRIGHT_FUZZ)
  target_compile_options(portwright_flags INTERFACE
    -fsanitize=fuzzer-no-link,address,undefined -fno-sanitize-recover=undefined -fno-omit-frame-pointer)
  target_link_options(portwright_flags INTERFACE -fsanitize=address,undefined)
endif()
