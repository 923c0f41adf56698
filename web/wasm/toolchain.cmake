# Compiles for WebAssembly (WASI preview 1) with Debian's clang and wasi-libc and
# a C++ runtime of our own, which libs/CMakeLists.txt builds: the packaged one
# has no exceptions, and Sheaf throws.

set(CMAKE_SYSTEM_NAME Generic)
set(CMAKE_SYSTEM_PROCESSOR wasm32)

foreach(tool clang-19 clang++-19 wasm-ld-19 llvm-ar-19 llvm-ranlib-19)
  find_program(SHEAF_TOOL_${tool} ${tool})
  if(NOT SHEAF_TOOL_${tool})
    message(FATAL_ERROR "${tool} is missing. `make web-deps` installs it.")
  endif()
endforeach()
if(NOT EXISTS /usr/include/wasm32-wasi/stdio.h)
  message(FATAL_ERROR "wasi-libc is missing. `make web-deps` installs it.")
endif()
set(CMAKE_C_COMPILER ${SHEAF_TOOL_clang-19})
set(CMAKE_CXX_COMPILER ${SHEAF_TOOL_clang++-19})
set(CMAKE_AR ${SHEAF_TOOL_llvm-ar-19} CACHE FILEPATH "")
set(CMAKE_RANLIB ${SHEAF_TOOL_llvm-ranlib-19} CACHE FILEPATH "")
set(CMAKE_C_COMPILER_TARGET wasm32-wasi)
set(CMAKE_CXX_COMPILER_TARGET wasm32-wasi)

get_filename_component(SHEAF_ROOT ${CMAKE_CURRENT_LIST_DIR}/../.. ABSOLUTE)
set(SHEAF_WEB_LIBS ${SHEAF_ROOT}/build-web/libs)

# The machine's own headers are for another machine: only these are searched,
# the shims first, which add to the headers of the same name what they lack.
set(common "-fwasm-exceptions -mllvm -wasm-enable-sjlj -nostdlibinc \
-ffile-prefix-map=${SHEAF_ROOT}/=")
set(system "-isystem /usr/include/wasm32-wasi")
set(shims "-isystem ${SHEAF_ROOT}/web/wasm/shims")
set(CMAKE_C_FLAGS_INIT "${common} ${shims} ${system}")
set(CMAKE_CXX_FLAGS_INIT "${common} ${shims} \
-isystem ${SHEAF_WEB_LIBS}/include/c++/v1 ${system}")
# With any other -O, clang runs wasm-opt after each link where it finds it, which
# takes longer than the link: web.mk runs it once, on the module that is shipped.
set(CMAKE_EXE_LINKER_FLAGS_INIT "-O0 -Wno-unused-command-line-argument \
-nostdlib++ -L${SHEAF_WEB_LIBS}/lib \
-Wl,-z,stack-size=1048576")
set(CMAKE_CXX_STANDARD_LIBRARIES_INIT "-lc++ -lc++abi -lunwind -lshims")
# A download weighs more than some milliseconds; libraries choose for themselves.
# A function that is called from one place alone stays by itself: what a browser
# takes to compile a second time what is often used grows with the largest.
foreach(language C CXX)
  set(CMAKE_${language}_FLAGS_RELEASE "-Oz -finline-hint-functions -DNDEBUG"
    CACHE STRING "")
endforeach()

set(CMAKE_FIND_ROOT_PATH ${SHEAF_WEB_LIBS})
set(CMAKE_FIND_ROOT_PATH_MODE_PROGRAM NEVER)
set(CMAKE_FIND_ROOT_PATH_MODE_LIBRARY ONLY)
set(CMAKE_FIND_ROOT_PATH_MODE_INCLUDE ONLY)
set(CMAKE_FIND_ROOT_PATH_MODE_PACKAGE ONLY)

# Small programs that a build runs to try something.
find_program(SHEAF_NODE node)
if(SHEAF_NODE)
  set(CMAKE_CROSSCOMPILING_EMULATOR
    ${SHEAF_NODE};--no-warnings;${CMAKE_CURRENT_LIST_DIR}/run.mjs)
endif()
