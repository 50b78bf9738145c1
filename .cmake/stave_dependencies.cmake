# Every library from outside, found once. DEVELOPERS.md says why each is here.
find_package(PkgConfig REQUIRED)
find_package(Threads REQUIRED)
find_package(fmt REQUIRED)
find_package(pegtl REQUIRED)
find_package(CLI11 REQUIRED)
find_package(nlohmann_json REQUIRED)
find_package(date REQUIRED)
pkg_check_modules(utf8proc REQUIRED IMPORTED_TARGET libutf8proc)
pkg_check_modules(deflate REQUIRED IMPORTED_TARGET libdeflate)
pkg_check_modules(cairo REQUIRED IMPORTED_TARGET cairo)
pkg_check_modules(microhttpd REQUIRED IMPORTED_TARGET libmicrohttpd)
pkg_check_modules(sodium REQUIRED IMPORTED_TARGET libsodium)
pkg_check_modules(qrencode REQUIRED IMPORTED_TARGET libqrencode)
pkg_check_modules(harfbuzz REQUIRED IMPORTED_TARGET harfbuzz harfbuzz-subset)

# Debian's libharu has neither a CMake nor a pkg-config file.
find_library(LIBHARU_LIBRARY hpdf REQUIRED)
find_path(LIBHARU_INCLUDE_DIR hpdf.h REQUIRED)
add_library(libharu::libharu UNKNOWN IMPORTED)
set_target_properties(libharu::libharu PROPERTIES
  IMPORTED_LOCATION "${LIBHARU_LIBRARY}"
  INTERFACE_INCLUDE_DIRECTORIES "${LIBHARU_INCLUDE_DIR}")

if(BUILD_TESTING)
  find_package(GTest REQUIRED)
  include(GoogleTest)
  # Debian's own, which sees the python3-* packages of packages.txt.
  find_program(STAVE_PYTHON python3 PATHS /usr/bin NO_DEFAULT_PATH REQUIRED)
endif()
if(STAVE_BENCH)
  find_package(benchmark REQUIRED)
endif()
