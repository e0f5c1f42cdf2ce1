# Built by tests/browser/run only, in both kinds of build.
add_executable(jpeg_sums EXCLUDE_FROM_ALL ${CMAKE_CURRENT_LIST_DIR}/jpeg_sums.cpp)
target_link_libraries(jpeg_sums PRIVATE engine warnings)
if(EMSCRIPTEN)
  target_link_options(jpeg_sums PRIVATE -sENVIRONMENT=node -sALLOW_MEMORY_GROWTH=1 -sSUPPORT_LONGJMP=1
    -sEXIT_RUNTIME=1)
endif()
