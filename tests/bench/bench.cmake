# Benchmark programs: built by tests/bench/run only.
add_executable(kernel_bench EXCLUDE_FROM_ALL ${CMAKE_SOURCE_DIR}/tests/bench/kernel_bench.cpp)
target_compile_definitions(kernel_bench PRIVATE REPOSITORY="${CMAKE_SOURCE_DIR}")
target_link_libraries(kernel_bench PRIVATE engine warnings)
add_executable(delivery_bench EXCLUDE_FROM_ALL ${CMAKE_SOURCE_DIR}/tests/bench/delivery_bench.cpp)
target_compile_definitions(delivery_bench PRIVATE REPOSITORY="${CMAKE_SOURCE_DIR}")
target_link_libraries(delivery_bench PRIVATE engine warnings)
