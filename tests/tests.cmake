# One doctest program over all native suites.
file(GLOB NATIVE_TESTS CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/tests/native/*.cpp)
add_executable(native_tests ${NATIVE_TESTS})
target_include_directories(native_tests SYSTEM PRIVATE ${DEPS}/src/doctest/doctest)
target_include_directories(native_tests PRIVATE ${CMAKE_SOURCE_DIR}/tests/native)
target_compile_definitions(native_tests PRIVATE REPOSITORY="${CMAKE_SOURCE_DIR}"
  PROOFLEAF_TOOL="$<TARGET_FILE:proofleaf>")
add_dependencies(native_tests proofleaf)
target_link_libraries(native_tests PRIVATE engine warnings)
# Tests are compiled quickly rather than for speed.
target_compile_options(native_tests PRIVATE -O1)
