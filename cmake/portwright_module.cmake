# One folder under src/ is one module, one target, one namespace.
#   portwright_module(NAME [USES module...] [LINK library...])
# USES names the modules nearer the ground, as in src/layers.txt; LINK the outside libraries.
function(portwright_module name)
  cmake_parse_arguments(ARG "" "" "USES;LINK" ${ARGN})
  file(GLOB sources CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/*.cpp)
  add_library(portwright_${name} STATIC ${sources})
  target_link_libraries(portwright_${name} PUBLIC portwright_flags)
  foreach(module IN LISTS ARG_USES)
    target_link_libraries(portwright_${name} PUBLIC portwright_${module})
  endforeach()
  target_link_libraries(portwright_${name} PUBLIC ${ARG_LINK})
endfunction()
