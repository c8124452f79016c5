# Builds the page and makes the C++ file that holds it: sets PORTWRIGHT_PAGE_CPP. Included by src/server.
# npm fetches what web/package-lock.json names, once; after that the page builds offline.
find_program(PORTWRIGHT_NPM npm REQUIRED)
set(page_root ${PROJECT_SOURCE_DIR}/web)
set(page_built ${PROJECT_BINARY_DIR}/page)
set(PORTWRIGHT_PAGE_CPP ${PROJECT_BINARY_DIR}/page_files.cpp)

file(GLOB_RECURSE page_sources CONFIGURE_DEPENDS ${page_root}/src/* ${page_root}/public/* ${page_root}/make/*)
list(FILTER page_sources EXCLUDE REGEX "/src/made/|/public/licences\\.txt$")
file(GLOB page_schemas CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/docs/schema/*.json)

set(page_modules ${page_root}/node_modules/.package-lock.json)
add_custom_command(
  OUTPUT ${page_modules}
  COMMAND ${PORTWRIGHT_NPM} ci --no-audit --no-fund --loglevel=error
  COMMAND ${CMAKE_COMMAND} -E touch ${page_modules}
  DEPENDS ${page_root}/package-lock.json ${page_root}/package.json
  WORKING_DIRECTORY ${page_root}
  COMMENT "Fetching what the page is built with"
  VERBATIM)
add_custom_command(
  OUTPUT ${PORTWRIGHT_PAGE_CPP}
  COMMAND ${PORTWRIGHT_NPM} run --silent build -- --logLevel error --outDir ${page_built} --emptyOutDir
  COMMAND ${CMAKE_COMMAND} -DPAGE=${page_built} -DOUTPUT=${PORTWRIGHT_PAGE_CPP} -P ${page_root}/embed.cmake
  DEPENDS ${page_modules} ${page_sources} ${page_schemas} ${page_root}/index.html ${page_root}/vite.config.ts
          ${page_root}/svelte.config.js ${page_root}/tsconfig.json ${page_root}/embed.cmake
          ${PROJECT_SOURCE_DIR}/src/draw/lettering_table.cpp
  WORKING_DIRECTORY ${page_root}
  COMMENT "Building the page"
  VERBATIM)
