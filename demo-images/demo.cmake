# The program that makes the demo's papers and pictures; see README.md beside this file.
file(GLOB DEMO_SOURCES CONFIGURE_DEPENDS ${CMAKE_CURRENT_LIST_DIR}/maker/*.cpp)
add_executable(demo_maker ${DEMO_SOURCES})
join_sources(demo_maker)
target_include_directories(demo_maker PRIVATE ${CMAKE_CURRENT_LIST_DIR}/maker)
target_link_libraries(demo_maker PRIVATE engine lcms2 warnings)
