# libharu has no public call for a dictionary of one's own, so src/pdf reads the
# structs that its headers declare. Whether the library that is linked keeps to
# them is tried here, whatever its version is called.

set(SHEAF_LIBHARU hpdf CACHE STRING "libharu, as the linker is told of it")

# Tried again where another library or header is named.
set(SHEAF_LIBHARU_PROBED_AS "${SHEAF_LIBHARU};${CMAKE_CXX_FLAGS}")
if(NOT "${SHEAF_LIBHARU_PROBED}" STREQUAL "${SHEAF_LIBHARU_PROBED_AS}")
  set(SHEAF_LIBHARU_FAULT "")
  if(CMAKE_CROSSCOMPILING AND NOT CMAKE_CROSSCOMPILING_EMULATOR)
    try_compile(SHEAF_LIBHARU_COMPILES ${PROJECT_BINARY_DIR}/libharu
      ${PROJECT_SOURCE_DIR}/cmake/libharu_probe.cpp
      LINK_LIBRARIES ${SHEAF_LIBHARU} OUTPUT_VARIABLE SHEAF_LIBHARU_FAULT)
    set(SHEAF_LIBHARU_RUNS 0)
  else()
    try_run(SHEAF_LIBHARU_RUNS SHEAF_LIBHARU_COMPILES
      ${PROJECT_BINARY_DIR}/libharu
      ${PROJECT_SOURCE_DIR}/cmake/libharu_probe.cpp
      LINK_LIBRARIES ${SHEAF_LIBHARU}
      COMPILE_OUTPUT_VARIABLE SHEAF_LIBHARU_FAULT
      RUN_OUTPUT_VARIABLE SHEAF_LIBHARU_SAID)
  endif()
  if(NOT SHEAF_LIBHARU_COMPILES)
    message(FATAL_ERROR "This libharu cannot be used: a program that reads its "
      "documents does not compile and link. Debian's libhpdf-dev 2.3.0 can.\n"
      "${SHEAF_LIBHARU_FAULT}")
  endif()
  if(NOT SHEAF_LIBHARU_RUNS EQUAL 0)
    message(FATAL_ERROR "This libharu cannot be used: it does not keep its "
      "documents as its headers say. Debian's libhpdf-dev 2.3.0 does.\n"
      "${SHEAF_LIBHARU_SAID}")
  endif()
  message(STATUS "libharu keeps its documents as its headers say")
  set(SHEAF_LIBHARU_PROBED "${SHEAF_LIBHARU_PROBED_AS}" CACHE INTERNAL "")
endif()
