# One folder under src/ is one module, one target, one namespace.
#   portwright_module(NAME [USES module...] [LINK library...])
# USES names the modules nearer the ground, as in src/layers.txt; LINK the outside libraries.
# A module of headers alone is an interface target.
# Every file reads the standard headers once for all (preset dev does without, so that each names what it uses).
# The rooms that only hold words are optimised little, and not at all under the sanitizers: they wait for the compiler,
# not for themselves. As shipped that is a third of their compile time, and no figure is worked out in them.
set(PORTWRIGHT_ROOMS_OF_WORDS book tables saw draw sheet wire desk server cli)
if(PORTWRIGHT_SANITIZE)
  set(PORTWRIGHT_WORDS_LEVEL -O0)
elseif(CMAKE_BUILD_TYPE STREQUAL "Release")
  set(PORTWRIGHT_WORDS_LEVEL -O1)
endif()

function(portwright_module name)
  cmake_parse_arguments(ARG "" "" "USES;LINK" ${ARGN})
  file(GLOB sources CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/*.cpp ${CMAKE_CURRENT_SOURCE_DIR}/*/*.cpp)
  if(sources)
    add_library(portwright_${name} STATIC ${sources})
    set(scope PUBLIC)
    if(PORTWRIGHT_WORDS_LEVEL AND name IN_LIST PORTWRIGHT_ROOMS_OF_WORDS)
      target_compile_options(portwright_${name} PRIVATE ${PORTWRIGHT_WORDS_LEVEL})
      target_precompile_headers(portwright_${name} REUSE_FROM portwright_headers_words)
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
