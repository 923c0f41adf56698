# What the browser edition links, under the names by which CMakeLists.txt knows
# the native libraries (cmake/libraries.cmake). `make web-libs` builds them.

if(NOT EXISTS ${SHEAF_WEB_LIBS}/.made-from)
  message(FATAL_ERROR "The libraries of the browser edition are not built, or "
    "not to the end. `make web-libs` does it.")
endif()

# sheaf_web_library(NAME ARCHIVE also...)
function(sheaf_web_library name archive)
  add_library(${name} STATIC IMPORTED)
  set_target_properties(${name} PROPERTIES
    IMPORTED_LOCATION ${SHEAF_WEB_LIBS}/lib/lib${archive}.a
    INTERFACE_INCLUDE_DIRECTORIES ${SHEAF_WEB_LIBS}/include
    INTERFACE_LINK_LIBRARIES "${ARGN}")
endfunction()

sheaf_web_library(ZLIB::ZLIB z)
sheaf_web_library(PNG::PNG png ZLIB::ZLIB)
sheaf_web_library(JPEG::JPEG jpeg)
sheaf_web_library(utf8proc utf8proc)
sheaf_web_library(yaml-cpp yaml-cpp)
sheaf_web_library(fmt::fmt fmt)
sheaf_web_library(hpdf hpdf PNG::PNG)
sheaf_web_library(PkgConfig::HARFBUZZ harfbuzz)
sheaf_web_library(PkgConfig::HARFBUZZ_SUBSET harfbuzz)
sheaf_web_library(PkgConfig::FREETYPE freetype)
sheaf_web_library(PkgConfig::LIBDEFLATE deflate)

foreach(name CLI11::CLI11 nlohmann_json::nlohmann_json)
  add_library(${name} INTERFACE IMPORTED)
  target_include_directories(${name} INTERFACE ${SHEAF_WEB_LIBS}/include)
endforeach()
# It asks the disk whether a file exists; Sheaf lets it do so nowhere, and the
# runtime has no such part.
target_compile_definitions(CLI11::CLI11 INTERFACE CLI11_HAS_FILESYSTEM=0)
