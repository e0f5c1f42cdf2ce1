# One program for each reader, and one that makes the files they start from; see tests/fuzz. Any other
# build only compiles them, so that they keep up with what they read.
if(NOT PROOFLEAF_FUZZ)
  file(GLOB FUZZ_SOURCES CONFIGURE_DEPENDS ${CMAKE_CURRENT_LIST_DIR}/*.cpp)
  list(FILTER FUZZ_SOURCES EXCLUDE REGEX "/fuzz.cpp$")
  add_library(fuzz_targets OBJECT ${FUZZ_SOURCES})
  target_include_directories(fuzz_targets PRIVATE ${CMAKE_SOURCE_DIR}/tests/native)
  target_link_libraries(fuzz_targets PRIVATE engine lcms2 warnings)
  return()
endif()
foreach(reader master exif paper card embedded readings recipe job offer answer parcel)
  add_executable(fuzz_${reader} ${CMAKE_CURRENT_LIST_DIR}/fuzz.cpp ${CMAKE_CURRENT_LIST_DIR}/${reader}.cpp)
  target_link_libraries(fuzz_${reader} PRIVATE engine warnings)
  target_link_options(fuzz_${reader} PRIVATE -fsanitize=fuzzer)
endforeach()
add_executable(fuzz_seeds ${CMAKE_CURRENT_LIST_DIR}/seeds.cpp ${CMAKE_SOURCE_DIR}/tests/native/small_profiles.cpp
  ${CMAKE_SOURCE_DIR}/tests/native/codec_files.cpp ${CMAKE_SOURCE_DIR}/tests/native/codec_sound_files.cpp)
target_include_directories(fuzz_seeds PRIVATE ${CMAKE_SOURCE_DIR}/tests/native)
target_link_libraries(fuzz_seeds PRIVATE engine lcms2 warnings)
