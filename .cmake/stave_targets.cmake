# Targets for people, not part of `all`: tidy, format, coverage.
add_custom_target(tidy
  COMMAND "${CMAKE_SOURCE_DIR}/tests/checks/tidy" "${CMAKE_BINARY_DIR}"
  USES_TERMINAL VERBATIM)

add_custom_target(format
  COMMAND "${CMAKE_SOURCE_DIR}/tests/checks/format" --fix VERBATIM)

if(STAVE_COVERAGE)
  find_program(STAVE_GCOVR gcovr REQUIRED)
  add_custom_target(coverage
    COMMAND "${STAVE_GCOVR}" --root "${CMAKE_SOURCE_DIR}" --exclude "${CMAKE_SOURCE_DIR}/tests/"
      --exclude-throw-branches --txt --html-details "${CMAKE_BINARY_DIR}/coverage.html"
      "${CMAKE_BINARY_DIR}"
    USES_TERMINAL VERBATIM)
endif()
