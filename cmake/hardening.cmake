# What the compiler and the linker can do so that a fault which lets a stranger
# write where they should not ends the program and goes no further. Each flag is
# used where it is known; what they cost together is in docs/decisions.md.
#
# sheaf_hardening is for stages and programs. Tests are compiled without
# optimising, which the checks of the C library need, and the sanitizers have
# checks of their own in the same places.
option(SHEAF_HARDEN "Compile checks against misuse of faults into the program"
  ON)
include(CheckCXXCompilerFlag)
include(CheckCXXSourceCompiles)

add_library(sheaf_hardening INTERFACE)
if(SHEAF_HARDEN AND NOT SHEAF_SANITIZE AND NOT SHEAF_WEB)
  # A guard before the return address; no jump over the guard page below the
  # stack; jumps to places alone that expect it (x86-64, ARM64).
  foreach(flag -fstack-protector-strong -fstack-clash-protection
      -fcf-protection=full -mbranch-protection=standard)
    string(MAKE_C_IDENTIFIER "SHEAF_KNOWS${flag}" known)
    check_cxx_compiler_flag(${flag} ${known})
    if(${known})
      target_compile_options(sheaf_hardening INTERFACE ${flag})
    endif()
  endforeach()

  # Copies that know the size of where they copy to. The third level looks at
  # sizes that are known only at run time, and came with glibc 2.34.
  set(CMAKE_REQUIRED_FLAGS "-O2 -Werror")
  check_cxx_source_compiles("
    #undef _FORTIFY_SOURCE
    #define _FORTIFY_SOURCE 3
    #include <cstring>
    #if __USE_FORTIFY_LEVEL < 3
    #error lower
    #endif
    int main() {}" SHEAF_KNOWS_FORTIFY_3)
  unset(CMAKE_REQUIRED_FLAGS)
  if(SHEAF_KNOWS_FORTIFY_3)
    set(fortify 3)
  else()
    set(fortify 2)
  endif()
  target_compile_options(sheaf_hardening INTERFACE
    $<$<NOT:$<CONFIG:Debug>>:-U_FORTIFY_SOURCE>
    $<$<NOT:$<CONFIG:Debug>>:-D_FORTIFY_SOURCE=${fortify}>)

  # The program lies elsewhere in each run, and what the loader has filled in is
  # read-only before `main` begins.
  target_compile_options(sheaf_hardening INTERFACE -fPIE)
  target_link_options(sheaf_hardening INTERFACE
    -pie -Wl,-z,relro -Wl,-z,now -Wl,-z,noexecstack)
endif()
