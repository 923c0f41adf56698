# The module that a page loads: all of Sheaf but what needs a machine, with the
# functions of exports.cpp. A reactor: nothing runs until a function is called.

file(GLOB sources CONFIGURE_DEPENDS ${CMAKE_CURRENT_LIST_DIR}/*.cpp)
add_executable(sheaf_module ${sources})
target_link_libraries(sheaf_module PRIVATE sheaf_cli sheaf_web sheaf_sheets)
target_link_options(sheaf_module PRIVATE -mexec-model=reactor
  -Wl,--gc-sections -Wl,--strip-all)
# What machine.cpp stands in for keeps things that it has no use for.
set_source_files_properties(${CMAKE_CURRENT_LIST_DIR}/machine.cpp PROPERTIES
  COMPILE_OPTIONS -Wno-unused-private-field)
set_target_properties(sheaf_module PROPERTIES OUTPUT_NAME sheaf SUFFIX .wasm)
