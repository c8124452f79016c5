# One folder under src/ is one module, one target, one namespace.
#   portwright_module(NAME [USES module...] [LINK library...])
# USES names the modules nearer the ground, as in src/layers.txt; LINK the outside libraries.
# A module of headers alone is an interface target.
# Every file reads the standard headers once for all (preset dev does without, so that each names what it uses).
# Under the sanitizers the rooms that only hold words stay unoptimised: they wait for the compiler, not for themselves.
set(PORTWRIGHT_ROOMS_OF_WORDS tables saw draw sheet wire desk server cli)

function(portwright_module name)
  cmake_parse_arguments(ARG "" "" "USES;LINK" ${ARGN})
  file(GLOB sources CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/*.cpp ${CMAKE_CURRENT_SOURCE_DIR}/*/*.cpp)
  if(sources)
    add_library(portwright_${name} STATIC ${sources})
    set(scope PUBLIC)
    if(PORTWRIGHT_SANITIZE AND name IN_LIST PORTWRIGHT_ROOMS_OF_WORDS)
      target_compile_options(portwright_${name} PRIVATE -O0)
      target_precompile_headers(portwright_${name} REUSE_FROM portwright_headers_plain)
    else()
      target_precompile_headers(portwright_${name} REUSE_FROM portwright_headers)
    endif()
  else()
    add_library(portwright_${name} INTERFACE)
    set(scope INTERFACE)
  endif()
  target_link_libraries(portwright_${name} ${scope} portwright_flags)
  foreach(module IN LISTS ARG_USES)
    target_link_libraries(portwright_${name} ${scope} portwright_${module})
  endforeach()
  target_link_libraries(portwright_${name} ${scope} ${ARG_LINK})
endfunction()
