# Flags for every target, and the functions that declare targets.
add_library(stave_flags INTERFACE)
target_include_directories(stave_flags INTERFACE "${CMAKE_SOURCE_DIR}")
target_compile_options(stave_flags INTERFACE
  -Wall -Wextra -Wpedantic -Wconversion -Wshadow -Wnon-virtual-dtor
  -Wold-style-cast -Woverloaded-virtual -Wimplicit-fallthrough)
# GCC 12 warns of overlaps that cannot be in std::string's operator+ (GCC bug 105651).
if(CMAKE_CXX_COMPILER_ID STREQUAL GNU AND CMAKE_CXX_COMPILER_VERSION VERSION_LESS 13)
  target_compile_options(stave_flags INTERFACE -Wno-restrict)
endif()
if(STAVE_WERROR)
  target_compile_options(stave_flags INTERFACE -Werror)
endif()
if(STAVE_SANITIZE)
  set(sanitizers -fsanitize=address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer)
  target_compile_options(stave_flags INTERFACE ${sanitizers} -D_GLIBCXX_ASSERTIONS)
  target_link_options(stave_flags INTERFACE ${sanitizers})
endif()
if(STAVE_COVERAGE)
  target_compile_options(stave_flags INTERFACE --coverage)
  target_link_options(stave_flags INTERFACE --coverage)
endif()

# stave_library(NAME SOURCES file... LINKS target... [PRIVATE_LINKS target...])
# One library a folder. LINKS are the folders and libraries whose headers it may
# include; tests/checks holds the includes against the same table.
function(stave_library name)
  cmake_parse_arguments(arg "" "" "SOURCES;LINKS;PRIVATE_LINKS" ${ARGN})
  if(arg_SOURCES)
    add_library(${name} STATIC ${arg_SOURCES})
    target_link_libraries(${name} PUBLIC stave_flags ${arg_LINKS} PRIVATE ${arg_PRIVATE_LINKS})
  else()
    add_library(${name} INTERFACE)
    target_link_libraries(${name} INTERFACE stave_flags ${arg_LINKS})
  endif()
endfunction()

# stave_test(NAME SOURCES file... LINKS target...): one GoogleTest program, its
# cases found by ctest.
function(stave_test name)
  cmake_parse_arguments(arg "" "" "SOURCES;LINKS" ${ARGN})
  add_executable(${name} ${arg_SOURCES})
  target_link_libraries(${name} PRIVATE stave_flags ${arg_LINKS} GTest::gtest_main)
  target_compile_definitions(${name} PRIVATE STAVE_SOURCE_DIR="${CMAKE_SOURCE_DIR}"
    STAVE_BINARY_DIR="${CMAKE_BINARY_DIR}" STAVE_PYTHON="${STAVE_PYTHON}")
  gtest_discover_tests(${name} DISCOVERY_TIMEOUT 60 PROPERTIES LABELS unit TIMEOUT 120)
endfunction()

# stave_check(NAME COMMAND word...): a test that reads the sources or starts
# programs, and is not worth a second run in a sanitizer build.
function(stave_check name)
  cmake_parse_arguments(arg "" "" "COMMAND" ${ARGN})
  add_test(NAME ${name} COMMAND ${arg_COMMAND} WORKING_DIRECTORY "${CMAKE_SOURCE_DIR}")
  set_tests_properties(${name} PROPERTIES LABELS checks TIMEOUT 180
    ENVIRONMENT PYTHONDONTWRITEBYTECODE=1)
endfunction()
