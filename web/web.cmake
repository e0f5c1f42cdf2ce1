# The page's one WebAssembly module, and the folder a static host serves.
set(IMGUI ${DEPS}/src/imgui)
add_library(imgui STATIC ${IMGUI}/imgui.cpp ${IMGUI}/imgui_draw.cpp ${IMGUI}/imgui_tables.cpp
  ${IMGUI}/imgui_widgets.cpp ${IMGUI}/backends/imgui_impl_opengl3.cpp)
target_include_directories(imgui SYSTEM PUBLIC ${IMGUI} ${IMGUI}/backends)
target_compile_definitions(imgui PUBLIC IMGUI_DISABLE_DEMO_WINDOWS IMGUI_DISABLE_DEBUG_TOOLS
  IMGUI_DISABLE_OBSOLETE_FUNCTIONS IMGUI_DISABLE_FILE_FUNCTIONS IMGUI_IMPL_OPENGL_ES3)
target_compile_options(imgui PRIVATE -w)

file(GLOB SHELL_SOURCES CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/shell/*.cpp)
file(GLOB BRIDGE_SOURCES CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/web/bridge/*.cpp)
set(IMPORTS ${CMAKE_SOURCE_DIR}/web/bridge/imports.js)
add_executable(page ${SHELL_SOURCES} ${BRIDGE_SOURCES})
set_target_properties(page PROPERTIES OUTPUT_NAME proofleaf LINK_DEPENDS ${IMPORTS})
target_include_directories(page PRIVATE ${CMAKE_SOURCE_DIR}/shell ${CMAKE_SOURCE_DIR}/web/bridge)
target_link_libraries(page PRIVATE engine imgui json warnings)
join_sources(page)
include_once(page <imgui.h>)
# libjpeg and libpng report trouble through longjmp. 2 GiB is the most a page's module may grow to.
target_link_options(page PRIVATE --no-entry -sMODULARIZE=1 -sEXPORT_NAME=createProofleaf
  -sENVIRONMENT=web,worker -sALLOW_MEMORY_GROWTH=1 -sMAXIMUM_MEMORY=2GB -sINITIAL_MEMORY=32MB
  -sMIN_WEBGL_VERSION=2 -sMAX_WEBGL_VERSION=2 -sFILESYSTEM=0 -sSUPPORT_LONGJMP=1
  -sDISABLE_EXCEPTION_CATCHING=1 -sEXPORTED_RUNTIME_METHODS=ccall,GL,UTF8ToString
  -sEXPORTED_FUNCTIONS=_malloc,_free --js-library=${IMPORTS})

# A client's page has a module of its own: no more of the engine than opens an offer and shows it.
add_executable(client ${CMAKE_SOURCE_DIR}/web/client/bridge.cpp
  ${CMAKE_SOURCE_DIR}/web/bridge/language.cpp)
set_target_properties(client PROPERTIES OUTPUT_NAME proofleaf-client)
target_link_libraries(client PRIVATE engine json warnings)
target_link_options(client PRIVATE --no-entry -sMODULARIZE=1 -sEXPORT_NAME=createClient
  -sENVIRONMENT=web -sALLOW_MEMORY_GROWTH=1 -sMAXIMUM_MEMORY=512MB -sINITIAL_MEMORY=16MB
  -sFILESYSTEM=0 -sSUPPORT_LONGJMP=1 -sDISABLE_EXCEPTION_CATCHING=1
  -sEXPORTED_RUNTIME_METHODS=ccall -sEXPORTED_FUNCTIONS=_malloc,_free)

# The panel's letters: Latin with the few signs it uses, no hinting, the same bytes every time.
set(LETTERS "U+0020-007E,U+00A0-017F,U+2013,U+2014,U+2018,U+2019,U+201C-201E,U+2022,U+2026,\
U+2190-2193,U+0394,U+2264,U+2265,U+2212,U+2713,U+2032,U+2033")
set(FONTS)
foreach(face Regular SemiBold)
  set(font ${CMAKE_BINARY_DIR}/fonts/Inter-${face}.otf)
  add_custom_command(OUTPUT ${font}
    COMMAND ${CMAKE_COMMAND} -E make_directory ${CMAKE_BINARY_DIR}/fonts
    COMMAND ${CMAKE_COMMAND} -E env SOURCE_DATE_EPOCH=0 pyftsubset
      /usr/share/fonts/opentype/inter/Inter-${face}.otf --unicodes=${LETTERS} --no-hinting
      --desubroutinize --layout-features= --drop-tables+=GSUB,GPOS,GDEF,STAT --output-file=${font}
    VERBATIM)
  list(APPEND FONTS ${font})
endforeach()

file(GLOB PAGE_FILES CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/web/page/*
  ${CMAKE_SOURCE_DIR}/web/client/* ${CMAKE_SOURCE_DIR}/web/language/*)
file(GLOB DEMO_FILES CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/demo-images/*.png
  ${CMAKE_SOURCE_DIR}/demo-images/papers/*.icc)
set(SITE_STAMP ${CMAKE_BINARY_DIR}/site.stamp)
add_custom_command(OUTPUT ${SITE_STAMP}
  COMMAND bash ${CMAKE_SOURCE_DIR}/web/assemble ${CMAKE_BINARY_DIR} ${CMAKE_SOURCE_DIR}/build/site
  COMMAND ${CMAKE_COMMAND} -E touch ${SITE_STAMP}
  DEPENDS page client ${FONTS} ${PAGE_FILES} ${DEMO_FILES} ${CMAKE_SOURCE_DIR}/web/assemble
    ${CMAKE_SOURCE_DIR}/web/list-files ${CMAKE_SOURCE_DIR}/web/one-file.mjs
    ${CMAKE_SOURCE_DIR}/web/language.mjs
    ${CMAKE_SOURCE_DIR}/web/offline.js ${CMAKE_SOURCE_DIR}/web/licences.mjs
    ${CMAKE_SOURCE_DIR}/.ci/sources.list ${CMAKE_SOURCE_DIR}/LICENSE VERBATIM)
add_custom_target(site ALL DEPENDS ${SITE_STAMP})
