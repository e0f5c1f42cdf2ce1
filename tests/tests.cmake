# One doctest program over all native suites.
file(GLOB NATIVE_TESTS CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/tests/native/*.cpp)
add_executable(native_tests ${NATIVE_TESTS})
target_include_directories(native_tests SYSTEM PRIVATE ${DEPS}/src/doctest/doctest)
target_include_directories(native_tests PRIVATE ${CMAKE_SOURCE_DIR}/tests/native)
target_compile_definitions(native_tests PRIVATE REPOSITORY="${CMAKE_SOURCE_DIR}"
  PROOFLEAF_TOOL="$<TARGET_FILE:proofleaf>")
add_dependencies(native_tests proofleaf)
target_link_libraries(native_tests PRIVATE engine warnings)
# Tests are compiled quickly rather than for speed; without a try around each check, too: nothing here throws.
target_compile_options(native_tests PRIVATE -O1)
target_compile_definitions(native_tests PRIVATE DOCTEST_CONFIG_SUPER_FAST_ASSERTS)
# Those of one idea are compiled at once.
foreach(test ${NATIVE_TESTS})
  cmake_path(GET test STEM idea)
  string(REGEX REPLACE "_.*" "" idea ${idea})
  set_source_files_properties(${test} PROPERTIES UNITY_GROUP ${idea})
endforeach()
join_sources(native_tests UNITY_BUILD_MODE GROUP)
include_once(native_tests <doctest.h>)
set_source_files_properties(${CMAKE_SOURCE_DIR}/tests/native/main.cpp PROPERTIES
  SKIP_PRECOMPILE_HEADERS ON SKIP_UNITY_BUILD_INCLUSION ON)  # which asks doctest for its program
